package dev.splicebook.client;

/** 412: it has changed since it was read. Read it again, apply the change to that, and add it. */
public final class PreconditionFailedException extends ApiException {

    private static final long serialVersionUID = 1L;

    PreconditionFailedException(String call, int status, Problem problem) {
        super(call, status, problem);
    }
}
