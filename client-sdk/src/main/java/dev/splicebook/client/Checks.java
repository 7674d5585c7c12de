package dev.splicebook.client;

/** Is this hookup right? */
public final class Checks {

    private final Transport transport;

    Checks(Transport transport) {
        this.transport = transport;
    }

    /**
     * Checks a hookup by every rule. A check stores nothing, so that it is sent again like a read.
     *
     * @throws BadRequestException with every fault of the hookup, by JSON pointer; references that lead nowhere are among
     *     them
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Report check(Hookup hookup) {
        return transport.send(Call.post("/v1/checks", hookup).repeatable(), Report.class);
    }

    /**
     * Checks a hookup, and looks for the least costly changes that make it ready: {@link Report#fix()} of the answer. Stores
     * nothing either.
     *
     * @throws BadRequestException as {@link #check} does
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Report fix(Hookup hookup) {
        return transport.send(Call.post("/v1/checks", hookup).query("fix", true).repeatable(), Report.class);
    }
}
