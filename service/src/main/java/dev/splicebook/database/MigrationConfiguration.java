package dev.splicebook.database;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.Map;
import javax.sql.DataSource;
import org.flywaydb.core.api.configuration.FluentConfiguration;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.flyway.autoconfigure.FlywayConfigurationCustomizer;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
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
            throw new StartRefusedException(
                    "The database that SPRING_DATASOURCE_URL names cannot be reached: " + e.getMessage() + ".",
                    "Start it, or name another one.",
                    e);
        }
    }

    private static String quoted(String role) {
        return '"' + role.replace("\"", "\"\"") + '"';
    }
}
