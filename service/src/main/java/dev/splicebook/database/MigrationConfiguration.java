package dev.splicebook.database;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.Map;
import javax.sql.DataSource;
import org.flywaydb.core.api.FlywayException;
import org.flywaydb.core.api.configuration.FluentConfiguration;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.flyway.autoconfigure.FlywayConfigurationCustomizer;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.flyway.autoconfigure.FlywayMigrationStrategy;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.NestedExceptionUtils;
import org.springframework.util.StringUtils;

/** Tells the migrations which role runs the application, so that they can grant it what it needs and no more. */
@Configuration(proxyBeanMethods = false)
class MigrationConfiguration {

    static {
        // read once by the pool's class: a connection is tried before each use, else the first requests after a loss
        // of the database would be answered by dead connections
        System.setProperty("com.zaxxer.hikari.aliveBypassWindowMs", "0");
    }

    private static final Logger log = LoggerFactory.getLogger(MigrationConfiguration.class);

    @Bean
    FlywayConfigurationCustomizer applicationRole(
            JdbcConnectionDetails application, FlywayConnectionDetails owner, DataSource dataSource) {
        return configuration -> {
            String applicationRole = application.getUsername();
            if (!StringUtils.hasText(applicationRole)) {
                applicationRole = currentRole(dataSource);
            }
            String ownerRole = owner.getUsername();
            if (!StringUtils.hasText(ownerRole)) {
                // the application's own connections give up after seconds, which filling a new column may well take
                configuration.dataSource(
                        application.getJdbcUrl(), application.getUsername(), application.getPassword());
            }
            if (!StringUtils.hasText(ownerRole) || applicationRole.equals(ownerRole)) {
                log.warn(
                        "The database role {} runs both the migrations and the application, which may then change"
                                + " tables and not only rows; SPRING_FLYWAY_USER and SPRING_FLYWAY_PASSWORD name an"
                                + " owner of its own.",
                        applicationRole);
            }
            addPlaceholder(configuration, "applicationRole", quoted(applicationRole));
        };
    }

    /** Says in a sentence, and not in a stack trace, that there is no database to migrate. */
    @Bean
    FlywayMigrationStrategy migration() {
        return flyway -> {
            try {
                flyway.migrate();
            } catch (FlywayException e) {
                throw DatabaseAway.isCauseOf(e) ? unreachable(e) : e;
            }
        };
    }

    private static StartRefusedException unreachable(Exception failure) {
        return new StartRefusedException(
                "The database cannot be reached: "
                        + NestedExceptionUtils.getMostSpecificCause(failure).getMessage() + ".",
                "Start it, or check SPRING_DATASOURCE_URL.",
                failure);
    }

    private static void addPlaceholder(FluentConfiguration configuration, String name, String value) {
        Map<String, String> placeholders = new HashMap<>(configuration.getPlaceholders());
        placeholders.put(name, value);
        configuration.placeholders(placeholders);
    }

    private static String currentRole(DataSource dataSource) {
        try (Connection connection = dataSource.getConnection();
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery("select current_user")) {
            rows.next();
            return rows.getString(1);
        } catch (SQLException e) {
            throw unreachable(e);
        }
    }

    private static String quoted(String role) {
        return '"' + role.replace("\"", "\"\"") + '"';
    }
}
