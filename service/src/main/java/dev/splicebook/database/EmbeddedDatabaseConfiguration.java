package dev.splicebook.database;

import java.net.InetAddress;
import java.nio.file.Path;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.boot.web.server.ConfigurableWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.env.Environment;

/** With no database given: one of our own, and no listening beyond this machine, for the demo key is known to all. */
@Configuration(proxyBeanMethods = false)
@ConditionalOnNoDatabaseGiven
class EmbeddedDatabaseConfiguration {

    @Bean
    EmbeddedDatabase embeddedDatabase(
            @Value("${splicebook.data-folder}") String dataFolder,
            @Value("${splicebook.programs-folder}") String programsFolder) {
        return EmbeddedDatabase.start(Path.of(dataFolder), Path.of(programsFolder));
    }

    @Bean
    JdbcConnectionDetails applicationConnection(EmbeddedDatabase database) {
        return new ApplicationConnection(database);
    }

    @Bean
    FlywayConnectionDetails ownerConnection(EmbeddedDatabase database) {
        return new OwnerConnection(database);
    }

    @Bean
    WebServerFactoryCustomizer<ConfigurableWebServerFactory> loopbackUnlessToldOtherwise(Environment environment) {
        return factory -> {
            if (!environment.containsProperty("server.address")) {
                factory.setAddress(InetAddress.getLoopbackAddress());
            }
        };
    }

    private record ApplicationConnection(EmbeddedDatabase database) implements JdbcConnectionDetails {

        @Override
        public String getJdbcUrl() {
            return database.jdbcUrl();
        }

        @Override
        public String getUsername() {
            return EmbeddedDatabase.APPLICATION;
        }

        @Override
        public String getPassword() {
            return database.applicationPassword();
        }
    }

    private record OwnerConnection(EmbeddedDatabase database) implements FlywayConnectionDetails {

        @Override
        public String getJdbcUrl() {
            return database.jdbcUrl();
        }

        @Override
        public String getUsername() {
            return EmbeddedDatabase.OWNER;
        }

        @Override
        public String getPassword() {
            return database.ownerPassword();
        }
    }
}
