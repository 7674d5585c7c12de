package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Hazard;
import dev.splicebook.hookup.Severity;

/** Something connects to, cuts or unplugs an airbag circuit. */
@AutoService(Rule.class)
@About(
        code = "airbag-circuit-touched",
        severity = Severity.DANGER,
        since = "0.1",
        condition = "Something connects to, cuts or unplugs an airbag circuit.",
        checks =
                "Every circuit that the map marks as belonging to an airbag or seat-belt tensioner: no connection, no cut, no"
                        + " plug, and its connector stays on.",
        why =
                "A meter's current, or a stray feed, can fire an airbag into the face of whoever leans over it; a circuit that was"
                        + " touched may not fire when it must.",
        mend = "Leave the circuit alone. Look for the function on another circuit, and have the vehicle maker's service"
                + " information at hand.",
        source = "Vehicle makers' service information; common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C9-1": {"function": "safety.airbag", "colour": "YE",
                   "electrical": {"kind": "untouchable", "reason": "airbag"}}}}},
                 "parts": {"HU": {"inline": {"terminals": {"illumination": {"electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C9-1", "HU.illumination"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "C9-1": {"function": "safety.airbag", "colour": "YE", "electrical": {"kind": "untouchable", "reason": "airbag"}},
                   "C1-3": {"function": "power.illumination", "electrical": {"kind": "supply", "maxAmps": 1, "fuseAmps": 5,
                     "live": ["ignition", "running"], "when": "lamps"}}}}},
                 "parts": {"HU": {"inline": {"terminals": {"illumination": {"electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-3", "HU.illumination"], "conductor": {"size": "18 AWG"}}},
                 "unused": {"CAR.C9-1": {"as": "left-plugged", "why": "not ours to touch"}}}
                """,
        rank = Rank.UNTOUCHABLE)
public final class AirbagCircuitTouched implements Rule {

    @Override
    public void check(Examination examination) {
        Untouchables.check(
                Hazard.AIRBAG,
                "belongs to the airbags",
                "belong to the airbags",
                "leave it alone, and look for the function on another circuit.",
                examination);
    }
}
