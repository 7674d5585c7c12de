package dev.splicebook.vehicle;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.ServiceIntegrationTest;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.datasource.SingleConnectionDataSource;

/** What a book that was filled before it could be searched becomes, in a schema beside the service's own. */
class SearchMigrationIntegrationTest extends ServiceIntegrationTest {

    private static final String DOCUMENT = """
            {"circuits":{"C1-8":{"colour":"WH","note":"N\\u00e4he","carries":["chimes","hands-free"],"source":"fuse F12"},"chassis":{},\
            "DOOR-2-A1":{"whenPlugged":{"kind":"supply","maxAmps":1.50}}},"maker":"Ondrake","model":"Quarrel",\
            "connectors":{"C1":{"name":"radio plug","location":"behind the radio"},"DOOR-2":{}},\
            "equipment":["navigation","amplifier"],"market":"Norway","vinPatterns":["5ZZA?1","WZZ"],"notes":"an estate"}\
            """;

    private final String schema = "old_book_" + UUID.randomUUID().toString().replace('-', '_');

    @Autowired
    private JdbcConnectionDetails application;

    @Autowired
    private FlywayConnectionDetails owner;

    private SingleConnectionDataSource connection;
    private JdbcClient rows;

    @BeforeEach
    void connectAsOwner() {
        connection = new SingleConnectionDataSource(
                application.getJdbcUrl(),
                String.valueOf(owner.getUsername()),
                String.valueOf(owner.getPassword()),
                true);
        rows = JdbcClient.create(connection);
        rows.sql("create schema " + schema).update();
        rows.sql("set search_path to " + schema).update();
    }

    @AfterEach
    void leaveNothingBehind() {
        rows.sql("drop schema " + schema + " cascade").update();
        connection.destroy();
    }

    @Test
    void fillsWhatIsSearchedFromTheDocumentsThatAreThere() {
        migrateTo("1");
        UUID full = UUID.randomUUID();
        UUID bare = UUID.randomUUID();
        rows.sql("insert into firms (id, name) values (:id, 'Firm')")
                .param("id", full)
                .update();
        insert(full, full, DOCUMENT, Map.of("C1", "8", "", "chassis", "DOOR-2", "A1"));
        insert(full, bare, "{}", Map.of());

        migrateTo("2");

        assertThat(rows.sql("select concat_ws('|', position, connector, pin, connector_name, location, document)"
                                + " from vehicle_circuits order by position")
                        .query(String.class)
                        .list())
                .containsExactly(
                        "0|C1|8|radio plug|behind the radio|{\"colour\":\"WH\",\"note\":\"N\\u00e4he\","
                                + "\"carries\":[\"chimes\",\"hands-free\"],\"source\":\"fuse F12\"}",
                        "1||chassis|{}",
                        "2|DOOR-2|A1|{\"whenPlugged\":{\"kind\":\"supply\",\"maxAmps\":1.50}}");
        assertThat(rows.sql(
                                "select concat_ws('|', market, array_to_string(equipment, ','), circuits) from vehicle_revisions"
                                        + " order by circuits desc")
                        .query(String.class)
                        .list())
                .containsExactly("Norway|navigation,amplifier|3", "|0");
        assertThat(rows.sql(
                                "select pattern || ' ' || stem || ' ' || owner_firm from vehicle_vin_patterns order by pattern")
                        .query(String.class)
                        .list())
                .containsExactly("5ZZA?1 5ZZA " + full, "WZZ WZZ " + full);
        for (String word : List.of("radio", "plu", "f12", "fuse behind", "n\u00e4he", "free", "hands-free")) {
            assertThat(count("vehicle_circuits", word)).as(word).isEqualTo(1);
        }
        for (String word : List.of("ondrake", "quar", "norw", "ampl navi", "estate")) {
            assertThat(count("vehicle_revisions", word)).as(word).isEqualTo(1);
        }
        assertThat(count("vehicle_circuits", "nothing")).isZero();
    }

    private void insert(UUID firm, UUID vehicle, String document, Map<String, String> pinsByConnector) {
        rows.sql("insert into vehicles (id, owner_firm, latest_revision) values (:id, :firm, 1)")
                .param("id", vehicle)
                .param("firm", firm)
                .update();
        rows.sql(
                        "insert into vehicle_revisions (vehicle_id, revision, owner_firm, document) values (:id, 1, :firm, :document)")
                .param("id", vehicle)
                .param("firm", firm)
                .param("document", document)
                .update();
        pinsByConnector.forEach((connector, pin) -> rows.sql(
                        "insert into vehicle_circuits (vehicle_id, revision, connector, pin, owner_firm)"
                                + " values (:id, 1, :connector, :pin, :firm)")
                .param("id", vehicle)
                .param("connector", connector)
                .param("pin", pin)
                .param("firm", firm)
                .update());
    }

    private long count(String table, String text) {
        return rows.sql("select count(*) from " + table + " where searched @@ search_query(:text)")
                .param("text", text)
                .query(Long.class)
                .single();
    }

    private void migrateTo(String version) {
        Flyway.configure()
                .dataSource(connection)
                .defaultSchema(schema)
                .placeholders(Map.of("applicationRole", '"' + String.valueOf(application.getUsername()) + '"'))
                .target(version)
                .load()
                .migrate();
    }
}
