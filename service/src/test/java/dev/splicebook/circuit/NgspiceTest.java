package dev.splicebook.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.splicebook.circuit.RandomNetworks.Kind;
import dev.splicebook.circuit.RandomNetworks.Sample;
import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The solver against ngspice, an independent simulator: where that is on the path, on random networks; everywhere, on a
 * few whose answers are recorded. After a change of what is recorded, with ngspice on the path, {@code mvn -q -ntp -pl
 * client-sdk,service test -Dtest=NgspiceTest -Dsurefire.failIfNoSpecifiedTests=false -Dsplicebook.test.write-ngspice=true}
 * records them anew.
 */
class NgspiceTest {

    private static final int NETWORKS_PER_KIND = 60;
    private static final int RECORDED_PER_KIND = 2;

    private static final double STRAIGHT_TOLERANCE = 1e-6;
    /** Junctions are modelled a little differently backwards. */
    private static final double CURVED_TOLERANCE = 1e-3;

    /** Of the largest of the network: what rounding leaves where figures cancel. */
    private static final double ROUNDING_SHARE = 1e-9;

    private static final Path RECORD = Path.of("src/test/resources/dev/splicebook/circuit/ngspice.txt");

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource
    void agreesOnRandomNetworks(Kind kind) {
        requireNgspice();
        List<Sample> samples = LongStream.range(0, NETWORKS_PER_KIND)
                .mapToObj(seed -> RandomNetworks.sample(kind, seed))
                .toList();

        List<Map<String, Phasor>> answers = Ngspice.solve(samples, folder);

        for (int at = 0; at < samples.size(); at++) {
            assertAgrees(kind + " " + at, samples.get(at), answers.get(at), kind.curved);
        }
    }

    @Test
    void agreesWithWhatIsRecorded() throws IOException {
        if (Boolean.getBoolean("splicebook.test.write-ngspice")) {
            requireNgspice();
            record();
        }
        List<String> parts = List.of(Files.readString(RECORD).split("\n\n"));
        assertThat(parts).as("networks in " + RECORD).hasSize(RECORDED_PER_KIND * Kind.values().length);
        for (String part : parts) {
            compareWithRecord(part);
        }
    }

    private static void requireNgspice() {
        if (System.getenv("SPLICEBOOK_REQUIRE_NGSPICE") != null && !Ngspice.installed()) {
            fail(
                    "SPLICEBOOK_REQUIRE_NGSPICE is set, and ngspice is not on the path; Debian has it in the package ngspice");
        }
        assumeTrue(Ngspice.installed(), "ngspice is not on the path");
    }

    private static void assertAgrees(String name, Sample sample, Map<String, Phasor> expected, boolean curved) {
        Map<String, Phasor> found = solve(name, sample);
        double tolerance = curved ? CURVED_TOLERANCE : STRAIGHT_TOLERANCE;
        assertThat(found.keySet()).as("what is told of " + name).isEqualTo(expected.keySet());
        assertThat(found).as(name).hasSizeGreaterThan(3);
        for (String unit : List.of("volts", "amps")) {
            double most = expected.entrySet().stream()
                    .filter(entry -> entry.getKey().startsWith(unit))
                    .mapToDouble(entry -> entry.getValue().magnitude())
                    .max()
                    .orElse(0);
            expected.forEach((what, value) -> {
                if (what.startsWith(unit)) {
                    Phasor other = found.getOrDefault(what, new Phasor(Double.NaN, Double.NaN));
                    double apart = Math.hypot(other.real() - value.real(), other.imaginary() - value.imaginary());
                    assertThat(apart)
                            .as("%s of %s: %s here, %s by ngspice", what, name, other, value)
                            .isCloseTo(0, within(tolerance * value.magnitude() + ROUNDING_SHARE * most));
                }
            });
        }
    }

