package dev.splicebook.device;

import dev.splicebook.device.Catalogue.DeviceSummary;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Devices without their documents, found by SQL. */
@Repository("deviceSummaries")
class Summaries {

    private static final String LATEST_REVISIONS = """
            select d.id, d.code, d.shared, r.revision, r.created_at, r.maker, r.name, r.kind
            from devices d join device_revisions r on r.device_id = d.id and r.revision = d.latest_revision
            where\s""";

    private static final String MATING = """
            exists (select from device_mates m where m.device_id = r.device_id and m.revision = r.revision
                    and m.mate = any(cast(:%s as text[])))""";

    private final JdbcClient database;

    Summaries(JdbcClient database) {
        this.database = database;
    }

    private record Row(UUID id, DeviceSummary summary) {}

    /**
     * Devices that a firm may see, by code.
     *
     * @param vehicleMates what the vehicle of the filter mates by; absent without one
     * @param accessoriesOf the latest revision of the device that the filter names; absent without one
     */
    PageOf<DeviceSummary> listDevices(
            UUID firm,
            DeviceFilter filter,
            @Nullable Set<String> vehicleMates,
            DeviceRevision.@Nullable Key accessoriesOf,
            PageQuery page) {
        Conditions conditions = new Conditions().and("(d.owner_firm = :firm or d.shared)", "firm", firm);
        conditions.startsWith("lower(d.code)", "code", filter.code());
        conditions.startsWith("lower(r.maker)", "maker", filter.maker());
        conditions.startsWith("lower(r.name)", "name", filter.name());
        if (filter.kind() != null) {
            conditions.and("r.kind = :kind", "kind", filter.kind());
        }
        if (filter.function() != null) {
            String function = filter.function().value();
            conditions.and("""
                            exists (select from device_terminals t where t.device_id = r.device_id
                                    and t.revision = r.revision
                                    and (t.function = :function or t.function like :below escape '!'))""", "function", function).with("below", Positions.startsWith(function + "."));
        }
        if (filter.text() != null) {
            conditions.and("r.searched @@ search_query(:text)", "text", filter.text());
        }
        if (filter.mates() != null) {
            conditions.and(MATING.formatted("mates"), "mates", new String[] {filter.mates()});
        }
        if (vehicleMates != null) {
            conditions.and(MATING.formatted("fits"), "fits", vehicleMates.toArray(String[]::new));
        }
        if (accessoriesOf != null) {
            conditions.and("""
                            exists (select from device_accessories a where a.device_id = :main
                                    and a.revision = :mainRevision and a.accessory = d.code)""", "main", accessoriesOf.deviceId()).with("mainRevision", accessoriesOf.revision());
        }
        List<String> after = page.after(2);
        if (!after.isEmpty()) {
            conditions
                    .and("(d.code, d.id) > (:afterCode, :afterId)", "afterCode", after.get(0))
                    .with("afterId", Positions.uuid(after.get(1)));
        }
        List<Row> fetched = database.sql(LATEST_REVISIONS + conditions.joined() + " order by d.code, d.id limit :most")
                .params(conditions.parameters)
                .param("most", page.limit() + 1)
                .query((row, number) -> read(row))
                .list();
        PageOf<Row> rows = PageOf.ofFetched(
                fetched,
                page.limit(),
                last -> List.of(last.summary().code(), last.id().toString()));
        return new PageOf<>(rows.items().stream().map(Row::summary).toList(), rows.next());
    }

    private static Row read(ResultSet row) throws SQLException {
        DeviceSummary summary = new DeviceSummary(
                Objects.requireNonNull(row.getString("code")),
                row.getInt("revision"),
                row.getBoolean("shared"),
                Objects.requireNonNull(row.getObject("created_at", OffsetDateTime.class))
                        .toInstant(),
                row.getString("maker"),
                row.getString("name"),
                row.getString("kind"));
        return new Row(Objects.requireNonNull(row.getObject("id", UUID.class)), summary);
    }

    /** All of which must hold, with the values of their named parameters. */
    private static final class Conditions {

        private final List<String> conditions = new ArrayList<>();
        private final Map<String, Object> parameters = new LinkedHashMap<>();

        Conditions and(String condition, String parameter, Object value) {
            conditions.add(condition);
            return with(parameter, value);
        }

        Conditions with(String parameter, Object value) {
            parameters.put(parameter, value);
            return this;
        }

        void startsWith(String column, String parameter, @Nullable String text) {
            if (text != null) {
                and(column + " like :" + parameter + " escape '!'", parameter, Positions.startsWith(text));
            }
        }

        String joined() {
            return String.join("\nand ", conditions);
        }
    }
}
