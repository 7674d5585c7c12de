package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Adds up what a source is asked for at worst, over every scenario in which it can be live. */
final class Overload {

    private final List<Node> sources;
    private final Set<Node> sinks = new LinkedHashSet<>();
    private final Set<Node> worst = new LinkedHashSet<>();
    private final Set<Node> unknown = new LinkedHashSet<>();
    private final Set<State> states = EnumSet.noneOf(State.class);
    private final List<String> lacks = new ArrayList<>();
    private double worstAmps;

    Overload(List<Node> sources, List<Scenario> scenarios, Draws draws) {
        this.sources = sources;
        for (Scenario scenario : scenarios) {
            add(scenario, draws.from(sources, scenario));
        }
    }

    static Overload of(Node source, Examination examination) {
        return of(List.of(source), examination);
    }

    /** Of several that draw on one; what two of them feed counts once. */
    static Overload of(List<Node> sources, Examination examination) {
        Overload overload = examination.reading().draws().overload(sources);
        if (!overload.isIdle()) {
            examination.applies();
            Draws.assumeVolts(examination);
        }
        return overload;
    }

    private void add(Scenario scenario, List<Draws.Draw> draws) {
        if (draws.isEmpty()) {
            return;
        }
        double amps = 0;
        for (Draws.Draw draw : draws) {
            if (draw.maxAmps() != null) {
                amps += draw.maxAmps();
            } else {
                amps += draw.typicalAmps() == null ? 0 : draw.typicalAmps();
                if (unknown.add(draw.sink())) {
                    lacks.add(draw.lacks());
                }
            }
            sinks.add(draw.sink());
        }
        if (amps > worstAmps + 1e-9) {
            worstAmps = amps;
            states.clear();
            worst.clear();
        }
        if (amps >= worstAmps - 1e-9) {
            states.add(scenario.state());
            draws.forEach(draw -> worst.add(draw.sink()));
        }
    }

    boolean isIdle() {
        return sinks.isEmpty();
    }

    boolean isAbove(double limitAmps) {
        return worstAmps > limitAmps + 1e-9;
    }

    /** Reports a draw above the limit, or the facts that would tell. */
    void judge(double limitAmps, String limitIs, String help, Examination examination) {
        if (isAbove(limitAmps)) {
            examination
                    .report(
                            Say.names(sources) + " " + Say.are(sources) + " asked for "
                                    + Say.apart(worstAmps, limitAmps, Say::amps) + " by "
                                    + Say.names(worst) + ", above the " + Say.amps(limitAmps) + " " + limitIs,
                            help)
                    .at(sources)
                    .at(worst)
                    .through(examination.reading().connectionsAt(sources))
                    .in(states)
                    .figures(worstAmps, limitAmps, "A");
        } else {
            int at = 0;
            for (Node node : unknown) {
                examination.missing(node, lacks.get(at++));
            }
        }
    }
}
