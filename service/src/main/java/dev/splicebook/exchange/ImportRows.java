package dev.splicebook.exchange;

import dev.splicebook.web.Caller;
import dev.splicebook.web.Fault;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/** The imports of each firm, one row each, with the heartbeat of those that run. */
@Repository
class ImportRows {

    /** One that was not seen for longer runs no more, whatever its row says. */
    private static final String ALIVE = "seen_at > now() - interval '30 seconds'";

    private static final String VIEW =
            "select id, case when state = 'running' and not (" + ALIVE + ") then 'broken-off' else state end as state,"
                    + " dry_run, lines, vehicles, devices, circuits, unchanged, bytes, started_at,"
                    + " case when state = 'running' and not (" + ALIVE + ") then seen_at else ended_at end as ended_at,"
                    + " errors, faults from imports";

    private static final TypeReference<List<Fault>> FAULTS = new TypeReference<>() {};

    private final JdbcClient rows;
    private final JsonMapper mapper;

    ImportRows(JdbcClient rows, JsonMapper mapper) {
        this.rows = rows;
        this.mapper = mapper;
    }

    /**
     * The outcome of asking for an import's id.
     *
     * @param attempt the number of this try; 0 if there may be none
     * @param done the hash of the body that the id is done with; absent if it runs, or for a new try
     */
    record Claim(int attempt, @Nullable String done) {}

    /** Begins a try, unless the id runs or is done. What only judged has stored nothing, and is never done with. */
    @Transactional
    public Claim claim(Caller caller, UUID id, boolean dryRun) {
        int added = rows.sql(
                        "insert into imports (owner_firm, id, attempt, state, dry_run, started_at, seen_at, created_by)"
                                + " values (:firm, :id, 1, 'running', :dryRun, now(), now(), :key) on conflict do nothing")
                .param("firm", caller.firm().value())
                .param("id", id)
                .param("dryRun", dryRun)
                .param("key", caller.key().value())
                .update();
        if (added == 1) {
            return new Claim(1, null);
        }
        record Known(int attempt, boolean running, @Nullable String done) {}
        Known known = rows.sql("select attempt, state = 'running' and " + ALIVE + ","
                        + " case when state = 'done' and not dry_run then sha256 end"
                        + " from imports where owner_firm = :firm and id = :id for update")
                .param("firm", caller.firm().value())
                .param("id", id)
                .query((row, at) -> new Known(row.getInt(1), row.getBoolean(2), row.getString(3)))
                .single();
        if (known.running() || known.done() != null) {
            return new Claim(0, known.done());
        }
        rows.sql(
                        "update imports set attempt = :attempt, state = 'running', dry_run = :dryRun, sha256 = null, lines = 0,"
                                + " vehicles = 0, devices = 0, circuits = 0, unchanged = 0, bytes = 0, faults = 0, errors = '[]',"
                                + " started_at = now(), seen_at = now(), ended_at = null, created_by = :key"
                                + " where owner_firm = :firm and id = :id")
                .param("attempt", known.attempt() + 1)
                .param("dryRun", dryRun)
                .param("key", caller.key().value())
                .param("firm", caller.firm().value())
                .param("id", id)
                .update();
        return new Claim(known.attempt() + 1, null);
    }

    /** Tells how far a try has come, for others to see at once; nothing if it has ended or another took over. */
    @Transactional(propagation = Propagation.REQUIRES_NEW)
    public void tell(Caller caller, UUID id, int attempt, ImportProgress progress) {
        write(caller, id, attempt, progress, "seen_at = now()", null);
    }

    /** Ends a try that stored nothing. */
    @Transactional(propagation = Propagation.REQUIRES_NEW)
    public void end(Caller caller, UUID id, int attempt, ImportProgress progress, ImportState state) {
        write(caller, id, attempt, progress, "ended_at = now(), state = '" + text(state) + "'", null);
        if (state != ImportState.DONE) {
            rows.sql("update imports set vehicles = 0, devices = 0, circuits = 0, unchanged = 0"
                            + " where owner_firm = :firm and id = :id and attempt = :attempt")
                    .param("firm", caller.firm().value())
                    .param("id", id)
                    .param("attempt", attempt)
                    .update();
        }
    }

