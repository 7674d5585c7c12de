package dev.splicebook.vehicle;

import dev.splicebook.web.Positions;
import dev.splicebook.web.SearchWords;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A query that grows condition by condition, with the values of its named parameters. */
final class Selection {

    private final StringBuilder sql;
    private final Map<String, Object> parameters = new LinkedHashMap<>();

    /** @param sql ends in a where clause with at least one condition */
    Selection(String sql) {
        this.sql = new StringBuilder(sql);
    }

    String sql() {
        return sql.toString();
    }

    Map<String, Object> parameters() {
        return parameters;
    }

    Selection and(String condition) {
        sql.append("\nand ").append(condition);
        return this;
    }

    Selection then(String clause) {
        sql.append('\n').append(clause);
        return this;
    }

    Selection with(String parameter, Object value) {
        parameters.put(parameter, value instanceof Instant instant ? at(instant) : value);
        return this;
    }

    /** What both kinds of search tell vehicles by; r are the revisions. */
    Selection ofVehicle(@Nullable String maker, @Nullable String model, @Nullable Integer year) {
        if (maker != null) {
            and("lower(r.maker) like :maker escape '!'").with("maker", Positions.startsWith(maker));
        }
        if (model != null) {
            and("lower(r.model) like :model escape '!'").with("model", Positions.startsWith(model));
        }
        if (year != null) {
            and("r.year_from <= :year and r.year_to >= :year").with("year", year);
        }
        return this;
    }

    /**
     * The words of a text, each the beginning of one in a column that is searched.
     *
     * @param text as {@link SearchWords} takes it
     */
    Selection withWords(String column, @Nullable String text) {
        return text == null ? this : and(column + " @@ search_query(:text)").with("text", text);
    }

    private static OffsetDateTime at(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }
}
