package dev.splicebook.circuit;

import dev.splicebook.guard.Guard;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Elements and the node whose volts are zero. Nodes are the ends that elements name.
 *
 * @param elements 1 to 100,000, of distinct names
 * @param ground an end of at least one element
 */
public record Network(List<Element> elements, String ground) {

    private static final int MOST_ELEMENTS = 100_000;

    public Network {
        elements = List.copyOf(elements);
        List<Element> given = elements;
        Guard guard = new Guard()
                .refuseIf(given.isEmpty(), "elements", "too-few", () -> "a network has at least one element")
                .atMost("elements", given, MOST_ELEMENTS);
        Set<String> names = new HashSet<>();
        for (int at = 0; at < given.size(); at++) {
            String name = given.get(at).name();
            guard.refuseIf(
                    !names.add(name),
                    "elements/" + at + "/name",
                    "inconsistent",
                    () -> "\"" + name + "\" is the name of an earlier element");
        }
        guard.refuseIf(
                        !given.isEmpty() && given.stream().noneMatch(element -> element.hasEndAt(ground)),
                        "ground",
                        "unknown-node",
                        () -> "no element has an end at \"" + ground + "\", which is to be ground")
                .check();
    }

    /** Names of all nodes, ground included, in the order in which elements name them. */
    public Set<String> nodes() {
        Set<String> nodes = new LinkedHashSet<>();
        elements.forEach(element -> nodes.addAll(element.ends()));
        return nodes;
    }
}
