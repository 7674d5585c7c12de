package dev.splicebook.client;

import java.util.List;

/** The vocabulary: what a wire can be for. */
public final class Functions {

    private static final String PATH = "/v1/functions";

    private final Transport transport;

    Functions(Transport transport) {
        this.transport = transport;
    }

    /**
     * Every function of the vocabulary, kind by kind.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public List<Function> list() {
        return transport.page(Call.get(PATH), Paging.start(), Function.class).toList();
    }

    /**
     * One function, by an id like {@code power.battery}.
     *
     * @throws NotFoundException if the vocabulary has none of that id
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Function get(String id) {
        return transport.send(Call.get(PATH).segment("id", id), Function.class);
    }
}
