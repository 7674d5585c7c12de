package dev.splicebook.client;

import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** 503, or 429 where as many run as may: the service cannot answer at the moment, and nothing was changed. */
public final class UnavailableException extends ApiException {

    private static final long serialVersionUID = 1L;

    private final @Nullable Duration retryAfter;

    UnavailableException(String call, int status, Problem problem, @Nullable Duration retryAfter) {
        super(call, status, problem);
        this.retryAfter = retryAfter;
    }

    /** How long the service asks to be left alone; empty if it does not say. */
    public Optional<Duration> retryAfter() {
        return Optional.ofNullable(retryAfter);
    }
}
