package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RetryingTest {

    private static final InstantSource CLOCK = InstantSource.fixed(Instant.parse("2026-11-25T10:00:00Z"));

    private static Retrying retrying(int most, double jitter) {
        return new Retrying(most, CLOCK, wait -> {}, () -> jitter);
    }

    @Test
    void doublesItsWaitsUpToTheLongest() {
        assertThat(IntStream.rangeClosed(1, 8)
                        .mapToObj(failed -> retrying(100, 1)
                                .waitAfter(failed, null)
                                .orElseThrow()
                                .toMillis()))
                .containsExactly(250L, 500L, 1000L, 2000L, 4000L, 8000L, 10_000L, 10_000L);
        assertThat(retrying(Integer.MAX_VALUE, 1).waitAfter(1_000_000, null)).hasValue(Retrying.LONGEST_WAIT);
    }

    @Test
    void waitsHalfAtLeastWhateverTheJitter() {
        assertThat(retrying(1, 0).waitAfter(1, null)).hasValue(Duration.ofMillis(125));
    }

    @Test
    void waitsNoShorterThanTheServiceAsks() {
        assertThat(retrying(1, 0).waitAfter(1, Duration.ofSeconds(10))).hasValue(Duration.ofNanos(10_062_500_000L));
        assertThat(retrying(1, 0).waitAfter(1, Duration.ofMillis(10_001))).isEmpty();
    }

    @Test
    void endsAfterTheMost() {
        assertThat(retrying(0, 0).waitAfter(1, null)).isEmpty();
        assertThat(retrying(2, 0).waitAfter(2, null)).isPresent();
        assertThat(retrying(2, 0).waitAfter(3, null)).isEmpty();
    }

    @Test
    void readsRetryAfter() {
        assertThat(retrying(1, 0).retryAfter(" 7 ")).isEqualTo(Duration.ofSeconds(7));
        assertThat(retrying(1, 0).retryAfter("Wed, 25 Nov 2026 10:01:00 GMT")).isEqualTo(Duration.ofMinutes(1));
        assertThat(retrying(1, 0).retryAfter("Wed, 25 Nov 2026 09:00:00 GMT")).isEqualTo(Duration.ZERO);
        assertThat(retrying(1, 0).retryAfter(null)).isNull();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "soon", "-1", "1.5", "99999999999999999999"})
    void overlooksARetryAfterThatIsNone(String header) {
        assertThat(retrying(1, 0).retryAfter(header)).isNull();
    }
}
