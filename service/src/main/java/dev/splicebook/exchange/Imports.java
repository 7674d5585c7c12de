package dev.splicebook.exchange;

import dev.splicebook.device.CatalogueTransfer;
import dev.splicebook.vehicle.BookTransfer;
import dev.splicebook.web.Caller;
import dev.splicebook.web.Fault;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.Problems;
import jakarta.annotation.PreDestroy;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.sql.SQLException;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.util.unit.DataSize;

/** Imports into the book and the catalogue, all of one body or nothing of it. */
@Service
public class Imports {

    private static final Logger log = LoggerFactory.getLogger(Imports.class);

    private static final long TELL_MILLIS = 500;

    /** What was met is remembered line by line, so that their number must have an end. */
    private static final int MOST_LINES = 250_000;

    private final ImportRows rows;
    private final BookTransfer book;
    private final CatalogueTransfer catalogue;
    private final Transfers transfers;
    private final TransactionTemplate transactions;
    private final int mostBytesOfLine;
    private final Duration longest;
    private final ScheduledExecutorService teller = Executors.newSingleThreadScheduledExecutor(task -> {
        Thread thread = new Thread(task, "import-progress");
        thread.setDaemon(true);
        return thread;
    });

    Imports(
            ImportRows rows,
            BookTransfer book,
            CatalogueTransfer catalogue,
            Transfers transfers,
            PlatformTransactionManager transactions,
            @Value("${splicebook.exchange.max-line:8MB}") DataSize mostOfLine,
            @Value("${splicebook.exchange.longest-import:30m}") Duration longest) {
        this.rows = rows;
        this.book = book;
        this.catalogue = catalogue;
        this.transfers = transfers;
        this.transactions = new TransactionTemplate(transactions);
        this.mostBytesOfLine = Math.toIntExact(mostOfLine.toBytes());
        this.longest = longest;
    }

    /**
     * Imports a body of lines while it comes in, or tells what the same body came to under the id before.
     *
     * @param id the caller's own for this import
     * @param dryRun whether to judge only
     * @throws ProblemException 400 with the faults, 409 if the id runs or another change stands in the way, 422 if it is
     *     done with another body, 429 if too many run
     */
    public ImportView run(Caller caller, UUID id, boolean dryRun, InputStream body) {
        try (Transfers.Place place = transfers.enter(caller)) {
            log.debug("import {} has {}", id, place);
            ImportRows.Claim claim = rows.claim(caller, id, dryRun);
            if (claim.attempt() > 0) {
                return run(caller, id, claim.attempt(), dryRun, body);
            }
            if (claim.done() == null) {
                throw Problems.conflict("the import " + id + " runs already");
            }
            if (dryRun) {
                throw Problems.unprocessable(
                        "the import " + id + " is done already; a dry run needs an id of its own", List.of());
            }
            LineReader reader = new LineReader(body, mostBytesOfLine, longest);
            try {
                reader.skipToEnd();
            } catch (IOException gone) {
                throw brokenOff(gone);
            }
            if (!reader.sha256().equals(claim.done())) {
                throw Problems.unprocessable(
                        "the import " + id
                                + " is done already, with another body; a further one needs an id of its own",
                        List.of());
            }
            return get(caller, id);
        }
    }

    /** @throws ProblemException 404 if the caller's firm has no such import */
    public ImportView get(Caller caller, UUID id) {
        return rows.find(caller, id).orElseThrow(() -> Problems.notFound("import " + id));
    }

    /** The imports of the caller's firm, latest first. */
    public PageOf<ImportView> listImports(Caller caller, PageQuery page) {
        return rows.list(caller, page);
    }

    @PreDestroy
    void stop() {
        teller.shutdownNow();
    }

