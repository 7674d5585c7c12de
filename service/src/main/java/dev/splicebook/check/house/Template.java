package dev.splicebook.check.house;

import dev.cel.common.types.CelKind;
import dev.cel.common.types.CelType;
import dev.cel.common.types.ListType;
import dev.cel.runtime.CelEvaluationException;
import dev.cel.runtime.CelVariableResolver;
import dev.splicebook.check.house.Expressions.Expression;
import dev.splicebook.guard.InvalidValueException;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/** A text with expressions in braces; a doubled brace is a brace. */
final class Template {

    private static final Set<CelKind> SHOWN =
            Set.of(CelKind.STRING, CelKind.DOUBLE, CelKind.INT, CelKind.UINT, CelKind.BOOL);
    private static final int LONGEST = 2000;

    /** Texts and expressions in their order. */
    private final List<Object> pieces = new ArrayList<>();

    /** @throws InvalidValueException for an expression that is none or gives nothing to be shown, or a lonely brace */
    Template(Subject each, String text) {
        StringBuilder plain = new StringBuilder();
        int at = 0;
        while (at < text.length()) {
            char here = text.charAt(at);
            if (here != '{' && here != '}') {
                plain.append(here);
                at++;
            } else if (at + 1 < text.length() && text.charAt(at + 1) == here) {
                plain.append(here);
                at += 2;
            } else {
                int end = here == '{' ? text.indexOf('}', at) : -1;
                if (end < 0) {
                    throw new InvalidValueException(
                            "bad-template", "message has a lonely " + here + " at column " + (at + 1));
                }
                pieces.add(plain.toString());
                plain.setLength(0);
                pieces.add(shown(each, text.substring(at + 1, end)));
                at = end + 1;
            }
        }
        pieces.add(plain.toString());
    }

    private static Expression shown(Subject each, String text) {
        Expression expression = Expressions.compile(each, text, "{" + text + "} of message");
        CelType type = expression.type();
        boolean isShown = SHOWN.contains(type.kind())
                || (type instanceof ListType list
                        && SHOWN.contains(list.elemType().kind()));
        if (!isShown) {
            throw new InvalidValueException(
                    "bad-template", "{" + text + "} of message is a " + type.name() + ", which is not shown as text");
        }
        return expression;
    }

    /** The text with values in place of expressions, and {@code unknown} where there is none. */
    String fill(CelVariableResolver variables, Evaluation evaluation) {
        StringBuilder filled = new StringBuilder();
        for (Object piece : pieces) {
            filled.append(piece instanceof Expression expression ? value(expression, variables, evaluation) : piece);
        }
        return filled.length() > LONGEST ? filled.substring(0, LONGEST) + "…" : filled.toString();
    }

    private static String value(Expression expression, CelVariableResolver variables, Evaluation evaluation) {
        try {
            return text(expression.evaluate(variables, evaluation));
        } catch (CelEvaluationException unknown) {
            return "unknown";
        }
    }

    private static String text(Object value) {
        if (value instanceof Double figure) {
            return new DecimalFormat("0.###", DecimalFormatSymbols.getInstance(Locale.ROOT)).format(figure);
        }
        return value instanceof List<?> list
                ? list.stream().map(Template::text).collect(Collectors.joining(", "))
                : value.toString();
    }
}
