package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Report.Assumption;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** One rule's look at one hookup: what it reads, and what it says. */
public final class Examination {

    private final Reading reading;
    private final Map<Threshold, Double> set;
    private final List<Draft> drafts = new ArrayList<>();
    private final Set<String> missing = new TreeSet<>();
    private final Set<Set<String>> told = Collections.newSetFromMap(new IdentityHashMap<>(0));
    private final Set<Assumption> assumptions = new LinkedHashSet<>();
    private boolean applied;

    /**
     * @param set what a shop has set in place of the rule's thresholds
     */
    public Examination(Reading reading, Map<Threshold, Double> set) {
        this.reading = reading;
        this.set = set;
    }

    public Network network() {
        return reading.network();
    }

    /** What several rules read. */
    Reading reading() {
        return reading;
    }

    /** The figure to compare with: the shop's, or else the rule's own. */
    double value(Threshold threshold) {
        return set.getOrDefault(threshold, threshold.value());
    }

    /** Says that the rule found something to judge. */
    void applies() {
        applied = true;
    }

    /** Says that a fact is needed and absent, so that something could not be judged. */
    void missing(Node node, String fact) {
        missing(node.ref(), fact);
    }

    /** Says that a fact is needed and absent; {@code place} is a terminal, a connection or a part. */
    void missing(String place, String fact) {
        applied = true;
        missing.add(place + "." + fact);
    }

    /**
     * Says that facts are needed and absent, each a place, a dot and a name.
     *
     * @param facts that do not change any more, so that a set is told once however often it comes
     */
    void missing(Set<String> facts) {
        if (!facts.isEmpty() && told.add(facts)) {
            applied = true;
            missing.addAll(facts);
        }
    }

    /** Says that a default was used. */
    void assume(String name, @Nullable Double value, @Nullable String unit, String about) {
        assumptions.add(new Assumption(name, value, unit, about));
    }

    /** Starts a finding. */
    Draft report(String message, String help) {
        applied = true;
        Draft draft = new Draft(message, help);
        drafts.add(draft);
        return draft;
    }

    public List<Draft> drafts() {
        return drafts;
    }

    public Set<String> missing() {
        return missing;
    }

    public Set<Assumption> assumptions() {
        return assumptions;
    }

    public boolean applied() {
        return applied;
    }

    /** A finding while its rule writes it. */
    public static final class Draft {

        private final String message;
        private final String help;
        private final Set<Node> terminals = new LinkedHashSet<>();
        private final Set<String> connections = new TreeSet<>();
        private final Set<State> states = EnumSet.noneOf(State.class);
        private final Set<Node> besides = new LinkedHashSet<>();
        private final Set<Node> claimed = new LinkedHashSet<>();
        private final Set<Node> related = new LinkedHashSet<>();
        private final List<String> facts = new ArrayList<>();
        private @Nullable Double measured;
        private @Nullable Double limit;
        private @Nullable String unit;
        private @Nullable Severity severity;

        Draft(String message, String help) {
            this.message = message;
            this.help = help;
        }

        Draft at(Node... nodes) {
            return at(List.of(nodes));
        }

        Draft at(Collection<Node> nodes) {
            terminals.addAll(nodes);
            return this;
        }

        /** Names terminals that have a part in it, and leaves other rules free to speak of them. */
        Draft besides(Collection<Node> nodes) {
            terminals.addAll(nodes);
            besides.addAll(nodes);
            return this;
        }

        Draft through(Collection<String> refs) {
            connections.addAll(refs);
            return this;
        }

        Draft in(Collection<State> in) {
            states.addAll(in);
            return this;
        }

        Draft figures(double found, double allowed, String in) {
            measured = found;
            limit = allowed;
            unit = in;
            return this;
        }

        /** Is more or less grave than its rule says. */
        Draft as(Severity other) {
            severity = other;
            return this;
        }

        /** Speaks for the net as {@link #claims} does, unless it is the vehicle's ground, where much else ends too. */
        Draft claimsUnlessGround(Scenario scenario, int net) {
            return scenario.members(net).stream().anyMatch(Node::isReference) ? this : claims(scenario, net);
        }

        /** Adds what tells the finding from another of its rule, where its terminals and figures do not. */
        Draft about(Object fact) {
            facts.add(fact.toString());
            return this;
        }

        /** Speaks for everything on the net, not only for its own terminals. */
        Draft claims(Scenario scenario, int net) {
            claimed.addAll(scenario.members(net));
            return this;
        }

        /** Is no cause of its own where one of these nodes is claimed. */
        Draft unlessClaimed(Collection<Node> nodes) {
            related.addAll(nodes);
            return this;
        }

        public String message() {
            return message;
        }

        public String help() {
            return help;
        }

        public Set<Node> terminals() {
            return terminals;
        }

        public Set<String> connections() {
            return connections;
        }

        public Set<State> states() {
            return states;
        }

        /** The terminals and the nodes of nets that the finding speaks for. */
        public Set<Node> claimed() {
            Set<Node> all = new LinkedHashSet<>(terminals);
            all.removeAll(besides);
            all.addAll(claimed);
            return all;
        }

        /** Nodes whose claim by another rule silences the finding, beside its terminals. */
        public Set<Node> related() {
            return related;
        }

        /** What its terminals and figures do not tell. */
        public List<String> facts() {
            return facts;
        }

        /** Where it differs from that of its rule. */
        public @Nullable Severity severity() {
            return severity;
        }

        public @Nullable Double measured() {
            return measured;
        }

        public @Nullable Double limit() {
            return limit;
        }

        public @Nullable String unit() {
            return unit;
        }
    }
}
