package dev.splicebook.electrics;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A USB 2.0 cable, or several in a row, as its power pair and its delay see it.
 *
 * @param segments in order, at least one
 * @param currentAmps of the device, above 0
 * @param contacts mated ones in each of the two power lines, at least 0
 * @param contactOhms of each, at least 0
 * @param conductorCelsius of the wire
 */
public record UsbCable(
        List<Segment> segments, double currentAmps, int contacts, double contactOhms, double conductorCelsius) {

    /** Least volts of a port (USB 2.0). */
    public static final double PORT_VOLTS = 4.75;

    /** Least volts that a low-power device works with (USB 2.0). */
    public static final double DEVICE_VOLTS = 4.4;

    /** Delay of one metre (USB 2.0). */
    public static final double NS_PER_METRE = 5.2;

    /** Greatest delay of a cable (USB 2.0). */
    public static final double MOST_NS = 26;

    /** Greatest resistance of a mated contact over its life: 30 mΩ, from memory. */
    public static final double CONTACT_OHMS = 0.03;

    /** Longest cable by AWG of its power pair, m (USB 2.0, secondary copy), thinnest first. */
    public static final Map<Integer, Double> LONGEST_METRES = longest();

    public UsbCable {
        segments = List.copyOf(segments);
    }

    /**
     * One piece of cable.
     *
     * @param gauge of its power pair
     * @param metres above 0
     */
    public record Segment(ConductorSize gauge, double metres) {}

    /** Ohms of both power lines, there and back, without contacts. */
    public double wireOhms() {
        return segments.stream().mapToDouble(this::pairOhms).sum();
    }

    /** Ohms of one segment, both lines. */
    public double pairOhms(Segment segment) {
        return 2 * lineOhmsPerMetre(segment) * segment.metres();
    }

    /** Ohms of the contacts of both lines. */
    public double contactsOhms() {
        return 2 * contacts * contactOhms;
    }

    /** What both lines take together. */
    public double dropVolts() {
        return currentAmps * (wireOhms() + contactsOhms());
    }

    /** Delay of the whole. */
    public double delayNs() {
        return NS_PER_METRE * metres();
    }

    /** Length of the whole. */
    public double metres() {
        return segments.stream().mapToDouble(Segment::metres).sum();
    }

    /** The segment to mend first: one that is too thin for the table, and of those, or else of all, the one with most ohms. */
    public int worstSegment() {
        int worst = 0;
        for (int at = 1; at < segments.size(); at++) {
            Segment one = segments.get(at);
            Segment other = segments.get(worst);
            boolean thin = longestMetres(one.gauge()) == null;
            boolean otherThin = longestMetres(other.gauge()) == null;
            if (thin == otherThin ? pairOhms(one) > pairOhms(other) : thin) {
                worst = at;
            }
        }
        return worst;
    }

    /**
     * Share of the longest length that the segments use up together, each of that for its gauge; a whole cable of one gauge
     * may use 1. That shares of several add up follows from the table, which allows every gauge the same resistance.
     *
     * @return null if a gauge is thinner than those of the table or no gauge at all
     */
    public @Nullable Double shareOfLongest() {
        double share = 0;
        for (Segment segment : segments) {
            Double longest = longestMetres(segment.gauge());
            if (longest == null) {
                return null;
            }
            share += segment.metres() / longest;
        }
        return share;
    }

    /** Longest cable by the table; a gauge between two rows takes the thinner, null below the thinnest. */
    public static @Nullable Double longestMetres(ConductorSize gauge) {
        return LONGEST_METRES.entrySet().stream()
                .filter(row -> new ConductorSize(row.getKey() + " AWG").areaMm2() <= gauge.areaMm2() * 1.001)
                .map(Map.Entry::getValue)
                .max(Double::compare)
                .orElse(null);
    }

    /**
     * How long one segment may be, all others as they are, for a drop, a delay and the table to pass.
     *
     * @param dropVolts that may be lost
     * @return metres; 0 or less where no length of it passes
     */
    public double longestSegmentMetres(int at, double dropVolts) {
        Segment segment = segments.get(at);
        double restOhms = wireOhms() + contactsOhms() - pairOhms(segment);
        double byDrop = (dropVolts / currentAmps - restOhms) / (2 * lineOhmsPerMetre(segment));
        double byDelay = MOST_NS / NS_PER_METRE - (metres() - segment.metres());
        Double longest = longestMetres(segment.gauge());
        Double share = shareOfLongest();
        double byTable = longest == null || share == null ? 0 : longest * (1 - (share - segment.metres() / longest));
        return Math.min(byDrop, Math.min(byDelay, byTable));
    }

    private double lineOhmsPerMetre(Segment segment) {
        return WireConductor.of(segment.gauge(), ConductorMaterial.COPPER).ohmsPerMetre(conductorCelsius);
    }

    private static Map<Integer, Double> longest() {
        Map<Integer, Double> rows = new LinkedHashMap<>();
        rows.put(28, 0.81);
        rows.put(26, 1.31);
        rows.put(24, 2.08);
        rows.put(22, 3.33);
        rows.put(20, 5.00);
        return Collections.unmodifiableMap(rows);
    }
}
