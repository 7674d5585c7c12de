package dev.splicebook.client;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.InstantSource;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Optional;
import java.util.function.DoubleSupplier;
import org.jspecify.annotations.Nullable;

/**
 * How often and after what waits a call is sent again.
 *
 * @param most how many times at most, after the first; 0 or more
 * @param jitter from 0 to 1, anew for each wait, so that callers who failed together do not come back together
 */
record Retrying(int most, InstantSource clock, Sleeper sleeper, DoubleSupplier jitter) {

    /** Waits; replaced where time is to pass at once. */
    @FunctionalInterface
    interface Sleeper {
        void sleep(Duration duration) throws InterruptedException;
    }

    /** As long as a person at a counter waits; a service that asks for more is left alone. */
    static final Duration LONGEST_WAIT = Duration.ofSeconds(10);

    private static final Duration FIRST_WAIT = Duration.ofMillis(250);

    /** Enough to reach the longest wait, and far from an overflow. */
    private static final int MOST_DOUBLINGS = 10;

    /** The same with another number of times at most. */
    Retrying atMost(int most) {
        return new Retrying(most, clock, sleeper, jitter);
    }

    /**
     * The wait before a further attempt.
     *
     * @param failed how many attempts failed, 1 or more
     * @param retryAfter what the service asked for; absent if it did not
     * @return empty if there should be no further attempt
     */
    Optional<Duration> waitAfter(int failed, @Nullable Duration retryAfter) {
        if (failed > most || (retryAfter != null && retryAfter.compareTo(LONGEST_WAIT) > 0)) {
            return Optional.empty();
        }
        long mostMillis =
                Math.min(LONGEST_WAIT.toMillis(), FIRST_WAIT.toMillis() << Math.min(failed - 1, MOST_DOUBLINGS));
        long leastMillis = mostMillis / 2;
        Duration own = Duration.ofMillis(leastMillis + Math.round(leastMillis * jitter.getAsDouble()));
        return Optional.of(retryAfter == null ? own : retryAfter.plus(own.dividedBy(2)));
    }

    /** A Retry-After header in seconds or as a date; null if it is absent or neither. */
    @Nullable
    Duration retryAfter(@Nullable String header) {
        if (header == null) {
            return null;
        }
        String value = header.strip();
        if (value.matches("[0-9]{1,9}")) {
            return Duration.ofSeconds(Long.parseLong(value));
        }
        try {
            Duration until = Duration.between(
                    clock.instant(),
                    ZonedDateTime.parse(value, DateTimeFormatter.RFC_1123_DATE_TIME)
                            .toInstant());
            return until.isNegative() ? Duration.ZERO : until;
        } catch (DateTimeException unreadable) {
            return null;
        }
    }
}
