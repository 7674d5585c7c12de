package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the resistance between the two lines of a CAN bus tells, read with everything unpowered.
 *
 * <p>Two terminators of 120 Ω (ISO 11898-2), one at each end, read 60 Ω. Each node puts its differential input resistance
 * of 10 to 100 kΩ (ISO 11898-2, from memory) beside them, and a meter's leads add up to 1 Ω.
 */
public final class BusTermination {

    /** One terminator, in ohms. */
    public static final double TERMINATOR_OHMS = 120;

    /** Least differential input resistance of a node, in ohms (ISO 11898-2, from memory). */
    public static final double NODE_OHMS = 10_000;

    /** Resistance of a meter's leads, in ohms: common practice, no source. */
    public static final double LEAD_OHMS = 1;

    /** Below this the lines touch: no set of terminators reads so little. */
    public static final double SHORT_OHMS = 5;

    /** From here on a bus is open: more than nodes alone would read. */
    public static final double OPEN_OHMS = 50_000;

    /** A line below this to ground or battery is shorted to it: common practice, no source. */
    public static final double LINE_SHORT_OHMS = 10;

    /** A line below this to ground or battery leaks: a node's own resistance is 5 kΩ or more (from memory), many in parallel. */
    public static final double LINE_LEAK_OHMS = 300;

    /** Lines of one pair differ by less than this: common practice, no source. */
    public static final double UNLIKE_TIMES = 1.5;

    /** A node that ends its stub weakly has 1.3 kΩ from each line to a middle point: 2.6 kΩ in all (from memory). */
    public static final double WEAK_SPLIT_OHMS = 2600;

    private BusTermination() {}

    /** What is fitted or broken. */
    public enum TerminationVerdict {
        SHORTED,
        TOO_MANY_TERMINATORS,
        THREE_TERMINATORS,
        BOTH_FITTED,
        ONE_TERMINATOR,
        NO_TERMINATOR,
        OPEN,
        BETWEEN_BANDS
    }

    /** What one line is to ground or to the battery. */
    public enum BusLine {
        SHORTED,
        LEAKING,
        SOUND
    }

    /** What the volts between the lines say of a bus at work (ISO 11898-2). */
    public enum BusLevel {
        RECESSIVE,
        DOMINANT,
        UNDEFINED
    }

    /**
     * Readings of one number of terminators.
     *
     * @param terminators how many
     * @param leastOhms with all at the low end of tolerance, beside the nodes
     * @param mostOhms with all at the high end, and a meter's leads
     */
    public record Band(int terminators, double leastOhms, double mostOhms) {

        boolean holds(double ohms) {
            return ohms >= leastOhms && ohms <= mostOhms;
        }
    }

    /**
     * A bus as it should be.
     *
     * @param toleranceShare of its terminators, 0 to 0.1
     * @param nodes on it, 0 to 40
     */
    public record Bus(double toleranceShare, int nodes) {
        public Bus {
            new Guard()
                    .between("toleranceShare", toleranceShare, 0, 0.1)
                    .between("nodes", nodes, 0, 40)
                    .check();
        }

        /** The readings of a number of terminators, at least 1. */
        public Band band(int terminators) {
            double low = terminatedOhms(terminators, TERMINATOR_OHMS * (1 - toleranceShare));
            return new Band(
                    terminators,
                    nodes == 0 ? low : low * NODE_OHMS / (low * nodes + NODE_OHMS),
                    terminatedOhms(terminators, TERMINATOR_OHMS * (1 + toleranceShare)) + LEAD_OHMS);
        }

        /** The readings of one, two and three terminators. */
        public List<Band> bands() {
            return List.of(band(1), band(2), band(3));
        }

        /**
         * What a reading tells. A reading within two bands, which tolerances of 10 % and many nodes make possible, belongs
         * to the number whose ideal figure is nearer.
         *
         * @param ohms between the lines, at least 0; infinite where the meter shows an open circuit
         */
        public TerminationVerdict judge(double ohms) {
            if (ohms < SHORT_OHMS) {
                return TerminationVerdict.SHORTED;
            }
            if (ohms >= OPEN_OHMS) {
                return TerminationVerdict.OPEN;
            }
            @Nullable Band found = null;
            for (Band band : bands()) {
                if (band.holds(ohms) && (found == null || away(ohms, band) < away(ohms, found))) {
                    found = band;
                }
            }
            if (found != null) {
                return switch (found.terminators()) {
                    case 1 -> TerminationVerdict.ONE_TERMINATOR;
                    case 2 -> TerminationVerdict.BOTH_FITTED;
                    default -> TerminationVerdict.THREE_TERMINATORS;
                };
            }
            if (ohms < band(3).leastOhms()) {
                return TerminationVerdict.TOO_MANY_TERMINATORS;
            }
            return ohms > band(1).mostOhms() * 2 ? TerminationVerdict.NO_TERMINATOR : TerminationVerdict.BETWEEN_BANDS;
        }

        private static double away(double ohms, Band band) {
            return Math.abs(Math.log(ohms / terminatedOhms(band.terminators(), TERMINATOR_OHMS)));
        }
    }

    /** Equal terminators side by side: ohms by their number. */
    public static double terminatedOhms(int terminators, double terminatorOhms) {
        return terminatorOhms / terminators;
    }

    /** How many terminators of 120 Ω would read this, not rounded. */
    public static double equivalentTerminators(double ohms) {
        return TERMINATOR_OHMS / ohms;
    }

    /** What a line is to ground or battery, by the ohms between them. */
    public static BusLine line(double ohms) {
        if (ohms < LINE_SHORT_OHMS) {
            return BusLine.SHORTED;
        }
        return ohms < LINE_LEAK_OHMS ? BusLine.LEAKING : BusLine.SOUND;
    }

    /**
     * What the volts between CAN-H and CAN-L are: recessive up to 0.5 V, dominant from 0.9 V, undefined between (ISO
     * 11898-2).
     */
    public static BusLevel level(double highVolts, double lowVolts) {
        // a thousand millionth of a volt is rounding of the difference
        double volts = Math.rint((highVolts - lowVolts) * 1e9) / 1e9;
        if (volts >= 0.9) {
            return BusLevel.DOMINANT;
        }
        return volts <= 0.5 ? BusLevel.RECESSIVE : BusLevel.UNDEFINED;
    }
}