    private ImportView run(Caller caller, UUID id, int attempt, boolean dryRun, InputStream body) {
        ImportProgress progress = new ImportProgress();
        // by a thread of its own, so that an import whose sender pauses is still seen to be alive
        ScheduledFuture<?> telling = teller.scheduleWithFixedDelay(
                () -> tell(caller, id, attempt, progress), TELL_MILLIS, TELL_MILLIS, TimeUnit.MILLISECONDS);
        ImportState end = ImportState.BROKEN_OFF;
        try {
            boolean stored = store(caller, id, attempt, dryRun, body, progress);
            if (progress.counts().faults() > 0) {
                end = ImportState.REFUSED;
                throw Problems.badBody(progress.faults(), progress.counts().faults());
            }
            end = ImportState.DONE;
            if (!stored && !dryRun) {
                throw Problems.conflict("another request took over the import " + id);
            }
        } catch (UncheckedIOException gone) {
            throw brokenOff(gone.getCause());
        } catch (ProblemException problem) {
            if (problem.type() == ProblemType.BODY_TOO_LARGE) {
                end = ImportState.REFUSED;
                progress.refused(List.of(Fault.at("", problem.type().code(), problem.detail())), 1);
            }
            throw problem;
        } catch (RuntimeException failure) {
            throw hasCollided(failure) ? Problems.contended() : failure;
        } finally {
            telling.cancel(false);
            if (end != ImportState.DONE || dryRun) {
                endUnstored(caller, id, attempt, progress, end);
            }
        }
        return get(caller, id);
    }

    /** Whether the lines were stored, and the import with them as done. */
    private boolean store(
            Caller caller, UUID id, int attempt, boolean dryRun, InputStream body, ImportProgress progress) {
        return Boolean.TRUE.equals(transactions.execute(status -> {
            LineReader reader = new LineReader(body, mostBytesOfLine, longest);
            Intake intake = new Intake(caller, book, catalogue, progress, !dryRun);
            try {
                read(reader, intake, progress);
            } catch (IOException gone) {
                throw new UncheckedIOException(gone);
            }
            boolean stored = !dryRun
                    && progress.counts().faults() == 0
                    && rows.done(caller, id, attempt, progress, reader.sha256());
            if (!stored) {
                status.setRollbackOnly();
            }
            return stored;
        }));
    }

    private void read(LineReader reader, Intake intake, ImportProgress progress) throws IOException {
        for (byte[] line = reader.next(); line != null; line = reader.next()) {
            if (reader.number() > MOST_LINES) {
                intake.refuse(
                        reader.number(),
                        Fault.at("", "too-many-lines", "the body has more than " + MOST_LINES + " lines"));
                reader.skipToEnd();
            } else if (reader.isTooLong()) {
                intake.refuse(
                        reader.number(),
                        Fault.at(
                                "",
                                "line-too-long",
                                "line " + reader.number() + " is longer than " + mostBytesOfLine + " bytes"));
            } else if (!isBlank(line)) {
                intake.take(reader.number(), line);
            }
            progress.read(reader.number(), reader.bytes());
        }
        intake.end();
        if (reader.number() == 0) {
            progress.refused(List.of(Fault.at("", "empty-body", "the body is empty")), 1);
        }
    }

    private void tell(Caller caller, UUID id, int attempt, ImportProgress progress) {
        try {
            rows.tell(caller, id, attempt, progress);
        } catch (RuntimeException unheard) {
            // the next turn tells more; what lasts is found by the import itself
            log.debug("the progress of import {} was not told", id, unheard);
        }
    }

    private void endUnstored(Caller caller, UUID id, int attempt, ImportProgress progress, ImportState end) {
        try {
            rows.end(caller, id, attempt, progress, end);
        } catch (RuntimeException away) {
            // without its heartbeat it counts as broken off, and may be tried again, soon
            log.warn("The end of import {} could not be recorded: {}", id, away.getMessage());
        }
    }

    /** Whether another request has added what this one was to add; PostgreSQL documentation, appendix A: 23505. */
    private static boolean hasCollided(Throwable failure) {
        for (@Nullable Throwable cause = failure; cause != null; cause = cause.getCause()) {
            if (cause instanceof SQLException sql && "23505".equals(sql.getSQLState())) {
                return true;
            }
        }
        return false;
    }

    private static boolean isBlank(byte[] line) {
        for (byte octet : line) {
            if (octet != ' ' && octet != '\t' && octet != '\r') {
                return false;
            }
        }
        return true;
    }

    private static ProblemException brokenOff(@Nullable IOException why) {
        return new ProblemException(
                ProblemType.BAD_REQUEST,
                why instanceof LineReader.TooSlowException
                        ? String.valueOf(why.getMessage())
                        : "the body ends or is split other than its headers say",
                List.of(),
                Map.of());
    }
}
