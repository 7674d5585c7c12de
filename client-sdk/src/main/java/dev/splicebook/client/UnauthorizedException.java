package dev.splicebook.client;

/** 401: the key is unknown or revoked. */
public final class UnauthorizedException extends ApiException {

    private static final long serialVersionUID = 1L;

    UnauthorizedException(String call, int status, Problem problem) {
        super(call, status, problem);
    }
}
