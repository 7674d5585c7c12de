package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.List;
import java.util.Set;

/** A connected control input is active in no state. */
@AutoService(Rule.class)
@About(
        code = "control-never-active",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A connected control input is active in no state.",
        checks =
                "Every connected control input in every state and under every condition: something that speaks the way it"
                        + " listens must be live at least once, through relays and diodes as well.",
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

    @Override
    public void check(Examination examination) {
        for (Node input : Controls.connectedInputs(examination)) {
            examination.applies();
            Active wants = Controls.wants(input);
            if (wants == null) {
                examination.missing(input, "active");
                continue;
            }
            Sure heard = Sure.NO;
            for (Scenario scenario : examination.network().scenarios()) {
                Sure now = Controls.hears(input, wants, scenario);
                heard = now.compareTo(heard) > 0 ? now : heard;
            }
            if (heard == Sure.YES) {
                continue;
            }
            Set<Node> drivers = Controls.drivers(input, examination);
            if (heard == Sure.UNKNOWN) {
                for (Node driver : drivers) {
                    lack(driver, examination);
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
                    .anyMatch(driver -> Feeds.isIdlePart(driver, examination)
                            || (wants != Controls.speaks(driver) && Controls.speaks(driver) != Active.RESISTANCE));
            if (!told) {
                examination
                        .report(
                                drivers.isEmpty()
                                        ? "nothing ever drives " + Say.name(input)
                                        : Say.name(input) + " is active in no state: " + Say.names(drivers)
                                                + " is never live",
                                "connect " + input.ref() + " to something that gives " + wants + " when it is wanted.")
                        .at(input)
                        .at(drivers)
                        .through(examination.reading().connectionsAt(List.of(input)));
            }
        }
    }

    private static void lack(Node driver, Examination examination) {
        if (Controls.speaks(driver) == null) {
            examination.missing(driver, "active");
        } else {
            for (Scenario scenario : examination.network().scenarios()) {
                if (scenario.isLive(driver) == Sure.UNKNOWN) {
                    examination.missing(driver, "live");
                    return;
                }
            }
        }
    }
}
