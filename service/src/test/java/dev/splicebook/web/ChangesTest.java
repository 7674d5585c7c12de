package dev.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.web.Changes.Change;
import dev.splicebook.web.Changes.ChangeOp;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

class ChangesTest {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final List<String> NAMES =
            List.of("a", "b", "x/y", "t~u", "circuits", "connectors", "equipment", "mates", "live");

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '\u0000', textBlock = """
                    {"a":1,"b":{"c":2,"d":3}}            | {"b":{"d":3,"c":2},"a":1}
                    {"volts":12.6}                       | {"volts":12.60}
                    {"volts":12}                         | {"volts":12.0}
                    {"volts":1000}                       | {"volts":1e3}
                    {"equipment":["sunroof","radio"]}    | {"equipment":["radio","sunroof"]}
                    {"c":{"C1":{"mates":["M-1","M-2"]}}} | {"c":{"C1":{"mates":["M-2","M-1"]}}}
                    {"vinPatterns":["1AB","2CD"]}        | {"vinPatterns":["2CD","1AB"]}
                    {"equipment":[]}                     | {}
                    {"circuits":{}}                      | {}
                    {"when":"reverse"}                   | {"when":["reverse"]}
                    """)
    void tellsNothingOfWhatMeansTheSame(String was, String is) {
        assertThat(Changes.between(json(was), json(is))).isEmpty();
        assertThat(Changes.between(json(is), json(was))).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '\u0000', textBlock = """
                    {"circuits":{"C1-7":{"colour":"YE"}}}   | {"circuits":{"C1-7":{"colour":"RD"}}} | CHANGED /circuits/C1-7/colour "YE" "RD"
                    {"circuits":{"C1-7":{}}}                | {"circuits":{"C1-7":{},"C1-8":{}}}    | ADDED /circuits/C1-8 null {}
                    {"circuits":{"C1-7":{},"C1-8":{}}}      | {"circuits":{"C1-7":{}}}              | REMOVED /circuits/C1-8 {} null
                    {"live":["asleep","running"]}           | {"live":["running","asleep"]}         | CHANGED /live ["asleep","running"] ["running","asleep"]
                    {"equipment":["sunroof"]}               | {"equipment":["radio"]}               | CHANGED /equipment ["sunroof"] ["radio"]
                    {"a":"12"}                              | {"a":12}                              | CHANGED /a "12" 12
                    {"a/b":{"c~d":1}}                       | {"a/b":{"c~d":2}}                     | CHANGED /a~1b/c~0d 1 2
                    {}                                      | {"maker":"Corvane"}                   | ADDED /maker null "Corvane"
                    """)
    void tellsWhatIsDifferentAndWhere(String was, String is, String told) {
        assertThat(Changes.between(json(was), json(is)))
                .singleElement()
                .extracting(change -> change.op() + " " + change.pointer() + " " + change.was() + " " + change.is())
                .isEqualTo(told);
    }

    @Test
    void keepsTheOrderOfTheDocument() {
        List<Change> changes = Changes.between(
                json("{\"z\":1,\"gone\":1,\"late\":1,\"m\":{\"q\":1},\"last\":1}"),
                json("{\"new\":1,\"m\":{\"q\":2,\"r\":1},\"z\":2}"));

        assertThat(changes)
                .extracting(Change::pointer)
                .containsExactly("/new", "/m/q", "/m/r", "/last", "/z", "/gone", "/late");
    }

    @Test
    void comparesWithTheRevisionBeforeOrAnyOther() {
        List<String> revisions = List.of("{\"a\":1}", "{\"a\":2}", "{\"a\":2,\"b\":1}");

        assertThat(Changes.ofRevisions(null, 3, at -> revisions.get(at - 1)).changes())
                .extracting(Change::pointer)
                .containsExactly("/b");
        Changes first = Changes.ofRevisions(null, 1, at -> revisions.get(at - 1));
        assertThat(first.from()).isZero();
        assertThat(first.changes()).containsExactly(new Change(ChangeOp.ADDED, "/a", null, NODES.numberNode(1)));
        Changes backwards = Changes.ofRevisions(3, 1, at -> revisions.get(at - 1));
        assertThat(backwards.changes())
                .extracting(Change::op, Change::pointer)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(ChangeOp.CHANGED, "/a"),
                        org.assertj.core.groups.Tuple.tuple(ChangeOp.REMOVED, "/b"));
        assertThat(Changes.ofRevisions(2, 2, at -> revisions.get(at - 1)).changes())
                .isEmpty();
        assertThatThrownBy(() -> Changes.ofRevisions(-1, 2, at -> revisions.get(at - 1)))
                .isInstanceOfSatisfying(
                        ProblemException.class,
                        problem ->
                                assertThat(problem.errors().get(0).parameter()).isEqualTo("from"));
    }

    static IntStream seeds() {
        return IntStream.range(0, 400);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void givesTheNewDocumentWhenAppliedToTheOldOne(int seed) {
        Random random = new Random(seed);
        ObjectNode was = object(random, 4);
        ObjectNode is = seed % 4 == 0 ? object(random, 4) : edited(was, random);

        List<Change> changes = Changes.between(was, is);

        assertThat(meaning("", apply(changes, was))).isEqualTo(meaning("", is));
        assertThat(changes.isEmpty()).isEqualTo(meaning("", was).equals(meaning("", is)));
        assertThat(changes).extracting(Change::pointer).doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void tellsNothingOfARewrittenDocument(int seed) {
        Random random = new Random(seed);
        ObjectNode document = object(random, 4);

        assertThat(Changes.between(document, rewritten("", document, random))).isEmpty();
    }

    private static ObjectNode object(Random random, int depth) {
        ObjectNode object = NODES.objectNode();
        int fields = random.nextInt(5);
        for (int i = 0; i < fields; i++) {
            String name = NAMES.get(random.nextInt(NAMES.size()));
            object.set(name, value(name, random, depth));
        }
        return object;
    }

    private static JsonNode value(String name, Random random, int depth) {
        if (name.equals("equipment") || name.equals("mates")) {
            ArrayNode set = NODES.arrayNode();
            List<String> members = new ArrayList<>(List.of("m1", "m2", "m3", "m4"));
            Collections.shuffle(members, random);
            members.subList(0, random.nextInt(5)).forEach(set::add);
            return set;
        }
        if (depth > 0 && random.nextInt(3) > 0) {
            return object(random, depth - 1);
        }
        return switch (random.nextInt(6)) {
            case 0 -> NODES.numberNode(random.nextInt(3));
            case 1 -> NODES.numberNode(random.nextInt(3) / 2.0);
            case 2 -> NODES.booleanNode(random.nextBoolean());
            case 3 -> NODES.stringNode("v" + random.nextInt(3));
            default -> {
                ArrayNode list = NODES.arrayNode();
                for (int i = random.nextInt(4); i > 0; i--) {
                    list.add(random.nextInt(4) == 0 ? object(random, 0) : NODES.stringNode("v" + random.nextInt(3)));
                }
                yield list;
            }
        };
    }

    /** A copy with a few fields set anew or taken out, at any depth. */
    private static ObjectNode edited(ObjectNode original, Random random) {
        ObjectNode copy = original.deepCopy();
        for (int i = random.nextInt(4); i > 0; i--) {
            ObjectNode at = copy;
            for (JsonNode below = child(at, random); below instanceof ObjectNode deeper && random.nextBoolean(); ) {
                at = deeper;
                below = child(at, random);
            }
            String name = NAMES.get(random.nextInt(NAMES.size()));
            if (random.nextBoolean()) {
                at.remove(name);
            } else {
                at.set(name, value(name, random, 1));
            }
        }
        return copy;
    }

    private static JsonNode child(ObjectNode object, Random random) {
        List<JsonNode> children = object.valueStream().toList();
        return children.isEmpty() ? NODES.nullNode() : children.get(random.nextInt(children.size()));
    }

    private static JsonNode rewritten(String name, JsonNode node, Random random) {
        if (node.isNumber()) {
            return NODES.numberNode(node.decimalValue().setScale(3));
        }
        if (node.isArray()) {
            List<JsonNode> entries = new ArrayList<>();
            node.forEach(entry -> entries.add(rewritten("", entry, random)));
            if (name.equals("equipment") || name.equals("mates")) {
                Collections.shuffle(entries, random);
            }
            return NODES.arrayNode().addAll(entries);
        }
        if (!node.isObject()) {
            return node;
        }
        List<String> names = new ArrayList<>(node.propertyNames());
        Collections.shuffle(names, random);
        ObjectNode copy = NODES.objectNode();
        names.forEach(each -> copy.set(each, rewritten(each, node.path(each), random)));
        return copy;
    }

    private static JsonNode apply(List<Change> changes, ObjectNode document) {
        ObjectNode copy = document.deepCopy();
        for (Change change : changes) {
            int slash = change.pointer().lastIndexOf('/');
            String name =
                    change.pointer().substring(slash + 1).replace("~1", "/").replace("~0", "~");
            ObjectNode parent = (ObjectNode) copy.at(change.pointer().substring(0, slash));
            if (change.op() == ChangeOp.REMOVED) {
                assertThat(parent.remove(name)).isEqualTo(change.was());
            } else {
                JsonNode before = parent.replace(name, Objects.requireNonNull(change.is()));
                assertThat(change.op() == ChangeOp.CHANGED).isEqualTo(change.was() != null);
                assertThat(change.was() == null || change.was().equals(before)).isTrue();
            }
        }
        return copy;
    }

    /** What a document says, in a form in which equal things are equal. */
    private static Object meaning(String name, JsonNode node) {
        return meaning(name, node, true);
    }

    private static Object meaning(String name, JsonNode node, boolean whole) {
        if (node.isNumber()) {
            return new BigDecimal(node.asString()).stripTrailingZeros();
        }
        if (node.isArray()) {
            List<Object> entries =
                    node.valueStream().map(entry -> meaning("", entry, false)).toList();
            if (entries.size() == 1 && !node.get(0).isObject()) {
                return entries.get(0);
            }
            return name.equals("equipment") || name.equals("mates")
                    ? new TreeSet<>(entries.stream().map(Object::toString).toList())
                    : entries;
        }
        if (!node.isObject()) {
            return node;
        }
        Map<String, Object> fields = new TreeMap<>();
        node.forEachEntry((field, value) -> {
            boolean says = !value.isEmpty() || !(value.isArray() || (whole && value.isObject()));
            if (says) {
                fields.put(field, meaning(field, value, false));
            }
        });
        return fields;
    }

    private static JsonNode json(String text) {
        return StrictReader.parse(text.strip().getBytes(StandardCharsets.UTF_8));
    }
}
