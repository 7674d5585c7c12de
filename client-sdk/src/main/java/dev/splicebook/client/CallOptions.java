package dev.splicebook.client;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * What is different for some calls, for {@link Splicebook#with}. Each method gives new options.
 *
 * @param timeout how long one attempt may take, above 0; absent for the client's
 * @param retries how many times at most a call is sent again, 0 or more; absent for the client's
 * @param idempotencyKey for a call that creates something, which is then safe to send again; calls that create nothing
 *     send none. Absent for the client's
 */
public record CallOptions(
        @Nullable Duration timeout,
        @Nullable Integer retries,
        @Nullable IdempotencyKey idempotencyKey) {

    private static final CallOptions DEFAULTS = new CallOptions(null, null, null);

    public CallOptions {
        if (timeout != null) {
            Require.above0("timeout", timeout);
        }
        if (retries != null) {
            Require.notNegative("retries", retries);
        }
    }

    /** Everything as the client has it. */
    public static CallOptions defaults() {
        return DEFAULTS;
    }

    /**
     * The same with another time that one attempt may take, as {@link Splicebook.Builder#timeout} explains it.
     *
     * @throws IllegalArgumentException if it is not above 0
     */
    public CallOptions timeout(Duration timeout) {
        return new CallOptions(timeout, retries, idempotencyKey);
    }

    /**
     * The same with another number of times at most that a call is sent again, 0 for never.
     *
     * @throws IllegalArgumentException if it is below 0
     */
    public CallOptions retries(int retries) {
        return new CallOptions(timeout, retries, idempotencyKey);
    }

    /** The same with a key for the one change that they are for. */
    public CallOptions idempotencyKey(IdempotencyKey key) {
        return new CallOptions(timeout, retries, key);
    }

    /** These, and those where these say nothing. */
    CallOptions over(CallOptions others) {
        return new CallOptions(
                timeout == null ? others.timeout : timeout,
                retries == null ? others.retries : retries,
                idempotencyKey == null ? others.idempotencyKey : idempotencyKey);
    }
}
