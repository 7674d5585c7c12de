package dev.splicebook.calculation;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Works a printed formula out anew, from the text alone: {@code symbol = expression}, with numbers, π, symbols,
 * {@code + - × / ^}, brackets and a few functions.
 */
final class Formula {

    private final String text;
    private final Map<String, Double> numbers;
    private final Set<String> used = new HashSet<>();
    private int at;

    private Formula(String text, Map<String, Double> numbers) {
        this.text = text;
        this.numbers = numbers;
    }

    /**
     * The value of the expression behind the equals sign.
     *
     * @throws IllegalArgumentException for a text that is no formula, a symbol without a number, or a number without a symbol
     */
    static double value(String formula, Map<String, Double> numbers) {
        int equals = formula.indexOf('=');
        if (equals < 1 || formula.indexOf('=', equals + 1) >= 0) {
            throw new IllegalArgumentException("\"" + formula + "\" is no formula: symbol = expression");
        }
        Formula parsed = new Formula(formula.substring(equals + 1), numbers);
        double value = parsed.sum();
        parsed.skip();
        if (parsed.at < parsed.text.length()) {
            throw parsed.unreadable();
        }
        if (!parsed.used.equals(numbers.keySet())) {
            throw new IllegalArgumentException(
                    "\"" + formula + "\" uses " + parsed.used + ", and numbers are given for " + numbers.keySet());
        }
        return value;
    }

    private double sum() {
        double value = product();
        while (true) {
            if (take('+')) {
                value += product();
            } else if (take('-') || take('−')) {
                value -= product();
            } else {
                return value;
            }
        }
    }

    private double product() {
        double value = power();
        while (true) {
            if (take('×') || take('·')) {
                value *= power();
            } else if (take('/')) {
                value /= power();
            } else {
                return value;
            }
        }
    }

    private double power() {
        if (take('-') || take('−')) {
            return -power();
        }
        double base = atom();
        return take('^') ? Math.pow(base, power()) : base;
    }

    private double atom() {
        if (take('(')) {
            double value = sum();
            need(')');
            return value;
        }
        skip();
        int from = at;
        if (at < text.length() && Character.isDigit(text.charAt(at))) {
            while (at < text.length()
                    && (Character.isDigit(text.charAt(at))
                            || text.charAt(at) == '.'
                            || (text.charAt(at) == 'e' && at + 1 < text.length() && isExponent(at + 1))
                            || (text.charAt(at) == '-' && text.charAt(at - 1) == 'e'))) {
                at++;
            }
            return Double.parseDouble(text.substring(from, at));
        }
        while (at < text.length() && (Character.isLetterOrDigit(text.charAt(at)) || text.charAt(at) == '_')) {
            at++;
        }
        String name = text.substring(from, at);
        if (name.isEmpty()) {
            throw unreadable();
        }
        if (take('(')) {
            List<Double> arguments = new ArrayList<>(List.of(sum()));
            while (take(',')) {
                arguments.add(sum());
            }
            need(')');
            return apply(name, arguments);
        }
        if (name.equals("π")) {
            return Math.PI;
        }
        Double number = numbers.get(name);
        if (number == null) {
            throw new IllegalArgumentException("\"" + text + "\" uses " + name + ", for which no number is given");
        }
        used.add(name);
        return number;
    }

    private boolean isExponent(int index) {
        return Character.isDigit(text.charAt(index)) || text.charAt(index) == '-';
    }

    private static double apply(String function, List<Double> arguments) {
        double first = arguments.get(0);
        return switch (function) {
            case "sqrt" -> Math.sqrt(first);
            case "exp" -> Math.exp(first);
            case "ln" -> Math.log(first);
            case "log10" -> Math.log10(first);
            case "sin" -> Math.sin(first);
            case "cos" -> Math.cos(first);
            case "tan" -> Math.tan(first);
            case "atan" -> Math.atan(first);
            case "abs" -> Math.abs(first);
            case "floor" -> Math.floor(first);
            case "ceil" -> Math.ceil(first);
            case "round" -> Math.rint(first);
            case "min" -> arguments.stream().mapToDouble(x -> x).min().orElseThrow();
            case "max" -> arguments.stream().mapToDouble(x -> x).max().orElseThrow();
            default -> throw new IllegalArgumentException("there is no function " + function);
        };
    }

    private void skip() {
        while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
            at++;
        }
    }

    private boolean take(char wanted) {
        skip();
        if (at < text.length() && text.charAt(at) == wanted) {
            at++;
            return true;
        }
        return false;
    }

    private void need(char wanted) {
        if (!take(wanted)) {
            throw unreadable();
        }
    }

    private IllegalArgumentException unreadable() {
        return new IllegalArgumentException("\"" + text + "\" cannot be read from character " + at);
    }
}
