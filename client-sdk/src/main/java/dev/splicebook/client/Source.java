package dev.splicebook.client;

import java.io.ByteArrayInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.http.HttpRequest.BodyPublisher;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.concurrent.CompletableFuture;
import java.util.stream.Stream;

/**
 * What is sent, read while it is sent: however large it is, little of it is in memory at once. A source that cannot be
 * read ends the call with an {@link java.io.UncheckedIOException}, or with the exception that the entries ended with, and
 * nothing of what was sent counts.
 */
public final class Source {

    /** Opens what is sent, from its beginning. */
    @FunctionalInterface
    private interface Opening {
        InputStream open() throws IOException;
    }

    /** Tells how many bytes there are. */
    @FunctionalInterface
    private interface Measuring {
        long bytes() throws IOException;
    }

    private static final long UNKNOWN = -1;

    private final Opening opening;
    private final Measuring measuring;
    private final boolean isReplayable;

    private Source(Opening opening, Measuring measuring, boolean isReplayable) {
        this.opening = opening;
        this.measuring = measuring;
        this.isReplayable = isReplayable;
    }

    /** A file, which must not change until the call ends. */
    public static Source file(Path file) {
        Require.present("file", file);
        return new Source(() -> Files.newInputStream(file), () -> Files.size(file), true);
    }

    /** A text, which is sent in UTF-8. */
    public static Source text(String text) {
        return bytes(Require.present("text", text).getBytes(StandardCharsets.UTF_8));
    }

    /** What is left of a stream. It is closed when it has ended, and cannot be sent again if the connection breaks. */
    public static Source stream(InputStream stream) {
        Require.present("stream", stream);
        return new Source(() -> stream, () -> UNKNOWN, false);
    }

    /** Entries for an import; iterated anew if they have to be sent again. */
    public static Source entries(Iterable<Entry> entries) {
        Require.present("entries", entries);
        return new Source(() -> new EntryLines(entries.iterator()), () -> UNKNOWN, true);
    }

    /** Entries for an import; a stream cannot be sent again if the connection breaks. */
    public static Source entries(Stream<Entry> entries) {
        Iterator<Entry> iterator = Require.present("entries", entries).iterator();
        return new Source(() -> new EntryLines(iterator), () -> UNKNOWN, false);
    }

    static Source json(Object value) {
        return bytes(Json.MAPPER.writeValueAsBytes(value));
    }

    private static Source bytes(byte[] bytes) {
        return new Source(() -> new ByteArrayInputStream(bytes), () -> bytes.length, true);
    }

    /** Whether it can be sent again from its beginning. */
    boolean isReplayable() {
        return isReplayable;
    }

    /**
     * Opens it for one attempt.
     *
     * @throws IOException if it cannot be opened
     */
    Sending open() throws IOException {
        long bytes = measuring.bytes();
        if (bytes == 0) {
            return Sending.nothing();
        }
        Watched stream = new Watched(opening.open());
        BodyPublisher publisher = BodyPublishers.ofInputStream(() -> stream);
        return new Sending(bytes > 0 ? BodyPublishers.fromPublisher(publisher, bytes) : publisher, stream.failure);
    }

    /**
     * An attempt to send it.
     *
     * @param failure completed with what reading ended with, if it failed
     */
    record Sending(BodyPublisher publisher, CompletableFuture<Throwable> failure) {

        /** A call without a body. */
        static Sending nothing() {
            return new Sending(BodyPublishers.noBody(), new CompletableFuture<>());
        }
    }

    /** The HTTP client takes a failed read for the end, and would end the body as if it were whole. */
    private static final class Watched extends FilterInputStream {

        private final CompletableFuture<Throwable> failure = new CompletableFuture<>();

        Watched(InputStream stream) {
            super(stream);
        }

        @Override
        public int read(byte[] bytes, int offset, int length) {
            try {
                return in.read(bytes, offset, length);
            } catch (IOException | RuntimeException | Error e) {
                failure.complete(e);
                throw new IllegalStateException("the source cannot be read", e);
            }
        }
    }

    /** Entries as NDJSON, one at a time. */
    private static final class EntryLines extends InputStream {

        private final Iterator<Entry> entries;
        private byte[] line = {};
        private int at;

        EntryLines(Iterator<Entry> entries) {
            this.entries = entries;
        }

        @Override
        public int read() {
            return isAtEnd() ? -1 : line[at++] & 0xff;
        }

        @Override
        public int read(byte[] bytes, int offset, int length) {
            if (length == 0) {
                return 0;
            }
            int read = 0;
            while (read < length && !isAtEnd()) {
                int piece = Math.min(length - read, line.length - at);
                System.arraycopy(line, at, bytes, offset + read, piece);
                at += piece;
                read += piece;
            }
            return read == 0 ? -1 : read;
        }

        private boolean isAtEnd() {
            if (at == line.length && entries.hasNext()) {
                line = (Json.MAPPER.writeValueAsString(entries.next()) + "\n").getBytes(StandardCharsets.UTF_8);
                at = 0;
            }
            return at == line.length;
        }
    }
}
