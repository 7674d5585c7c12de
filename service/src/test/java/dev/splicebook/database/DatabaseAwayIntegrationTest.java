package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Autowired;

class DatabaseAwayIntegrationTest extends ServiceIntegrationTest {

    private static final Duration ANSWERED_WITHIN = Duration.ofSeconds(2);
    private static final Duration BACK_WITHIN = Duration.ofSeconds(60);

    @Autowired
    private ObjectProvider<EmbeddedDatabase> embedded;

    @BeforeEach
    void onlyWhereTheServerIsOurs() {
        assumeTrue(embedded.getIfAvailable() != null, "the server is not ours to stop");
        awaitBack();
    }

    @Test
    void answersInTimeWhileTheServerIsFrozen() throws Exception {
        List<ProcessHandle> frozen =
                Stream.concat(Stream.of(server()), server().descendants()).toList();
        signal("-STOP", frozen);
        try {
            assertAway();
        } finally {
            signal("-CONT", frozen);
        }
        awaitBack();
    }

    @Test
    void answersInTimeAfterTheServerIsKilledAndComesBackByItself() {
        ProcessHandle killed = server();
        killed.destroyForcibly();
        killed.onExit().join();

        assertAway();
        awaitBack();
        assertThat(server().pid()).isNotEqualTo(killed.pid());
    }

    private void assertAway() {
        for (int call = 0; call < 3; call++) {
            HttpResponse<String> response = timely("/v1/functions");
            assertThat(response.statusCode()).isEqualTo(503);
            assertThat(Calls.header(response, "Content-Type")).startsWith("application/problem+json");
            assertThat(Calls.header(response, "Retry-After")).matches("[1-9][0-9]*");
            assertThat(Calls.json(response).path("type").asString()).isEqualTo("/problems/database-away");
        }
        assertThat(timely("/actuator/health/liveness").statusCode()).isEqualTo(200);
        assertThat(timely("/actuator/health/readiness").statusCode()).isEqualTo(503);
    }

    private HttpResponse<String> timely(String path) {
        long start = System.nanoTime();
        HttpResponse<String> response = calls().get(path);
        assertThat(Duration.ofNanos(System.nanoTime() - start)).as(path).isLessThan(ANSWERED_WITHIN);
        return response;
    }

    private void awaitBack() {
        await().atMost(BACK_WITHIN).until(() -> calls().get("/v1/none").statusCode() == 404);
        await().atMost(BACK_WITHIN)
                .until(() -> calls().get("/actuator/health/readiness").statusCode() == 200);
    }

    private ProcessHandle server() {
        return ServerProcess.findOn(embedded.getObject().dataFolder())
                .orElseThrow()
                .handle();
    }

    private static void signal(String signal, List<ProcessHandle> processes) throws Exception {
        List<String> command = Stream.concat(
                        Stream.of("kill", signal), processes.stream().map(process -> Long.toString(process.pid())))
                .toList();
        // a backend may have ended by itself meanwhile, so that the exit code says nothing
        assertThat(new ProcessBuilder(command).start().waitFor()).isBetween(0, 1);
    }
}
