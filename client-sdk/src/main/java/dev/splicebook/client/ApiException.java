package dev.splicebook.client;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The service answered with a problem. The subclasses are those that programs tell apart; any other status is this
 * itself. Its message names the status, the kind of problem, every fault up to the tenth, the call and the request id.
 */
public class ApiException extends SplicebookException {

    private static final long serialVersionUID = 1L;
    private static final int FAULTS_TOLD = 10;

    private final int status;
    private final transient Problem problem;

    ApiException(String call, int status, Problem problem) {
        super(message(call, status, problem), null);
        this.status = status;
        this.problem = problem;
    }

    /** The HTTP status, 300 or more. */
    public int status() {
        return status;
    }

    /** The problem document. */
    public Problem problem() {
        return problem;
    }

    /** The permanent kind of problem, like {@code bad-body}; {@code about:blank} if the answer does not say. */
    public String code() {
        return problem.code();
    }

    /** The single faults; may be empty. */
    public List<Problem.Fault> errors() {
        return problem.errors();
    }

    /** By which those who run the service find the request; empty if the answer has none. */
    public Optional<String> requestId() {
        return Optional.ofNullable(problem.requestId());
    }

    private static String message(String call, int status, Problem problem) {
        List<Problem.Fault> errors = problem.errors();
        // a lone fault has the detail of the whole: only its place is news
        boolean isTold = errors.size() == 1 && errors.get(0).detail().equals(problem.detail());
        String what = isTold
                ? errors.get(0).toString()
                : problem.detail()
                        + errors.stream()
                                .limit(FAULTS_TOLD)
                                .map(fault -> "; " + fault)
                                .collect(Collectors.joining());
        String more = errors.size() > FAULTS_TOLD ? "; and " + (errors.size() - FAULTS_TOLD) + " more" : "";
        return call + ": " + status + " " + problem.code() + ": " + what + more
                + (problem.requestId() == null ? "" : " (request " + problem.requestId() + ")");
    }
}
