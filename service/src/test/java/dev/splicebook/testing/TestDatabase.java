package dev.splicebook.testing;

import dev.splicebook.shop.DemoKey;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.springframework.boot.SpringApplication;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.util.FileSystemUtils;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.postgresql.PostgreSQLContainer;

/**
 * The database of the integration tests: the embedded one in a folder of its own, or, with the system property
 * {@code splicebook.test.database=container}, a server in a container with roles made by an operator.
 */
public final class TestDatabase {

    private static final boolean CONTAINER = "container".equals(System.getProperty("splicebook.test.database"));
    private static final String FIRST_KEY = "first-key-of-the-integration-tests";

    private static @Nullable PostgreSQLContainer container;

    private TestDatabase() {}

    /** A key that the service under test lets in. */
    public static String key() {
        return CONTAINER ? FIRST_KEY : DemoKey.VALUE;
    }

    /** Where the server's programs are unpacked, once for all tests. */
    public static Path programsFolder() {
        return Path.of("target", "postgresql").toAbsolutePath();
    }

    /** A new folder with a space in its name, for data that is deleted when this process ends. */
    public static Path newFolder() {
        try {
            Path folder = Files.createTempDirectory("splicebook tests ");
            // runs after the contexts, and so the servers in them, have ended
            SpringApplication.getShutdownHandlers().add(() -> deleteRecursively(folder));
            return folder;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static void configure(DynamicPropertyRegistry registry) {
        if (CONTAINER) {
            PostgreSQLContainer server = startedContainer();
            registry.add("spring.datasource.url", server::getJdbcUrl);
            registry.add("spring.datasource.username", () -> "tests_app");
            registry.add("spring.datasource.password", () -> "tests_app");
            registry.add("spring.flyway.user", () -> "tests_owner");
            registry.add("spring.flyway.password", () -> "tests_owner");
            registry.add("splicebook.first-key", () -> FIRST_KEY);
            registry.add("splicebook.demo-book", () -> "true");
        } else {
            Path folder = newFolder();
            registry.add("splicebook.data-folder", () -> folder.resolve("data").toString());
            registry.add("splicebook.programs-folder", () -> programsFolder().toString());
        }
    }

    private static synchronized PostgreSQLContainer startedContainer() {
        PostgreSQLContainer server = container;
        if (server == null) {
            server = new PostgreSQLContainer("postgres:18");
            server.start();
            try (Connection connection = DriverManager.getConnection(
                            server.getJdbcUrl(), server.getUsername(), server.getPassword());
                    Statement statement = connection.createStatement()) {
                statement.execute("create role tests_owner login password 'tests_owner'");
                statement.execute("create role tests_app login password 'tests_app'");
                statement.execute("alter database " + server.getDatabaseName() + " owner to tests_owner");
                statement.execute("revoke temporary on database " + server.getDatabaseName() + " from public");
            } catch (SQLException e) {
                throw new IllegalStateException("the roles of the tests could not be made", e);
            }
            container = server;
        }
        return server;
    }

    private static void deleteRecursively(Path folder) {
        try {
            FileSystemUtils.deleteRecursively(folder);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Skips the tests that want a container where no engine runs one. */
    static final class Available implements ExecutionCondition {

        @Override
        public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
            return !CONTAINER || DockerClientFactory.instance().isDockerAvailable()
                    ? ConditionEvaluationResult.enabled("there is a database")
                    : ConditionEvaluationResult.disabled("no container engine here");
        }
    }
}
