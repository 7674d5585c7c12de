package dev.splicebook.vehicle;

import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import dev.splicebook.web.Selection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Circuits of stored maps, found by SQL. */
@Repository
class Circuits {

    private static final String COLUMNS = """
            select v.id, v.created_at, r.revision, r.maker, r.model, r.year_from, r.year_to, c.position, c.connector, c.pin,
                   c.connector_name, c.location, c.document
            from vehicles v
            join vehicle_revisions r on r.vehicle_id = v.id
            join vehicle_circuits c on c.vehicle_id = r.vehicle_id and c.revision = r.revision
            """;

    private final JdbcClient database;

    Circuits(JdbcClient database) {
        this.database = database;
    }

    private record Row(FoundCircuit circuit, Instant vehicleCreatedAt) {}

    /** Circuits of the latest revision of every vehicle that the firm may see. */
    PageOf<FoundCircuit> listCircuits(UUID firm, CircuitFilter filter, PageQuery page) {
        List<Row> fetched = fetch(ofEveryVehicle(firm, filter, page));
        PageOf<Row> rows = PageOf.ofFetched(
                fetched,
                page.limit(),
                last -> List.of(
                        last.vehicleCreatedAt().toString(),
                        last.circuit().vehicle().toString(),
                        Integer.toString(last.circuit().position())));
        return new PageOf<>(rows.items().stream().map(Row::circuit).toList(), rows.next());
    }

    /**
     * Circuits of one revision.
     *
     * @param afterPosition those behind it in the order of the map
     */
    PageOf<FoundCircuit> listCircuits(UUID vehicle, int revision, CircuitFilter filter, int afterPosition, int limit) {
        Selection selection = filtered(
                        new Selection(COLUMNS + "where v.id = :id and r.revision = :revision")
                                .with("id", vehicle)
                                .with("revision", revision),
                        filter)
                .and("c.position > :afterPosition")
                .with("afterPosition", afterPosition)
                .then("order by c.position limit :most")
                .with("most", limit + 1);
        List<FoundCircuit> fetched = fetch(selection).stream().map(Row::circuit).toList();
        return PageOf.ofFetched(
                fetched, limit, last -> List.of(Integer.toString(revision), Integer.toString(last.position())));
    }

    Selection ofEveryVehicle(UUID firm, CircuitFilter filter, PageQuery page) {
        Selection selection = filtered(
                new Selection(COLUMNS + "where r.revision = v.latest_revision and (v.owner_firm = :firm or v.shared)")
                        .with("firm", firm),
                filter);
        List<String> after = page.after(3);
        if (!after.isEmpty()) {
            selection
                    .and("(v.created_at, v.id, c.position) > (:afterTime, :afterId, :afterPosition)")
                    .with("afterTime", Positions.instant(after.get(0)))
                    .with("afterId", Positions.uuid(after.get(1)))
                    .with("afterPosition", Positions.number(after.get(2)));
        }
        return selection
                .then("order by v.created_at, v.id, c.position limit :most")
                .with("most", page.limit() + 1);
    }

    private static Selection filtered(Selection selection, CircuitFilter filter) {
        if (filter.function() != null) {
            selection.ofFunction("%s", "c.function", filter.function().value());
        }
        if (filter.colour() != null) {
            selection.and("c.colour = :colour").with("colour", filter.colour().value());
        }
        if (filter.connector() != null) {
            selection.and("c.connector = :connector").with("connector", filter.connector());
        }
        return Summaries.ofVehicle(selection, filter.maker(), filter.model(), filter.year())
                .withWords("c.searched", filter.text());
    }

    private List<Row> fetch(Selection selection) {
        return database.sql(selection.sql())
                .params(selection.parameters())
                .query((row, number) -> read(row))
                .list();
    }

    private static Row read(ResultSet row) throws SQLException {
        String connector = row.getString("connector");
        String pin = row.getString("pin");
        FoundCircuit circuit = new FoundCircuit(
                row.getObject("id", UUID.class),
                row.getInt("revision"),
                row.getString("maker"),
                row.getString("model"),
                Summaries.number(row, "year_from"),
                Summaries.number(row, "year_to"),
                connector.isEmpty() ? pin : connector + "-" + pin,
                row.getString("connector_name"),
                row.getString("location"),
                row.getInt("position"),
                row.getString("document"));
        return new Row(circuit, Summaries.time(row, "created_at"));
    }
}
