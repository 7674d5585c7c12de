package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;

/** Inputs and coils on a control output draw more than it gives. */
@AutoService(Rule.class)
@About(
        code = "control-overloaded",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "Inputs and coils on a control output draw more than it gives.",
        checks =
                "For each control output, the current of all control inputs, energised coils, resistors and loads on it, and of what returns by one that switches to ground, in the worst"
                        + " state. A coil draws the supply's volts over its ohms. A ladder of resistors is fed by the input that reads it.",
        why =
                "The turn-on lead of a head unit gives a few hundred milliamperes. Two amplifiers, a fan and a relay on it take"
                        + " more, and its driver transistor dies inside the head unit.",
        mend = "Let the output drive one relay, and the relay the rest.",
        source = "Ohm's law for coils; sum of currents (Kirchhoff).",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-5": {"function": "control.amplifier-on", "electrical":
                   {"kind": "control-out", "active": "12V", "maxAmps": 0.1, "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {"K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87"}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-5", "K1.86"]}, "W2": {"ends": ["CAR.chassis", "K1.85"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-5": {"function": "control.amplifier-on", "electrical":
                   {"kind": "control-out", "active": "12V", "maxAmps": 0.3, "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {"K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87"}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-5", "K1.86"]}, "W2": {"ends": ["CAR.chassis", "K1.85"]}}}
                """,
        rank = Rank.FEED)
public final class ControlOverloaded implements Rule {

    @Override
    public void check(Examination examination) {
        for (Node source : examination.network().sources()) {
            // a ladder of resistors gives nothing: the input feeds it
            if (source.facts() instanceof Electrical.ControlOut out && out.active() != Active.RESISTANCE) {
                Overload overload = Overload.of(source, examination);
                if (overload.isIdle()) {
                    continue;
                }
                if (out.maxAmps() == null) {
                    examination.missing(source, "maxAmps");
                } else {
                    overload.judge(
                            out.maxAmps(),
                            out.active() == Active.GROUND ? "that it switches to ground" : "that it gives",
                            "let it drive one relay, and the relay's contact the rest.",
                            examination);
                }
            }
        }
    }
}
