package dev.splicebook.job;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.Report.Verdict;
import dev.splicebook.hookup.Waiver;
import dev.splicebook.web.Caller;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import dev.splicebook.web.Selection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Hookups of each firm with their revisions, and what is asked of these by SQL. */
@Repository
class Hookups {

    /** Further in the future than any day that a waiver can name. */
    private static final LocalDate FOR_GOOD = LocalDate.of(9999, 12, 31);

    /** A row w of hookup_waivers that nothing came after. */
    private static final String NOTHING_AFTER =
            "w.version = (select max(l.version) from hookup_waivers l where l.hookup_id = w.hookup_id"
                    + " and l.fingerprint = w.fingerprint)";

    /** Whether a finding f is waived today. */
    private static final String WAIVED =
            "(f.severity <> 'danger' and (coalesce(f.waived_until >= :today, false) or exists ("
                    + "select from hookup_waivers w where w.hookup_id = f.hookup_id and w.fingerprint = f.fingerprint"
                    + " and w.author is not null and coalesce(w.expires_on >= :today, true) and " + NOTHING_AFTER
                    + ")))";

    private static final String HAS_FINDING = "exists (select from hookup_findings f where f.hookup_id = r.hookup_id"
            + " and f.revision = r.revision and f.severity in (%s) and not " + WAIVED + ")";

    /** As {@code Report.Verdict.of} has it. */
    private static final String VERDICT = "case when " + HAS_FINDING.formatted("'danger', 'error'")
            + " then 'NOT_READY' when r.leaves_doubt or " + HAS_FINDING.formatted("'warning'")
            + " then 'READY_WITH_CAUTIONS' else 'READY' end";

    private static final String SUMMARIES = "select h.id, h.created_at as hookup_created_at, r.revision, r.created_at,"
            + " r.name, r.vehicle, " + VERDICT
            + " as verdict from hookups h join hookup_revisions r on r.hookup_id = h.id where h.owner_firm = :firm";

    private final JdbcClient rows;

    Hookups(JdbcClient rows) {
        this.rows = rows;
    }

    private record Row(HookupSummary summary, Instant hookupCreatedAt) {}

    /** Adds a hookup, which has no revision yet. */
    void add(Caller caller, UUID id) {
        rows.sql("insert into hookups (id, owner_firm, latest_revision) values (:id, :firm, 1)")
                .param("id", id)
                .param("firm", caller.firm().value())
                .update();
    }

    /** The number of the latest revision; empty for a hookup that is absent or another firm's. */
    Optional<Integer> findLatestRevision(Caller caller, UUID id) {
        return rows.sql("select latest_revision from hookups where id = :id and owner_firm = :firm")
                .param("id", id)
                .param("firm", caller.firm().value())
                .query(Integer.class)
                .optional();
    }

    /** Moves on to the next revision; false if another request did so first. */
    boolean advanceFrom(Caller caller, UUID id, int revision) {
        return rows.sql("update hookups set latest_revision = :revision + 1"
                                + " where id = :id and owner_firm = :firm and latest_revision = :revision")
                        .param("firm", caller.firm().value())
                        .param("id", id)
                        .param("revision", revision)
                        .update()
                == 1;
    }

    /** Keeps others from changing a hookup until the transaction ends. */
    void lock(Caller caller, UUID id) {
        rows.sql("select id from hookups where id = :id and owner_firm = :firm for update")
                .param("id", id)
                .param("firm", caller.firm().value())
                .query(UUID.class)
                .optional();
    }

