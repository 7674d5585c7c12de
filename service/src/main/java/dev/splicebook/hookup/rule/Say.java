package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad.VoiceCoil;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleFunction;

/** How messages name things. */
final class Say {

    /** By facts before name, so that a renamed hookup is told the same way; the plus of a pair before its minus. */
    static final Comparator<Node> BY_FACTS =
            Comparator.comparing(Say::order).thenComparing(Node.BY_FACTS).thenComparing(Node::ref);

    private static final int MOST_DIGITS = 9;

    private Say() {}

    private static String order(Node node) {
        Electrical.Audio audio = node.audio();
        return audio == null
                ? ""
                : audio.getClass().getSimpleName()
                        + audio.channel()
                        + (audio.side() != null && !audio.side().isPositive());
    }

    /** Like {@code CAR.C3-4 (GN)}. */
    static String name(Node node) {
        return node.colour() == null
                ? node.ref()
                : node.ref() + " (" + node.colour().value() + ")";
    }

    /** Like {@code A, B and C}, each once, the ones with the same facts by name. */
    static String names(Collection<Node> nodes) {
        return list(nodes.stream().distinct().sorted(BY_FACTS).map(Say::name).toList());
    }

    /** Like {@code the coil at A and B}, or {@code the coils at A and B, and at C and D}. */
    static String coils(Collection<VoiceCoil> coils) {
        List<String> pairs = coils.stream()
                .distinct()
                .sorted(Comparator.comparing(VoiceCoil::plus, BY_FACTS))
                .map(coil -> names(coil.ends()))
                .toList();
        int most = 4;
        return (pairs.size() == 1 ? "the coil at " : "the coils at ")
                + String.join(", and at ", pairs.subList(0, Math.min(most, pairs.size())))
                + (pairs.size() > most ? ", and " + (pairs.size() - most) + " more," : "");
    }

    /** Like {@code the coil of K1 at K1.85 and K1.86}. */
    static String coil(Coil coil) {
        return "the coil of " + coil.part() + " at " + names(List.of(coil.one(), coil.other()));
    }

    /** Like {@code A, B and C} without colours, for help. */
    static String refs(Collection<Node> nodes) {
        return list(nodes.stream().distinct().sorted(BY_FACTS).map(Node::ref).toList());
    }

    static String states(Collection<State> states) {
        return list(states.stream().distinct().sorted().map(State::toString).toList());
    }

    /** Like {@code in the states asleep and cranking}. */
    static String inStates(Collection<State> states) {
        long count = states.stream().distinct().count();
        return count == State.values().length
                ? "in every state"
                : "in the " + (count == 1 ? "state " : "states ") + states(states);
    }

    /** {@code is} or {@code are}. */
    static String are(Collection<Node> nodes) {
        return nodes.stream().distinct().count() > 1 ? "are" : "is";
    }

    /** At most eight, then how many more. */
    static String list(List<String> names) {
        int most = 8;
        if (names.size() > most + 1) {
            return String.join(", ", names.subList(0, most)) + " and " + (names.size() - most) + " more";
        }
        return Names.list(names);
    }

    /** Like {@code 68.0 A}; below 1 A in mA. */
    static String amps(double amps) {
        return amps < 1 && amps > 0 ? String.format(Locale.ROOT, "%.0f mA", amps * 1000) : stated(amps, 1) + " A";
    }

    /** With as many decimals as is usual, and one more where that is the whole of it, as a person states a rating. */
    private static String stated(double value, int decimals) {
        double finer = value * Math.pow(10, decimals + 1);
        boolean whole = Math.abs(finer - Math.rint(finer)) < 1e-9;
        String text = figure(value, decimals + (whole ? 1 : 0), 0);
        return whole && text.endsWith("0") ? text.substring(0, text.length() - (decimals == 0 ? 2 : 1)) : text;
    }

    /** A figure that misses a limit, as finely as it takes to tell the two apart. */
    static String apart(double found, double limit, DoubleFunction<String> say) {
        String text = say.apply(found);
        if (found == limit || !text.equals(say.apply(limit))) {
            return text;
        }
        String unit = text.substring(text.lastIndexOf(' ') + 1);
        int shift = unit.startsWith("m") && unit.length() > 1 ? 3 : unit.equals("cm") ? 2 : 0;
        for (int digits = 2; digits < MOST_DIGITS; digits++) {
            String finer = figure(found, digits, shift);
            if (!finer.equals(figure(limit, digits, shift))) {
                return finer + " " + unit;
            }
        }
        return text;
    }

    private static String figure(double value, int digits, int shift) {
        return BigDecimal.valueOf(value)
                .movePointRight(shift)
                .setScale(digits, RoundingMode.HALF_UP)
                .toPlainString();
    }

    static String watts(double watts) {
        return watts < 1 && watts > 0
                ? String.format(Locale.ROOT, "%.0f mW", watts * 1000)
                : stated(watts, watts < 10 ? 1 : 0) + " W";
    }

    static String volts(double volts) {
        return stated(volts, 1) + " V";
    }

    /** Like {@code 2.7 Ω}. */
    static String ohms(double ohms) {
        return String.format(Locale.ROOT, ohms < 100 ? "%.1f Ω" : "%.0f Ω", ohms);
    }

    static String percent(double share) {
        return String.format(Locale.ROOT, "%.0f %%", share * 100);
    }

    /** A signal level like {@code 0.09 V}; below 10 mV in mV. */
    static String level(double volts) {
        return volts < 0.01
                ? String.format(Locale.ROOT, "%.1f mV", volts * 1000)
                : stated(volts, volts < 1 ? 2 : 1) + " V";
    }

    /** Like {@code 3.5 m}; below 1 m in cm. */
    static String metres(double metres) {
        return metres < 1
                ? String.format(Locale.ROOT, "%.1f cm", metres * 100).replace(".0 ", " ")
                : String.format(Locale.ROOT, "%.1f m", metres);
    }

    /** Like {@code 9.46 V}, where a tenth decides. */
    static String finerVolts(double volts) {
        return String.format(Locale.ROOT, "%.2f V", volts);
    }

    /** A share like {@code 3 %} or {@code 2.5 %}. */
    static String finerPercent(double share) {
        return String.format(Locale.ROOT, "%.1f", share * 100).replace(".0", "") + " %";
    }

    /** A fuse rating like {@code 7.5 A} or {@code 60 A}. */
    static String rating(double amps) {
        return plain(amps) + " A";
    }

    /** A figure as it was given, like {@code 7.5} or {@code 60}. */
    static String plain(double figure) {
        return figure == Math.rint(figure) ? Long.toString((long) figure) : Double.toString(figure);
    }
}
