package dev.splicebook.electrics;

import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Voice coils joined in series and in parallel. As text, {@code A.1 + A.2} is series, {@code A.1 | A.2} parallel,
 * parentheses nest, and a leading {@code -} turns a coil or a group round, plus for minus: {@code (A.1 + A.2) | -B}.
 */
public sealed interface Wiring {

    /** Impedance, with coils as resistances; above zero. */
    double ohms();

    /** One coil. */
    record One(
            String coil,
            String driver,
            double ohms,
            @Nullable Double ratedWatts,
            boolean reversed) implements Wiring {}

    /**
     * One after the other, the minus of each at the plus of the next.
     *
     * @param parts at least two, none of them in series itself
     */
    record Series(List<Wiring> parts) implements Wiring {

        public Series {
            parts = grouped(parts, Series.class);
        }

        @Override
        public double ohms() {
            return parts.stream().mapToDouble(Wiring::ohms).sum();
        }
    }

    /**
     * Side by side, all plus together and all minus together.
     *
     * @param parts at least two, none of them parallel itself
     */
    record Parallel(List<Wiring> parts) implements Wiring {

        public Parallel {
            parts = grouped(parts, Parallel.class);
        }

        @Override
        public double ohms() {
            return 1 / parts.stream().mapToDouble(each -> 1 / each.ohms()).sum();
        }
    }

    /**
     * What one coil gets of what the whole gets.
     *
     * @param currentShare amperes by all amperes, above 0 to 1
     * @param powerShare watts by all watts, above 0 to 1; all shares are 1 together
     */
    record Share(One coil, double currentShare, double powerShare) {}

    /** Coils in the order of the text. */
    default List<One> coils() {
        List<One> coils = new ArrayList<>();
        collect(this, coils);
        return coils;
    }

    /** What each coil gets, in the order of {@link #coils}. */
    default List<Share> shares() {
        List<Share> shares = new ArrayList<>();
        share(this, 1, ohms(), shares);
        return shares;
    }

    /** The nested expression. */
    default String text() {
        return text(this);
    }

    /**
     * Which terminals are joined, from the amplifier's plus on: {@code amplifier+ to A.1+}, {@code A.1- to A.2+, B+}.
     *
     * @return one line for each junction
     */
    default List<String> joins() {
        List<List<String>> junctions = new ArrayList<>();
        junctions.add(new ArrayList<>(List.of("amplifier+")));
        List<String> end = new ArrayList<>(List.of("amplifier-"));
        join(this, junctions.get(0), end, junctions);
        junctions.add(end);
        return junctions.stream()
                .map(each -> each.get(0) + " to " + String.join(", ", each.subList(1, each.size())))
                .toList();
    }

    /**
     * What is wrong with how coils are turned: a driver whose two coils work against each other, and drivers that move
     * against most others. Turning everything round is no fault.
     *
     * @return sentences without a full stop; empty where all is well
     */
    default List<String> polarityFaults() {
        Map<String, Set<Boolean>> turnsByDriver = coils().stream()
                .collect(Collectors.groupingBy(
                        One::driver, LinkedHashMap::new, Collectors.mapping(One::reversed, Collectors.toSet())));
        List<String> faults = new ArrayList<>();
        int turned = 0;
        for (Map.Entry<String, Set<Boolean>> driver : turnsByDriver.entrySet()) {
            if (driver.getValue().size() == 2) {
                faults.add("the coils of " + driver.getKey() + " work against each other, so that it is silent");
            } else {
                turned += driver.getValue().contains(true) ? 1 : -1;
            }
        }
        boolean usual = turned > 0;
        turnsByDriver.forEach((driver, turns) -> {
            if (turns.size() == 1 && turns.contains(!usual)) {
                faults.add(driver + " moves against the other drivers and takes bass away");
            }
        });
        return faults;
    }

    /**
     * Reads a wiring.
     *
     * @param text series and parallel may not be mixed without parentheses
     * @param drivers whose coils it names, {@code A.1} and {@code A.2}, or {@code A} where a driver has but one; each
     *     coil at most once
     * @throws InvalidValueException with code {@code bad-wiring} that says where
     */
    static Wiring parse(WiringText text, List<SpeakerDriver> drivers) {
        return new WiringReader(text.value(), SpeakerDriver.coilsOf(drivers)).whole();
    }

    private static List<Wiring> grouped(List<Wiring> parts, Class<? extends Wiring> kind) {
        if (parts.size() < 2 || parts.stream().anyMatch(kind::isInstance)) {
            throw new InvalidValueException("bad-wiring", "a group has two parts or more, of another kind than itself");
        }
        return List.copyOf(parts);
    }

    private static void collect(Wiring wiring, List<One> coils) {
        if (wiring instanceof One one) {
            coils.add(one);
        } else {
            partsOf(wiring).forEach(each -> collect(each, coils));
        }
    }

    /** What a group consists of; nothing for a coil. */
    static List<Wiring> partsOf(Wiring wiring) {
        if (wiring instanceof Series series) {
            return series.parts();
        }
        return wiring instanceof Parallel parallel ? parallel.parts() : List.of();
    }

    private static void share(Wiring wiring, double currentShare, double allOhms, List<Share> shares) {
        if (wiring instanceof One one) {
            shares.add(new Share(one, currentShare, currentShare * currentShare * one.ohms() / allOhms));
        }
        for (Wiring part : partsOf(wiring)) {
            double partShare = wiring instanceof Parallel ? currentShare * wiring.ohms() / part.ohms() : currentShare;
            share(part, partShare, allOhms, shares);
        }
    }

    private static String text(Wiring wiring) {
        if (wiring instanceof One one) {
            return one.reversed() ? "-" + one.coil() : one.coil();
        }
        return partsOf(wiring).stream()
                .map(each -> each instanceof One ? text(each) : "(" + text(each) + ")")
                .collect(Collectors.joining(wiring instanceof Series ? " + " : " | "));
    }

    private static void join(Wiring wiring, List<String> plus, List<String> minus, List<List<String>> junctions) {
        if (wiring instanceof One one) {
            (one.reversed() ? minus : plus).add(one.coil() + "+");
            (one.reversed() ? plus : minus).add(one.coil() + "-");
        } else if (wiring instanceof Series series) {
            List<String> before = plus;
            for (int each = 0; each < series.parts().size(); each++) {
                List<String> after = minus;
                if (each < series.parts().size() - 1) {
                    after = new ArrayList<>();
                    junctions.add(after);
                }
                join(series.parts().get(each), before, after, junctions);
                before = after;
            }
        } else {
            partsOf(wiring).forEach(each -> join(each, plus, minus, junctions));
        }
    }
}
