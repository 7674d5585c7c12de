package dev.splicebook.hookup;

import dev.splicebook.function.Function;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Report.Metering;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** Which of the missing facts are worth metering first: those that hold up the most, and the gravest, rules. */
final class Meterings {

    /** As many as a person meters before asking again. */
    private static final int MOST_TERMINALS = 5;

    private static final int MOST_OF_A_RULE = 3;

    private static final FunctionId SAFETY = new FunctionId("safety");

    private static final String HOW_TO_TELL =
            "With the key out, then at accessory, ignition and with the lamps on: volts against bare chassis; with the key"
                    + " out and the plug off, ohms to chassis and to its neighbours.";
    private static final String HOW_TO_LOOK_UP = "It stands in the papers of the part or on its label.";

    private final Network network;
    private final Map<String, Waiting> byFact = new TreeMap<>();

    Meterings(Network network) {
        this.network = network;
    }

    /** The rules that wait for something, and how much that weighs. */
    private static final class Waiting {
        private final Set<String> rules = new TreeSet<>();
        private int weight;

        void add(RulePage page) {
            if (rules.add(page.code())) {
                weight += weightOf(page.severity());
            }
        }
    }

    /** Adds what a rule lacked, as its examination names it: a place, a dot, a fact. */
    void add(RulePage page, Set<String> missing) {
        missing.forEach(
                fact -> byFact.computeIfAbsent(fact, ignored -> new Waiting()).add(page));
    }

    /** The few facts among those of one rule that others wait for too. */
    List<String> first(List<String> missing) {
        return missing.size() < 2
                ? missing
                : missing.stream()
                        .sorted(Comparator.comparing((String fact) -> -weight(fact))
                                .thenComparing(fact -> factsText(placeOf(fact)))
                                .thenComparing(fact -> fact))
                        .limit(MOST_OF_A_RULE)
                        .toList();
    }

    /** The few terminals to meter first. */
    List<Metering> first() {
        Map<String, List<String>> factsAt = new TreeMap<>();
        byFact.keySet().stream()
                .filter(fact -> mayBeMetered(network.findNode(placeOf(fact))))
                .forEach(fact -> factsAt.computeIfAbsent(placeOf(fact), ignored -> new ArrayList<>())
                        .add(fact));
        return factsAt.entrySet().stream()
                .sorted(Comparator.comparing((Map.Entry<String, List<String>> entry) -> -entry.getValue().stream()
                                .mapToInt(this::weight)
                                .sum())
                        .thenComparing(entry -> factsText(entry.getKey()))
                        .thenComparing(Map.Entry::getKey))
                .limit(MOST_TERMINALS)
                .map(entry -> metering(entry.getKey(), entry.getValue()))
                .toList();
    }

    private Metering metering(String place, List<String> facts) {
        Node node = network.findNode(place);
        Set<String> rules = new TreeSet<>();
        facts.forEach(fact -> rules.addAll(waiting(fact).rules));
        return new Metering(
                place,
                node == null ? null : node.colour(),
                facts.stream().map(Meterings::nameOf).toList(),
                List.copyOf(rules),
                test(node));
    }

    private String test(@Nullable Node node) {
        if (node == null || !node.isVehicle()) {
            return HOW_TO_LOOK_UP;
        }
        Circuit circuit = network.hookup().map().circuits().get(Names.circuitOf(node.name()));
        if (circuit != null && circuit.test() != null) {
            return circuit.test();
        }
        return circuit == null || circuit.function() == null
                ? HOW_TO_TELL
                : Functions.vocabulary()
                        .findFunction(circuit.function())
                        .map(Function::test)
                        .orElse(HOW_TO_TELL);
    }

    private int weight(String fact) {
        return waiting(fact).weight;
    }

    private Waiting waiting(String fact) {
        return byFact.getOrDefault(fact, new Waiting());
    }

    private String factsText(String place) {
        Node node = network.findNode(place);
        return node == null ? "" : node.factsText();
    }

    /** What the vehicle maker forbids to touch is not probed either. */
    private static boolean mayBeMetered(@Nullable Node node) {
        return node != null && !node.isFor(SAFETY) && !(node.facts() instanceof Electrical.Untouchable);
    }

    private static String placeOf(String fact) {
        return fact.substring(0, fact.lastIndexOf('.'));
    }

    private static String nameOf(String fact) {
        return fact.substring(fact.lastIndexOf('.') + 1);
    }

    private static int weightOf(Severity severity) {
        return switch (severity) {
            case DANGER -> 4;
            case ERROR -> 3;
            case WARNING -> 1;
            case NOTE -> 0;
        };
    }
}
