package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.LinkedHashSet;
import java.util.Set;

/** Supplies of different sources stand on one net, with nothing that isolates them in every state. */
@AutoService(Rule.class)
@About(
        code = "supplies-tied",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "Supplies of different sources stand on one net, with nothing that isolates them in every state.",
        checks =
                "Every net in every state: two supplies, unless the map says that they come from the same source. A diode"
                        + " isolates; a relay isolates only while it is open.",
        why =
                "The constant feed then powers what should sleep, two fuses share one wire so that neither protects it, and a"
                        + " module sees volts when it should see none.",
        mend = "Feed the load from one of them. Where it needs both, put a diode in each, or a relay that picks one.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "C1-7": {"function": "power.battery", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-8": {"function": "power.accessory", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "CAR.C1-8"], "conductor": {"size": "16 AWG"}}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "C1-7": {"function": "power.battery", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-8": {"function": "power.accessory", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"D": {"inline": {"diodes": [{"anode": "in", "cathode": "out", "amps": 6}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "D.in"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["D.out", "CAR.C1-8"], "conductor": {"size": "16 AWG"}}}}
                """,
        rank = Rank.SUPPLIES_TIED)
public final class SuppliesTied implements Rule {

    @Override
    public void check(Examination examination) {
        Set<Set<Node>> told = new LinkedHashSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            for (int net = 0; net < scenario.netCount(); net++) {
                Set<Node> supplies = new LinkedHashSet<>();
                Set<Object> sources = new LinkedHashSet<>();
                for (Node node : scenario.members(net)) {
                    if (node.facts() instanceof Electrical.Supply) {
                        examination.applies();
                        supplies.add(node);
                        sources.add(node.source() == null ? node : node.source());
                    }
                }
                if (sources.size() > 1 && told.add(supplies)) {
                    examination
                            .report(
                                    Say.names(supplies) + " are different supplies on one net",
                                    "feed from one of them, or put a diode or relay between so that they never meet.")
                            .at(supplies)
                            .through(examination.reading().connectionsOn(scenario, net))
                            .claims(scenario, net);
                }
            }
        }
    }
}
