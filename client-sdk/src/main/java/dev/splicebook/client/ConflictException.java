package dev.splicebook.client;

/** 409: what is to be created is there already, or was changed in the same moment. */
public final class ConflictException extends ApiException {

    private static final long serialVersionUID = 1L;

    ConflictException(String call, int status, Problem problem) {
        super(call, status, problem);
    }
}
