package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.HashSet;
import java.util.Set;

/** What the rules about solved power share. */
final class Flows {

    private static final MathContext FIGURES = new MathContext(7, RoundingMode.HALF_EVEN);

    private Flows() {}

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
