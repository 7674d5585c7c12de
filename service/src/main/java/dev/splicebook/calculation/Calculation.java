package dev.splicebook.calculation;

/** A calculation of the trade. Found by the JDK's service loader; extend {@link Worked}. */
public interface Calculation {

    /** The record that a question is. */
    Class<? extends Record> question();

    /** The record that an answer is. */
    Class<? extends Record> answer();

    /**
     * The answer to a question of the type of {@link #question()}.
     *
     * @throws NoAnswerException if there is none
     */
    Answer answer(Record question);
}
