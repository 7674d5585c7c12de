package dev.splicebook.hookup;

import dev.splicebook.web.StrictReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Hookups with what is to be found in them, each in a file of its own under {@code corpus}. */
final class Corpus {

    /** Facts that the files state and a record may not have yet; left out while reading until it does. */
    private static final Map<String, Class<?>> FACTS = Map.of(
            "batterySensor", FunctionMap.class,
            "verifiedOn", Circuit.class,
            "clamped", Device.Relay.class);

    private Corpus() {}

    /** How wrong a hookup is. */
    enum Kind {
        CORRECT,
        SUBTLE,
        PLAIN
    }

    /**
     * A hookup and what is to be found in it.
     *
     * @param why the reasoning, from the facts
     */
    record Case(Kind kind, String why, List<Expectation> expect, JsonNode hookup) {}

    /**
     * One thing that is wrong.
     *
     * @param at terminals, connections or a part; a finding that names one of them is meant
     * @param or rules that may tell it instead
     * @param disputed why no rule needs to tell it after all
     */
    record Expectation(
            String rule,
            List<String> at,
            List<String> or,
            @Nullable String disputed) {

        boolean isMetBy(Finding finding) {
            return (rule.equals(finding.rule()) || or.contains(finding.rule())) && names(finding);
        }

        /** Whether a finding is about the place. */
        boolean names(Finding finding) {
            return at.isEmpty()
                    || finding.terminals().stream().anyMatch(this::names)
                    || finding.connections().stream().anyMatch(at::contains);
        }

        private boolean names(String terminal) {
            return at.contains(terminal) || at.contains(terminal.substring(0, terminal.indexOf('.')));
        }
    }

    /** The files by name, without {@code .json}. */
    static Map<String, Case> cases() {
        Path folder = DemoFiles.examples().resolveSibling("service/src/test/resources/dev/splicebook/corpus");
        try (Stream<Path> files = Files.list(folder)) {
            Map<String, Case> cases = new TreeMap<>();
            for (Path file : files.toList()) {
                cases.put(
                        file.getFileName().toString().replace(".json", ""),
                        StrictReader.read(Files.readAllBytes(file), Case.class));
            }
            return cases;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The hookup of a file, without the facts that no record has yet. */
    static Hookup read(JsonNode hookup) {
        JsonNode known = hookup.deepCopy();
        dropUnknownFacts(known);
        return DemoFiles.resolve(StrictReader.shape(known, HookupDocument.class));
    }

    private static void dropUnknownFacts(JsonNode node) {
        if (node instanceof ObjectNode object) {
            FACTS.forEach((fact, type) -> {
                if (!hasComponent(type, fact)) {
                    object.remove(fact);
                }
            });
            if (object.has("kind") && !hasComponent(Electrical.SpeakerIn.class, "coil")) {
                object.remove("coil");
            }
        }
        Collection<JsonNode> children = node.values();
        children.forEach(Corpus::dropUnknownFacts);
    }

    private static boolean hasComponent(Class<?> type, String name) {
        return Arrays.stream(type.getRecordComponents())
                .anyMatch(component -> component.getName().equals(name));
    }
}
