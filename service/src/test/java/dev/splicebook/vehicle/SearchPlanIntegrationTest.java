package dev.splicebook.vehicle;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.VinPattern;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Selection;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.jdbc.core.simple.JdbcClient;

/** How the database goes about a search among some thousands of rows, all of a firm that nobody else's tests see. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SearchPlanIntegrationTest extends ServiceIntegrationTest {

    private static final UUID FIRM = UUID.randomUUID();
    private static final String VIN_CHARACTERS = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789";
    private static final PageQuery FIRST_PAGE = new PageQuery(50, List.of());

    @Autowired
    private Circuits circuits;

    @Autowired
    private Summaries summaries;

    @Autowired
    private JdbcClient rows;

    @BeforeAll
    void fillTheTables(@Autowired JdbcConnectionDetails application, @Autowired FlywayConnectionDetails owner)
            throws SQLException {
        rows.sql("insert into firms (id, name) values (:firm, 'Plans')")
                .param("firm", FIRM)
                .update();
        rows.sql("insert into vehicles (id, owner_firm, latest_revision) select gen_random_uuid(), :firm, 2"
                        + " from generate_series(1, 400)")
                .param("firm", FIRM)
                .update();
        rows.sql("""
                        insert into vehicle_revisions (vehicle_id, revision, owner_firm, document, maker, searched_text)
                        select id, revision, :firm, rpad('{}', 1500), 'maker ' || row_number() over (), 'number' || row_number() over ()
                        from vehicles, generate_series(1, 12) as revision where owner_firm = :firm
                        """).param("firm", FIRM).update();
        rows.sql("""
                        insert into vehicle_circuits (vehicle_id, revision, connector, pin, owner_firm, function, colour, position,
                                                      document, searched_text)
                        select vehicle_id, revision, 'C1', pin::text, :firm,
                               case when pin = 7 and random() < 0.02 then 'control.steering-wheel' else 'power.battery' end,
                               case when pin = 7 and random() < 0.02 then 'TQ/GD' else 'BK' end,
                               pin, '{}', case when pin = 7 and random() < 0.02 then 'seldom' else 'often' end
                        from vehicle_revisions, generate_series(1, 10) as pin where owner_firm = :firm and revision <= 2
                        """).param("firm", FIRM).update();
        rows.sql("""
                        insert into vehicle_vin_patterns (vehicle_id, revision, pattern, owner_firm)
                        select vehicle_id, revision, '5Z' || upper(substr(md5(vehicle_id::text || number), 1, 6)), :firm
                        from vehicle_revisions, generate_series(1, 5) as number where owner_firm = :firm and revision <= 2
                        """).param("firm", FIRM).update();
        try (Connection connection = DriverManager.getConnection(
                        application.getJdbcUrl(), owner.getUsername(), owner.getPassword());
                Statement statement = connection.createStatement()) {
            // what the server itself does every now and then: the figures, and the words that wait to enter their index
            statement.execute("vacuum analyze");
        }
    }

    @Test
    void searchesAFunctionByItsIndex() {
        assertThat(plan(circuits.ofEveryVehicle(FIRM, filter("control.steering-wheel", null, null), FIRST_PAGE)))
                .contains("vehicle_circuits_by_function")
                .doesNotContain("Seq Scan on vehicle_circuits");
    }

    @Test
    void searchesAGroupOfFunctionsByTheIndexOfFunctions() {
        assertThat(plan(circuits.ofEveryVehicle(FIRM, filter("control", null, null), FIRST_PAGE)))
                .contains("vehicle_circuits_by_function")
                .doesNotContain("Seq Scan on vehicle_circuits");
    }

    @Test
    void searchesAColourByItsIndex() {
        assertThat(plan(circuits.ofEveryVehicle(FIRM, filter(null, "TQ/GD", null), FIRST_PAGE)))
                .contains("vehicle_circuits_by_colour");
    }

    @Test
    void searchesWordsByTheirIndex() {
        assertThat(plan(circuits.ofEveryVehicle(FIRM, filter(null, null, "sel"), FIRST_PAGE)))
                .contains("vehicle_circuits_by_word");
        assertThat(plan(summaries.vehicles(
                        FIRM, new VehicleFilter(null, null, null, List.of(), "number77", null), FIRST_PAGE)))
                .contains("vehicle_revisions_by_word");
    }

    @Test
    void searchesAVinByTheBeginningsOfPatterns() {
        assertThat(plan(summaries.vehicles(
                        FIRM,
                        new VehicleFilter(null, null, null, List.of(), null, new Vin("5ZZAA1KA7L0000017")),
                        FIRST_PAGE)))
                .contains("vehicle_vin_patterns_by_stem");
    }

    @Test
    void matchesPatternsInTheDatabaseAsTheModelDoes() {
        long seed = 20_261_125;
        Random random = new Random(seed);
        UUID vehicle = rows.sql("select id from vehicles where owner_firm = :firm limit 1")
                .param("firm", FIRM)
                .query(UUID.class)
                .single();
        int revision = 13;
        rows.sql("insert into vehicle_revisions (vehicle_id, revision, owner_firm, document)"
                        + " values (:vehicle, :revision, :firm, '{}')")
                .param("vehicle", vehicle)
                .param("revision", revision)
                .param("firm", FIRM)
                .update();
        List<String> vins = new ArrayList<>();
        Set<VinPattern> patterns = new HashSet<>();
        for (int at = 0; at < 60; at++) {
            String vin = randomVin(random);
            vins.add(vin);
            for (int each = 0; each < 5; each++) {
                patterns.add(randomPattern(random, vin));
            }
        }
        patterns.forEach(
                pattern -> rows.sql("insert into vehicle_vin_patterns (vehicle_id, revision, pattern, owner_firm)"
                                + " values (:vehicle, :revision, :pattern, :firm)")
                        .param("vehicle", vehicle)
                        .param("revision", revision)
                        .param("pattern", pattern.value())
                        .param("firm", FIRM)
                        .update());

        int matches = 0;
        for (String vin : vins) {
            Set<String> byModel = new TreeSet<>();
            patterns.stream().filter(pattern -> pattern.matches(vin)).forEach(pattern -> byModel.add(pattern.value()));
            Set<String> byDatabase = new TreeSet<>(rows.sql("select p.pattern from vehicle_vin_patterns p where "
                            + Summaries.PATTERN_MATCHES + " and p.vehicle_id = :vehicle and p.revision = :revision")
                    .params(Summaries.patternParameters(vin))
                    .param("vehicle", vehicle)
                    .param("revision", revision)
                    .query(String.class)
                    .list());
            assertThat(byDatabase).as("patterns for %s, seed %s", vin, seed).isEqualTo(byModel);
            matches += byModel.size();
        }
        assertThat(matches).as("matches at all").isGreaterThan(60);
    }

    private String plan(Selection selection) {
        return String.join(
                "\n",
                rows.sql("explain " + selection.sql())
                        .params(selection.parameters())
                        .query(String.class)
                        .list());
    }

    private static CircuitFilter filter(@Nullable String function, @Nullable String colour, @Nullable String text) {
        return new CircuitFilter(
                function == null ? null : new FunctionId(function),
                colour == null ? null : new Colour(colour),
                null,
                text,
                null,
                null,
                null);
    }

    /** Few characters in the first places, so that patterns of one match others too. */
    private static String randomVin(Random random) {
        StringBuilder vin = new StringBuilder("WZ");
        while (vin.length() < 17) {
            int of = vin.length() < 8 ? 2 : VIN_CHARACTERS.length();
            vin.append(VIN_CHARACTERS.charAt(random.nextInt(of)));
        }
        return vin.toString();
    }

    private static VinPattern randomPattern(Random random, String vin) {
        StringBuilder pattern = new StringBuilder(vin.substring(0, 3 + random.nextInt(15)));
        for (int at = 0; at < pattern.length(); at++) {
            if (random.nextInt(4) == 0
                    && pattern.chars().filter(each -> each != '?').count() > 3) {
                pattern.setCharAt(at, '?');
            } else if (random.nextInt(20) == 0) {
                pattern.setCharAt(at, VIN_CHARACTERS.charAt(random.nextInt(VIN_CHARACTERS.length())));
            }
        }
        return new VinPattern(pattern.toString());
    }
}