    /** Adds a revision with all rows that it is found and judged by. */
    void addRevision(
            Caller caller,
            StoredHookup hookup,
            HookupDocument document,
            @Nullable UUID vehicle,
            List<Finding> findings,
            boolean leavesDoubt) {
        rows.sql("insert into hookup_revisions (hookup_id, revision, owner_firm, document, name, vehicle, report,"
                        + " leaves_doubt, searched_text, created_at, created_by) values (:id, :revision, :firm, :document,"
                        + " :name, :vehicle, :report, :leavesDoubt, :searched, :at, :key)")
                .param("id", hookup.id())
                .param("revision", hookup.revision())
                .param("firm", caller.firm().value())
                .param("document", hookup.document())
                .param("name", document.name())
                .param("vehicle", vehicle)
                .param("report", hookup.report())
                .param("leavesDoubt", leavesDoubt)
                .param("searched", document.name() == null ? "" : document.name())
                .param("at", hookup.createdAt().atOffset(ZoneOffset.UTC))
                .param("key", caller.key().value())
                .update();
        Map<String, Waiver> waivers =
                document.waivers().stream().collect(Collectors.toMap(Waiver::fingerprint, Function.identity()));
        Map<String, Finding> told = new LinkedHashMap<>();
        findings.forEach(finding -> told.putIfAbsent(finding.fingerprint() + finding.severity(), finding));
        rows.sql("insert into hookup_findings (hookup_id, revision, owner_firm, fingerprint, severity, waived_until)"
                        + " select cast(:id as uuid), cast(:revision as integer), cast(:firm as uuid), f.fingerprint, f.severity,"
                        + " cast(f.until as date) from unnest(cast(:fingerprints as text[]), cast(:severities as text[]),"
                        + " cast(:untils as text[])) as f (fingerprint, severity, until)")
                .param("id", hookup.id())
                .param("revision", hookup.revision())
                .param("firm", caller.firm().value())
                .param("fingerprints", texts(told.values(), Finding::fingerprint))
                .param(
                        "severities",
                        texts(told.values(), finding -> finding.severity().toString()))
                .param("untils", texts(told.values(), finding -> waivedUntil(waivers.get(finding.fingerprint()))))
                .update();
    }

    private static @Nullable String waivedUntil(@Nullable Waiver waiver) {
        return waiver == null
                ? null
                : Objects.requireNonNullElse(waiver.expiresOn(), FOR_GOOD).toString();
    }

    private static @Nullable String[] texts(Collection<Finding> findings, Function<Finding, @Nullable String> text) {
        return findings.stream().map(text).toArray(String[]::new);
    }

    /** A revision of a hookup of the caller's firm. */
    Optional<StoredHookup> find(Caller caller, UUID id, @Nullable Integer revision) {
        return rows.sql("select h.latest_revision, r.revision, r.created_at, r.document, r.report from hookups h"
                        + " join hookup_revisions r on r.hookup_id = h.id where h.id = :id and h.owner_firm = :firm"
                        + " and r.revision = coalesce(cast(:revision as integer), h.latest_revision)")
                .param("id", id)
                .param("firm", caller.firm().value())
                .param("revision", revision)
                .query((row, number) -> new StoredHookup(
                        id,
                        row.getInt("revision"),
                        row.getInt("latest_revision"),
                        time(row, "created_at"),
                        row.getString("document"),
                        row.getString("report")))
                .optional();
    }

    PageOf<HookupSummary> list(Caller caller, HookupFilter filter, LocalDate today, PageQuery page) {
        Selection selection = new Selection(SUMMARIES + " and r.revision = h.latest_revision")
                .with("firm", caller.firm().value())
                .with("today", today)
                .withWords("r.searched", filter.text());
        if (filter.vehicle() != null) {
            selection.and("r.vehicle = :vehicle").with("vehicle", filter.vehicle());
        }
        if (filter.verdict() != null) {
            selection
                    .and(VERDICT + " = :verdict")
                    .with("verdict", filter.verdict().name());
        }
        List<String> after = page.after(2);
        if (!after.isEmpty()) {
            selection
                    .and("(h.created_at, h.id) > (:afterTime, :afterId)")
                    .with("afterTime", Positions.instant(after.get(0)))
                    .with("afterId", Positions.uuid(after.get(1)));
        }
        selection.then("order by h.created_at, h.id limit :most").with("most", page.limit() + 1);
        PageOf<Row> found = PageOf.ofFetched(
                fetch(selection),
                page.limit(),
                last -> List.of(
                        last.hookupCreatedAt().toString(), last.summary().id().toString()));
        return new PageOf<>(found.items().stream().map(Row::summary).toList(), found.next());
    }

