package dev.splicebook.client;

import java.util.UUID;

/**
 * Names one change, so that it is made once however often it is sent: the service answers a repetition with what it
 * answered the first time, for seven days. Another change under the same key is refused with 422.
 *
 * @param value 1 to 100 visible ASCII characters
 */
public record IdempotencyKey(String value) {

    /**
     * A key of one's own, like the number of an order.
     *
     * @throws IllegalArgumentException if it is empty, too long, or holds a space or a character outside ASCII
     */
    public IdempotencyKey {
        if (!Require.present("IdempotencyKey", value).matches("[\\x21-\\x7e]{1,100}")) {
            throw new IllegalArgumentException("an idempotency key is 1 to 100 visible ASCII characters");
        }
    }

    /** A key that nobody else has. */
    public static IdempotencyKey random() {
        return new IdempotencyKey(UUID.randomUUID().toString());
    }

    @Override
    public String toString() {
        return value;
    }
}
