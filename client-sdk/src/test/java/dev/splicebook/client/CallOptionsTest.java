package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CallOptionsTest {

    private static final String FUNCTION = """
            {"id": "power.battery", "kind": "power", "what": "w", "test": "t"}""";
    private static final String DEVICE = """
            {"code": "REL", "revision": 1, "latestRevision": 1, "shared": false, "createdAt": "2026-11-25T10:00:00Z",
             "document": {"code": "REL"}}""";
    private static final Document DOCUMENT = Document.parse("{}");

    private final FakeService service = new FakeService();

    @AfterEach
    void closeService() {
        service.close();
    }

    private String keyOf(int request) {
        return service.requests().get(request).header("Idempotency-key");
    }

    @Test
    void waitsAsLongAsTheCallMay() {
        service.neverAnswers();

        assertThatExceptionOfType(ConnectionException.class)
                .isThrownBy(() -> service.client()
                        .build()
                        .with(CallOptions.defaults().timeout(Duration.ofMillis(120)))
                        .functions()
                        .get("power.battery"))
                .withMessageEndingWith("was not answered within 120 ms");
    }

    @Test
    void triesAsOftenAsTheCallMay() {
        Splicebook client = service.client().retries(0).build();
        for (int at = 0; at < 3; at++) {
            service.answersProblem(503, "database-away", Map.of());
        }
        service.answers(200, FUNCTION);

        client.with(CallOptions.defaults().retries(3)).functions().get("power.battery");

        assertThat(service.waits()).hasSize(3);
    }

    @Test
    void leavesTheClientAsItIs() {
        Splicebook client = service.client().build();
        client.with(CallOptions.defaults().retries(0));
        service.answersProblem(503, "database-away", Map.of()).answers(200, FUNCTION);

        client.functions().get("power.battery");

        assertThat(service.waits()).hasSize(1);
    }

    @Test
    void goesOnFromTheOptionsBefore() {
        Splicebook patient = service.client()
                .build()
                .with(CallOptions.defaults().retries(1))
                .with(CallOptions.defaults().idempotencyKey(new IdempotencyKey("order-7")));
        service.breaksTheConnection().answersProblem(503, "database-away", Map.of());

        assertThatExceptionOfType(UnavailableException.class)
                .isThrownBy(() -> patient.devices().create(DOCUMENT));

        assertThat(keyOf(0)).isEqualTo("order-7");
        assertThat(service.waits()).hasSize(1);
    }

    @Test
    void makesNoKeyByItself() {
        service.answers(201, DEVICE);

        service.client().build().devices().create(DOCUMENT);

        assertThat(keyOf(0)).isEmpty();
    }

    @Test
    void makesAKeyForEachChangeWhereItIsToldTo() {
        Splicebook client =
                service.client().idempotencyKeys(IdempotencyKey::random).build();
        service.breaksTheConnection().answers(201, DEVICE).answers(201, DEVICE);

        client.devices().create(DOCUMENT);
        client.devices().create(DOCUMENT);

        assertThat(keyOf(0)).hasSize(36);
        assertThat(keyOf(1)).isEqualTo(keyOf(0));
        assertThat(keyOf(2)).hasSize(36).isNotEqualTo(keyOf(0));
    }

    @Test
    void tellsAKeyThatWasUsedForAnotherChange() {
        service.answersProblem(422, "idempotency-key-reused", Map.of());

        assertThatExceptionOfType(ApiException.class)
                .isThrownBy(() -> service.client()
                        .build()
                        .with(CallOptions.defaults().idempotencyKey(IdempotencyKey.random()))
                        .devices()
                        .create(DOCUMENT))
                .satisfies(problem -> assertThat(problem.code()).isEqualTo("idempotency-key-reused"));
        assertThat(service.requests()).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "a b", "ä", "a\n"})
    void refusesAKeyThatAHeaderCannotCarry(String key) {
        assertThatExceptionOfType(IllegalArgumentException.class).isThrownBy(() -> new IdempotencyKey(key));
    }

    @Test
    void takesAKeyOfAHundredCharactersAtMost() {
        assertThat(new IdempotencyKey("k".repeat(100))).hasToString("k".repeat(100));
        assertThatExceptionOfType(IllegalArgumentException.class).isThrownBy(() -> new IdempotencyKey("k".repeat(101)));
    }

    @Test
    void refusesOptionsThatMeanNothing() {
        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() -> CallOptions.defaults().timeout(Duration.ZERO));
        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() -> CallOptions.defaults().retries(-1));
    }
}
