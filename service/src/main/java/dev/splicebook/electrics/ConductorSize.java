package dev.splicebook.electrics;

import dev.splicebook.guard.InvalidValueException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The size of a conductor as the trade writes it: {@code "8 AWG"}, {@code "1/0 AWG"} or {@code "2.5 mm2"}.
 *
 * @param value AWG 40 to 4/0, or an area of 0.01 to 200 mm²
 */
public record ConductorSize(String value) {

    private static final Pattern GAUGE = Pattern.compile("(?:([0-9]|[1-3][0-9]|40)|([1-4])/0) AWG");
    private static final Pattern AREA = Pattern.compile("([0-9]{1,3}(?:\\.[0-9]{1,3})?) mm2");

    private static final double LEAST_MM2 = 0.01;
    private static final double MOST_MM2 = 200;

    public ConductorSize {
        Matcher area = AREA.matcher(value);
        boolean known = GAUGE.matcher(value).matches();
        if (!known && area.matches()) {
            double mm2 = Double.parseDouble(area.group(1));
            known = mm2 >= LEAST_MM2 && mm2 <= MOST_MM2;
        }
        if (!known) {
            String shown = value.length() > 40 ? value.substring(0, 40) + "…" : value;
            throw new InvalidValueException(
                    "unknown-size",
                    "\"" + shown
                            + "\" is no conductor size; sizes are written like \"8 AWG\", \"1/0 AWG\" (40 to 4/0) or \"2.5 mm2\" (0.01 to 200)");
        }
    }

    /**
     * Cross-section of the conductor.
     *
     * @return mm²; for AWG by its law d = 0.127 mm × 92^((36−n)/39), n = 0, −1, −2, −3 for 1/0 to 4/0 (ASTM B258, from
     *     memory)
     */
    public double areaMm2() {
        if (!isGauge()) {
            return Double.parseDouble(value.substring(0, value.length() - " mm2".length()));
        }
        double diameterMm = gaugeDiameterMm(gauge());
        return Math.PI / 4 * diameterMm * diameterMm;
    }

    /** Diameter of one solid round wire of this cross-section, mm; a stranded conductor is thicker. */
    public double diameterMm() {
        return isGauge() ? gaugeDiameterMm(gauge()) : Math.sqrt(4 / Math.PI * areaMm2());
    }

    /** Whether this is an AWG size; otherwise it is an area. */
    public boolean isGauge() {
        return value.endsWith(" AWG");
    }

    /** The AWG law, mm; n = 36 … 0, −1, −2, −3 for 36 AWG … 1/0 to 4/0 (ASTM B258, from memory). */
    static double gaugeDiameterMm(int gauge) {
        return 0.127 * Math.pow(92, (36 - gauge) / 39.0);
    }

    /** The n of the AWG law: 40 to 1, 0 for 1/0, −1 to −3 for 2/0 to 4/0; only of a gauge. */
    public int gauge() {
        if (!isGauge()) {
            throw new IllegalStateException(value + " is not a gauge");
        }
        String number = value.substring(0, value.length() - " AWG".length());
        return number.endsWith("/0")
                ? 1 - Integer.parseInt(number.substring(0, number.length() - "/0".length()))
                : Integer.parseInt(number);
    }

    @Override
    public String toString() {
        return value;
    }
}
