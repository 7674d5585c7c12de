package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import java.util.Collections;
import java.util.HashSet;
import java.util.Set;

/** A supply is asked for more than it gives. */
@AutoService(Rule.class)
@About(
        code = "supply-overloaded",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A supply is asked for more than it gives.",
        checks =
                "For each supply, the largest current of all loads, control inputs, energised coils and resistors that it feeds, through"
                        + " closed contacts and diodes as well, in the worst state; and all that circuits from one fuse feed together. A supply without a stated limit gives what its"
                        + " fuse passes; the battery gives what is asked.",
        why =
                "A factory output of an ampere feeds a lamp, not an amplifier. Overloaded it drops out, or the module that gives"
                        + " it fails.",
        mend = "Let the weak output drive a relay, and feed the load from a fused constant supply through its contact.",
        source = "Sum of currents (Kirchhoff).",
        fails = """
                {"parts": {
                   "IFC": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "load", "typicalAmps": 0.2, "maxAmps": 0.5, "needs": "constant"}},
                     "ground": {"electrical": {"kind": "ground"}},
                     "accessory": {"electrical": {"kind": "supply", "maxAmps": 1, "limited": true,
                        "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                   "HU": {"inline": {"terminals": {
                     "accessory": {"electrical": {"kind": "load", "typicalAmps": 2, "maxAmps": 8, "needs": "switched"}},
                     "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "IFC.plus"], "conductor": {"size": "16 AWG"}, "fuse": {"ratingAmps": 10}},
                   "W2": {"ends": ["CAR.chassis", "IFC.ground"]}, "W3": {"ends": ["CAR.chassis", "HU.ground"]},
                   "W4": {"ends": ["IFC.accessory", "HU.accessory"], "conductor": {"size": "18 AWG"}}}}
                """,
        passes = """
                {"parts": {
                   "IFC": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "load", "typicalAmps": 0.2, "maxAmps": 0.5, "needs": "constant"}},
                     "ground": {"electrical": {"kind": "ground"}},
                     "accessory": {"electrical": {"kind": "supply", "maxAmps": 1, "limited": true,
                        "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                   "HU": {"inline": {"terminals": {
                     "accessory": {"electrical": {"kind": "load", "typicalAmps": 0.1, "maxAmps": 0.3, "needs": "switched"}},
                     "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "IFC.plus"], "conductor": {"size": "16 AWG"}, "fuse": {"ratingAmps": 10}},
                   "W2": {"ends": ["CAR.chassis", "IFC.ground"]}, "W3": {"ends": ["CAR.chassis", "HU.ground"]},
                   "W4": {"ends": ["IFC.accessory", "HU.accessory"], "conductor": {"size": "18 AWG"}}}}
                """,
        rank = Rank.FEED)
public final class SupplyOverloaded implements Rule {

    private static final String HELP =
            "let it drive a relay, and feed the load from a fused constant supply through the relay's contact.";

    @Override
    public void check(Examination examination) {
        Set<Node> told = new HashSet<>();
        for (Node source : examination.network().sources()) {
            if (source.facts() instanceof Electrical.Supply supply) {
                Overload overload = Overload.of(source, examination);
                if (overload.isIdle()) {
                    continue;
                }
                if (supply.maxAmps() != null) {
                    judge(source, overload, supply.maxAmps(), "that it gives", told, examination);
                } else if (supply.fuseAmps() != null) {
                    examination.assume(
                            "maxAmps",
                            null,
                            null,
                            "a supply that states no limit gives what the fuse upstream of it passes");
                    judge(source, overload, supply.fuseAmps(), "that its fuse passes", told, examination);
                } else if (examination.network().isBattery(source)) {
                    examination.assume("maxAmps", null, null, "the battery gives what is asked of it");
                } else {
                    examination.missing(source, "maxAmps");
                }
            }
        }
        for (SharedFuse shared : examination.reading().sharedFuses()) {
            if (shared.circuits().size() > 1 && Collections.disjoint(shared.circuits(), told)) {
                Overload.of(shared.circuits(), examination)
                        .judge(shared.ratingAmps(), "that the fuse they share passes", HELP, examination);
            }
        }
    }

    private static void judge(
            Node source, Overload overload, double limitAmps, String limitIs, Set<Node> told, Examination examination) {
        if (overload.isAbove(limitAmps)) {
            told.add(source);
        }
        overload.judge(limitAmps, limitIs, HELP, examination);
    }
}
