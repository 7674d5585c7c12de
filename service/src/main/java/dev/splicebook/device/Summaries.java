package dev.splicebook.device;

import dev.splicebook.device.Catalogue.DeviceSummary;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import dev.splicebook.web.Selection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.List;
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

    /** One of a code: the firm's own, else the oldest that is shared, which is the one that the code leads to. */
    private static final String SEEN = """
            (d.owner_firm = :firm
             or (d.shared and not exists (
                     select from devices o where o.code = d.code
                     and (o.owner_firm = :firm
                          or (o.shared and (o.created_at, o.id) < (d.created_at, d.id))))))""";

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
        Selection selection = new Selection(LATEST_REVISIONS + SEEN)
                .with("firm", firm)
                .startsWith("lower(d.code)", "code", filter.code())
                .startsWith("lower(r.maker)", "maker", filter.maker())
                .startsWith("lower(r.name)", "name", filter.name())
                .withWords("r.searched", filter.text());
        if (filter.kind() != null) {
            selection.and("r.kind = :kind").with("kind", filter.kind());
        }
        if (filter.function() != null) {
            selection.ofFunction(
                    "exists (select from device_terminals t where t.device_id = r.device_id"
                            + " and t.revision = r.revision and %s)",
                    "t.function", filter.function().value());
        }
        if (filter.mates() != null) {
            selection.and(MATING.formatted("mates")).with("mates", new String[] {filter.mates()});
        }
        if (vehicleMates != null) {
            selection.and(MATING.formatted("fits")).with("fits", vehicleMates.toArray(String[]::new));
        }
        if (accessoriesOf != null) {
            selection
                    .and("exists (select from device_accessories a where a.device_id = :main"
                            + " and a.revision = :mainRevision and a.accessory = d.code)")
                    .with("main", accessoriesOf.deviceId())
                    .with("mainRevision", accessoriesOf.revision());
        }
        List<String> after = page.after(2);
        if (!after.isEmpty()) {
            selection
                    .and("(d.code, d.id) > (:afterCode, :afterId)")
                    .with("afterCode", after.get(0))
                    .with("afterId", Positions.uuid(after.get(1)));
        }
        selection.then("order by d.code, d.id limit :most").with("most", page.limit() + 1);
        List<Row> fetched = database.sql(selection.sql())
                .params(selection.parameters())
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
}
