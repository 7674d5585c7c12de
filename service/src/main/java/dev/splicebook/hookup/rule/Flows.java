package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Level;
import dev.splicebook.hookup.power.Solved;
import dev.splicebook.hookup.power.Strand;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.HashSet;
import java.util.Set;
import java.util.stream.Collectors;

/** What the rules about solved power share. */
final class Flows {

    private static final MathContext FIGURES = new MathContext(7, RoundingMode.HALF_EVEN);

    private Flows() {}

    /** Says of facts, each a place, a dot and a name, that they are needed and absent. */
    static void lack(Set<String> facts, Examination examination) {
        for (String fact : facts) {
            int dot = fact.lastIndexOf('.');
            examination.missing(fact.substring(0, dot), fact.substring(dot + 1));
        }
    }

    /**
     * Facts without which the most that a strand carries may be more than told. What a load takes asleep is none of them: it
     * takes no more then than awake.
     */
    static Set<String> lacksOfMost(Case at, Solved solved, Strand strand) {
        Set<String> lacks = solved.lacks(strand);
        return at.level() != Level.ASLEEP || lacks.isEmpty()
                ? lacks
                : lacks.stream().filter(fact -> !fact.endsWith(".sleepAmps")).collect(Collectors.toSet());
    }

    /** Seven figures, so that the order in which currents were added up does not show. */
    static double figure(double value) {
        return new BigDecimal(value, FIGURES).doubleValue();
    }

    /** Amps that the sources of a strand give together at most, whatever draws there; infinite where unknown. */
    static double givenAmps(Link link, Examination examination) {
        Set<Node> sources = new HashSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            for (Node end : new Node[] {link.from(), link.to()}) {
                for (Reach reach : scenario.reaches(end)) {
                    if (reach.source().givesTwelveVolts()) {
                        sources.add(reach.source());
                    }
                }
            }
        }
        double amps = sources.isEmpty() ? Double.POSITIVE_INFINITY : 0;
        for (Node source : sources) {
            amps += givenAmps(source);
        }
        return amps;
    }

    private static double givenAmps(Node source) {
        if (source.facts() instanceof Electrical.ControlOut out) {
            return out.maxAmps() == null ? Double.POSITIVE_INFINITY : out.maxAmps();
        }
        if (source.facts() instanceof Electrical.Supply supply) {
            return supply.fuseAmps() != null
                    ? supply.fuseAmps()
                    : Boolean.TRUE.equals(supply.limited()) && supply.maxAmps() != null
                            ? supply.maxAmps()
                            : Double.POSITIVE_INFINITY;
        }
        return Double.POSITIVE_INFINITY;
    }
}
