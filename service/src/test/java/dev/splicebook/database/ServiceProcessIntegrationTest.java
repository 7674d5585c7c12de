package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.shop.DemoKey;
import dev.splicebook.testing.ServiceProcess;
import dev.splicebook.testing.TestDatabase;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class ServiceProcessIntegrationTest {

    private final Path data = TestDatabase.newFolder().resolve("data");

    @Test
    void keepsWhatIsCommittedThroughAKillAndRefusesASecondService() throws Exception {
        UUID firm = UUID.randomUUID();
        try (ServiceProcess first = ServiceProcess.startOn(data)) {
            assertThat(first.calls().withKey(DemoKey.VALUE).get("/v1/none").statusCode())
                    .isEqualTo(404);
            assertThat(first.output()).contains(DemoKey.VALUE, "curl");
            assertThat(PosixFilePermissions.toString(
                            Files.getPosixFilePermissions(data.resolveSibling("data.password"))))
                    .isEqualTo("rw-------");

            try (ServiceProcess second = ServiceProcess.startOn(data)) {
                assertThat(second.exitCode()).isEqualTo(1);
                assertThat(second.output())
                        .contains("Another running Splicebook holds the data folder " + data)
                        .doesNotContain("\tat ");
            }

            execute("splicebook", "insert into firms (id, name) values ('" + firm + "', 'Kept')");
            ProcessHandle orphan = ServerProcess.findOn(data).orElseThrow().handle();
            first.kill();
            assertThat(orphan.isAlive()).isTrue();
        }
        try (ServiceProcess again = ServiceProcess.startOn(data)) {
            again.calls();
            assertThat(count("splicebook", "select count(*) from firms where id = '" + firm + "'"))
                    .isEqualTo(1);
            assertThat(count("splicebook", "select count(*) from api_keys")).isEqualTo(1);
        }
        assertThat(ServerProcess.findOn(data))
                .as("a stopped service takes its server along")
                .isEmpty();
    }

    @Test
    void usesTheGivenDatabaseWithTheFirstKeyAndWithoutTheDemoKey() throws Exception {
        try (EmbeddedDatabase server = EmbeddedDatabase.start(data, TestDatabase.programsFolder())) {
            assertThat(server.dataFolder()).isEqualTo(data);
            execute("postgres", "create role given_owner login password 'o'");
            execute("postgres", "create role given_app login password 'a'");
            execute("postgres", "create database given owner given_owner");
            String firstKey = "a-first-key-of-enough-length";
            Map<String, String> environment = Map.of(
                    "SPRING_DATASOURCE_URL", "jdbc:postgresql://127.0.0.1:" + port() + "/given",
                    "SPRING_DATASOURCE_USERNAME", "given_app",
                    "SPRING_DATASOURCE_PASSWORD", "a",
                    "SPRING_FLYWAY_USER", "given_owner",
                    "SPRING_FLYWAY_PASSWORD", "o",
                    "SPLICEBOOK_FIRST_KEY", firstKey);
            Path unused = data.resolveSibling("unused");

            try (ServiceProcess service =
                    ServiceProcess.start(environment, List.of("--splicebook.data-folder=" + unused))) {
                assertThat(service.calls().withKey(firstKey).get("/v1/none").statusCode())
                        .isEqualTo(404);
                assertThat(service.calls()
                                .withKey(DemoKey.VALUE)
                                .get("/v1/none")
                                .statusCode())
                        .isEqualTo(401);
                assertThat(service.output()).doesNotContain(DemoKey.VALUE).doesNotContain("runs both");
                assertThat(unused).doesNotExist();
                assertThat(count("given", "select count(*) from pg_tables where tableowner = 'given_app'"))
                        .isZero();
            }
        }
    }

    private void execute(String database, String statement) throws Exception {
        try (Connection connection = superuser(database);
                Statement sql = connection.createStatement()) {
            sql.execute(statement);
        }
    }

    private long count(String database, String query) throws Exception {
        try (Connection connection = superuser(database);
                Statement sql = connection.createStatement();
                ResultSet rows = sql.executeQuery(query)) {
            assertThat(rows.next()).isTrue();
            return rows.getLong(1);
        }
    }

    private Connection superuser(String database) throws SQLException, IOException {
        return DriverManager.getConnection(
                "jdbc:postgresql://127.0.0.1:" + port() + "/" + database,
                "postgres",
                Files.readString(data.resolveSibling("data.password")));
    }

    private String port() throws IOException {
        return Files.readAllLines(data.resolve("postmaster.pid")).get(3).strip();
    }
}
