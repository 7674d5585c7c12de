package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A control input is active in every state, asleep too. */
@AutoService(Rule.class)
@About(
        code = "control-always-active",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A control input is active in every state, asleep too.",
        checks =
                "Every connected control input in every state, without any condition holding. The turn-on of an amplifier counts"
                        + " too where it is active asleep and not in some other state, and a relay that pulled while the"
                        + " vehicle ran is taken for pulled asleep where it holds itself. An error where power"
                        + " or ground drives an input that no power may feed, as one for the reverse gear.",
        why = "An amplifier whose turn-on never goes away stays on all night and empties the battery.",
        mend = "Connect the input to a switched circuit, or to an output that goes dead with the system.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.battery", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}},
                 "parts": {"AMP": {"inline": {"terminals": {
                   "remote": {"function": "control.amplifier-on", "electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "AMP.remote"], "conductor": {"size": "18 AWG"}}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"function": "power.accessory", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"AMP": {"inline": {"terminals": {
                   "remote": {"function": "control.amplifier-on", "electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-8", "AMP.remote"], "conductor": {"size": "18 AWG"}}}}
                """,
        rank = Rank.FEED)
public final class ControlAlwaysActive implements Rule {

    static final FunctionId TURN_ON = new FunctionId("control.amplifier-on");
    private static final FunctionId ACCESSORY = new FunctionId("power.accessory");
    private static final FunctionId POWER = new FunctionId("power");
    private static final FunctionId GROUND = new FunctionId("ground");

    @Override
    public void check(Examination examination) {
        Map<Node, List<Node>> driven = new LinkedHashMap<>();
        Map<Node, List<Node>> asleep = new LinkedHashMap<>();
        Map<Node, Set<State>> states = new HashMap<>();
        for (Node input : Controls.connectedInputs(examination)) {
            Active wants = Controls.wants(input);
            if (wants == null) {
                examination.missing(input, "active");
                continue;
            }
            if (wants != Active.TWELVE_VOLTS && wants != Active.GROUND) {
                // pulses and resistances say something by what they are, not by being there
                continue;
            }
            examination.applies();
            Sure always = Sure.YES;
            Set<State> active = EnumSet.noneOf(State.class);
            for (State state : State.values()) {
                Sure now = Controls.hears(input, wants, examination.network().scenario(state));
                if (now == Sure.YES) {
                    active.add(state);
                }
                // what an amplifier does by day is nothing against what it does by night
                if (state == State.ASLEEP || !input.isFor(TURN_ON)) {
                    always = now.compareTo(always) < 0 ? now : always;
                }
            }
            if (always == Sure.NO) {
                continue;
            }
            if (always == Sure.UNKNOWN) {
                for (Node driver : Controls.drivers(input, examination)) {
                    if (Controls.speaks(driver) == null) {
                        examination.missing(driver, "active");
                    } else if (Controls.speaks(driver) == wants) {
                        Controls.lackLive(driver, examination);
                    }
                }
                continue;
            }
            if (Controls.lackRelayFacts(input, examination)) {
                continue;
            }
            List<Node> drivers = Controls.drivers(input, examination).stream()
                    .filter(driver -> Controls.speaks(driver) == wants && isEverLive(driver, examination))
                    .toList();
            Scenario atNight = examination.network().scenario(State.ASLEEP);
            List<Node> awake = drivers.stream()
                    .filter(driver -> atNight.isLive(driver) == Sure.YES)
                    .toList();
            // a switched line that is fed from elsewhere is told by line-back-fed
            if (wants != Active.TWELVE_VOLTS || !LineBackFed.isBackFed(input, awake, atNight, examination)) {
                driven.put(input, drivers);
                asleep.put(input, awake);
                states.put(input, active);
            }
        }
        for (List<Node> inputs : Controls.byCause(asleep, examination)) {
            report(
                    inputs,
                    driven.getOrDefault(inputs.get(0), List.of()),
                    asleep.getOrDefault(inputs.get(0), List.of()),
                    states.getOrDefault(inputs.get(0), Set.of()),
                    examination);
        }
    }

    private static void report(
            List<Node> inputs, List<Node> drivers, List<Node> awake, Set<State> states, Examination examination) {
        boolean always = states.size() == State.values().length;
        KeptOn contact =
                KeptOn.find(inputs.get(0), awake, examination.network().scenario(State.ASLEEP), examination.network());
        Examination.Draft draft = examination
                .report(
                        Say.names(inputs) + " " + Say.are(inputs) + " active "
                                + (always
                                        ? "in every state, asleep too: "
                                                + (drivers.size() == 1
                                                        ? Say.names(drivers) + " never goes away"
                                                        : "one of " + Say.names(drivers) + " is always live")
                                        : "while the vehicle is asleep, all night: " + Say.names(awake) + " "
                                                + Say.are(awake) + " live then")
                                + contact.text(),
                        contact.help() + "connect " + Say.refs(inputs)
                                + " to a circuit that goes dead when the vehicle sleeps.")
                .at(inputs)
                .besides(drivers)
                .through(examination.reading().connectionsAt(inputs))
                .in(states);
        if (inputs.stream().anyMatch(input -> isDeceived(input, drivers))) {
            draft.as(Severity.ERROR);
        }
    }

    /** Whether power or ground holds an input active that no power may feed, like one for the reverse gear. */
    private static boolean isDeceived(Node input, List<Node> drivers) {
        return input.function() != null
                && !Functions.vocabulary().mayFeed(ACCESSORY, input.function())
                && drivers.stream().anyMatch(driver -> driver.isFor(POWER) || driver.isFor(GROUND));
    }

    private static boolean isEverLive(Node driver, Examination examination) {
        return examination.network().scenarios().stream()
                .anyMatch(scenario -> scenario.conditions().isEmpty() && scenario.isLive(driver) == Sure.YES);
    }
}
