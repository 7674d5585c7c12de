package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import java.util.EnumSet;
import java.util.Set;

/** A load has no live supply in a state in which it is needed. */
@AutoService(Rule.class)
@About(
        code = "load-without-supply",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A load has no live supply in a state in which it is needed.",
        checks =
                "Every load that is not listed as unused: something live must reach it while the engine runs, through closed"
                        + " contacts and diodes as well, at least while a condition such as reverse holds. A load that needs"
                        + " constant feed and has it only at times is told by constant-load-on-switched-supply.",
        why = "The equipment stays dark, and the search for the reason takes longer than the connection.",
        mend = "Connect the lead to a supply that is live when the load is needed; or list it as unused and say why.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-9": {"function": "power.start", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["cranking"]}}}}},
                 "parts": {"HU": {"inline": {"terminals": {
                   "accessory": {"electrical": {"kind": "load", "typicalAmps": 2, "maxAmps": 8, "needs": "switched"}},
                   "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-9", "HU.accessory"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.chassis", "HU.ground"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"function": "power.accessory", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"HU": {"inline": {"terminals": {
                   "accessory": {"electrical": {"kind": "load", "typicalAmps": 2, "maxAmps": 8, "needs": "switched"}},
                   "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-8", "HU.accessory"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.chassis", "HU.ground"]}}}
                """,
        rank = Rank.FEED)
public final class LoadWithoutSupply implements Rule {

    @Override
    public void check(Examination examination) {
        for (Feeds feeds : Feeds.of(examination)) {
            examination.applies();
            if (feeds.atTimes().contains(State.RUNNING)
                    || (feeds.needs() == Need.CONSTANT && !feeds.atTimes().isEmpty())
                    || feeds.waitsForIdlePart()) {
                continue;
            }
            if (!feeds.unknown().isEmpty()) {
                feeds.lackFacts(examination);
                continue;
            }
            boolean connected = examination.network().isConnected(feeds.node());
            Set<State> needed = feeds.needs() == Need.CONSTANT ? EnumSet.allOf(State.class) : EnumSet.of(State.RUNNING);
            String how = !connected
                    ? " is a load and is connected to nothing"
                    : feeds.sources().isEmpty()
                            ? " is a load and no supply reaches it"
                            : " is a load, and " + Say.names(feeds.sources()) + ", which reaches it, is dead while "
                                    + Say.states(needed);
            examination
                    .report(
                            Say.name(feeds.node()) + how,
                            "connect " + feeds.node().ref() + " to a supply that is live while " + Say.states(needed)
                                    + ".")
                    .at(feeds.node())
                    .through(examination.reading().connectionsAt(java.util.List.of(feeds.node())))
                    .in(needed);
        }
    }
}
