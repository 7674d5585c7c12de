package dev.splicebook.calculation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** A calculation over typed records, which its subclass is annotated with {@link AboutCalculation} for. */
public abstract class Worked<Q extends Record, A extends Record & Answer> implements Calculation {

    private final Class<Q> question;
    private final Class<A> answer;

    protected Worked(Class<Q> question, Class<A> answer) {
        this.question = question;
        this.answer = answer;
    }

    /**
     * Works a question out.
     *
     * @param sheet notes assumptions and steps; it names the sources and cautions of the annotation already
     * @throws NoAnswerException if there is no answer
     */
    protected abstract A work(Q asked, Worksheet sheet);

    @Override
    public final Class<Q> question() {
        return question;
    }

    @Override
    public final Class<A> answer() {
        return answer;
    }

    @Override
    public final A answer(Record asked) {
        AboutCalculation about = getClass().getAnnotation(AboutCalculation.class);
        List<String> cautions = new ArrayList<>(Arrays.asList(about.cautions()));
        cautions.add(Cautions.GENERAL);
        return work(question.cast(asked), new Worksheet(Arrays.asList(about.sources()), cautions));
    }
}
