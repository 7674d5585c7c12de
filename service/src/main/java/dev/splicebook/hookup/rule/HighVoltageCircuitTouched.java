package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Hazard;
import dev.splicebook.hookup.Severity;

/** Something connects to, cuts or unplugs a high-voltage circuit. */
@AutoService(Rule.class)
@About(
        code = "high-voltage-circuit-touched",
        severity = Severity.DANGER,
        since = "0.1",
        condition = "Something connects to, cuts or unplugs a high-voltage circuit.",
        checks =
                "Every circuit that the map marks as high voltage: no connection, no cut, no plug, and its connector stays on.",
        why = "The drive battery of a hybrid or electric vehicle gives hundreds of volts that do not let go. It kills.",
        mend =
                "Leave the circuit, its orange cables and its interlock loop alone. Only people qualified for high-voltage"
                        + " vehicles work there.",
        source = "Vehicle makers' service information and local law; common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"H1-1": {"function": "safety.high-voltage", "colour": "OG",
                   "electrical": {"kind": "untouchable", "reason": "high-voltage"}}}}, "cuts": ["H1-1"]}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"H1-1": {"function": "safety.high-voltage", "colour": "OG",
                   "electrical": {"kind": "untouchable", "reason": "high-voltage"}}}}},
                 "unused": {"CAR.H1-1": {"as": "left-plugged", "why": "not ours to touch"}}}
                """,
        rank = Rank.UNTOUCHABLE)
public final class HighVoltageCircuitTouched implements Rule {

    @Override
    public void check(Examination examination) {
        Untouchables.check(
                Hazard.HIGH_VOLTAGE,
                "carries high voltage",
                "carry high voltage",
                "leave it alone; only people qualified for high-voltage vehicles work there.",
                examination);
    }
}
