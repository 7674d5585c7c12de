package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A control input listens for 12 V and is given ground, or the reverse, or is given pulses where it wants a level. */
@AutoService(Rule.class)
@About(
        code = "control-polarity-mismatch",
        severity = Severity.ERROR,
        since = "0.1",
        condition =
                "A control input listens for 12 V and is given ground, or the reverse, or is given pulses where it wants"
                        + " a level.",
        checks =
                "Every connected control input against all that drives its net: none of it speaks the way the input listens,"
                        + " and some of it speaks another way.",
        why =
                "A parking-brake input that listens for ground never sees a 12 V lamp feed, and a reverse input that listens for"
                        + " 12 V never sees a switch to ground. Pulses make a level input chatter.",
        mend = "Put a relay between that turns one into the other, or use a circuit that speaks the right way.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C6-4": {"function": "control.door", "electrical":
                   {"kind": "control-out", "active": "ground", "maxAmps": 0.5, "live": ["running"], "when": "door-open"}}}}},
                 "parts": {"DVR": {"inline": {"terminals": {
                   "door": {"function": "control.door", "electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C6-4", "DVR.door"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C6-4": {"function": "control.door", "electrical":
                   {"kind": "control-out", "active": "ground", "maxAmps": 0.5, "live": ["running"], "when": "door-open"}}}}},
                 "parts": {"DVR": {"inline": {"terminals": {
                   "door": {"function": "control.door", "electrical": {"kind": "control-in", "active": "ground", "amps": 0.01}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C6-4", "DVR.door"]}}}
                """,
        rank = Rank.CONTROL_TYPE)
public final class ControlPolarityMismatch implements Rule {

    @Override
    public void check(Examination examination) {
        for (Node input : Controls.connectedInputs(examination)) {
            Set<Node> drivers = Controls.drivers(input, examination);
            if (drivers.isEmpty()) {
                continue;
            }
            examination.applies();
            Active wants = Controls.wants(input);
            if (wants == null) {
                examination.missing(input, "active");
                continue;
            }
            List<Node> wrong = new ArrayList<>();
            boolean right = false;
            for (Node driver : drivers) {
                Active speaks = Controls.speaks(driver);
                if (speaks == null) {
                    examination.missing(driver, "active");
                    right = true;
                } else if (speaks == wants) {
                    right = true;
                } else if (Controls.clash(wants, speaks)) {
                    wrong.add(driver);
                }
            }
            if (!right && !wrong.isEmpty()) {
                // a relay at the parking-brake input would make anything but the parking-brake circuit feed it
                String way = Controls.isParkingBrakeInput(input)
                        ? "use a parking-brake circuit that gives "
                        : "put a relay between that turns the one into the other, or use a circuit that gives ";
                examination
                        .report(
                                Say.name(input) + " listens for " + Controls.gives(wants) + ", and "
                                        + whatTheyGive(wrong),
                                way + Controls.gives(wants) + ".")
                        .at(input)
                        .besides(wrong)
                        .through(examination.reading().connectionsAt(List.of(input)));
            }
        }
    }

    /** Like {@code CAR.C1-7 gives it 12 V, CAR.C2-4 and CAR.C2-5 give it pulses}. */
    private static String whatTheyGive(List<Node> wrong) {
        Map<Active, List<Node>> byKind = new EnumMap<>(Active.class);
        for (Node driver : wrong) {
            Active speaks = Controls.speaks(driver);
            if (speaks != null) {
                byKind.computeIfAbsent(speaks, kind -> new ArrayList<>()).add(driver);
            }
        }
        List<String> parts = new ArrayList<>();
        byKind.forEach((speaks, drivers) -> parts.add(
                Say.names(drivers) + (drivers.size() == 1 ? " gives it " : " give it ") + Controls.gives(speaks)));
        return Say.list(parts);
    }
}
