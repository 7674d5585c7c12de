package dev.splicebook.client;

/** How should these parts be wired? */
public final class Pairings {

    private final Transport transport;

    Pairings(Transport transport) {
        this.transport = transport;
    }

    /**
     * Proposes a whole hookup. A pairing stores nothing, so that it is sent again like a read.
     *
     * @throws BadRequestException with every fault of the question, by JSON pointer; references that lead nowhere are among
     *     them
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Pairing propose(PairingQuestion question) {
        return transport.send(Call.post("/v1/pairings", question).repeatable(), Pairing.class);
    }
}
