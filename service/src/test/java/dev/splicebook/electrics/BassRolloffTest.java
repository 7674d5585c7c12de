package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.BassRolloff.Course;
import dev.splicebook.electrics.BassRolloff.Reading;
import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BassRolloffTest {

    // readings made up from the decibels they stand for
    @Test
    void findsWhereTheBassBeginsToFall() {
        Course course = BassRolloff.course(readings(10, 5, 0, 0, 0, -2, -4, -6));
        assertThat(course.kneeStep()).isNotNull().isCloseTo(20, within(1e-9));
        assertThat(course.slopeDecibelsPerStep()).isCloseTo(-0.4, within(1e-9));
        assertThat(course.totalLossDecibels()).isCloseTo(6, within(1e-9));
        assertThat(course.fades()).isTrue();
    }

    @Test
    void findsAKneeBetweenTwoReadings() {
        // level at −1 to step 22.5, then 0.5 dB a step
        Course course = BassRolloff.course(readings(10, 5, -1, -1, -1, -2.25, -4.75, -7.25));
        assertThat(course.kneeStep()).isNotNull().isCloseTo(22.5, within(1e-9));
        assertThat(course.slopeDecibelsPerStep()).isCloseTo(-0.5, within(1e-9));
    }

    @Test
    void findsAnyKneeAndSlopeAgain() {
        Random random = new Random(6);
        for (int each = 0; each < 200; each++) {
            double kneeStep = 3 + 20 * random.nextDouble();
            double slope = 0.2 + random.nextDouble();
            double level = 10 * random.nextDouble() - 5;
            List<Reading> readings = new ArrayList<>();
            for (int step = 0; step <= 30; step += 2) {
                readings.add(reading(step, level - slope * Math.max(0, step - kneeStep)));
            }
            Collections.shuffle(readings, random);
            Course course = BassRolloff.course(readings);
            assertThat(course.kneeStep()).isNotNull().isCloseTo(kneeStep, within(1e-6));
            assertThat(course.slopeDecibelsPerStep()).isCloseTo(-slope, within(1e-6));
            assertThat(course.totalLossDecibels()).isCloseTo(slope * (30 - kneeStep), within(1e-6));
        }
    }

    @Test
    void bearsTheScatterOfAMeter() {
        Random random = new Random(7);
        for (int each = 0; each < 50; each++) {
            List<Reading> level = new ArrayList<>();
            List<Reading> falling = new ArrayList<>();
            for (int step = 0; step <= 30; step += 2) {
                double scatter = 0.3 * random.nextDouble() - 0.15;
                level.add(reading(step, scatter));
                falling.add(reading(step, scatter - 0.8 * Math.max(0, step - 15)));
            }
            assertThat(BassRolloff.course(level).kneeStep()).isNull();
            assertThat(BassRolloff.course(level).fades()).isFalse();
            assertThat(BassRolloff.course(falling).kneeStep()).isNotNull().isCloseTo(15, within(1.0));
            assertThat(BassRolloff.course(falling).slopeDecibelsPerStep()).isCloseTo(-0.8, within(0.1));
        }
    }

    @Test
    void takesTwoReadings() {
        Course course = BassRolloff.course(readings(10, 20, 0, -8));
        assertThat(course.kneeStep()).isEqualTo(10);
        assertThat(course.slopeDecibelsPerStep()).isCloseTo(-0.4, within(1e-9));
        assertThat(course.totalLossDecibels()).isCloseTo(8, within(1e-9));
    }

    // 0.5 dB is taken for scatter and 3 dB for a fade: common practice, no source
    @ParameterizedTest
    @CsvSource({"0.49, false, false", "0.51, true, false", "2.99, true, false", "3.01, true, true"})
    void drawsItsLimits(double lossDecibels, boolean falls, boolean fades) {
        Course course = BassRolloff.course(readings(1, 1, 0, 0, 0, -lossDecibels));
        assertThat(course.kneeStep() != null).isEqualTo(falls);
        assertThat(course.fades()).isEqualTo(fades);
    }

    @Test
    void takesARisingBassForNone() {
        Course course = BassRolloff.course(readings(1, 1, 0, 2, 4));
        assertThat(course.kneeStep()).isNull();
        assertThat(course.slopeDecibelsPerStep()).isZero();
        assertThat(course.totalLossDecibels()).isCloseTo(-4, within(1e-9));
    }

    @Test
    void refusesTooFewAndTwoAtOneStep() {
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> BassRolloff.course(readings(1, 1, 0)));
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> BassRolloff.course(List.of(reading(5, 0), reading(5, 1))));
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new Reading(-1, 1, 1));
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new Reading(1, 0, Double.NaN));
    }

    private static List<Reading> readings(double firstStep, double apart, double... decibels) {
        List<Reading> readings = new ArrayList<>();
        for (int each = 0; each < decibels.length; each++) {
            readings.add(reading(firstStep + apart * each, decibels[each]));
        }
        return readings;
    }

    private static Reading reading(double step, double relativeDecibels) {
        double referenceVolts = 0.1 + step / 10;
        return new Reading(step, referenceVolts * Levels.voltRatio(relativeDecibels), referenceVolts);
    }
}
