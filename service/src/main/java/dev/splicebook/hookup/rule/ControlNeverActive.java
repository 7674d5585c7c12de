package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A control input is active in no state, or a turn-on only in accessory or while the engine is cranked. */
@AutoService(Rule.class)
@About(
        code = "control-never-active",
        severity = Severity.ERROR,
        since = "0.1",
        condition =
                "A control input that is needed is active in no state, or a turn-on only in accessory or while the engine is cranked.",
        checks =
                "Every connected control input in every state, under every condition and under all at once: something that speaks the way it"
                        + " listens must be live at least once, through relays and diodes as well; for a turn-on in ignition or running, or asleep. An output of a part whose every"
                        + " feed is listed as unused gives nothing. A part that is fed and drives loudspeakers, and whose every turn-on is listed"
                        + " as unused, is a warning, as it may turn itself on by its signal.",
        why = "The amplifier never turns on, the camera never shows.",
        mend = "Connect the input to an output or supply that becomes live when it is wanted.",
        source = "Common practice, no source.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                     "remote": {"function": "control.amplifier-on", "electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}},
                   "LINK": {"inline": {"conducts": [["a", "b"]]}}},
                 "connections": {"W1": {"ends": ["LINK.a", "AMP.remote"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-5": {"function": "control.amplifier-on", "electrical":
                   {"kind": "control-out", "active": "12V", "maxAmps": 0.3, "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {"AMP": {"inline": {"terminals": {
                     "remote": {"function": "control.amplifier-on", "electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}},
                   "LINK": {"inline": {"conducts": [["a", "b"]]}}},
                 "connections": {"W1": {"ends": ["LINK.a", "AMP.remote"]}, "W2": {"ends": ["LINK.b", "CAR.C1-5"]}}}
                """,
        rank = Rank.FEED)
public final class ControlNeverActive implements Rule {

    /** In which a turn-on alone is of no use: one that lasts as long as the starter turns, or that goes as the engine starts. */
    private static final Set<State> USELESS = EnumSet.of(State.ACCESSORY, State.CRANKING, State.RESTARTING);

    @Override
    public void check(Examination examination) {
        Map<Node, Set<Node>> never = new LinkedHashMap<>();
        for (Node input : Controls.connectedInputs(examination)) {
            examination.applies();
            Active wants = Controls.wants(input);
            if (wants == null) {
                examination.missing(input, "active");
                continue;
            }
            Sure heard = Sure.NO;
            for (Scenario scenario : examination.network().scenarios()) {
                Sure now = isOfUse(input, scenario.state()) ? Controls.hears(input, wants, scenario) : Sure.NO;
                heard = now.compareTo(heard) > 0 ? now : heard;
            }
            if (heard == Sure.YES) {
                continue;
            }
            Set<Node> drivers = Controls.drivers(input, examination);
            if (heard == Sure.UNKNOWN) {
                for (Node driver : drivers) {
                    if (Controls.speaks(driver) == null) {
                        examination.missing(driver, "active");
                    } else if (Controls.speaks(driver) == wants) {
                        Controls.lackLive(driver, examination);
                    }
                }
                continue;
            }
            List<Node> unknown = Controls.unknownOn(input, examination);
            if (!unknown.isEmpty()) {
                unknown.forEach(node -> examination.missing(node, "electrical"));
                continue;
            }
            // what speaks another way is told by control-polarity-mismatch, what hangs on a dead part by that part
            boolean told = drivers.stream()
                    .anyMatch(driver -> (Feeds.isIdlePart(driver, examination.network())
                                    && !examination.network().isLeftUnfed(driver.owner()))
                            || (Controls.speaks(driver) != null && clash(wants, driver)));
            if (!told && !Controls.lackRelayFacts(input, examination) && !mayDo(wants, drivers)) {
                never.put(input, drivers);
            }
        }
        examination.network().hookup().devices().keySet().forEach(part -> checkCapped(part, examination));
        for (List<Node> inputs : Controls.byCause(never, examination)) {
            Active wants = Controls.wants(inputs.get(0));
            if (wants != null) {
                report(inputs, wants, never.getOrDefault(inputs.get(0), Set.of()), examination);
            }
        }
    }

    /** A part that is fed, and whose only turn-on is listed as unused: it must turn itself on, or stays off. */
    private static void checkCapped(String part, Examination examination) {
        Network network = examination.network();
        List<Node> own = network.nodesOf(part);
        List<Node> turnOns = own.stream()
                .filter(node -> node.facts() instanceof Electrical.ControlIn && node.isFor(ControlAlwaysActive.TURN_ON))
                .toList();
        boolean sounds = own.stream()
                .anyMatch(node -> node.facts() instanceof Electrical.SpeakerOut && network.isConnected(node));
        boolean fed =
                own.stream().anyMatch(node -> node.facts() instanceof Electrical.Load && network.isConnected(node));
        if (!turnOns.isEmpty() && fed && sounds && turnOns.stream().allMatch(network::isUnused)) {
            examination
                    .report(
                            Say.names(turnOns) + (turnOns.size() == 1 ? " is" : " are")
                                    + " listed as unused, so that nothing turns " + part
                                    + " on, unless it turns itself on by the sound that arrives",
                            "connect " + Say.refs(turnOns)
                                    + " to something that is live while driving and sleeps with the vehicle.")
                    .as(Severity.WARNING)
                    .at(turnOns);
        }
    }

    private static boolean isOfUse(Node input, State state) {
        return !USELESS.contains(state) || !input.isFor(ControlAlwaysActive.TURN_ON);
    }

    /** States in which an input is active though that is of no use. */
    private static Set<State> uselessStates(Node input, Active wants, Examination examination) {
        Set<State> states = EnumSet.noneOf(State.class);
        for (Scenario scenario : examination.network().scenarios()) {
            if (!isOfUse(input, scenario.state()) && Controls.hears(input, wants, scenario) == Sure.YES) {
                states.add(scenario.state());
            }
        }
        return states;
    }

    private static void report(List<Node> inputs, Active wants, Set<Node> drivers, Examination examination) {
        Barrier barrier = drivers.isEmpty()
                ? Barrier.find(
                        inputs.get(0),
                        source -> isSource(source) && Controls.speaks(source) == wants,
                        examination.network())
                : null;
        examination
                .report(
                        Say.names(inputs)
                                + why(inputs, wants, drivers, examination)
                                + (barrier == null ? "" : ": " + barrier.words()),
                        inputs.stream().anyMatch(Controls::isParkingBrakeInput)
                                ? "connect " + Say.refs(inputs)
                                        + " to the vehicle's parking-brake circuit and to nothing else."
                                : (barrier == null ? "" : barrier.help() + ", or ") + "connect " + Say.refs(inputs)
                                        + " to something that gives " + Controls.gives(wants)
                                        + (inputs.get(0).isFor(ControlAlwaysActive.TURN_ON)
                                                ? " while driving and sleeps with the vehicle."
                                                : " when it is wanted."))
                .at(inputs)
                .besides(drivers)
                .besides(barrier == null ? Set.of() : barrier.terminals())
                .through(examination.reading().connectionsAt(inputs));
    }

    private static boolean isSource(Node node) {
        return node.givesTwelveVolts() || node.pullsToGround() || node.facts() instanceof Electrical.ControlOut;
    }

    private static boolean clash(Active wants, Node driver) {
        Active speaks = Controls.speaks(driver);
        return speaks != null && Controls.clash(wants, speaks);
    }

    /** Whether a driver may serve an input though it is not of the input's own kind: a switched level for a pulse. */
    private static boolean mayDo(Active wants, Set<Node> drivers) {
        return drivers.stream().anyMatch(driver -> {
            Active speaks = Controls.speaks(driver);
            return speaks != wants
                    && switch (wants) {
                        case TWELVE_VOLTS -> false;
                        case PULSE -> driver.facts() instanceof Electrical.ControlOut;
                        case GROUND, PWM, RESISTANCE -> true;
                    };
        });
    }

    private static String why(List<Node> inputs, Active wants, Set<Node> drivers, Examination examination) {
        if (drivers.isEmpty()) {
            return " " + Say.are(inputs) + " driven by nothing";
        }
        String listed = Say.names(drivers);
        boolean one = drivers.size() == 1;
        boolean other = drivers.stream().noneMatch(driver -> Controls.speaks(driver) == wants);
        Set<State> useless = uselessStates(inputs.get(0), wants, examination);
        if (!useless.isEmpty()) {
            String open = Barrier.findOpen(inputs.get(0), drivers, EnumSet.of(State.RUNNING), examination.network());
            return " " + Say.are(inputs) + " active only " + Say.inStates(useless) + ", and dead while driving: "
                    + (open != null ? open : listed + (one ? " is live in no other" : " are live in no other"));
        }
        String what = wants == Active.PULSE ? " a steady level, " : " a resistance, ";
        return other
                ? (inputs.size() == 1 ? " listens for " : " listen for ") + Controls.gives(wants) + ", and " + listed
                        + (one ? ", which gives" + what + "never makes" : ", which give" + what + "never make")
                        + (inputs.size() == 1 ? " it active" : " them active")
                : " " + Say.are(inputs) + " active in no state: " + listed
                        + (one ? " is never live" : " are never live")
                        + Barrier.whyDead(drivers, examination.network());
    }
}
