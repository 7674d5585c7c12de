package dev.splicebook.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connector;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.vehicle.StoredMap;
import dev.splicebook.web.JsonWriting;
import dev.splicebook.web.ProblemException;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever a map says of its circuits, a sheet says it too. */
class RandomSpreadsheetsTest {

    private static final VehicleHead NOTHING =
            new VehicleHead(null, null, null, null, null, null, List.of(), List.of());

    static LongStream seeds() {
        return LongStream.range(0, 400);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void surviveExportAndImport(long seed) {
        FunctionMap map = new Maker(new Random(seed)).map();
        String document = JsonWriting.mapper().writeValueAsString(map);
        StoredMap stored = new StoredMap(new UUID(0, seed), 1, 1, false, Instant.EPOCH, document);

        String sheet = Spreadsheets.write(stored);

        byte[] bytes = sheet.getBytes(StandardCharsets.UTF_8);
        if (map.circuits().isEmpty() && map.connectors().isEmpty()) {
            assertThat(sheet).isEqualTo("connector,pin\r\n");
        } else {
            assertThat(Spreadsheets.read(NOTHING, bytes).value()).as(sheet).isEqualTo(map);
            assertThat(Spreadsheets.read(stored, bytes).value()).isEqualTo(map);
            for (String line : sheet.split("\r\n", -1)) {
                assertThat(line).doesNotStartWith("=").doesNotContain(",=", ",+", ",@", ",\"=");
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void areReadOrRefusedWithPlaces(long seed) {
        Random random = new Random(seed);
        List<String> pieces = List.of(
                "connector",
                "pin",
                "note",
                "colour",
                "electrical.kind",
                "supply",
                "C1",
                "1",
                "7",
                "red",
                "RD",
                ",",
                ",",
                ",",
                "\n",
                "\n",
                "\r\n",
                "\r",
                "\"",
                "\"",
                "\"\"",
                ";",
                "\t",
                " ",
                "=",
                "'",
                "\0",
                "\\",
                "\ufffe",
                "\ufffd",
                "\ufeff",
                "\u2028",
                "🚐",
                "#");
        StringBuilder sheet = new StringBuilder(random.nextBoolean() ? "connector,pin,note,colour\n" : "");
        for (int at = 0; at < 40; at++) {
            sheet.append(pieces.get(random.nextInt(pieces.size())));
        }
        byte[] bytes = sheet.toString().getBytes(StandardCharsets.UTF_8);
        if (random.nextInt(4) == 0) {
            bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
        }

        try {
            assertThat(Spreadsheets.read(NOTHING, bytes).value().circuits()).isNotEmpty();
        } catch (ProblemException refused) {
            assertThat(refused.errors()).isNotEmpty().allSatisfy(fault -> {
                assertThat(fault.detail()).isNotBlank().doesNotContain("null");
                if (!fault.code().equals("empty-body")) {
                    assertThat(fault.line()).isBetween(1, sheet.toString().split("\r\n|\n|\r", -1).length + 1);
                }
            });
        }
    }

    private static final class Maker {

        private static final List<String> TEXTS = List.of(
                "=SUM(A1)",
                "+",
                "-5",
                "@x",
                "\ttab",
                "\rreturn",
                "'",
                "''x'",
                " a ",
                "a, b",
                "\"q\"",
                "\"",
                "a;b",
                "a; b",
                "\\",
                "a\\",
                "\\;",
                "\\ ",
                "x\r\ny",
                "x\ny",
                "x\ry",
                "ünï – 日本 🚐",
                "plain",
                "none",
                "true",
                "1.50",
                "\u00a0x",
                "#",
                "a\n",
                "\ufeffx",
                ";",
                "; ;",
                "C1-7");
        private static final List<FunctionId> FUNCTIONS = Functions.vocabulary().listFunctions().stream()
                .map(dev.splicebook.function.Function::id)
                .toList();

        private final Random random;

        Maker(Random random) {
            this.random = random;
        }

        FunctionMap map() {
            Map<String, Circuit> circuits = new LinkedHashMap<>();
            int wanted = random.nextInt(25);
            for (int at = 0; at < wanted; at++) {
                circuits.put("C" + random.nextInt(4) + "-" + (1 + random.nextInt(40)), circuit());
            }
            if (random.nextInt(4) == 0) {
                circuits.put(pick(List.of("chassis", "battery-plus", "battery-minus", "A+-b-x_1")), circuit());
            }
            Map<String, Connector> connectors = new LinkedHashMap<>();
            for (int at = 0; at < 5; at++) {
                Connector connector = new Connector(
                        maybe(text()),
                        maybe(new Colour("GY")),
                        maybe(40 + at),
                        maybe(text()),
                        List.of(),
                        null,
                        Set.of());
                if (random.nextBoolean() && !connector.equals(Connector.unknown())) {
                    connectors.put("C" + at, connector);
                }
            }
            return new FunctionMap(
                    null,
                    null,
                    null,
                    null,
                    null,
                    Set.of(),
                    Set.of(),
                    null,
                    null,
                    null,
                    null,
                    connectors,
                    circuits,
                    null);
        }

        private Circuit circuit() {
            boolean either = random.nextBoolean();
            List<String> carries = new ArrayList<>();
            while (random.nextInt(3) > 0) {
                carries.add(text());
            }
            return new Circuit(
                    maybe(pick(FUNCTIONS)),
                    maybe(new Colour(pick(List.of("RD", "WH/BK", "GNYE")))),
                    either ? maybe(facts()) : null,
                    either ? null : maybe(facts()),
                    either ? null : maybe(facts()),
                    maybe(text()),
                    maybe(text()),
                    maybe(text()),
                    maybe(text()),
                    carries.subList(0, Math.min(carries.size(), 20)),
                    maybe(LocalDate.of(2020 + random.nextInt(8), 2, 28)));
        }

        /** Of any kind that there is, with any facts that it takes. */
        private Electrical facts() {
            List<Class<?>> kinds = new ArrayList<>(kindsOf(Electrical.class));
            while (true) {
                Electrical facts = facts(pick(kinds));
                if (facts != null) {
                    return facts;
                }
            }
        }

        private @Nullable Electrical facts(Class<?> kind) {
            RecordComponent[] components = kind.getRecordComponents();
            try {
                return (Electrical) kind.getDeclaredConstructor(Arrays.stream(components)
                                .map(RecordComponent::getType)
                                .toArray(Class<?>[]::new))
                        .newInstance(Arrays.stream(components)
                                .map(component -> value(
                                        component.getGenericType(),
                                        component.getAnnotatedType().isAnnotationPresent(Nullable.class)))
                                .toArray());
            } catch (InvocationTargetException refused) {
                // some pairs of facts contradict each other
                return null;
            } catch (ReflectiveOperationException impossible) {
                throw new IllegalStateException(impossible);
            }
        }

        private @Nullable Object value(Type type, boolean nullable) {
            if (nullable && random.nextInt(3) == 0) {
                return null;
            }
            if (type instanceof ParameterizedType list) {
                Class<?> constants = (Class<?>) list.getActualTypeArguments()[0];
                List<Object> all = new ArrayList<>(List.of(constants.getEnumConstants()));
                all.removeIf(constant -> random.nextBoolean());
                return all;
            }
            if (type == Double.class) {
                return pick(List.of(0.5, 1.0, 12.6, 0.001, 150.0));
            }
            if (type == Boolean.class) {
                return random.nextBoolean();
            }
            if (type instanceof Class<?> constants && constants.isEnum()) {
                return pick(List.of(constants.getEnumConstants()));
            }
            return pick(List.of("high", "low", "a1"));
        }

        private static List<Class<?>> kindsOf(Class<?> sealed) {
            List<Class<?>> kinds = new ArrayList<>();
            for (Class<?> permitted : sealed.getPermittedSubclasses()) {
                kinds.addAll(permitted.isRecord() ? List.of(permitted) : kindsOf(permitted));
            }
            return kinds;
        }

        private String text() {
            String text = pick(TEXTS) + (random.nextBoolean() ? "" : pick(TEXTS));
            return text.isBlank() ? "x" : text;
        }

        private <T> @Nullable T maybe(T value) {
            return random.nextInt(3) == 0 ? null : value;
        }

        private <T> T pick(List<T> all) {
            return all.get(random.nextInt(all.size()));
        }
    }
}
