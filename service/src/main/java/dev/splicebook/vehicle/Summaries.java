package dev.splicebook.vehicle;

import dev.splicebook.vehicle.Book.VehicleSummary;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import dev.splicebook.web.Selection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Revisions without their documents, found by SQL. */
@Repository
class Summaries {

    private static final String COLUMNS = """
            select v.id, v.shared, v.created_at as vehicle_created_at, r.revision, r.created_at, r.maker, r.model,
                   r.year_from, r.year_to, r.market, r.equipment, r.circuits
            from vehicles v join vehicle_revisions r on r.vehicle_id = v.id
            """;

    /** What a pattern matches, like {@code VinPattern.matches}; for {@link #patternParameters}. */
    static final String PATTERN_MATCHES =
            // by what it begins with, and not by each pattern in turn, so that the patterns' index serves
            "p.stem = any(cast(:stems as text[])) and :vin like replace(p.pattern, '?', '_') || '%'";

    private final JdbcClient database;

    Summaries(JdbcClient database) {
        this.database = database;
    }

    private record Row(VehicleSummary summary, Instant vehicleCreatedAt) {}

    PageOf<VehicleSummary> listVehicles(UUID firm, VehicleFilter filter, PageQuery page) {
        List<Row> fetched = fetch(vehicles(firm, filter, page));
        PageOf<Row> rows = PageOf.ofFetched(
                fetched,
                page.limit(),
                last -> List.of(
                        last.vehicleCreatedAt().toString(), last.summary().id().toString()));
        return new PageOf<>(rows.items().stream().map(Row::summary).toList(), rows.next());
    }

    PageOf<VehicleSummary> listRevisions(UUID vehicle, PageQuery page) {
        Selection selection = new Selection(COLUMNS + "where v.id = :id").with("id", vehicle);
        List<String> after = page.after(1);
        if (!after.isEmpty()) {
            selection.and("r.revision < :below").with("below", Positions.number(after.get(0)));
        }
        selection.then("order by r.revision desc limit :most").with("most", page.limit() + 1);
        List<VehicleSummary> fetched =
                fetch(selection).stream().map(Row::summary).toList();
        return PageOf.ofFetched(fetched, page.limit(), last -> List.of(Integer.toString(last.revision())));
    }

    Selection vehicles(UUID firm, VehicleFilter filter, PageQuery page) {
        Selection latest = new Selection(
                        COLUMNS + "where r.revision = v.latest_revision and (v.owner_firm = :firm or v.shared)")
                .with("firm", firm);
        Selection selection =
                ofVehicle(latest, filter.maker(), filter.model(), filter.year()).withWords("r.searched", filter.text());
        if (!filter.equipment().isEmpty()) {
            selection
                    .and("r.equipment @> cast(:equipment as text[])")
                    .with("equipment", filter.equipment().toArray(String[]::new));
        }
        if (filter.vin() != null) {
            addVin(selection, filter.vin());
        }
        List<String> after = page.after(2);
        if (!after.isEmpty()) {
            selection
                    .and("(v.created_at, v.id) > (:afterTime, :afterId)")
                    .with("afterTime", Positions.instant(after.get(0)))
                    .with("afterId", Positions.uuid(after.get(1)));
        }
        return selection.then("order by v.created_at, v.id limit :most").with("most", page.limit() + 1);
    }

    /** What searches of vehicles and of circuits tell vehicles by; r are the revisions. */
    static Selection ofVehicle(
            Selection selection, @Nullable String maker, @Nullable String model, @Nullable Integer year) {
        selection.startsWith("lower(r.maker)", "maker", maker).startsWith("lower(r.model)", "model", model);
        return year == null
                ? selection
                : selection.and("r.year_from <= :year and r.year_to >= :year").with("year", year);
    }

    static Map<String, Object> patternParameters(String vin) {
        String[] stems = IntStream.rangeClosed(0, vin.length())
                .mapToObj(end -> vin.substring(0, end))
                .toArray(String[]::new);
        return Map.of("vin", vin, "stems", stems);
    }

    private static void addVin(Selection selection, Vin vin) {
        selection.and("exists (select from vehicle_vin_patterns p where p.vehicle_id = r.vehicle_id"
                + " and p.revision = r.revision and " + PATTERN_MATCHES + ")");
        patternParameters(vin.value()).forEach(selection::with);
        List<Integer> years = vin.modelYears();
        if (!years.isEmpty()) {
            selection.and("""
                            (r.year_from is null
                             or exists (select from unnest(cast(:vinYears as integer[])) as vin_year
                                        where vin_year between r.year_from and r.year_to))""").with("vinYears", years.toArray(Integer[]::new));
        }
    }

    private List<Row> fetch(Selection selection) {
        return database.sql(selection.sql())
                .params(selection.parameters())
                .query((row, number) -> read(row))
                .list();
    }

    private static Row read(ResultSet row) throws SQLException {
        VehicleSummary summary = new VehicleSummary(
                row.getObject("id", UUID.class),
                row.getInt("revision"),
                row.getBoolean("shared"),
                time(row, "created_at"),
                row.getString("maker"),
                row.getString("model"),
                number(row, "year_from"),
                number(row, "year_to"),
                row.getString("market"),
                List.of((String[]) row.getArray("equipment").getArray()),
                row.getInt("circuits"));
        return new Row(summary, time(row, "vehicle_created_at"));
    }

    static Instant time(ResultSet row, String column) throws SQLException {
        return Objects.requireNonNull(row.getObject(column, OffsetDateTime.class), column)
                .toInstant();
    }

    static @Nullable Integer number(ResultSet row, String column) throws SQLException {
        return row.getObject(column, Integer.class);
    }
}
