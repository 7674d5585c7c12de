package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Lacks;
import dev.splicebook.hookup.power.Power;
import dev.splicebook.hookup.power.Solved;
import dev.splicebook.hookup.power.Strand;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A conductor carries more than it takes. */
@AutoService(Rule.class)
@About(
        code = "conductor-too-small",
        severity = Severity.ERROR,
        since = "0.2",
        sizes = true,
        condition = "A conductor carries more than it takes.",
        checks =
                "The current of every connection, feeds and returns, solved for every state with every load drawing its most, while running at the most of the vehicle's range where resistors or coils"
                        + " take more then,"
                        + " against the allowable current of its size, material and insulation. Equal runs of one current are told together.",
        why =
                "A wire that carries too much gets hotter than its insulation bears. It softens, chafes through and shorts, inside a"
                        + " bundle first.",
        mend = "Use the thicker conductor that the current asks for, or share the load between two circuits.",
        source = "33 CFR 183.425 table 5; currents by Kirchhoff's laws.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 12, "maxAmps": 24, "needs": "constant",
                                           "minVolts": 9, "sleepAmps": 0.002}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "18 AWG"},
                          "length": {"value": 50, "unit": "cm"}, "fuse": {"ratingAmps": 20}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "12 AWG"},
                          "length": {"value": 50, "unit": "cm"}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 12, "maxAmps": 24, "needs": "constant",
                                           "minVolts": 9, "sleepAmps": 0.002}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "12 AWG"},
                          "length": {"value": 50, "unit": "cm"}, "fuse": {"ratingAmps": 30}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "12 AWG"},
                          "length": {"value": 50, "unit": "cm"}}}}
                """)
public final class ConductorTooSmall implements Rule {

    private static final Comparator<Run> BY_FACTS = Comparator.comparing((Run run) ->
                    run.near.factsText() + run.link.across(run.near).factsText())
            .thenComparing(run -> String.valueOf(run.link.ref()));

    /** A connection as it carries the most. */
    private static final class Run {
        private final Link link;
        private final double limitAmps;
        private final Set<State> states = EnumSet.noneOf(State.class);
        private final Lacks lacks = new Lacks();
        private Node near;
        private double amps;

        Run(Link link, double limitAmps) {
            this.link = link;
            this.limitAmps = limitAmps;
            near = link.from();
        }

        void add(double flow, Case at) {
            if (Math.abs(flow) > amps) {
                amps = Math.abs(flow);
                near = flow > 0 ? link.from() : link.to();
            }
            if (Math.abs(flow) > limitAmps + Power.SLACK_AMPS) {
                states.addAll(at.states());
            }
        }
    }

    private record Kind(Connection.Conductor conductor, double amps, Set<State> states) {}

    @Override
    public void check(Examination examination) {
        Power power = examination.reading().power();
        Map<Link, Run> runs = new LinkedHashMap<>();
        for (Case each : power.cases()) {
            Solved highest = each.highest();
            for (Strand strand : highest.strands()) {
                double flow = highest.amps(strand);
                Set<String> lacks = highest.lacksOfMost(strand);
                boolean carries = Math.abs(flow) > 0 || !lacks.isEmpty();
                if (strand.link().kind() == Link.Kind.CONNECTION && carries && !Double.isNaN(flow)) {
                    Run run = runs.computeIfAbsent(strand.link(), link -> new Run(link, strand.allowableAmps()));
                    run.add(flow, each);
                    run.lacks.addAll(lacks);
                }
            }
        }
        Map<Kind, List<Run>> overloaded = new LinkedHashMap<>();
        runs.values().forEach(run -> sort(run, overloaded, examination));
        overloaded.values().forEach(alike -> report(alike, examination));
        examination.missing(power.openFeeds());
    }

    private static void sort(Run run, Map<Kind, List<Run>> overloaded, Examination examination) {
        examination.applies();
        Connection connection = run.link.connection();
        Connection.Conductor conductor = connection == null ? null : connection.conductor();
        if (conductor == null) {
            examination.missing("connection " + run.link.ref(), "conductor");
            return;
        }
        Conductors.assumeDefaults(examination, conductor);
        if (!run.states.isEmpty()) {
            overloaded
                    .computeIfAbsent(new Kind(conductor, Flows.figure(run.amps), run.states), kind -> new ArrayList<>())
                    .add(run);
        } else if (!run.lacks.isEmpty() && Flows.givenAmps(run.link, examination) > run.limitAmps) {
            run.lacks.forEach(examination::missing);
        }
    }

    private static void report(List<Run> alike, Examination examination) {
        alike.sort(BY_FACTS);
        Run first = alike.get(0);
        Connection connection = first.link.connection();
        if (connection == null || connection.conductor() == null) {
            return;
        }
        List<String> refs =
                alike.stream().map(run -> String.valueOf(run.link.ref())).toList();
        List<Node> ends = alike.stream()
                .flatMap(run -> List.of(run.link.from(), run.link.to()).stream())
                .toList();
        boolean one = alike.size() == 1;
        examination
                .report(
                        (one ? Conductors.describe(first.link, first.near) : "connections " + Say.list(refs) + " each")
                                + (one ? " carries " : " carry ") + Say.apart(first.amps, first.limitAmps, Say::amps)
                                + ", above the "
                                + Say.amps(first.limitAmps) + " that " + Conductors.describe(connection.conductor())
                                + " takes",
                        "use a thicker conductor, and where a fuse protects it, one to suit.")
                .at(ends)
                .through(refs)
                .in(first.states)
                .figures(Flows.figure(first.amps), Flows.figure(first.limitAmps), "A");
    }
}
