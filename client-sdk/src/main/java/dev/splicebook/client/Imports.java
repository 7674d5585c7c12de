package dev.splicebook.client;

import java.nio.file.Path;
import java.util.UUID;

/**
 * Many vehicles and devices at once, as NDJSON: one JSON object in a line. All of it is stored or nothing. An import is
 * sent while it is read, and judged while it is sent; how far it is, {@link #get} tells meanwhile.
 */
public final class Imports {

    private static final String PATH = "/v1/imports";

    private final Transport transport;

    Imports(Transport transport) {
        this.transport = transport;
    }

    /**
     * Imports a file. See {@link #run(UUID, Source)}.
     *
     * @throws BadRequestException with the faults by line and pointer
     * @throws SplicebookException if there is no answer, or another problem
     * @throws java.io.UncheckedIOException if the file cannot be read
     */
    public Import run(UUID id, Path file) {
        return run(id, Source.file(file));
    }

    /**
     * Imports vehicles and devices, and waits for the end: ten minutes at most unless a timeout is given with
     * {@link Splicebook#with}. Vehicles and devices that are there already get a new revision, unless they mean the same.
     *
     * <p>The same import under the same id is made once however often it is sent, so that it is sent again if the
     * connection fails and the source can be read again. A {@link ConflictException} says that it is running still.
     *
     * @param id of the import, made up by the caller, like {@code UUID.randomUUID()}
     * @throws BadRequestException with the faults by line and pointer; nothing was stored
     * @throws ConflictException if an import of that id runs
     * @throws SplicebookException if there is no answer, or another problem; nothing was stored unless {@link #get} says
     *     so
     * @throws java.io.UncheckedIOException if the source cannot be read; nothing was stored
     */
    public Import run(UUID id, Source source) {
        return transport.send(running(id, source), Import.class);
    }

    /**
     * Judges an import like {@link #run(UUID, Source)}, and stores nothing but how it went.
     *
     * @param id of the import, made up by the caller, and not that of the import proper
     * @throws BadRequestException with the faults by line and pointer
     * @throws ConflictException if an import of that id runs
     * @throws SplicebookException if there is no answer, or another problem
     * @throws java.io.UncheckedIOException if the source cannot be read
     */
    public Import dryRun(UUID id, Source source) {
        return transport.send(running(id, source).dryRun(), Import.class);
    }

    /**
     * How far an import is, or how it ended.
     *
     * @throws NotFoundException if there is no such import, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Import get(UUID id) {
        return transport.send(of(Call.get(PATH), id), Import.class);
    }

    /**
     * The firm's imports, latest first.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<Import> list() {
        return list(Paging.start());
    }

    /**
     * The firm's imports, latest first.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<Import> list(Paging paging) {
        return transport.page(Call.get(PATH), paging, Import.class);
    }

    private static Call running(UUID id, Source source) {
        return of(Call.put(PATH), id).body(Call.NDJSON, source).repeatable().takingLong();
    }

    private static Call of(Call call, UUID id) {
        return call.segment("id", Require.present("id", id));
    }
}
