package dev.splicebook.hookup.mend;

import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Wiring;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/** Lets one kind of change propose for a finding that a test makes up, before any check. */
final class Proposing {

    private Proposing() {}

    static List<Proposal> propose(Change change, String rule, Wiring wiring, String terminals, String wires) {
        return propose(change, rule, wiring, Stock.NONE, terminals, wires);
    }

    /** @param terminals and wires of the finding, apart by spaces */
    static List<Proposal> propose(
            Change change, String rule, Wiring wiring, Stock stock, String terminals, String wires) {
        return change.propose(defect(rule, wiring, stock, terminals, wires));
    }

    static Defect defect(String rule, Wiring wiring, Stock stock, String terminals, String wires) {
        Hookup hookup = wiring.hookup();
        Finding finding = finding(rule, words(terminals), words(wires));
        return new Defect(finding, new Network(hookup), hookup, stock);
    }

    static Finding finding(String rule, List<String> terminals, List<String> wires) {
        return new Finding(
                rule, Severity.WARNING, "message", "help", terminals, wires, null, null, null, List.of(), "f", null);
    }

    private static List<String> words(String text) {
        return text.isEmpty() ? List.of() : List.of(text.split(" "));
    }

    static List<String> what(Collection<Proposal> proposals) {
        return proposals.stream().map(Proposal::what).toList();
    }

    /** A device as JSON tells it. */
    static Device device(String json) {
        return StrictReader.read(json.getBytes(StandardCharsets.UTF_8), Device.class);
    }

    /** The hookup that a proposal makes. */
    static Hookup after(Proposal proposal) {
        return Objects.requireNonNull(proposal.edit().hookup(), proposal.what());
    }

    /** The connections that a proposal adds or gives other ends, like {@code W1: A.b - C.d}. */
    static List<String> changed(Proposal proposal, Wiring before) {
        Map<String, String> was = ends(before.hookup());
        List<String> changed = new ArrayList<>();
        ends(after(proposal)).forEach((ref, ends) -> {
            if (!ends.equals(was.get(ref))) {
                changed.add(ref + ": " + ends);
            }
        });
        return changed;
    }

    private static Map<String, String> ends(Hookup hookup) {
        Map<String, String> ends = new TreeMap<>();
        hookup.document()
                .connections()
                .forEach((ref, connection) -> ends.put(
                        ref,
                        String.join(" - ", connection.ends().stream().sorted().toList())));
        return ends;
    }
}
