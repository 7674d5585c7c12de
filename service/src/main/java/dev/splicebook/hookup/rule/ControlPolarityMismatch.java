package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
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
                } else if (clashes(wants, speaks)) {
                    wrong.add(driver);
                }
            }
            if (!right && !wrong.isEmpty()) {
                Node first = wrong.stream().min(Say.BY_FACTS).orElseThrow();
                examination
                        .report(
                                Say.name(input) + " listens for " + wants + ", and " + Say.names(wrong) + " gives it "
                                        + Controls.speaks(first),
                                "put a relay between that turns the one into the other, or use a circuit that gives "
                                        + wants + ".")
                        .at(input)
                        .at(wrong)
                        .through(examination.reading().connectionsAt(List.of(input)));
            }
        }
    }

    private static boolean clashes(Active wants, Active speaks) {
        return switch (wants) {
            case TWELVE_VOLTS, GROUND -> speaks != Active.RESISTANCE;
            case PULSE, PWM, RESISTANCE -> false;
        };
    }
}
