package dev.splicebook.hookup.pair;

import dev.splicebook.hookup.net.Node;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * One way to serve a want.
 *
 * @param sources what serves it, the terminals that carry the facts
 * @param through parts between the two
 * @param terms what speaks for and against it
 * @param joins conductors that it takes
 * @param draws amperes that it takes from the budget of a source, by name of the budget
 */
record Way(
        Want want,
        List<Node> sources,
        List<String> through,
        List<Term> terms,
        List<Join> joins,
        Map<String, Double> draws) {

    double points() {
        return terms.stream().mapToDouble(Term::points).sum();
    }

    /** What it costs, without what speaks for it. */
    double costPoints() {
        return terms.stream().mapToDouble(term -> Math.max(0, term.points())).sum();
    }

    String sourceKey() {
        return sources.stream().map(Node::ref).collect(Collectors.joining(" "))
                + (through.isEmpty() ? "" : " through " + String.join(" ", through));
    }

    /** What a ban of this way is kept by. */
    String key() {
        return want.key() + " from " + sourceKey();
    }
}
