package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** In which states a load is fed. */
final class Feeds {

    private final Node node;
    private final Electrical.Load load;
    private final Set<State> surely = EnumSet.noneOf(State.class);
    private final Set<State> perhaps = EnumSet.noneOf(State.class);
    private final Set<State> atTimes = EnumSet.noneOf(State.class);
    private final Set<Node> sources = new LinkedHashSet<>();
    private final Set<Node> unknown = new LinkedHashSet<>();
    private boolean idle;

    private Feeds(Node node, Electrical.Load load) {
        this.node = node;
        this.load = load;
    }

    /** Every load that is meant to be fed: those of parts, and those of the vehicle that something is connected to. */
    static List<Feeds> of(Examination examination) {
        List<Feeds> all = new ArrayList<>();
        for (Node node : examination.network().nodes()) {
            if (node.facts() instanceof Electrical.Load load
                    && !examination.network().isUnused(node)
                    && (!node.isVehicle() || examination.network().isConnected(node))) {
                all.add(read(node, load, examination));
            }
        }
        return all;
    }

    private static Feeds read(Node node, Electrical.Load load, Examination examination) {
        Feeds feeds = new Feeds(node, load);
        boolean waiting = false;
        for (Scenario scenario : examination.network().scenarios()) {
            Sure feed = scenario.hasFeed(node);
            for (Reach reach : scenario.reaches(node)) {
                if (Scenario.givesTwelveVolts(reach.source())) {
                    feeds.sources.add(reach.source());
                    if (scenario.isLive(reach.source()) == Sure.UNKNOWN) {
                        feeds.unknown.add(reach.source());
                    }
                    waiting |= isIdlePart(reach.source(), examination);
                }
            }
            if (feed == Sure.YES) {
                feeds.atTimes.add(scenario.state());
                if (scenario.condition() == null) {
                    feeds.surely.add(scenario.state());
                }
            }
            if (feed != Sure.NO) {
                feeds.perhaps.add(scenario.state());
            }
            for (Node member : scenario.members(scenario.netOf(node))) {
                if (member.isVehicle() && member.facts() == null) {
                    feeds.unknown.add(member);
                }
            }
        }
        feeds.idle = waiting && feeds.perhaps.isEmpty();
        return feeds;
    }

    /** A part that is never fed tells that about itself; what hangs on its outputs is no second cause. */
    static boolean isIdlePart(Node source, Examination examination) {
        if (source.isVehicle()) {
            return false;
        }
        for (Scenario scenario : examination.network().scenarios()) {
            if (scenario.isFed(source.owner()) != Sure.NO) {
                return false;
            }
        }
        return true;
    }

    Node node() {
        return node;
    }

    @Nullable
    Need needs() {
        return load.needs();
    }

    /** States in which it is fed whatever conditions hold. */
    Set<State> surely() {
        return surely;
    }

    /** States in which it is fed, or may be. */
    Set<State> perhaps() {
        return perhaps;
    }

    /** States in which it is fed, if need be only under a condition. */
    Set<State> atTimes() {
        return atTimes;
    }

    /** Supplies and outputs that reach it, live or not. */
    Set<Node> sources() {
        return sources;
    }

    /** Nodes on its way of which it is not known whether they are live. */
    Set<Node> unknown() {
        return unknown;
    }

    /** Whether it waits for an output of a part that itself is never fed. */
    boolean waitsForIdlePart() {
        return idle;
    }

    void lackFacts(Examination examination) {
        for (Node lacking : unknown) {
            examination.missing(lacking, lacking.facts() == null ? "electrical" : "live");
        }
    }

    static Set<State> without(Set<State> some) {
        Set<State> rest = EnumSet.allOf(State.class);
        rest.removeAll(some);
        return rest;
    }
}
