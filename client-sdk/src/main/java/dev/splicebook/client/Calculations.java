package dev.splicebook.client;

import java.util.List;

/** The arithmetic of the trade; each answer shows its working. */
public final class Calculations {

    private static final String PATH = "/v1/calculations";

    private final Transport transport;

    Calculations(Transport transport) {
        this.transport = transport;
    }

    /**
     * Every calculation of the service's version, by name, with its inputs, their units and ranges.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public List<CalculationSummary> list() {
        return transport
                .page(Call.get(PATH), Paging.start(), CalculationSummary.class)
                .toList();
    }

    /**
     * A calculation's page, by a name like {@code voltage-drop}, with a question to try it with.
     *
     * @throws NotFoundException if there is no such calculation
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Calculation get(String name) {
        return transport.send(Call.get(PATH).segment("name", name), Calculation.class);
    }

    /**
     * Calculates. Nothing is stored, so that it is sent again like a read.
     *
     * <pre>{@code
     * Answer answer = client.calculations().calculate(Question.of("voltage-drop")
     *         .with("currentAmps", 18)
     *         .with("conductor", Wire.of("8 AWG"))
     *         .with("length", Length.feet(20)));
     * double lost = answer.number("dropVolts");
     * }</pre>
     *
     * @throws BadRequestException with every fault of the question, by JSON pointer
     * @throws ApiException with status 422 if it is a good question without an answer; its errors show why, with figures
     * @throws NotFoundException if there is no such calculation
     * @throws SplicebookException if there is no answer from the service, or another problem
     */
    public Answer calculate(Question question) {
        return transport.send(
                Call.post(PATH, question.inputs())
                        .segment("name", question.name())
                        .repeatable(),
                Answer.class);
    }
}
