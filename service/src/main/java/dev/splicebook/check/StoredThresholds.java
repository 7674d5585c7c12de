package dev.splicebook.check;

import dev.splicebook.hookup.RulePage;
import dev.splicebook.hookup.Thresholds;
import dev.splicebook.web.Caller;
import dev.splicebook.web.StrictReader;
import java.util.Map;
import java.util.TreeMap;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The thresholds of each firm; each change is a row of its own. */
@Repository
class StoredThresholds {

    /** What a firm without a row has. */
    static final int FIRST_REVISION = 1;

    private final JdbcClient rows;

    StoredThresholds(JdbcClient rows) {
        this.rows = rows;
    }

    /**
     * What a firm has set.
     *
     * @param revision 1 for nothing yet
     */
    record Setting(int revision, Thresholds thresholds) {

        /** Without what a rule has no more, or takes no more, since it was set. */
        Thresholds inForce(Map<String, RulePage.Parameter> known) {
            Map<String, Double> values = new TreeMap<>();
            thresholds.values().forEach((name, value) -> {
                RulePage.Parameter parameter = known.get(name);
                if (parameter != null && value >= parameter.least() && value <= parameter.most()) {
                    values.put(name, value);
                }
            });
            return new Thresholds(values);
        }
    }

    Setting find(Caller caller) {
        return rows.sql(
                        "select revision, document from thresholds where owner_firm = :firm order by revision desc limit 1")
                .param("firm", caller.firm().value())
                .query((row, number) ->
                        new Setting(row.getInt(1), StrictReader.read(row.getString(2), Thresholds.class)))
                .optional()
                .orElseGet(() -> new Setting(FIRST_REVISION, Thresholds.NONE));
    }

    /** Adds a revision; false if another request added the same first. */
    boolean add(Caller caller, int revision, String document) {
        try {
            rows.sql("insert into thresholds (owner_firm, revision, document, created_by)"
                            + " values (:firm, :revision, :document, :key)")
                    .param("firm", caller.firm().value())
                    .param("revision", revision)
                    .param("document", document)
                    .param("key", caller.key().value())
                    .update();
            return true;
        } catch (DuplicateKeyException earlier) {
            return false;
        }
    }
}