    private static Map<String, Phasor> solve(String name, Sample sample) {
        Map<String, Phasor> found = new TreeMap<>();
        if (sample.hertz() == 0) {
            DcResult result = Solver.dc(sample.network());
            assertThat(result).as(name).isInstanceOf(DcResult.Solved.class);
            DcResult.Solved solved = (DcResult.Solved) result;
            solved.volts().forEach((node, volts) -> found.put("volts " + node, new Phasor(volts, 0)));
            solved.branches().forEach((element, branch) -> found.put("amps " + element, new Phasor(branch.amps(), 0)));
        } else {
            AcResult result = Solver.ac(sample.network(), sample.hertz());
            assertThat(result).as(name).isInstanceOf(AcResult.Solved.class);
            AcResult.Solved solved = (AcResult.Solved) result;
            solved.volts().forEach((node, volts) -> found.put("volts " + node, volts));
            solved.branches().forEach((element, branch) -> found.put("amps " + element, branch.amps()));
        }
        found.keySet().removeIf(what -> what.equals("volts 0") || what.matches("amps [^VLT].*"));
        return found;
    }

    private void record() throws IOException {
        List<Sample> samples = new ArrayList<>();
        for (Kind kind : Kind.values()) {
            for (long seed = 1000; seed < 1000 + RECORDED_PER_KIND; seed++) {
                samples.add(RandomNetworks.sample(kind, seed));
            }
        }
        List<Map<String, Phasor>> answers = Ngspice.solve(samples, folder);
        List<String> parts = new ArrayList<>();
        for (int at = 0; at < samples.size(); at++) {
            Sample sample = samples.get(at);
            List<String> lines = new ArrayList<>(List.of("hertz " + sample.hertz()));
            sample.network().elements().forEach(element -> lines.add(written(element)));
            answers.get(at).forEach((what, value) -> lines.add(what + " " + value.real() + " " + value.imaginary()));
            parts.add(String.join("\n", lines));
        }
        Files.createDirectories(RECORD.getParent());
        Files.writeString(RECORD, String.join("\n\n", parts) + "\n");
    }

    private static void compareWithRecord(String part) {
        double hertz = 0;
        List<Element> elements = new ArrayList<>();
        Map<String, Phasor> answers = new TreeMap<>();
        for (String line : part.strip().split("\n", -1)) {
            String[] words = line.split(" ", -1);
            switch (words[0]) {
                case "hertz" -> hertz = Double.parseDouble(words[1]);
                case "volts", "amps" ->
                    answers.put(
                            words[0] + " " + words[1],
                            new Phasor(Double.parseDouble(words[2]), Double.parseDouble(words[3])));
                default -> elements.add(read(words));
            }
        }
        Network network = new Network(elements, "0");
        assertAgrees(
                part,
                new Sample(network, hertz),
                answers,
                elements.stream().anyMatch(element -> Law.of(element) != null));
    }

    /** The kind of an element and its components, in their order. */
    private static String written(Element element) {
        return element.getClass().getSimpleName() + " "
                + Arrays.stream(element.getClass().getRecordComponents())
                        .map(component -> String.valueOf(value(component, element)))
                        .collect(Collectors.joining(" "));
    }

    private static Object value(RecordComponent component, Element element) {
        try {
            return component.getAccessor().invoke(element);
        } catch (ReflectiveOperationException failed) {
            throw new IllegalStateException(failed);
        }
    }

    private static Element read(String[] words) {
        Class<?> kind = Arrays.stream(Element.class.getPermittedSubclasses())
                .filter(permitted -> permitted.getSimpleName().equals(words[0]))
                .findFirst()
                .orElseThrow();
        RecordComponent[] components = kind.getRecordComponents();
        Class<?>[] types =
                Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new);
        Object[] values = new Object[types.length];
        for (int at = 0; at < values.length; at++) {
            values[at] = types[at] == double.class ? (Object) Double.valueOf(words[at + 1]) : words[at + 1];
        }
        try {
            return (Element) kind.getDeclaredConstructor(types).newInstance(values);
        } catch (ReflectiveOperationException failed) {
            throw new IllegalStateException(failed);
        }
    }
}
