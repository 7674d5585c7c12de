package dev.splicebook.web;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A query that grows condition by condition, with the values of its named parameters. */
public final class Selection {

    private final StringBuilder sql;
    private final Map<String, Object> parameters = new LinkedHashMap<>();

    /** @param sql ends in a where clause with at least one condition */
    public Selection(String sql) {
        this.sql = new StringBuilder(sql);
    }

    public String sql() {
        return sql.toString();
    }

    public Map<String, Object> parameters() {
        return parameters;
    }

    public Selection and(String condition) {
        sql.append("\nand ").append(condition);
        return this;
    }

    public Selection then(String clause) {
        sql.append('\n').append(clause);
        return this;
    }

    public Selection with(String parameter, Object value) {
        parameters.put(parameter, value instanceof Instant instant ? at(instant) : value);
        return this;
    }

    /** What begins so, whatever the case; {@code column} is in lower case, and any value will do for a null text. */
    public Selection startsWith(String column, String parameter, @Nullable String text) {
        return text == null
                ? this
                : and(column + " like :" + parameter + " escape '!'").with(parameter, Positions.startsWith(text));
    }

    /** A function and all below it; {@code condition} holds a {@code %s} where the one on the column belongs. */
    public Selection ofFunction(String condition, String column, String function) {
        // a range, where a pattern would be one for the index only as long as the planner sees it; / follows the dot
        String below = "(%1$s = :function or (%1$s ~>=~ :below and %1$s ~<~ :beyond))".formatted(column);
        return and(condition.formatted(below))
                .with("function", function)
                .with("below", function + ".")
                .with("beyond", function + "/");
    }

    /**
     * The words of a text, each the beginning of one in a column that is searched.
     *
     * @param text as {@link SearchWords} takes it
     */
    public Selection withWords(String column, @Nullable String text) {
        return text == null ? this : and(column + " @@ search_query(:text)").with("text", text);
    }

    private static OffsetDateTime at(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }
}
