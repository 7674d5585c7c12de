package dev.splicebook.client;

import java.util.List;

/** The kinds of problem that calls end with: what causes them, and what is to be done. */
public final class Problems {

    private static final String PATH = "/problems";

    private final Transport transport;

    Problems(Transport transport) {
        this.transport = transport;
    }

    /**
     * Every kind of problem that the service's version knows.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public List<ProblemPage> list() {
        return transport.page(Call.get(PATH), Paging.start(), ProblemPage.class).toList();
    }

    /**
     * One kind of problem, by a code like {@code bad-body}, as {@link ApiException#code()} tells it.
     *
     * @throws NotFoundException if there is no such kind
     * @throws SplicebookException if there is no answer, or another problem
     */
    public ProblemPage get(String code) {
        return transport.send(Call.get(PATH).segment("code", code), ProblemPage.class);
    }
}
