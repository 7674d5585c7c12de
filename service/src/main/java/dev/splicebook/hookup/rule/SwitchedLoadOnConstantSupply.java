package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** A load that needs switching stays fed while the vehicle sleeps. */
@AutoService(Rule.class)
@About(
        code = "switched-load-on-constant-supply",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A load that needs switching stays fed while the vehicle sleeps.",
        checks = "Every load that needs a switched feed: nothing live may reach it while the vehicle is asleep,"
                + " unless its ground lead is open then.",
        why = "It draws all night, and the vehicle does not start after a weekend.",
        mend = "Feed it from an accessory or ignition circuit, or through a relay that such a circuit drives.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.battery", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}},
                 "parts": {"USB": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 2, "needs": "switched"}},
                   "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "USB.plus"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.chassis", "USB.ground"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"function": "power.accessory", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"USB": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 2, "needs": "switched"}},
                   "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-8", "USB.plus"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.chassis", "USB.ground"]}}}
                """,
        rank = Rank.FEED)
public final class SwitchedLoadOnConstantSupply implements Rule {

    @Override
    public void check(Examination examination) {
        List<Feeds> wakeful = new ArrayList<>();
        for (Feeds feeds : examination.reading().feeds()) {
            if (feeds.needs() != null && feeds.needs() != Need.SWITCHED) {
                continue;
            }
            examination.applies();
            if (feeds.lost().contains(State.ASLEEP) || isOpenAtGround(feeds.node(), examination.network())) {
                continue;
            }
            if (feeds.needs() == null) {
                examination.missing(feeds.node(), "needs");
            } else if (!feeds.surely().contains(State.ASLEEP)) {
                feeds.lackFacts(examination);
            } else {
                wakeful.add(feeds);
            }
        }
        Set<String> awake = wakeful.stream().map(feeds -> feeds.node().owner()).collect(Collectors.toSet());
        Scenario asleep = examination.network().scenario(State.ASLEEP);
        for (Feeds feeds : wakeful) {
            // a switched line that is fed from elsewhere is told by line-back-fed
            if (feeds.isConsequence(feeds.sourcesAsleep(), awake)
                    || LineBackFed.isBackFed(feeds.node(), feeds.sourcesAsleep(), asleep, examination)) {
                continue;
            }
            KeptOn contact = KeptOn.find(feeds.node(), feeds.sourcesAsleep(), asleep, examination.network());
            examination
                    .report(
                            Say.name(feeds.node()) + " needs a switched feed, and "
                                    + Say.names(feeds.sourcesAsleep())
                                    + (feeds.sourcesAsleep().size() > 1 ? " keep" : " keeps")
                                    + " it fed while the vehicle is asleep"
                                    + contact.text(),
                            contact.help() + "feed " + feeds.node().ref()
                                    + " from a supply that sleeps with the vehicle.")
                    .at(feeds.node())
                    .at(feeds.sourcesAsleep())
                    .through(examination.reading().connectionsAt(List.of(feeds.node())))
                    .in(EnumSet.of(State.ASLEEP));
        }
    }

    /** Whether a relay in the ground lead keeps a load dead while the vehicle is asleep. */
    private static boolean isOpenAtGround(Node load, Network network) {
        Scenario asleep = network.scenario(State.ASLEEP);
        List<Node> grounds = network.nodesOf(load.owner()).stream()
                .filter(node -> node.facts() instanceof Electrical.Ground)
                .toList();
        return grounds.stream()
                        .anyMatch(ground -> network.scenarios().stream()
                                .anyMatch(scenario -> scenario.hasGround(ground) != Sure.NO))
                && grounds.stream().allMatch(ground -> asleep.hasGround(ground) == Sure.NO);
    }
}
