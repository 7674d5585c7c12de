package dev.splicebook.database;

import org.jspecify.annotations.Nullable;

/** The service cannot start, for a reason that whoever starts it can mend; reported without a stack trace. */
public final class StartRefusedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final String action;

    /**
     * @param description what is wrong, as sentences that stand alone and hold no secret
     * @param action what to do about it
     */
    public StartRefusedException(String description, String action, @Nullable Throwable cause) {
        super(description, cause);
        this.action = action;
    }

    public StartRefusedException(String description, String action) {
        this(description, action, null);
    }

    String action() {
        return action;
    }
}
