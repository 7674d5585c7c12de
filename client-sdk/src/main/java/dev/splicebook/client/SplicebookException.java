package dev.splicebook.client;

import org.jspecify.annotations.Nullable;

/**
 * A call that did not end with what was asked for: {@link ApiException} if the service said why, {@link
 * ConnectionException} if it did not answer, and this itself if its answer cannot be read. The key is never part of it.
 */
public class SplicebookException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    SplicebookException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
