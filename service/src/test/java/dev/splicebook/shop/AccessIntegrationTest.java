package dev.splicebook.shop;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.testing.TestDatabase;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;

class AccessIntegrationTest extends ServiceIntegrationTest {

    private static final String UNKNOWN_PATH = "/v1/none";

    @Autowired
    private JdbcTemplate rows;

    @Autowired
    private Access access;

    @ParameterizedTest
    @ValueSource(strings = {"/v1/functions", UNKNOWN_PATH, "/none", "/error", "/actuator/env"})
    void challengesWithoutAKey(String path) {
        assertChallenged(anonymousCalls().get(path));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Bearer",
                "Bearer ",
                "Bearer wrong-key",
                "Basic c3BsaWNlYm9vazpkZW1v",
                "bearer \u00e9",
                "Bearer ' or 1=1 --",
            })
    void challengesWithoutAGoodKey(String authorization) {
        assertChallenged(anonymousCalls().with("Authorization", authorization).get(UNKNOWN_PATH));
    }

    @Test
    void challengesAKeyOfAbsurdLength() {
        assertChallenged(anonymousCalls().withKey("k".repeat(2000)).get(UNKNOWN_PATH));
    }

    @Test
    void letsInWithAKeyWhateverTheCaseOfTheScheme() {
        assertThat(calls().get(UNKNOWN_PATH).statusCode()).isEqualTo(404);
        assertThat(anonymousCalls()
                        .with("Authorization", "bEARER " + TestDatabase.key())
                        .get(UNKNOWN_PATH)
                        .statusCode())
                .isEqualTo(404);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"/actuator/health", "/actuator/health/liveness", "/actuator/health/readiness", "/v3/api-docs"})
    void isOpenToAllHere(String path) {
        assertThat(anonymousCalls().get(path).statusCode()).isEqualTo(200);
    }

    @Test
    void leadsFromTheBareAddressToTheDescription() {
        HttpResponse<String> response = anonymousCalls().get("/");

        assertThat(response.statusCode()).isEqualTo(302);
        assertThat(Calls.header(response, "Location")).endsWith("/swagger-ui.html");
    }

    @Test
    void keepsNoSession() {
        assertThat(calls().get(UNKNOWN_PATH).headers().firstValue("Set-Cookie")).isEmpty();
    }

    @Test
    void storesTheHashAndNotTheKey() {
        assertThat(rows.queryForObject(
                        "select count(*) from api_keys where sha256 = sha256(?::bytea)", Long.class, (Object)
                                TestDatabase.key().getBytes(StandardCharsets.UTF_8)))
                .isEqualTo(1);
        assertThat(rows.queryForObject(
                        "select count(*) from api_keys where position(? in api_keys::text) > 0",
                        Long.class,
                        TestDatabase.key()))
                .isZero();
    }

    @Test
    void refusesARevokedKey() {
        String key = "key-" + UUID.randomUUID();
        rows.update(
                "insert into api_keys (id, owner_firm, shop, name, sha256)"
                        + " select gen_random_uuid(), owner_firm, id, 'second', sha256(?::bytea) from shops limit 1",
                (Object) key.getBytes(StandardCharsets.UTF_8));
        assertThat(anonymousCalls().withKey(key).get(UNKNOWN_PATH).statusCode()).isEqualTo(404);

        rows.update("update api_keys set revoked_at = now() where sha256 = sha256(?::bytea)", (Object)
                key.getBytes(StandardCharsets.UTF_8));

        assertChallenged(anonymousCalls().withKey(key).get(UNKNOWN_PATH));
    }

    @Test
    void opensTheFirstFirmOnce() {
        long before = countKeys();

        access.openFirst("Another", "Another", "another-key-of-enough-length");

        assertThat(countKeys()).isEqualTo(before);
        assertThat(access.findCaller(TestDatabase.key())).isEqualTo(access.findFirstCaller());
    }

    private long countKeys() {
        Long count = rows.queryForObject("select count(*) from api_keys", Long.class);
        return count == null ? 0 : count;
    }

    private static void assertChallenged(HttpResponse<String> response) {
        assertThat(response.statusCode()).isEqualTo(401);
        assertThat(Calls.header(response, "WWW-Authenticate")).isEqualTo("Bearer realm=\"splicebook\"");
        assertThat(Calls.header(response, "Content-Type")).startsWith("application/problem+json");
        assertThat(Calls.json(response).path("type").asString()).isEqualTo("/problems/unauthorized");
        assertThat(Calls.json(response).path("requestId").asString()).isNotBlank();
    }
}