    /**
     * Ends a try in the transaction that stored its lines.
     *
     * @return false if another took over, so that the lines must not be stored
     */
    @Transactional
    public boolean done(Caller caller, UUID id, int attempt, ImportProgress progress, String sha256) {
        return write(caller, id, attempt, progress, "ended_at = now(), state = 'done', sha256 = :sha256", sha256) == 1;
    }

    @Transactional(readOnly = true)
    public Optional<ImportView> find(Caller caller, UUID id) {
        return rows.sql(VIEW + " where owner_firm = :firm and id = :id")
                .param("firm", caller.firm().value())
                .param("id", id)
                .query(this::view)
                .optional();
    }

    /** Latest first. */
    @Transactional(readOnly = true)
    public PageOf<ImportView> list(Caller caller, PageQuery page) {
        List<String> after = page.after().isEmpty() ? List.of() : page.after(2);
        Instant before = after.isEmpty() ? Instant.parse("9999-12-31T00:00:00Z") : Positions.instant(after.get(0));
        UUID beyond = after.isEmpty() ? new UUID(0, 0) : Positions.uuid(after.get(1));
        List<ImportView> fetched = rows.sql(VIEW + " where owner_firm = :firm and (started_at < :before"
                        + " or (started_at = :before and id > :beyond)) order by started_at desc, id limit :most")
                .param("firm", caller.firm().value())
                .param("before", OffsetDateTime.ofInstant(before, ZoneOffset.UTC))
                .param("beyond", beyond)
                .param("most", page.limit() + 1)
                .query(this::view)
                .list();
        return PageOf.ofFetched(
                fetched,
                page.limit(),
                last -> List.of(last.startedAt().toString(), last.id().toString()));
    }

    private int write(
            Caller caller, UUID id, int attempt, ImportProgress progress, String further, @Nullable String sha256) {
        ImportProgress.Counts counts = progress.counts();
        JdbcClient.StatementSpec update = rows.sql("update imports set lines = :lines, vehicles = :vehicles,"
                        + " devices = :devices, circuits = :circuits, unchanged = :unchanged, bytes = :bytes,"
                        + " faults = :faults, errors = :errors, " + further
                        + " where owner_firm = :firm and id = :id and attempt = :attempt and state = 'running'")
                .param("lines", counts.lines())
                .param("vehicles", counts.vehicles())
                .param("devices", counts.devices())
                .param("circuits", counts.circuits())
                .param("unchanged", counts.unchanged())
                .param("bytes", counts.bytes())
                .param("faults", counts.faults())
                .param("errors", mapper.writeValueAsString(progress.faults()))
                .param("firm", caller.firm().value())
                .param("id", id)
                .param("attempt", attempt);
        return (sha256 == null ? update : update.param("sha256", sha256)).update();
    }

    private ImportView view(ResultSet row, int at) throws SQLException {
        Timestamp endedAt = row.getTimestamp("ended_at");
        return new ImportView(
                row.getObject("id", UUID.class),
                ImportState.valueOf(
                        row.getString("state").toUpperCase(Locale.ROOT).replace('-', '_')),
                row.getBoolean("dry_run"),
                row.getInt("lines"),
                row.getInt("vehicles"),
                row.getInt("devices"),
                row.getInt("circuits"),
                row.getInt("unchanged"),
                row.getLong("bytes"),
                row.getTimestamp("started_at").toInstant(),
                endedAt == null ? null : endedAt.toInstant(),
                mapper.readValue(row.getString("errors"), FAULTS),
                row.getInt("faults"));
    }

    private static String text(ImportState state) {
        return state.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
