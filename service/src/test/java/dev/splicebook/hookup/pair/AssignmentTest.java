package dev.splicebook.hookup.pair;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class AssignmentTest {

    @Test
    void takesTheLeastCostOfAllTogether() {
        Want one = want("one", 100);
        Want other = want("other", 100);
        Assignment<String> assignment = new Assignment<>(List.of(one, other));
        assignment.allow(one, "A", 1);
        assignment.allow(one, "B", 2);
        assignment.allow(other, "A", 1);
        assignment.allow(other, "B", 9);

        assertThat(assignment.solve()).containsOnly(Map.entry(one, "B"), Map.entry(other, "A"));
    }

    @Test
    void goesWithoutWhereThatCostsLess() {
        Want want = want("want", 5);
        Assignment<String> assignment = new Assignment<>(List.of(want));
        assignment.allow(want, "A", 5.5);

        assertThat(assignment.solve()).isEmpty();
    }

    @Test
    void takesAWayThatIsARewardAboveAll() {
        Want want = want("want", 0);
        Assignment<String> assignment = new Assignment<>(List.of(want));
        assignment.allow(want, "A", 0);
        assignment.allow(want, "B", -150);

        assertThat(assignment.solve()).containsOnly(Map.entry(want, "B"));
    }

    @Test
    void servesTwiceOnlyWhatMayAndWhereItPays() {
        Want one = want("one", 100);
        Want other = want("other", 100);
        Assignment<String> once = new Assignment<>(List.of(one, other));
        once.allow(one, "A", 1);
        once.allow(other, "A", 2);
        Assignment<String> twice = new Assignment<>(List.of(one, other));
        twice.allow(one, "A", 1);
        twice.allow(other, "A", 2);
        twice.allow(other, "B", 2 + Assignment.AGAIN_POINTS - 1);
        twice.serve("A", 2);

        assertThat(once.solve()).containsOnly(Map.entry(one, "A"));
        assertThat(twice.solve()).containsOnly(Map.entry(one, "A"), Map.entry(other, "B"));
    }

    @Test
    void isAsCheapAsTheBestOfAllChoices() {
        for (long seed = 0; seed < 60; seed++) {
            Random random = new Random(seed);
            List<Want> wants = new ArrayList<>();
            for (int at = 0; at < 4; at++) {
                wants.add(want("want" + at, random.nextInt(60)));
            }
            Map<Want, Map<String, Double>> points = new LinkedHashMap<>();
            Assignment<String> assignment = new Assignment<>(wants);
            for (Want want : wants) {
                for (String source : List.of("A", "B", "C")) {
                    if (random.nextInt(3) > 0) {
                        double cost = random.nextInt(50) - 10;
                        points.computeIfAbsent(want, key -> new LinkedHashMap<>())
                                .put(source, cost);
                        assignment.allow(want, source, cost);
                    }
                }
            }

            assertThat(points(assignment.solve(), wants, points))
                    .as("points with seed %s", seed)
                    .isCloseTo(least(wants, points, Map.of()), within(1e-9));
        }
    }

    private static double points(Map<Want, String> chosen, List<Want> wants, Map<Want, Map<String, Double>> points) {
        return wants.stream()
                .mapToDouble(want -> chosen.containsKey(want)
                        ? points.getOrDefault(want, Map.of()).getOrDefault(chosen.get(want), Double.NaN)
                        : want.lackPoints())
                .sum();
    }

    /** By trying all. */
    private static double least(List<Want> wants, Map<Want, Map<String, Double>> points, Map<Want, String> chosen) {
        if (wants.isEmpty()) {
            return 0;
        }
        Want first = wants.get(0);
        List<Want> rest = wants.subList(1, wants.size());
        double least = first.lackPoints() + least(rest, points, chosen);
        for (Map.Entry<String, Double> option :
                points.getOrDefault(first, Map.of()).entrySet()) {
            if (!chosen.containsValue(option.getKey())) {
                Map<Want, String> more = new LinkedHashMap<>(chosen);
                more.put(first, option.getKey());
                least = Math.min(least, option.getValue() + least(rest, points, more));
            }
        }
        return least;
    }

    private static Want want(String what, double lackPoints) {
        return new Want(List.of(), what, lackPoints);
    }
}
