package dev.splicebook.calculation;

import dev.splicebook.guard.Invalid;
import java.util.List;

/** A good question that has no answer, like a drop that no conductor size keeps. */
public final class NoAnswerException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final String detail;
    private final transient List<Invalid> figures;

    /**
     * @param detail why there is none, with figures, as a sentence that stands alone
     * @param figures what shows it, each at the input it belongs to, as a JSON pointer from the root of the question
     */
    public NoAnswerException(String detail, List<Invalid> figures) {
        super(detail);
        this.detail = detail;
        this.figures = List.copyOf(figures);
    }

    /** With one figure: {@code pointer} like {@code /maxDropVolts}. */
    public NoAnswerException(String detail, String pointer, String code, String figure) {
        this(detail, List.of(new Invalid(pointer, code, figure)));
    }

    public String detail() {
        return detail;
    }

    public List<Invalid> figures() {
        return figures;
    }
}
