package dev.splicebook.client;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.UUID;

/**
 * Function maps as spreadsheets: CSV in UTF-8, one circuit in a line, below a header that names the columns. A
 * spreadsheet with faults is refused whole, and {@link BadRequestException#errors()} has every fault up to the hundredth
 * with line, column and the column's name.
 */
public final class Spreadsheets {

    private static final String VEHICLES = "/v1/vehicles";

    private final Transport transport;

    Spreadsheets(Transport transport) {
        this.transport = transport;
    }

    /**
     * Adds a vehicle with the circuits of a spreadsheet. Sent again only with an {@link IdempotencyKey}.
     *
     * @param vehicle what is said of it beside its circuits
     * @throws BadRequestException with every fault by line and column
     * @throws SplicebookException if there is no answer, or another problem
     * @throws java.io.UncheckedIOException if the spreadsheet cannot be read
     */
    public Vehicle create(VehicleDescription vehicle, Source spreadsheet) {
        return transport.send(creating(vehicle, spreadsheet), Vehicle.class);
    }

    /**
     * Judges a spreadsheet like {@link #create}, and stores nothing.
     *
     * @param vehicle what is said of it beside its circuits
     * @throws BadRequestException with every fault by line and column
     * @throws SplicebookException if there is no answer, or another problem
     * @throws java.io.UncheckedIOException if the spreadsheet cannot be read
     */
    public DryRun dryRunCreate(VehicleDescription vehicle, Source spreadsheet) {
        return transport.send(creating(vehicle, spreadsheet).dryRun(), DryRun.class);
    }

    /**
     * Adds a revision with the circuits of a spreadsheet, and everything else as it is. Never sent twice: after a
     * {@link ConnectionException} it is unknown whether it was added, and {@link Vehicles#refresh} tells.
     *
     * @param held what the spreadsheet was made from; if it is not the latest revision any more, nothing is added
     * @throws PreconditionFailedException if another revision was added since
     * @throws BadRequestException with every fault by line and column
     * @throws SplicebookException if there is no answer, or another problem
     * @throws java.io.UncheckedIOException if the spreadsheet cannot be read
     */
    public Vehicle replace(Vehicle held, Source spreadsheet) {
        return transport.send(replacing(held, spreadsheet), Vehicle.class);
    }

    /**
     * Judges a spreadsheet like {@link #replace}, and stores nothing.
     *
     * @param held what the spreadsheet was made from
     * @throws PreconditionFailedException if another revision was added since
     * @throws BadRequestException with every fault by line and column
     * @throws SplicebookException if there is no answer, or another problem
     * @throws java.io.UncheckedIOException if the spreadsheet cannot be read
     */
    public DryRun dryRunReplace(Vehicle held, Source spreadsheet) {
        return transport.send(replacing(held, spreadsheet).dryRun(), DryRun.class);
    }

    /**
     * The circuits of a vehicle's latest revision as a spreadsheet.
     *
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public String export(UUID id) {
        return transport.text(exporting(id));
    }

    /**
     * The circuits of one revision of a vehicle as a spreadsheet.
     *
     * @param revision 1 or more
     * @throws NotFoundException if there is no such vehicle or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public String export(UUID id, int revision) {
        return transport.text(exporting(id).query("revision", Require.atLeastOne("revision", revision)));
    }

    /**
     * Writes the circuits of a vehicle's latest revision to a file, which is there whole or, if that fails, as it was.
     *
     * @throws IOException if the file cannot be written
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public void export(UUID id, Path file) throws IOException {
        transport.save(exporting(id), file);
    }

    /**
     * Writes the circuits of a vehicle's latest revision to a stream, once all of them are there. The stream stays open.
     *
     * @throws IOException if the stream cannot be written
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public void export(UUID id, OutputStream stream) throws IOException {
        stream.write(export(id).getBytes(StandardCharsets.UTF_8));
    }

    private static Call creating(VehicleDescription vehicle, Source spreadsheet) {
        return Call.post("/v1/spreadsheets")
                .query(vehicle.parameters().parameters())
                .body(Call.CSV, spreadsheet);
    }

    private static Call replacing(Vehicle held, Source spreadsheet) {
        return of(Call.put(VEHICLES), held.id()).ifMatch(held.revision()).body(Call.CSV, spreadsheet);
    }

    private static Call exporting(UUID id) {
        return of(Call.get(VEHICLES), id).accept(Call.CSV);
    }

    private static Call of(Call call, UUID id) {
        return call.segment("id", Require.present("id", id)).segment("spreadsheet");
    }
}
