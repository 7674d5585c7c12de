package dev.splicebook.client;

/** 400: the body, a parameter or the request is at fault; {@link #errors()} lists each fault with its place. */
public final class BadRequestException extends ApiException {

    private static final long serialVersionUID = 1L;

    BadRequestException(String call, int status, Problem problem) {
        super(call, status, problem);
    }
}
