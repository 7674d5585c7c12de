package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Properties;
import javax.sql.DataSource;
import org.flywaydb.core.api.configuration.FluentConfiguration;
import org.flywaydb.core.internal.jdbc.DriverDataSource;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.jdbc.datasource.DriverManagerDataSource;

/** A migration may take its time, which the application's connections may not. */
class MigrationConfigurationTest {

    private final DataSource application = new DriverManagerDataSource();

    private record OfApplication(String getJdbcUrl, String getUsername, String getPassword)
            implements JdbcConnectionDetails {

        @Override
        public String getUsername() {
            return getUsername;
        }

        @Override
        public String getPassword() {
            return getPassword;
        }

        @Override
        public String getJdbcUrl() {
            return getJdbcUrl;
        }
    }

    private record OfOwner(@Nullable String getUsername) implements FlywayConnectionDetails {

        @Override
        public @Nullable String getUsername() {
            return getUsername;
        }

        @Override
        public @Nullable String getPassword() {
            return getUsername;
        }

        @Override
        public @Nullable String getJdbcUrl() {
            return null;
        }
    }

    private FluentConfiguration configured(@Nullable String owner) {
        FluentConfiguration configuration = new FluentConfiguration().dataSource(application);
        new MigrationConfiguration()
                .applicationRole(
                        new OfApplication("jdbc:postgresql://127.0.0.1:1/book", "app", "secret"),
                        new OfOwner(owner),
                        application)
                .customize(configuration);
        return configuration;
    }

    @Test
    void usesNoConnectionOfTheApplicationWhereOneRoleDoesBoth() {
        assertThat(configured(null).getDataSource()).isInstanceOfSatisfying(DriverDataSource.class, own -> {
            assertThat(own.getUrl()).isEqualTo("jdbc:postgresql://127.0.0.1:1/book");
            assertThat(own.getUser()).isEqualTo("app");
            Properties limits = new Properties();
            limits.putAll(own.getAdditionalProperties());
            assertThat(limits).doesNotContainKeys("socketTimeout", "options");
        });
    }

    @Test
    void leavesTheOwnersConnectionAsItIs() {
        assertThat(configured("owner").getDataSource()).isSameAs(application);
    }
}
