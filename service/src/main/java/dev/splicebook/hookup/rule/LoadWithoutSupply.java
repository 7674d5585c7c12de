package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayDeque;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
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
                        + " constant feed and has it only at times is told by constant-load-on-switched-supply. A part whose feed and return"
                        + " are mixed up is one finding. A second battery that a diode lets feed the vehicle's, and that nothing charges, is"
                        + " a warning.",
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
        for (Feeds feeds : examination.reading().feeds()) {
            examination.applies();
            boolean constant = feeds.needs() == Need.CONSTANT;
            boolean fed =
                    constant ? !feeds.atTimes().isEmpty() : feeds.atTimes().contains(State.RUNNING);
            boolean perhaps =
                    constant ? !feeds.perhaps().isEmpty() : feeds.perhaps().contains(State.RUNNING);
            if (fed || feeds.waitsForIdlePart()) {
                continue;
            }
            if (perhaps) {
                feeds.lackFacts(examination);
                continue;
            }
            Set<State> needed = constant ? EnumSet.allOf(State.class) : EnumSet.of(State.RUNNING);
            Feeds.Reversal reversal = Feeds.findReversal(feeds.node().owner(), examination);
            if (reversal != null && reversal.load() == feeds.node()) {
                report(reversal, examination).in(needed);
                continue;
            }
            Barrier barrier = feeds.sources().isEmpty()
                    ? Barrier.find(feeds.node(), Node::givesTwelveVolts, examination.network())
                    : null;
            examination
                    .report(
                            Say.name(feeds.node()) + " is a load, and " + how(feeds, needed, examination)
                                    + (barrier == null ? "" : ": " + barrier.words()),
                            (barrier == null ? "" : barrier.help() + ", or ") + "connect "
                                    + feeds.node().ref()
                                    + " to a supply that is live " + Say.inStates(needed)
                                    + "; or list it as unused and say why.")
                    .at(feeds.node())
                    .besides(barrier == null ? Set.of() : barrier.terminals())
                    .through(examination.reading().connectionsAt(List.of(feeds.node())))
                    .in(needed);
        }
        checkBatteries(examination);
    }

    /** Second batteries that hang on the vehicle's by diodes, each of which must let current in to charge them. */
    private static void checkBatteries(Examination examination) {
        Network network = examination.network();
        for (Node battery : network.sources()) {
            if (battery.isVehicle() || !network.isConnected(battery) || !network.isBattery(battery)) {
                continue;
            }
            Set<Node> fed = reach(battery, true, network);
            List<Node> main = fed.stream()
                    .filter(node -> node.role() == Node.Role.REFERENCE && node.givesTwelveVolts())
                    .toList();
            if (main.isEmpty()) {
                continue;
            }
            examination.applies();
            Set<Node> chargedFrom = reach(battery, false, network);
            if (main.stream().noneMatch(chargedFrom::contains)) {
                List<Link> diodes = network.links().stream()
                        .filter(link -> link.kind() == Link.Kind.DIODE
                                && fed.contains(link.to())
                                && chargedFrom.contains(link.from()))
                        .toList();
                report(battery, main.get(0), diodes, examination);
            }
        }
    }

    /** All that current from a node reaches, or from which it comes to it, if all contacts were closed. */
    private static Set<Node> reach(Node start, boolean onwards, Network network) {
        Set<Node> reach = new LinkedHashSet<>();
        ArrayDeque<Node> queue = new ArrayDeque<>();
        queue.add(start);
        reach.add(start);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            for (Link link : network.linksOf(at)) {
                Node next = link.across(at);
                if (link.passesFrom(onwards ? at : next) && !next.isReference() && reach.add(next)) {
                    queue.add(next);
                }
            }
        }
        return reach;
    }

    private static void report(Node battery, Node main, List<Link> diodes, Examination examination) {
        Set<Node> ends = new LinkedHashSet<>();
        diodes.forEach(diode -> ends.addAll(List.of(diode.from(), diode.to())));
        List<String> parts = diodes.stream()
                .map(diode -> diode.from().owner())
                .distinct()
                .sorted()
                .toList();
        boolean several = diodes.size() > 1;
        examination
                .report(
                        "nothing charges the battery at " + Say.name(battery) + ": the "
                                + (several ? "diodes" : "diode") + " of " + Say.list(parts) + " "
                                + (several ? "let" : "lets") + " current out of it, to " + Say.name(main)
                                + ", and none in",
                        "turn the " + (several ? "diodes" : "diode")
                                + " round, the stripe towards the second battery; or use an isolating relay.")
                .at(battery)
                .at(ends)
                .through(examination.reading().connectionsAt(List.copyOf(ends)))
                .in(EnumSet.of(State.RUNNING))
                .as(Severity.WARNING);
    }

    private static Examination.Draft report(Feeds.Reversal reversal, Examination examination) {
        Node load = reversal.load();
        Node ground = reversal.ground();
        return examination
                .report(
                        load.owner() + " is fed the wrong way round: " + Say.name(load)
                                + ", a load, stands on the vehicle's ground, and " + Say.name(ground)
                                + ", a ground, on "
                                + Say.name(reversal.source()),
                        "take the feed off first, then swap the leads of " + load.ref() + " and " + ground.ref()
                                + "; a part that was fed the wrong way round may be damaged.")
                .at(load, ground)
                .through(examination.reading().connectionsAt(List.of(load, ground)));
    }

    private static String how(Feeds feeds, Set<State> needed, Examination examination) {
        if (!examination.network().isConnected(feeds.node())) {
            return "it is connected to nothing";
        }
        if (feeds.sources().isEmpty()) {
            return "no supply reaches it";
        }
        if (!feeds.node().isVehicle()
                && feeds.sources().stream()
                        .allMatch(source -> source.owner().equals(feeds.node().owner()))) {
            return "it hangs on " + Say.names(feeds.sources())
                    + ", an output of the same part, which gives nothing until the part is fed";
        }
        String hangsOn = Say.names(feeds.sources()) + ", which it hangs on, ";
        Network network = examination.network();
        String open = Barrier.findOpen(feeds.node(), feeds.sources(), needed, network);
        boolean live = needed.stream()
                .map(network::scenario)
                .anyMatch(scenario -> feeds.sources().stream().anyMatch(source -> scenario.isLive(source) == Sure.YES));
        return open == null && !live
                ? hangsOn + Say.are(feeds.sources()) + " dead " + Say.inStates(needed)
                : hangsOn + (feeds.sources().size() > 1 ? "do" : "does") + " not reach it " + Say.inStates(needed)
                        + (open == null ? "" : ": " + open);
    }
}
