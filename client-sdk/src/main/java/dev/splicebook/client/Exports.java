package dev.splicebook.client;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.Spliterator;
import java.util.Spliterators;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.exc.JacksonIOException;
import tools.jackson.databind.MappingIterator;

/** The book and the catalogue as a whole, in the form that {@link Imports} take. */
public final class Exports {

    private final Transport transport;

    Exports(Transport transport) {
        this.transport = transport;
    }

    /**
     * Entries, read while they come; little of them is in memory at once. The stream holds a connection, and is to be
     * closed:
     *
     * <pre>{@code
     * try (Stream<Entry> entries = client.exports().stream(ExportQuery.all().vehicles())) {
     *     entries.forEach(entry -> System.out.println(entry.id()));
     * }
     * }</pre>
     *
     * <p>The timeout is for the beginning of the answer, and then for each further piece. If the answer breaks off, the
     * stream ends with a {@link ConnectionException}, never as if it were whole.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Stream<Entry> stream(ExportQuery query) {
        Call call = exporting(query);
        Pieces pieces = transport.open(call);
        Iterator<Entry> lines = new Lines(call, pieces);
        return StreamSupport.stream(
                        Spliterators.spliteratorUnknownSize(lines, Spliterator.ORDERED | Spliterator.NONNULL), false)
                .onClose(pieces::close);
    }

    /**
     * Writes an export to a file as NDJSON. The file is there whole or, if that fails, as it was. The timeout is for each
     * piece of the answer.
     *
     * @throws IOException if the file cannot be written
     * @throws SplicebookException if there is no answer, or a problem
     */
    public void save(ExportQuery query, Path file) throws IOException {
        transport.save(exporting(query), file);
    }

    private static Call exporting(ExportQuery query) {
        return Call.get("/v1/export").query(query.filters().parameters()).accept(Call.NDJSON);
    }

    /** The lines of an answer, each read when it is reached. */
    private final class Lines implements Iterator<Entry> {

        private final Call call;
        private final Pieces pieces;
        private @Nullable MappingIterator<Entry> values;

        Lines(Call call, Pieces pieces) {
            this.call = call;
            this.pieces = pieces;
        }

        @Override
        public boolean hasNext() {
            try {
                return values().hasNextValue();
            } catch (JacksonException e) {
                throw failed(e);
            }
        }

        @Override
        public Entry next() {
            try {
                return values().nextValue();
            } catch (JacksonException e) {
                throw failed(e);
            }
        }

        /** Made where it is read, since it reads when it is made. */
        private MappingIterator<Entry> values() {
            MappingIterator<Entry> made = values;
            if (made == null) {
                made = Json.MAPPER.readerFor(Entry.class).readValues(pieces);
                values = made;
            }
            return made;
        }

        private SplicebookException failed(JacksonException e) {
            pieces.close();
            return e instanceof JacksonIOException && e.getCause() instanceof IOException broken
                    ? transport.brokenOff(call, broken)
                    : Transport.unreadable(call, 200, e.getOriginalMessage(), e);
        }
    }
}
