package dev.splicebook.exchange;

import dev.splicebook.device.CatalogueTransfer;
import dev.splicebook.vehicle.BookTransfer;
import dev.splicebook.web.Caller;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/** Exports of the book and the catalogue as lines that an import takes. */
@Service
public class Exports {

    private static final Logger log = LoggerFactory.getLogger(Exports.class);

    private static final int BUFFER_BYTES = 32 * 1024;

    private final BookTransfer book;
    private final CatalogueTransfer catalogue;
    private final Transfers transfers;
    private final TransactionTemplate transactions;

    Exports(
            BookTransfer book,
            CatalogueTransfer catalogue,
            Transfers transfers,
            PlatformTransactionManager transactions) {
        this.book = book;
        this.catalogue = catalogue;
        this.transfers = transfers;
        this.transactions = new TransactionTemplate(transactions);
        this.transactions.setReadOnly(true);
        this.transactions.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    }

    /**
     * Writes the latest revisions as they are at one moment, each as a line: devices by code, then vehicles, oldest first.
     *
     * @param mine whether to leave out what other firms share; what they do comes without id and revision, so that an
     *     import makes a copy of one's own
     * @throws dev.splicebook.web.ProblemException 429 if too many run
     * @throws IOException if the reader has gone
     */
    public void write(Caller caller, ExportOf what, boolean mine, OutputStream out) throws IOException {
        // a place before a connection, so that those who find none take none
        try (Transfers.Place place = transfers.enter(caller)) {
            log.debug("an export has {}", place);
            transactions.executeWithoutResult(status -> {
                try {
                    writeLines(caller, what, mine, new BufferedOutputStream(out, BUFFER_BYTES));
                } catch (IOException gone) {
                    throw new UncheckedIOException(gone);
                }
            });
        } catch (UncheckedIOException gone) {
            throw Objects.requireNonNull(gone.getCause());
        }
    }

    private void writeLines(Caller caller, ExportOf what, boolean mine, OutputStream lines) throws IOException {
        if (what.hasDevices()) {
            catalogue.export(
                    caller, mine, device -> writeLine(lines, "device", null, device.revision(), device.document()));
        }
        if (what.hasVehicles()) {
            book.export(
                    caller,
                    mine,
                    vehicle -> writeLine(lines, "vehicle", vehicle.id(), vehicle.revision(), vehicle.document()));
        }
        lines.flush();
    }

    private static void writeLine(
            OutputStream lines, String kind, @Nullable UUID id, @Nullable Integer revision, String document)
            throws IOException {
        StringBuilder head = new StringBuilder("{\"kind\":\"").append(kind).append('"');
        if (id != null) {
            head.append(",\"id\":\"").append(id).append('"');
        }
        if (revision != null) {
            head.append(",\"revision\":").append(revision);
        }
        head.append(",\"document\":");
        lines.write(head.toString().getBytes(StandardCharsets.UTF_8));
        lines.write(document.getBytes(StandardCharsets.UTF_8));
        lines.write('}');
        lines.write('\n');
    }
}
