package dev.splicebook.client;

/**
 * No answer came: the service could not be reached, the connection broke, the answer took too long, or the waiting thread
 * was interrupted (whose interrupt flag is then set again). After a change it is unknown whether the service made it.
 */
public final class ConnectionException extends SplicebookException {

    private static final long serialVersionUID = 1L;

    ConnectionException(String message, Throwable cause) {
        super(message, cause);
    }
}