    PageOf<HookupSummary> listRevisions(Caller caller, UUID id, LocalDate today, PageQuery page) {
        Selection selection = new Selection(SUMMARIES + " and h.id = :id")
                .with("firm", caller.firm().value())
                .with("today", today)
                .with("id", id);
        List<String> after = page.after(1);
        if (!after.isEmpty()) {
            selection.and("r.revision < :below").with("below", Positions.number(after.get(0)));
        }
        selection.then("order by r.revision desc limit :most").with("most", page.limit() + 1);
        List<HookupSummary> fetched =
                fetch(selection).stream().map(Row::summary).toList();
        return PageOf.ofFetched(fetched, page.limit(), last -> List.of(Integer.toString(last.revision())));
    }

    private List<Row> fetch(Selection selection) {
        return rows.sql(selection.sql())
                .params(selection.parameters())
                .query((row, number) -> new Row(
                        new HookupSummary(
                                row.getObject("id", UUID.class),
                                row.getInt("revision"),
                                time(row, "created_at"),
                                row.getString("name"),
                                row.getObject("vehicle", UUID.class),
                                Verdict.valueOf(row.getString("verdict"))),
                        time(row, "hookup_created_at")))
                .list();
    }

    /** Waivers that are not withdrawn, by when they were given. */
    List<StoredWaiver> listWaivers(Caller caller, UUID id) {
        return rows.sql("select * from hookup_waivers w where w.hookup_id = :id and w.owner_firm = :firm"
                        + " and w.author is not null and " + NOTHING_AFTER + " order by w.created_at, w.fingerprint")
                .param("firm", caller.firm().value())
                .param("id", id)
                .query((row, number) -> new StoredWaiver(
                        new Waiver(
                                row.getString("fingerprint"),
                                row.getString("author"),
                                row.getString("reason"),
                                row.getObject("expires_on", LocalDate.class)),
                        row.getString("rule"),
                        row.getString("message"),
                        time(row, "created_at")))
                .list();
    }

    /**
     * Gives a waiver, in place of any before it for the same fingerprint.
     *
     * @return false if another request did so in the same moment
     */
    boolean addWaiver(Caller caller, UUID id, StoredWaiver given) {
        Waiver waiver = given.waiver();
        return addWaiver(
                caller,
                id,
                waiver.fingerprint(),
                given.rule(),
                given.message(),
                waiver.author(),
                waiver.reason(),
                waiver.expiresOn());
    }

    /** Withdraws a waiver, which stays as it was given. */
    boolean withdrawWaiver(Caller caller, UUID id, StoredWaiver given) {
        return addWaiver(caller, id, given.waiver().fingerprint(), given.rule(), given.message(), null, "", null);
    }

    private boolean addWaiver(
            Caller caller,
            UUID id,
            String fingerprint,
            String rule,
            String message,
            @Nullable String author,
            String reason,
            @Nullable LocalDate expiresOn) {
        try {
            rows.sql(
                            "insert into hookup_waivers (hookup_id, fingerprint, version, owner_firm, rule, message, author,"
                                    + " reason, expires_on, created_by) select cast(:id as uuid), :fingerprint, coalesce(max(version), 0) + 1,"
                                    + " cast(:firm as uuid), :rule, :message, :author, :reason, cast(:expiresOn as date), cast(:key as uuid) from hookup_waivers"
                                    + " where hookup_id = :id and owner_firm = cast(:firm as uuid) and fingerprint = :fingerprint")
                    .param("id", id)
                    .param("fingerprint", fingerprint)
                    .param("firm", caller.firm().value())
                    .param("rule", rule)
                    .param("message", message)
                    .param("author", author)
                    .param("reason", reason)
                    .param("expiresOn", expiresOn)
                    .param("key", caller.key().value())
                    .update();
            return true;
        } catch (DuplicateKeyException meanwhile) {
            return false;
        }
    }

    private static Instant time(ResultSet row, String column) throws SQLException {
        return Objects.requireNonNull(row.getObject(column, OffsetDateTime.class), column)
                .toInstant();
    }
}
