package dev.splicebook.client;

import java.util.Map;

/** The figures that rules compare with, and those that the firm sets in their place. */
public final class Thresholds {

    private static final String PATH = "/v1/thresholds";

    private final Transport transport;

    Thresholds(Transport transport) {
        this.transport = transport;
    }

    /**
     * Every figure, as it is in force for the firm.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public ThresholdList list() {
        return transport.send(Call.get(PATH), ThresholdList.class);
    }

    /**
     * Sets figures in place of all that the firm has set before; none go back to what the rules come with. Sent once.
     *
     * @param held the figures as they were read; if any was set since, nothing is changed
     * @param values by rule and name, like {@code fuse-too-far.mostMetres}
     * @throws PreconditionFailedException if any was set since
     * @throws BadRequestException for a name that no rule has, and for a value outside its range
     * @throws SplicebookException if there is no answer, or another problem
     */
    public ThresholdList set(ThresholdList held, Map<String, Double> values) {
        return transport.send(
                Call.put(PATH)
                        .ifMatch(held.revision())
                        .body(Call.JSON, Source.json(Map.of("values", Map.copyOf(values)))),
                ThresholdList.class);
    }
}
