package dev.splicebook.client;

import java.util.List;

/** What is checked, why it matters, and how it is mended. */
public final class Rules {

    private static final String PATH = "/v1/rules";

    private final Transport transport;

    Rules(Transport transport) {
        this.transport = transport;
    }

    /**
     * Every rule of the service's version, by code.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public List<RuleSummary> list() {
        return transport.page(Call.get(PATH), Paging.start(), RuleSummary.class).toList();
    }

    /**
     * A rule's page, by a code like {@code returns-tied}.
     *
     * @throws NotFoundException if there is no such rule
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Rule get(String code) {
        return transport.send(Call.get(PATH).segment("code", code), Rule.class);
    }
}
