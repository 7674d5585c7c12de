package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.testing.ServiceIntegrationTest;
import java.sql.SQLException;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;

class RolesIntegrationTest extends ServiceIntegrationTest {

    @Autowired
    private JdbcTemplate application;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "create table mine (id int)",
                "create temporary table mine (id int)",
                "create schema mine",
                "create role mine",
                "alter table firms add column mine int",
                "drop table device_terminals",
                "truncate device_terminals",
                "alter role current_user superuser",
            })
    void applicationRoleCannotChangeTables(String statement) {
        assertNotPermitted(statement);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update vehicle_revisions set document = ''",
                "delete from vehicle_revisions",
                "update vehicle_circuits set function = ''",
                "delete from vehicle_circuits",
                "update vehicle_vin_patterns set pattern = pattern",
                "delete from vehicle_vin_patterns",
                "update device_revisions set document = ''",
                "delete from device_revisions",
                "update device_terminals set function = ''",
                "delete from device_terminals",
                "update vehicle_mates set mate = ''",
                "delete from vehicle_mates",
                "update device_mates set mate = ''",
                "delete from device_mates",
                "update device_accessories set accessory = ''",
                "delete from device_accessories",
                "update hookup_revisions set report = ''",
                "delete from hookup_revisions",
                "update hookup_findings set severity = 'note'",
                "delete from hookup_findings",
                "update hookup_waivers set author = null",
                "delete from hookup_waivers",
                "delete from hookups",
                "update house_rules set document = ''",
                "delete from house_rules",
                "update thresholds set document = ''",
                "delete from thresholds",
                "delete from api_keys",
                "update api_keys set sha256 = sha256",
                "update vehicles set owner_firm = owner_firm",
                "select * from flyway_schema_history",
            })
    void applicationRoleCannotRewriteWhatIsWritten(String statement) {
        assertNotPermitted(statement);
    }

    @Test
    void applicationRoleOwnsNothing() {
        assertThat(application.queryForObject("""
                        select (select count(*) from pg_class where pg_get_userbyid(relowner) = current_user)
                             + (select count(*) from pg_namespace where pg_get_userbyid(nspowner) = current_user)
                             + (select count(*) from pg_database where pg_get_userbyid(datdba) = current_user)
                             + (select count(*) from pg_proc where pg_get_userbyid(proowner) = current_user)
                        """, Long.class)).isZero();
        assertThat(application.queryForObject(
                        "select rolsuper or rolcreaterole or rolcreatedb or rolbypassrls from pg_roles where rolname = current_user",
                        Boolean.class))
                .isFalse();
    }

    @Test
    void everyTableOfRowsThatAFirmOwnsNamesTheFirm() {
        assertThat(application.queryForList("""
                        select table_name from information_schema.tables t
                        where table_schema = current_schema()
                          and table_name not in ('firms', 'flyway_schema_history')
                          and not exists (select from information_schema.columns c
                                          where c.table_schema = t.table_schema and c.table_name = t.table_name
                                            and c.column_name = 'owner_firm' and c.is_nullable = 'NO')
                        """, String.class)).isEmpty();
    }

    private void assertNotPermitted(String statement) {
        assertThatThrownBy(() -> application.execute(statement))
                .rootCause()
                .asInstanceOf(InstanceOfAssertFactories.throwable(SQLException.class))
                .extracting(SQLException::getSQLState)
                .as("PostgreSQL's insufficient_privilege")
                .isEqualTo("42501");
    }
}
