package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.web.StrictReader;
import java.util.List;
import java.util.UUID;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A book of the first version in a schema of its own, brought up to date by the role that owns it. */
class OldDocumentsIntegrationTest extends ServiceIntegrationTest {

    private static final UUID VEHICLE = UUID.randomUUID();
    private static final String VEHICLE_OLD =
            "{\"maker\":\"Corvane\",\"connectors\":{\"C1\":{\"access\":\"Pull the trim ring.\",\"pinCount\":16}},"
                    + "\"circuits\":{\"C1-7\":{\"electrical\":{\"kind\":\"supply\",\"volts\":12.60}}}}";
    private static final String DEVICE_OLD =
            "{\"code\":\"HAR-9\",\"name\":\"Harness\",\"notes\":\"for grey plugs\",\"connectors\":{\"P1\":{\"access\":\"x\"}}}";
    private static final String DEVICE_MATING =
            "{\"code\":\"HAR-9\",\"connectors\":{\"P1\":{\"mates\":[\"QF-16\",\"QF-8\"]}},"
                    + "\"accessories\":[{\"device\":\"REL-30\"},{\"device\":\"REL-30\",\"why\":\"spare\"}]}";

    private final String schema = "old_" + UUID.randomUUID().toString().replace("-", "");

    @Autowired
    private Flyway flyway;

    private JdbcClient owner;

    @BeforeEach
    void openAnOldBook() {
        owner = JdbcClient.create(flyway.getConfiguration().getDataSource());
        migrateTo("1");
        owner.sql("""
                        insert into %1$s.firms (id, name) values (:firm, 'Old firm');
                        insert into %1$s.vehicles (id, owner_firm, latest_revision) values (:vehicle, :firm, 1);
                        insert into %1$s.vehicle_revisions (vehicle_id, revision, owner_firm, document, maker)
                        values (:vehicle, 1, :firm, :map, 'Corvane');
                        insert into %1$s.vehicle_circuits (vehicle_id, revision, connector, pin, owner_firm)
                        values (:vehicle, 1, 'C1', '7', :firm);
                        insert into %1$s.devices (id, owner_firm, code, latest_revision)
                        values (:vehicle, :firm, 'HAR-9', 2);
                        insert into %1$s.device_revisions (device_id, revision, owner_firm, document, name)
                        values (:vehicle, 1, :firm, :device, 'Harness'), (:vehicle, 2, :firm, :mating, null);
                        """.formatted(schema))
                .param("firm", UUID.randomUUID())
                .param("vehicle", VEHICLE)
                .param("map", VEHICLE_OLD)
                .param("device", DEVICE_OLD)
                .param("mating", DEVICE_MATING)
                .update();
    }

    @AfterEach
    void closeIt() {
        owner.sql("drop schema %s cascade".formatted(schema)).update();
    }

    @Test
    void bringsOldDocumentsIntoShapeAndFillsTheRowsTheyAreSearchedBy() {
        migrateTo("latest");

        String map = one("select document from %s.vehicle_revisions");
        assertThat(map)
                .isEqualTo(VEHICLE_OLD.replace("\"Pull the trim ring.\"", "[{\"panel\":\"Pull the trim ring.\"}]"));
        assertThat(StrictReader.read(map, FunctionMap.class).circuits()).containsOnlyKeys("C1-7");
        String device = one("select document from %s.device_revisions where revision = 1");
        assertThat(StrictReader.read(device, Device.class).connectors()).containsOnlyKeys("P1");
        assertThat(one("select document from %s.device_revisions where revision = 2"))
                .isEqualTo(DEVICE_MATING);
        assertThat(all("select revision || connector || ' ' || mate from %s.device_mates order by mate"))
                .containsExactly("2P1 QF-16", "2P1 QF-8");
        assertThat(all("select revision || ' ' || accessory from %s.device_accessories"))
                .containsExactly("2 REL-30");
        assertThat(all("select revision from %1$s.device_revisions where searched @@ %1$s.search_query('har gre')"))
                .containsExactly("1");
    }

    private void migrateTo(String version) {
        Flyway.configure()
                .configuration(flyway.getConfiguration())
                .schemas(schema)
                .defaultSchema(schema)
                .createSchemas(true)
                .target(version)
                .load()
                .migrate();
    }

    private String one(String query) {
        return owner.sql(query.formatted(schema)).query(String.class).single();
    }

    private List<String> all(String query) {
        return owner.sql(query.formatted(schema)).query(String.class).list();
    }
}
