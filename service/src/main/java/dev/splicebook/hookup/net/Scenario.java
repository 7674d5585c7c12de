package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.State;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** The hookup in one state, with no condition holding, or one, or all that anything waits for. */
public final class Scenario {

    /** Whether something is so: surely, surely not, or it cannot be told for want of a fact. */
    public enum Sure {
        NO('n'),
        UNKNOWN('u'),
        YES('y');

        final char letter;

        Sure(char letter) {
            this.letter = letter;
        }

        Sure and(Sure other) {
            return compareTo(other) <= 0 ? this : other;
        }

        Sure or(Sure other) {
            return compareTo(other) >= 0 ? this : other;
        }
    }

    private final State state;
    private final Set<Condition> conditions;
    private final Solution solution;

    Scenario(State state, Set<Condition> conditions, Solution solution) {
        this.state = state;
        this.conditions = conditions;
        this.solution = solution;
    }

    public State state() {
        return state;
    }

    /** The conditions that hold: none, one, or all that anything waits for. */
    public Set<Condition> conditions() {
        return conditions;
    }

    /** Like {@code running with lamps and reverse}. */
    @Override
    public String toString() {
        return conditions.isEmpty() ? state.toString() : state + " with " + named(conditions);
    }

    /** Like {@code lamps and reverse}. */
    public static String named(Set<Condition> conditions) {
        return conditions.stream().map(Condition::toString).collect(Collectors.joining(" and "));
    }

    /** The same for two scenarios whose nets are the same. */
    public Object partition() {
        return solution.partition();
    }

    /** The same for two scenarios that differ in nothing but their name. */
    public Object solution() {
        return solution;
    }

    /** The net of a node, contacts included. */
    public int netOf(Node node) {
        return solution.partition().netOf(node);
    }

    public int netCount() {
        return solution.partition().netCount();
    }

    /** The nodes of a net. */
    public List<Node> members(int net) {
        return solution.partition().members(net);
    }

    /** Sources and grounds that reach a net, live or not. */
    public List<Reach> reaches(int net) {
        return solution.partition().reaches(net);
    }

    /** Sources and grounds that reach a node, live or not. */
    public List<Reach> reaches(Node node) {
        return reaches(netOf(node));
    }

    /** Whether a source or a ground reaches a node without a resistor between. */
    public boolean isHardReach(Node source, Node node) {
        for (Reach reach : reaches(node)) {
            if (reach.source() == source && reach.hard()) {
                return true;
            }
        }
        return false;
    }

    /** The nets that a source or a ground reaches, live or not, in rising order. */
    public List<Integer> reachedBy(Node source) {
        return solution.partition().reachedBy(source);
    }

    /** Whether a source gives what it gives: 12 V, ground or a signal. A ground of the vehicle always does. */
    public Sure isLive(Node source) {
        return solution.live(source);
    }

    /** Whether every load of the part that is in use has feed and return. */
    public Sure isFed(String part) {
        return solution.fed(part);
    }

    public boolean isClosed(Link contact) {
        return solution.partition().isClosed(contact);
    }

    public boolean isEnergised(Coil coil) {
        return solution.isEnergised(coil);
    }

    /** The relays, by part, that never come to rest; empty if all do. */
    public Set<String> restless() {
        return solution.restless();
    }

    /** Whether 12 V stands on a net, by whatever way. */
    public Sure hasFeed(int net) {
        return solution.feedAt(net);
    }

    public Sure hasFeed(Node node) {
        return hasFeed(netOf(node));
    }

    /** Whether a net is at ground, by whatever way. */
    public Sure hasGround(int net) {
        return solution.groundAt(net);
    }

    public Sure hasGround(Node node) {
        return hasGround(netOf(node));
    }

    /** Whether a terminal of which nothing electrical is known stands on a net. */
    public boolean isUnknown(int net) {
        return solution.partition().isUnknown(net);
    }

    /** Whether the vehicle's ground stands on a net without a resistor between. */
    public boolean isGrounded(int net) {
        for (Reach reach : reaches(net)) {
            if (reach.hard() && reach.source().isReference()) {
                return true;
            }
        }
        return false;
    }

    public boolean isGrounded(Node node) {
        return isGrounded(netOf(node));
    }
}
