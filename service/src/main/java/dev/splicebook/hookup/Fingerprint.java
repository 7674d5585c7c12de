package dev.splicebook.hookup;

import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.rule.Examination;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.StringJoiner;

/** Tells findings apart by rule and facts, never by names. */
public final class Fingerprint {

    private static final int BYTES = 8;

    private Fingerprint() {}

    static String of(String rule, Examination.Draft draft, List<Node> nodes, List<State> states, Network network) {
        StringJoiner facts = new StringJoiner("\n");
        facts.add(rule)
                .add(String.valueOf(draft.measured()))
                .add(String.valueOf(draft.limit()))
                .add(String.valueOf(draft.unit()))
                .add(states.toString());
        draft.facts().forEach(facts::add);
        nodes.stream().map(Node::factsText).sorted().forEach(facts::add);
        network.links().stream()
                .filter(link -> link.ref() != null && draft.connections().contains(link.ref()))
                .map(Fingerprint::factsOf)
                .sorted()
                .forEach(facts::add);
        return hash(facts.toString());
    }

    /** Of facts told as text, 16 hexadecimal digits. */
    public static String hash(String facts) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(facts.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest, 0, BYTES);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    private static String factsOf(Link link) {
        Connection connection = link.connection();
        return connection == null ? "" : connection.conductor() + "|" + connection.length() + "|" + connection.fuse();
    }
}
