package dev.splicebook.client;

/** 404: there is nothing of that name, or it is another firm's and not shared. */
public final class NotFoundException extends ApiException {

    private static final long serialVersionUID = 1L;

    NotFoundException(String call, int status, Problem problem) {
        super(call, status, problem);
    }
}
