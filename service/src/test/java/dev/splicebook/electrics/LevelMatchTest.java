package dev.splicebook.electrics;

import static dev.splicebook.electrics.LevelMatch.LevelObstacle.BIAS_INTO_INPUT;
import static dev.splicebook.electrics.LevelMatch.LevelObstacle.COMMON_MODE_TOO_HIGH;
import static dev.splicebook.electrics.LevelMatch.LevelObstacle.FLOATING_INTO_CHASSIS;
import static dev.splicebook.electrics.LevelMatch.LevelObstacle.LEVEL_TOO_HIGH;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.LevelMatch.Divider;
import dev.splicebook.electrics.LevelMatch.Input;
import dev.splicebook.electrics.LevelMatch.LevelFit;
import dev.splicebook.electrics.LevelMatch.LineInputReturn;
import dev.splicebook.electrics.LevelMatch.Match;
import dev.splicebook.electrics.LevelMatch.Source;
import dev.splicebook.guard.InvalidValueException;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class LevelMatchTest {

    private static final double RESISTOR_WATTS = 0.25;

    @Test
    void wiresALineOutputStraightToALineInput() {
        Match match = LevelMatch.match(new Source(2, false, 0, 100), input(4, LineInputReturn.CHASSIS));
        assertThat(match.deliveredVolts()).as("volts").isCloseTo(2 * 10_000 / 10_100.0, within(1e-12));
        assertThat(match.level()).isEqualTo(LevelFit.FITS);
        assertThat(match.converterNeeded()).isFalse();
        // 4 V by 1.980 V
        assertThat(match.clippingMarginDecibels()).isCloseTo(6.107, within(0.001));
        assertThat(match.ratioDecibels()).isEqualTo(-match.clippingMarginDecibels());
    }

    @Test
    void acceptsExactlyTheMostThatAnInputTakes() {
        assertThat(LevelMatch.match(new Source(4, false, 0, 0), input(4, LineInputReturn.CHASSIS))
                        .obstacles())
                .isEmpty();
        Match above = LevelMatch.match(new Source(4.001, false, 0, 0), input(4, LineInputReturn.CHASSIS));
        assertThat(above.obstacles()).containsExactly(LEVEL_TOO_HIGH);
        assertThat(above.level()).isEqualTo(LevelFit.TOO_HIGH);
        assertThat(above.clippingMarginDecibels()).isNegative();
        assertThat(above.dividerSuffices()).isTrue();
    }

    @Test
    void tellsALevelThatIsTooLow() {
        Input input = new Input(0.5, 4, 10_000, LineInputReturn.CHASSIS, null, false);
        assertThat(LevelMatch.match(new Source(0.5, false, 0, 0), input).level())
                .isEqualTo(LevelFit.FITS);
        Match low = LevelMatch.match(new Source(0.49, false, 0, 0), input);
        assertThat(low.level()).isEqualTo(LevelFit.TOO_LOW);
        assertThat(low.converterNeeded()).isFalse();
    }

    // a bridged output has no side at the chassis: common practice, no source; its circuit says so
    @Test
    void keepsAFloatingOutputOffTheChassis() {
        Source bridged = new Source(8.9, true, 6.5, 0);
        assertThat(LevelMatch.match(bridged, input(10, LineInputReturn.CHASSIS)).obstacles())
                .containsExactly(FLOATING_INTO_CHASSIS);
        assertThat(LevelMatch.match(bridged, input(10, LineInputReturn.DIFFERENTIAL))
                        .obstacles())
                .isEmpty();
        assertThat(LevelMatch.match(bridged, input(10, LineInputReturn.ISOLATED))
                        .obstacles())
                .isEmpty();
        assertThat(LevelMatch.match(bridged, input(4, LineInputReturn.CHASSIS)).dividerSuffices())
                .isFalse();
    }

    @Test
    void keepsBiasOutOfWhatPassesIt() {
        Source biased = new Source(1, false, 6, 0);
        Input coupled = new Input(null, 4, 10_000, LineInputReturn.CHASSIS, null, true);
        assertThat(LevelMatch.match(biased, coupled).obstacles()).containsExactly(BIAS_INTO_INPUT);
        assertThat(LevelMatch.match(biased, input(4, LineInputReturn.CHASSIS)).obstacles())
                .isEmpty();
        // it would flow through the winding of a transformer
        assertThat(LevelMatch.match(biased, input(4, LineInputReturn.ISOLATED)).obstacles())
                .containsExactly(BIAS_INTO_INPUT);
        // both sides of a bridged output carry the same, so that none is left between them
        assertThat(LevelMatch.match(new Source(1, true, 6, 0), input(4, LineInputReturn.ISOLATED))
                        .obstacles())
                .isEmpty();
    }

    @Test
    void measuresWhatBothSidesOfADifferentialInputHaveInCommon() {
        Source bridged = new Source(4, true, 7, 0);
        assertThat(LevelMatch.match(bridged, differential(7)).obstacles()).isEmpty();
        Match match = LevelMatch.match(bridged, differential(6.9));
        assertThat(match.obstacles()).containsExactly(COMMON_MODE_TOO_HIGH);
        assertThat(match.commonModePeakVolts()).isEqualTo(7);
        // with one side at the chassis it is half of what the other swings: √2·4/2
        assertThat(LevelMatch.match(new Source(4, false, 0, 0), differential(1)).commonModePeakVolts())
                .isCloseTo(2.828, within(0.001));
        assertThat(LevelMatch.match(bridged, input(4, LineInputReturn.CHASSIS)).commonModePeakVolts())
                .isNull();
    }

    @Test
    void dividesDownFromASpeakerOutput() {
        Source source = new Source(Levels.rmsVolts(100, 4), false, 0, 0);
        Divider divider = dividerFor(source, input(4, LineInputReturn.CHASSIS), 4);
        // 20 V to 4 V
        assertThat(divider.deliveredVolts()).isBetween(3.9, 4.0);
        assertThat(divider.errorDecibels()).isBetween(-0.2, 0.0);
        assertThat(divider.sourceOhms()).isLessThanOrEqualTo(1000);
        assertThat(divider.seriesLeads()).isEqualTo(1);
        assertThat(divider.seriesWatts()).isLessThanOrEqualTo(0.125);
    }

    @Test
    void findsTheBestOfAllPairs() {
        Random random = new Random(5);
        int found = 0;
        for (int each = 0; each < 60; each++) {
            Source source = new Source(1 + 30 * random.nextDouble(), random.nextBoolean(), 0, 50 * random.nextDouble());
            Input input = new Input(
                    null, 1, Math.exp(5 + 7 * random.nextDouble()), LineInputReturn.DIFFERENTIAL, null, false);
            double wantedVolts = source.maxVolts() * (0.05 + 0.9 * random.nextDouble());
            Divider divider = LevelMatch.divider(source, input, wantedVolts, RESISTOR_WATTS);
            double straightVolts = LevelMatch.deliveredVolts(source.maxVolts(), source.outputOhms(), input.inputOhms());
            Divider best = straightVolts <= wantedVolts ? null : bestByTrial(source, input, wantedVolts);
            assertThat(divider == null).isEqualTo(best == null);
            if (divider != null && best != null) {
                found++;
                assertThat(divider.errorDecibels()).isCloseTo(best.errorDecibels(), within(1e-6));
                assertWorksByKirchhoff(divider, source, input);
            }
        }
        assertThat(found).as("dividers compared").isGreaterThan(30);
    }

    @Test
    void hasNoDividerWhereThereIsNothingToDivide() {
        assertThat(LevelMatch.divider(new Source(2, false, 0, 0), input(4, LineInputReturn.CHASSIS), 4, RESISTOR_WATTS))
                .isNull();
        // an input as heavy as a loudspeaker would burn the resistors
        Input heavy = new Input(null, 1, 4, LineInputReturn.CHASSIS, null, false);
        assertThat(LevelMatch.divider(new Source(20, false, 0, 0), heavy, 1, RESISTOR_WATTS))
                .isNull();
    }

    @Test
    void refusesWhatIsOutOfRange() {
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new Source(0, false, 0, 0));
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new Source(1, false, 61, -1));
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Input(5.0, 4, 10_000, LineInputReturn.CHASSIS, null, false));
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Input(null, 4, Double.NaN, LineInputReturn.CHASSIS, null, false));
    }

    private static @Nullable Divider bestByTrial(Source source, Input input, double wantedVolts) {
        int leads = source.floating() ? 2 : 1;
        Divider best = null;
        for (double seriesOhms : PreferredValues.E24.between(1, 1e7)) {
            for (double shuntOhms : PreferredValues.E24.between(1, 1e7)) {
                Divider divider = LevelMatch.dividerOf(source, input, wantedVolts, leads, seriesOhms, shuntOhms);
                boolean suits = divider.errorDecibels() <= 1e-9
                        && divider.sourceOhms() * 10 <= input.inputOhms()
                        && divider.seriesWatts() <= 0.125
                        && divider.shuntWatts() <= 0.125;
                if (suits && (best == null || divider.errorDecibels() > best.errorDecibels())) {
                    best = divider;
                }
            }
        }
        return best;
    }

    /** From the watts back to the source: what its own impedance leaves must be what the resistors and the input take. */
    private static void assertWorksByKirchhoff(Divider divider, Source source, Input input) {
        double amps = source.maxVolts() / (source.outputOhms() + divider.loadOhms());
        double givenWatts = source.maxVolts() * amps - amps * amps * source.outputOhms();
        double takenWatts = divider.seriesLeads() * divider.seriesWatts()
                + divider.shuntWatts()
                + Levels.watts(divider.deliveredVolts(), input.inputOhms());
        assertThat(takenWatts).as("watts").isCloseTo(givenWatts, within(givenWatts * 1e-9));
        double openVolts = source.maxVolts()
                * divider.shuntOhms()
                / (divider.shuntOhms() + divider.seriesLeads() * divider.seriesOhms() + source.outputOhms());
        assertThat(LevelMatch.deliveredVolts(openVolts, divider.sourceOhms(), input.inputOhms()))
                .as("volts by the source impedance")
                .isCloseTo(divider.deliveredVolts(), within(1e-9));
    }

    private static Divider dividerFor(Source source, Input input, double wantedVolts) {
        Divider divider = LevelMatch.divider(source, input, wantedVolts, RESISTOR_WATTS);
        assertThat(divider).isNotNull();
        return Objects.requireNonNull(divider);
    }

    private static Input input(double maxVolts, LineInputReturn returns) {
        return new Input(null, maxVolts, 10_000, returns, null, false);
    }

    private static Input differential(double commonModeVolts) {
        return new Input(null, 4, 10_000, LineInputReturn.DIFFERENTIAL, commonModeVolts, false);
    }
}
