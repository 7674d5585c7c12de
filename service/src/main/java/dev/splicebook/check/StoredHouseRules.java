package dev.splicebook.check;

import dev.splicebook.web.Caller;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The rules of each firm; each change is a row of its own, and one without a document withdraws the rule. */
@Repository
class StoredHouseRules {

    private static final String LATEST =
            "select code, revision, created_at, document from house_rules r where owner_firm = :firm and revision ="
                    + " (select max(revision) from house_rules l where l.owner_firm = r.owner_firm and l.code = r.code)";

    private final JdbcClient rows;

    StoredHouseRules(JdbcClient rows) {
        this.rows = rows;
    }

    /** Keeps other requests of the firm from adding a rule until the transaction ends. */
    void lock(Caller caller) {
        rows.sql("select 1 from (select pg_advisory_xact_lock(hashtextextended('house-rules ' || :firm, 0))) as taken")
                .param("firm", caller.firm().value().toString())
                .query(Integer.class)
                .single();
    }

    /** Every rule in force, by code. */
    List<StoredHouseRule> listAll(Caller caller) {
        return rows.sql(LATEST + " and document is not null order by code collate \"C\"")
                .param("firm", caller.firm().value())
                .query((row, number) -> read(row))
                .list();
    }

    PageOf<StoredHouseRule> list(Caller caller, PageQuery page) {
        List<String> after = page.after(1);
        List<StoredHouseRule> fetched = rows.sql(
                        LATEST
                                + " and document is not null and code collate \"C\" > :after order by code collate \"C\" limit :most")
                .param("firm", caller.firm().value())
                .param("after", after.isEmpty() ? "" : after.get(0))
                .param("most", page.limit() + 1)
                .query((row, number) -> read(row))
                .list();
        return PageOf.ofFetched(fetched, page.limit(), last -> List.of(last.code()));
    }

    /** A revision of a rule; empty where the rule was withdrawn by it. */
    Optional<StoredHouseRule> find(Caller caller, String code, @Nullable Integer revision) {
        String wanted = revision == null
                ? LATEST
                : "select code, revision, created_at, document from house_rules r where owner_firm = :firm"
                        + " and revision = :revision";
        JdbcClient.StatementSpec asked = rows.sql(wanted + " and document is not null and code = :code")
                .param("firm", caller.firm().value())
                .param("code", code);
        return (revision == null ? asked : asked.param("revision", revision))
                .query((row, number) -> read(row))
                .optional();
    }

    /** The number of the latest row of a rule, one that withdraws it too; 0 if there never was one. */
    int latestRevision(Caller caller, String code) {
        return rows.sql("select coalesce(max(revision), 0) from house_rules where owner_firm = :firm and code = :code")
                .param("firm", caller.firm().value())
                .param("code", code)
                .query(Integer.class)
                .single();
    }

    /**
     * Adds a revision.
     *
     * @param document absent to withdraw the rule
     * @return false if another request added the same revision first
     */
    boolean add(Caller caller, String code, int revision, @Nullable String document) {
        try {
            rows.sql("insert into house_rules (owner_firm, code, revision, document, created_by)"
                            + " values (:firm, :code, :revision, :document, :key)")
                    .param("firm", caller.firm().value())
                    .param("code", code)
                    .param("revision", revision)
                    .param("document", document)
                    .param("key", caller.key().value())
                    .update();
            return true;
        } catch (DuplicateKeyException earlier) {
            return false;
        }
    }

    private static StoredHouseRule read(ResultSet row) throws SQLException {
        return new StoredHouseRule(
                row.getString("code"),
                row.getInt("revision"),
                row.getObject("created_at", OffsetDateTime.class).toInstant(),
                row.getString("document"));
    }
}
