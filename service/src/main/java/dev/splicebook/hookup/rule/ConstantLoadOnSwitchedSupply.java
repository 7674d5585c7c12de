package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** A load that needs constant feed loses it. */
@AutoService(Rule.class)
@About(
        code = "constant-load-on-switched-supply",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A load that needs constant feed loses it.",
        checks =
                "Every load that needs constant feed, in every state: something live must reach it, asleep and cranking too.",
        why = "The clock and the stations are gone each morning, and an amplifier that is cut off hard thumps.",
        mend = "Feed it from a constant supply.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"function": "power.accessory", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"HU": {"inline": {"terminals": {
                   "memory": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 8, "needs": "constant"}},
                   "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-8", "HU.memory"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.chassis", "HU.ground"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.battery", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}},
                 "parts": {"HU": {"inline": {"terminals": {
                   "memory": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 8, "needs": "constant"}},
                   "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "HU.memory"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.chassis", "HU.ground"]}}}
                """,
        rank = Rank.FEED)
public final class ConstantLoadOnSwitchedSupply implements Rule {

    @Override
    public void check(Examination examination) {
        List<Feeds> losers = new ArrayList<>();
        for (Feeds feeds : examination.reading().feeds()) {
            if (feeds.needs() != null && feeds.needs() != Need.CONSTANT) {
                continue;
            }
            examination.applies();
            if (feeds.perhaps().isEmpty() || feeds.surely().size() == State.values().length) {
                continue;
            }
            if (feeds.needs() == null) {
                examination.missing(feeds.node(), "needs");
            } else if (feeds.lost().isEmpty()) {
                feeds.lackFacts(examination);
            } else {
                losers.add(feeds);
            }
        }
        Set<String> losing = losers.stream().map(feeds -> feeds.node().owner()).collect(Collectors.toSet());
        for (Feeds feeds : losers) {
            if (feeds.isConsequence(feeds.sources(), losing)) {
                continue;
            }
            String open = Barrier.findOpen(feeds.node(), feeds.sources(), feeds.lost(), examination.network());
            examination
                    .report(
                            Say.name(feeds.node()) + " needs constant feed, and " + Say.names(feeds.sources())
                                    + ", which it hangs on, " + (feeds.sources().size() > 1 ? "leave" : "leaves")
                                    + " it without " + Say.inStates(feeds.lost())
                                    + (open == null ? "" : ": " + open),
                            "feed " + feeds.node().ref() + " from a constant supply.")
                    .at(feeds.node())
                    .at(feeds.sources())
                    .through(examination.reading().connectionsAt(List.of(feeds.node())))
                    .in(feeds.lost());
        }
    }
}
