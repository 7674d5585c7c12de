package dev.splicebook.hookup.pair;

import dev.splicebook.hookup.net.Node;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Something that a terminal, or the two of a pair, asks for.
 *
 * @param what it asks for, in words that follow "nothing gives"
 * @param lackPoints what it costs to leave it
 */
record Want(List<Node> nodes, String what, double lackPoints) {

    String key() {
        return nodes.stream().map(Node::ref).collect(Collectors.joining(" "));
    }
}
