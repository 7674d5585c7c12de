package dev.splicebook.hookup;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.facts;

/** Amplifiers and loudspeakers as tests put them on a bench. */
public final class Speakers {

    private Speakers() {}

    /** A floating output {@code AMP.plus}, {@code AMP.minus} of 20 V rms that drives 2 ohms. */
    public static Wiring amplifier() {
        return amplifier("\"drive\": \"floating\", \"maxVolts\": 20, \"minOhms\": 2");
    }

    /** An output {@code AMP.plus}, {@code AMP.minus} for the subwoofer channel. */
    public static Wiring amplifier(String more) {
        return output(new Wiring(), "AMP", more);
    }

    public static Wiring output(Wiring wiring, String part, String more) {
        return wiring.lead(part, "plus", facts(audio("speaker-out", "subwoofer", "plus", more)))
                .lead(part, "minus", facts(audio("speaker-out", "subwoofer", "minus", more)));
    }

    /** A loudspeaker of 4 ohms with one coil between {@code plus} and {@code minus}. */
    public static Wiring single(Wiring wiring, String part) {
        return single(wiring, part, "\"ohms\": 4, \"maxWatts\": 100");
    }

    public static Wiring single(Wiring wiring, String part, String more) {
        return wiring.lead(part, "plus", facts(audio("speaker-in", "subwoofer", "plus", more)))
                .lead(part, "minus", facts(audio("speaker-in", "subwoofer", "minus", more)));
    }

    /** A loudspeaker with two coils of 4 ohms, {@code 1-plus}, {@code 1-minus}, {@code 2-plus} and {@code 2-minus}. */
    public static Wiring dual(Wiring wiring, String part) {
        return coil(coil(wiring, part, "1", true), part, "2", true);
    }

    /** The same without the fact that says which ends are one coil. */
    public static Wiring dualUndeclared(Wiring wiring, String part) {
        return coil(coil(wiring, part, "1", false), part, "2", false);
    }

    private static Wiring coil(Wiring wiring, String part, String coil, boolean declared) {
        String more = "\"ohms\": 4, \"maxWatts\": 100" + (declared ? ", \"coil\": \"" + coil + "\"" : "");
        return wiring.lead(part, coil + "-plus", facts(audio("speaker-in", "subwoofer", "plus", more)))
                .lead(part, coil + "-minus", facts(audio("speaker-in", "subwoofer", "minus", more)));
    }

    /** A part {@code R} with a resistor between {@code a} and {@code b}. */
    public static Wiring resistor(Wiring wiring, String part, double ohms) {
        return wiring.inside(part, "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": " + ohms + "}]");
    }

    /** Both coils of a loudspeaker in series, the first one's plus at the output's plus. */
    public static Wiring inSeries(Wiring wiring, String part) {
        return wiring.join(
                "AMP.plus " + part + ".1-plus", part + ".1-minus " + part + ".2-plus", part + ".2-minus AMP.minus");
    }

    /** The same with the second coil turned round. */
    public static Wiring inSeriesWithOneTurned(Wiring wiring, String part) {
        return wiring.join(
                "AMP.plus " + part + ".1-plus", part + ".1-minus " + part + ".2-minus", part + ".2-plus AMP.minus");
    }
}
