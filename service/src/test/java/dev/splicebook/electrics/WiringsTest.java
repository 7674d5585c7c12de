package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.Wirings.Pattern;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WiringsTest {

    // series-parallel networks with n unlabelled edges, OEIS A000084 (from memory)
    @ParameterizedTest
    @CsvSource({"1, 1", "2, 2", "3, 4", "4, 10", "5, 24", "6, 66", "7, 180", "8, 522"})
    void countsWiringsOfEqualCoils(int coils, int wirings) {
        assertThat(count(coils)).isEqualTo(wirings);
    }

    // series-parallel networks with n labelled edges, OEIS A006351 (from memory)
    @ParameterizedTest
    @CsvSource({"1, 1", "2, 2", "3, 8", "4, 52", "5, 472", "6, 5504", "7, 78416", "8, 1320064"})
    void countsWiringsOfCoilsThatAllDiffer(int coils, int wirings) {
        int[] ones = new int[coils];
        Arrays.fill(ones, 1);
        assertThat(count(ones)).isEqualTo(wirings);
    }

    // every way to split n coils among classes, up to five coils
    @ParameterizedTest
    @ValueSource(
            strings = {
                "1",
                "2",
                "1 1",
                "3",
                "2 1",
                "1 2",
                "1 1 1",
                "4",
                "3 1",
                "1 3",
                "2 2",
                "2 1 1",
                "1 2 1",
                "1 1 2",
                "1 1 1 1",
                "5",
                "4 1",
                "1 4",
                "3 2",
                "2 3",
                "3 1 1",
                "1 3 1",
                "2 2 1",
                "1 2 2",
                "2 1 2",
                "2 1 1 1",
                "1 1 1 2",
                "1 1 1 1 1"
            })
    void findsWhatPairwiseJoiningFinds(String text) {
        int[] counts =
                Arrays.stream(text.split(" ")).mapToInt(Integer::parseInt).toArray();
        List<String> found = new ArrayList<>();
        Wirings.forEach(counts, ohmsOf(counts), each -> found.add(canonical(each)));
        assertThat(found).doesNotHaveDuplicates();
        assertThat(new HashSet<>(found)).isEqualTo(joinedPairwise(counts));
    }

    @ParameterizedTest
    @ValueSource(strings = {"6", "2 2 2", "4 2", "3 3", "7", "4 3", "8", "4 4", "2 2 2 2", "6 2", "5 1 1 1"})
    void findsNoneTwiceAndUsesEveryCoil(String text) {
        int[] counts =
                Arrays.stream(text.split(" ")).mapToInt(Integer::parseInt).toArray();
        Set<String> found = new HashSet<>();
        int[] all = {0};
        Wirings.forEach(counts, ohmsOf(counts), each -> {
            all[0]++;
            found.add(canonical(each));
            assertThat(coilsOf(each, counts.length)).isEqualTo(counts);
        });
        assertThat(found).hasSize(all[0]);
    }

    @Test
    void knowsTheOhmsOfEachWiring() {
        List<Double> ohms = new ArrayList<>();
        Wirings.forEach(new int[] {1, 1}, new double[] {3, 6}, each -> ohms.add(each.ohms()));
        Collections.sort(ohms);
        assertThat(ohms.get(0)).isCloseTo(2, within(1e-12));
        assertThat(ohms.get(1)).isCloseTo(9, within(1e-12));
    }

    private static int count(int... counts) {
        int[] found = {0};
        Wirings.forEach(counts, ohmsOf(counts), each -> found[0]++);
        return found[0];
    }

    private static double[] ohmsOf(int[] counts) {
        double[] ohms = new double[counts.length];
        for (int each = 0; each < ohms.length; each++) {
            ohms[each] = 1 + each;
        }
        return ohms;
    }

    /** Independent of the code under test: joins any two parts of any state in both ways until one is left. */
    private static Set<String> joinedPairwise(int[] counts) {
        List<Made> coils = new ArrayList<>();
        for (int each = 0; each < counts.length; each++) {
            coils.addAll(Collections.nCopies(counts[each], new Made(' ', List.of(), Integer.toString(each))));
        }
        Set<String> found = new HashSet<>();
        joinPairwise(coils, found, new HashSet<>());
        return found;
    }

    private static void joinPairwise(List<Made> parts, Set<String> found, Set<List<String>> seen) {
        if (!seen.add(parts.stream().map(Made::text).sorted().toList())) {
            return;
        }
        if (parts.size() == 1) {
            found.add(parts.get(0).text());
        }
        for (int one = 0; one < parts.size(); one++) {
            for (int other = one + 1; other < parts.size(); other++) {
                List<Made> rest = new ArrayList<>(parts);
                rest.remove(other);
                rest.remove(one);
                for (char joint : new char[] {'+', '|'}) {
                    List<Made> joined = new ArrayList<>(rest);
                    joined.add(Made.of(joint, parts.get(one), parts.get(other)));
                    joinPairwise(joined, found, seen);
                }
            }
        }
    }

    private record Made(char joint, List<String> parts, String text) {

        static Made of(char joint, Made one, Made other) {
            List<String> parts = new ArrayList<>();
            for (Made each : List.of(one, other)) {
                parts.addAll(each.joint() == joint ? each.parts() : List.of(each.text()));
            }
            Collections.sort(parts);
            return new Made(joint, parts, "(" + String.join(Character.toString(joint), parts) + ")");
        }
    }

    private static String canonical(Pattern pattern) {
        return pattern.isCoil()
                ? Integer.toString(pattern.coilClass())
                : pattern.parts().stream()
                        .map(WiringsTest::canonical)
                        .sorted()
                        .collect(Collectors.joining(pattern.series() ? "+" : "|", "(", ")"));
    }

    private static int[] coilsOf(Pattern pattern, int classes) {
        int[] counts = new int[classes];
        if (pattern.isCoil()) {
            counts[pattern.coilClass()]++;
        }
        for (Pattern part : pattern.parts()) {
            int[] inside = coilsOf(part, classes);
            for (int each = 0; each < classes; each++) {
                counts[each] += inside[each];
            }
        }
        return counts;
    }
}
