package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.KeyLadder.Confusion;
import dev.splicebook.electrics.KeyLadder.LadderArrangement;
import dev.splicebook.electrics.KeyLadder.LadderReadAcross;
import dev.splicebook.electrics.KeyLadder.LadderSpread;
import dev.splicebook.electrics.KeyLadder.Level;
import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class KeyLadderTest {

    private static KeyLadder ladder(
            LadderArrangement arrangement,
            LadderReadAcross across,
            double fixedOhms,
            double tolerance,
            LadderSpread spread,
            double... ohms) {
        return endedLadder(arrangement, across, fixedOhms, tolerance, spread, 0, null, ohms);
    }

    private static KeyLadder endedLadder(
            LadderArrangement arrangement,
            LadderReadAcross across,
            double fixedOhms,
            double tolerance,
            LadderSpread spread,
            double contactOhms,
            @Nullable Double endOhms,
            double... ohms) {
        List<KeyLadder.Key> keys = IntStream.range(0, ohms.length)
                .mapToObj(key -> new KeyLadder.Key("K" + (key + 1), ohms[key]))
                .toList();
        return new KeyLadder(
                arrangement, keys, endOhms, fixedOhms, across, contactOhms, tolerance, tolerance, spread, 10);
    }

    private static Level level(KeyLadder ladder, String key) {
        return ladder.levels().stream()
                .filter(level -> level.key().equals(key))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void readsASetAcrossItsPullDown() {
        // published (secondary copy): 5 V, keys of 2.2, 3.3, 5.6 and 10 kΩ into 10 kΩ, read across the 10 kΩ
        KeyLadder ladder = ladder(
                LadderArrangement.PARALLEL,
                LadderReadAcross.FIXED,
                10_000,
                0.01,
                LadderSpread.UNIFORM,
                2200,
                3300,
                5600,
                10_000);

        assertThat(5 * level(ladder, "K1").ratio()).isCloseTo(4.10, within(0.005));
        assertThat(5 * level(ladder, "K2").ratio()).isCloseTo(3.76, within(0.005));
        assertThat(5 * level(ladder, "K3").ratio()).isCloseTo(3.205, within(0.0005));
        assertThat(5 * level(ladder, "K4").ratio()).isCloseTo(2.50, within(0.005));
        assertThat(level(ladder, "none").ratio()).isZero();
    }

    @Test
    void countsAChainOfEqualResistors() {
        // published (secondary copy): equal 1 kΩ chain, 10 bit
        KeyLadder ladder = ladder(
                LadderArrangement.SERIES,
                LadderReadAcross.KEYS,
                1000,
                0.01,
                LadderSpread.UNIFORM,
                0,
                1000,
                1000,
                1000,
                1000);

        assertThat(IntStream.rangeClosed(1, 5)
                        .map(key -> level(ladder, "K" + key).counts())
                        .toArray())
                .containsExactly(0, 512, 683, 768, 819);
        assertThat(level(ladder, "none").counts()).isEqualTo(1023);
        assertThat(level(ladder, "none").ohms()).isInfinite();
    }

    @Test
    void seesTheEndResistor() {
        KeyLadder chain = endedLadder(
                LadderArrangement.SERIES,
                LadderReadAcross.KEYS,
                1000,
                0.01,
                LadderSpread.UNIFORM,
                10,
                4000.0,
                100,
                400);
        KeyLadder set = endedLadder(
                LadderArrangement.PARALLEL, LadderReadAcross.KEYS, 1000, 0.01, LadderSpread.UNIFORM, 0, 1000.0, 1000);

        assertThat(level(chain, "K1").ohms()).isCloseTo(110, within(1e-9));
        assertThat(level(chain, "K2").ohms()).isCloseTo(510, within(1e-9));
        assertThat(level(chain, "none").ohms()).isCloseTo(4500, within(1e-9));
        assertThat(level(set, "K1").ohms()).isCloseTo(500, within(1e-9));
        assertThat(level(set, "none").ohms()).isCloseTo(1000, within(1e-9));
    }

    @Test
    void sharesAllCountsOutAmongTheKeys() {
        Random random = new Random(12);
        for (int round = 0; round < 100; round++) {
            List<Level> levels = random(random).levels();
            int next = 0;
            double lastRatio = -1;
            for (Level level : levels) {
                assertThat(level.windowFromCounts()).isEqualTo(next);
                next = level.windowToCounts() + 1;
                assertThat(level.ratio()).isGreaterThanOrEqualTo(lastRatio);
                lastRatio = level.ratio();
                assertThat((double) level.counts())
                        .isBetween(Math.floor(level.leastCounts()), Math.ceil(level.mostCounts()));
            }
            assertThat(next).isEqualTo(1024);
        }
    }

    @Test
    void findsEachKeyBackFromWhatItReads() {
        KeyLadder ladder = ladder(
                LadderArrangement.PARALLEL,
                LadderReadAcross.FIXED,
                10_000,
                0.01,
                LadderSpread.UNIFORM,
                2200,
                3300,
                5600,
                10_000);

        for (Level level : ladder.levels()) {
            assertThat(ladder.identify(level.ratio()).keys()).containsExactly(level.key());
            assertThat(ladder.identify(level.counts() / 1024.0).keys()).containsExactly(level.key());
            assertThat(ladder.identifyOhms(level.ohms()).keys()).containsExactly(level.key());
        }
        assertThat(ladder.identify(0.79).keys()).isEmpty();
        assertThat(ladder.identify(0.79).nearest()).isEqualTo("K1");
        assertThat(ladder.identifyOhms(2900).keys()).isEmpty();
    }

    @Test
    void namesBothKeysOfAnAmbiguousReading() {
        KeyLadder ladder = ladder(
                LadderArrangement.PARALLEL, LadderReadAcross.KEYS, 1000, 0.10, LadderSpread.UNIFORM, 1000, 1150, 5000);

        assertThat(ladder.identifyOhms(1060).keys()).containsExactly("K1", "K2");
        assertThat(ladder.identify(1060 / 2060.0).keys()).containsExactlyInAnyOrder("K1", "K2");
    }

    @Test
    void overrunsAWindowOnlyWhereItConfusesWithinTolerance() {
        Random random = new Random(31);
        for (int round = 0; round < 60; round++) {
            KeyLadder ladder = random(random);
            assertThat(ladder.leastMarginCounts() < 0)
                    .as("margin of " + ladder)
                    .isEqualTo(ladder.confusions().stream().anyMatch(Confusion::withinTolerance));
        }
    }

    @Test
    void confusesNothingThatIsFarApart() {
        assertThat(ladder(
                                LadderArrangement.PARALLEL,
                                LadderReadAcross.FIXED,
                                10_000,
                                0.01,
                                LadderSpread.NORMAL,
                                2200,
                                3300,
                                5600,
                                10_000)
                        .confusions())
                .isEmpty();
    }

    @Test
    void tossesACoinBetweenEqualKeys() {
        List<Confusion> confusions = ladder(
                        LadderArrangement.PARALLEL, LadderReadAcross.KEYS, 1000, 0.01, LadderSpread.UNIFORM, 500, 500)
                .confusions();

        assertThat(confusions).hasSize(2);
        assertThat(confusions).allSatisfy(confusion -> {
            assertThat(confusion.probability()).isCloseTo(0.5, within(1e-6));
            assertThat(confusion.withinTolerance()).isTrue();
        });
    }

    @Test
    void confusesMoreTheWiderTheTolerance() {
        double last = -1;
        for (double tolerance = 0.02; tolerance < 0.3; tolerance += 0.02) {
            double probability = ladder(
                            LadderArrangement.PARALLEL,
                            LadderReadAcross.KEYS,
                            1000,
                            tolerance,
                            LadderSpread.NORMAL,
                            1000,
                            1300)
                    .confusions()
                    .stream()
                    .filter(confusion -> confusion.pressed().equals("K1"))
                    .mapToDouble(Confusion::probability)
                    .sum();
            assertThat(probability).as("at " + tolerance).isGreaterThanOrEqualTo(last);
            last = probability;
        }
        assertThat(last).isGreaterThan(0.05);
    }

    @Test
    void agreesWithLaddersMadeByChance() {
        Random random = new Random(2024);
        int compared = 0;
        for (int round = 0; round < 24; round++) {
            KeyLadder ladder = random(random);
            compared += compare(ladder, random);
        }
        assertThat(compared).as("confusions that were worth comparing").isGreaterThan(30);
    }

    /** Makes 20 000 ladders of each key and counts what they are taken for. */
    private static int compare(KeyLadder ladder, Random random) {
        List<Level> levels = ladder.levels();
        Map<String, Double> computed = ladder.confusions().stream()
                .collect(Collectors.toMap(each -> each.pressed() + ">" + each.readAs(), Confusion::probability));
        int compared = 0;
        int makes = 20_000;
        for (Level pressed : levels) {
            int[] readAs = new int[levels.size()];
            for (int make = 0; make < makes; make++) {
                readAs[window(levels, made(ladder, pressed.key(), random))]++;
            }
            for (int other = 0; other < levels.size(); other++) {
                String pair = pressed.key() + ">" + levels.get(other).key();
                if (!levels.get(other).key().equals(pressed.key())) {
                    double expected = computed.getOrDefault(pair, 0.0);
                    double sigma = Math.sqrt(Math.max(expected * (1 - expected), 1.0 / makes) / makes);
                    // an end resistor beside a set counts to first order only
                    double allowed = 5 * sigma + (ladder.endOhms() == null ? 0 : 0.01);
                    assertThat((double) readAs[other] / makes)
                            .as(pair + " of " + ladder)
                            .isCloseTo(expected, within(allowed));
                    compared += expected > 0.001 ? 1 : 0;
                }
            }
        }
        return compared;
    }

    private static int window(List<Level> levels, double reading) {
        int index = 0;
        while (index + 1 < levels.size()
                && reading > (levels.get(index).ratio() + levels.get(index + 1).ratio()) / 2) {
            index++;
        }
        return index;
    }

    private static double made(KeyLadder ladder, String key, Random random) {
        double sum = 0;
        boolean found = false;
        for (KeyLadder.Key each : ladder.keys()) {
            boolean here = each.name().equals(key);
            if (ladder.arrangement() == LadderArrangement.PARALLEL ? here : !found) {
                sum += each.ohms() * factor(ladder, ladder.toleranceShare(), random);
            }
            found |= here;
        }
        double row = found ? sum + ladder.contactOhms() * random.nextDouble() : Double.POSITIVE_INFINITY;
        Double end = ladder.endOhms();
        if (end != null) {
            double made = end * factor(ladder, ladder.toleranceShare(), random);
            if (ladder.arrangement() == LadderArrangement.PARALLEL) {
                row = found ? row * made / (row + made) : made;
            } else if (!found) {
                row = sum + made;
            }
        }
        double fixed = ladder.fixedOhms() * factor(ladder, ladder.fixedToleranceShare(), random);
        double ratio = Double.isInfinite(row) ? 1 : row / (row + fixed);
        double read = ladder.readAcross() == LadderReadAcross.KEYS ? ratio : 1 - ratio;
        return read + (2 * random.nextDouble() - 1) / (1 << ladder.adcBits());
    }

    private static double factor(KeyLadder ladder, double tolerance, Random random) {
        return ladder.spread() == LadderSpread.UNIFORM
                ? 1 + tolerance * (2 * random.nextDouble() - 1)
                : 1 + tolerance / 3 * random.nextGaussian();
    }

    private static KeyLadder random(Random random) {
        List<KeyLadder.Key> keys = new ArrayList<>();
        int count = 2 + random.nextInt(5);
        for (int key = 0; key < count; key++) {
            keys.add(new KeyLadder.Key("K" + key, 20 + random.nextInt(2000)));
        }
        return new KeyLadder(
                random.nextBoolean() ? LadderArrangement.SERIES : LadderArrangement.PARALLEL,
                keys,
                random.nextInt(3) == 0 ? Double.valueOf(3000 + random.nextInt(5000)) : null,
                500 + random.nextInt(2000),
                random.nextBoolean() ? LadderReadAcross.KEYS : LadderReadAcross.FIXED,
                random.nextInt(50),
                0.01 + 0.09 * random.nextDouble(),
                0.01 + 0.04 * random.nextDouble(),
                random.nextBoolean() ? LadderSpread.UNIFORM : LadderSpread.NORMAL,
                10);
    }

    @Test
    void readsAPressedKeyAsOneThingOnly() {
        double[] alike = new double[20];
        Arrays.fill(alike, 100);
        List<Confusion> confusions = ladder(
                        LadderArrangement.SERIES, LadderReadAcross.KEYS, 1000, 0.5, LadderSpread.UNIFORM, alike)
                .confusions();

        for (int key = 1; key <= alike.length; key++) {
            String pressed = "K" + key;
            assertThat(confusions.stream()
                            .filter(confusion -> confusion.pressed().equals(pressed))
                            .mapToDouble(Confusion::probability)
                            .sum())
                    .as("all that " + pressed + " is taken for")
                    .isBetween(0.0, 1.0);
        }
        assertThat(confusions)
                .isSortedAccordingTo(
                        Comparator.comparingDouble(Confusion::probability).reversed());
        assertThat(confusions.size()).isGreaterThan(100);
    }

    @Test
    void refusesWhatIsNoLadder() {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() ->
                        ladder(LadderArrangement.SERIES, LadderReadAcross.KEYS, 1000, 0.01, LadderSpread.UNIFORM));
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new KeyLadder.Key("none", 5));
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new KeyLadder(
                        LadderArrangement.SERIES,
                        List.of(new KeyLadder.Key("up", 1), new KeyLadder.Key("up", 2)),
                        null,
                        1000,
                        LadderReadAcross.KEYS,
                        0,
                        0.01,
                        0.01,
                        LadderSpread.UNIFORM,
                        10))
                .withMessageContaining("/keys/1/name");
    }
}
