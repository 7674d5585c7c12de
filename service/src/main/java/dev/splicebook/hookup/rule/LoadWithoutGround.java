package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** The loads or the battery of a part have no way back to the vehicle's ground. */
@AutoService(Rule.class)
@About(
        code = "load-without-ground",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "The loads or the battery of a part have no way back to the vehicle's ground.",
        checks =
                "Every part with loads in use: one of its ground terminals must stand on the vehicle's ground while the"
                        + " engine runs, and in every state where a load needs constant feed. A battery of a part that something is connected to must"
                        + " stand there in every state. A part whose feed and return are mixed up is told by load-without-supply.",
        why =
                "Without its return a device is dead, or finds its return through the shield of a signal lead and hums, or burns"
                        + " that lead.",
        mend = "Connect its ground lead to a bare, clean point of the chassis or to the battery's negative terminal.",
        source = "Common practice, no source.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "8 AWG"}, "fuse": {"ratingAmps": 60}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "8 AWG"}, "fuse": {"ratingAmps": 60}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "8 AWG"}}}}
                """,
        rank = Rank.FEED)
public final class LoadWithoutGround implements Rule {

    @Override
    public void check(Examination examination) {
        for (String part : examination.network().hookup().devices().keySet()) {
            List<Node> loads = new ArrayList<>();
            List<Node> grounds = new ArrayList<>();
            boolean battery = false;
            for (Node node : examination.network().nodesOf(part)) {
                if (node.facts() instanceof Electrical.Load
                        && !examination.network().isUnused(node)) {
                    loads.add(node);
                } else if (node.facts() instanceof Electrical.Ground) {
                    grounds.add(node);
                } else if (node.facts() instanceof Electrical.Supply
                        && examination.network().isConnected(node)) {
                    battery |= examination.network().isBattery(node);
                }
            }
            if (loads.isEmpty() && (!battery || grounds.isEmpty())) {
                continue;
            }
            examination.applies();
            if (examination.network().returnsByScreen(part)) {
                examination.assume(
                        "return",
                        null,
                        null,
                        "a part that names no ground and has an antenna lead returns by the screen of that lead");
            } else if (grounds.isEmpty()) {
                examination.missing(part, "ground");
            } else {
                check(part, battery || needsConstant(loads), grounds, examination);
            }
        }
    }

    private static boolean needsConstant(List<Node> loads) {
        return loads.stream()
                .anyMatch(node -> node.facts() instanceof Electrical.Load load && load.needs() == Need.CONSTANT);
    }

    private static void check(String part, boolean constant, List<Node> grounds, Examination examination) {
        Set<State> needed = constant ? EnumSet.allOf(State.class) : EnumSet.of(State.RUNNING);
        Set<State> grounded = EnumSet.noneOf(State.class);
        Set<State> perhaps = EnumSet.noneOf(State.class);
        Set<Node> lacking = new LinkedHashSet<>();
        for (Scenario scenario : examination.network().scenarios()) {
            for (Node ground : grounds) {
                if (scenario.hasGround(ground) == Sure.YES) {
                    grounded.add(scenario.state());
                } else {
                    Set<Node> unknown = Unknowns.ofGround(ground, examination.network(), scenario);
                    if (!unknown.isEmpty()) {
                        perhaps.add(scenario.state());
                        lacking.addAll(unknown);
                    }
                }
            }
        }
        perhaps.addAll(grounded);
        Set<State> lost = EnumSet.copyOf(needed);
        lost.removeAll(perhaps);
        if (!lost.isEmpty()) {
            if (Feeds.findReversal(part, examination) != null) {
                return;
            }
            examination
                    .report(
                            part + " returns through " + Say.names(grounds) + ", and no ground of the vehicle is there"
                                    + (lost.size() == State.values().length ? "" : " " + Say.inStates(lost)),
                            "connect " + grounds.get(0).ref() + " to a clean point of the chassis.")
                    .at(grounds)
                    .through(examination.reading().connectionsAt(grounds))
                    .in(lost);
        } else if (!grounded.containsAll(needed)) {
            Unknowns.tell(lacking, examination);
        }
    }
}
