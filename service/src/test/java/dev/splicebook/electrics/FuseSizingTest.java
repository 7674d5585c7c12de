package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.FuseGates.Burst;
import dev.splicebook.electrics.FuseSizing.Choice;
import dev.splicebook.electrics.FuseSizing.Inrush;
import dev.splicebook.electrics.FuseSizing.Obstacle;
import dev.splicebook.electrics.FuseSizing.Option;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FuseSizingTest {

    @Test
    void loadsAFuseByThreeQuarters() {
        // at most 75 % of the rating at 25 °C, as makers of fuses publish
        assertThat(FuseSizing.leastAmps(15, 15, 1)).isCloseTo(20, within(1e-12));
        assertThat(rating(sizing(15, 15, "12 AWG", 25, FuseBody.REGULAR, null))).isEqualTo(20);
        assertThat(rating(sizing(15.01, 15.01, "12 AWG", 25, FuseBody.REGULAR, null)))
                .isEqualTo(25);
        // a peak that lasts is held by the whole rating
        assertThat(rating(sizing(15, 21, "12 AWG", 25, FuseBody.REGULAR, null))).isEqualTo(25);
    }

    @Test
    void bearsLessInTheHeat() {
        // 0.15 % a kelvin, from memory: 0.91 at 85 °C
        assertThat(FuseSizing.rerating(85, 0.15)).isCloseTo(0.91, within(1e-12));
        assertThat(FuseSizing.rerating(25, 0.15)).isEqualTo(1);
        assertThat(FuseSizing.rerating(-40, 0.15)).as("cold is no licence").isEqualTo(1);
        assertThat(rating(sizing(15, 15, "12 AWG", 85, FuseBody.REGULAR, null))).isEqualTo(25);
    }

    @Test
    void protectsTheConductor() {
        // 33 CFR 183.425 table 5: 18 AWG, 105 °C, 20 A
        FuseSizing sizing = sizing(14, 14, "18 AWG", 25, FuseBody.REGULAR, null);
        assertThat(sizing.mostAmps()).isEqualTo(20);
        assertThat(rating(sizing)).isEqualTo(20);
        FuseSizing tooMuch = sizing(16, 16, "18 AWG", 25, FuseBody.REGULAR, null);
        assertThat(tooMuch.choose().obstacle()).isEqualTo(Obstacle.WINDOW_EMPTY);
        assertThat(tooMuch.thickerThatFits()).hasToString("16 AWG");
        assertThat(tooMuch.mostContinuousAmps()).isEqualTo(15);
    }

    @Test
    void takesTheRegulationsHalfMoreWhereChosen() {
        // 33 CFR 183.455: below 50 V at most 150 % of the ampacity
        FuseSizing given = sizing(20, 20, "18 AWG", 25, FuseBody.REGULAR, null);
        FuseSizing chosen =
                new FuseSizing(20, 20, given.conductor(), 105, 30, 1, 25, FuseBody.REGULAR, null, 0.15, true);
        assertThat(given.choose().chosen()).isNull();
        assertThat(chosen.mostAmps()).isEqualTo(30);
        assertThat(rating(chosen)).isEqualTo(30);
    }

    @Test
    void saysThatTheBodyHasNoSuchRating() {
        // between 26.7 and 35 A there is 30; between 40 and 60 A a mini has none
        FuseSizing mini = sizing(30, 30, "10 AWG", 25, FuseBody.MINI, null);
        assertThat(mini.choose().obstacle()).isEqualTo(Obstacle.NO_SUCH_RATING);
        assertThat(mini.otherBodiesThatFit()).containsExactly(FuseBody.REGULAR, FuseBody.MAXI, FuseBody.BOLT_DOWN);
        assertThat(mini.thickerThatFits())
                .as("a thicker wire does not enlarge a mini")
                .isNull();
        assertThat(mini.mostContinuousAmps()).isEqualTo(22.5);
    }

    @Test
    void knowsWhatAThickerConductorAndAnotherBodyWouldDoTogether() {
        // 40 A needs 53.3: 8 AWG bears 80 A at 105 °C (33 CFR 183.425 table 5), 10 AWG 60 A
        FuseSizing regular = sizing(40, 40, "12 AWG", 25, FuseBody.REGULAR, null);
        assertThat(regular.thickerThatFits()).isNull();
        assertThat(regular.otherBodiesThatFit()).isEmpty();
        assertThat(regular.thickerThatFits(FuseBody.MAXI)).hasToString("10 AWG");
    }

    @Test
    void steersClearOfABurst() {
        // 30 A for 0.1 s: 10 A is 300 %, between the gates of 200 % and 350 %, which hold 0.15 and 0.08 s
        FuseSizing sizing = sizing(6, 6, "12 AWG", 25, FuseBody.REGULAR, new Inrush(30, 0.1));
        Choice choice = sizing.choose();
        assertThat(choice.options().get(0).ratingAmps()).isEqualTo(10);
        assertThat(choice.options().get(0).burst()).isEqualTo(Burst.MAY_OPEN);
        assertThat(rating(sizing)).isEqualTo(15);
        FuseSizing none = sizing(6, 6, "18 AWG", 25, FuseBody.MINI, new Inrush(100, 1));
        assertThat(none.choose().obstacle()).isEqualTo(Obstacle.BURST);
        assertThat(none.choose().chosen()).isNull();
    }

    // gates of ISO 8820-3 (secondary copy)
    @ParameterizedTest
    @CsvSource({
        "0.5, 360000, Infinity",
        "1.00, 360000, Infinity",
        "1.01, 0.75, Infinity",
        "1.35, 0.75, 600",
        "1.36, 0.15, 600",
        "2.00, 0.15, 5",
        "2.01, 0.08, 5",
        "3.50, 0.08, 0.5",
        "3.51, 0, 0.5",
        "6.00, 0, 0.15",
        "60, 0, 0.15"
    })
    void neverInterpolatesBetweenGates(double ratio, double least, double most) {
        assertThat(FuseGates.leastSeconds(ratio)).isEqualTo(least);
        assertThat(FuseGates.mostSeconds(ratio)).isEqualTo(most);
    }

    @Test
    void saysThatAFuseOpensOnlyByItsGates() {
        assertThat(FuseGates.burst(2, 5.1, FuseBody.MINI)).isEqualTo(Burst.OPENS);
        assertThat(FuseGates.burst(2, 5, FuseBody.MINI)).isEqualTo(Burst.MAY_OPEN);
        assertThat(FuseGates.burst(2, 0.15, FuseBody.MINI)).isEqualTo(Burst.HOLDS);
        assertThat(FuseGates.burst(2, 5.1, FuseBody.BOLT_DOWN))
                .as("slower bodies: common practice, no source")
                .isEqualTo(Burst.MAY_OPEN);
    }

    // ratings of ISO 8820-3 bodies and their colours, as makers publish; maxi's colours, and orange, from memory
    @ParameterizedTest
    @CsvSource({
        "1, REGULAR, black",
        "2, MINI, grey",
        "3, MINI, violet",
        "4, MINI, pink",
        "5, REGULAR, tan",
        "7.5, MINI, brown",
        "10, REGULAR, red",
        "15, MINI, blue",
        "20, MINI, yellow",
        "25, REGULAR, clear",
        "30, REGULAR, green",
        "40, REGULAR, orange",
        "20, MAXI, yellow",
        "30, MAXI, green",
        "40, MAXI, orange",
        "50, MAXI, red",
        "60, MAXI, blue",
        "70, MAXI, tan",
        "80, MAXI, clear"
    })
    void knowsTheColours(double rating, FuseBody body, String colour) {
        assertThat(body.ratingsAmps()).contains(rating);
        assertThat(body.colour(rating)).isEqualTo(colour);
    }

    @Test
    void knowsTheRatingsOfEachBody() {
        assertThat(FuseBody.MINI.ratingsAmps()).containsExactly(2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0);
        assertThat(FuseBody.REGULAR.ratingsAmps())
                .containsExactly(1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0);
        assertThat(FuseBody.MAXI.ratingsAmps()).containsExactly(20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0);
        assertThat(FuseBody.BOLT_DOWN.ratingsAmps()).isSorted();
        assertThat(FuseBody.BOLT_DOWN.colour(100)).isNull();
        assertThat(FuseBody.MINI.colour(40)).as("not a mini").isNull();
        // red is 10 A in one body and 50 A in another
        assertThat(FuseBody.MAXI.colour(50)).isEqualTo(FuseBody.REGULAR.colour(10));
    }

    @Test
    void sitsWhereTheRegulationSays() {
        // 33 CFR 183.455: 7 in, or 40 in sheathed; 18 in or 45 cm in vehicles, common practice, no source
        assertThat(FuseSizing.REGULATION_BARE.metres()).isCloseTo(0.1778, within(1e-9));
        assertThat(FuseSizing.REGULATION_SHEATHED.metres()).isCloseTo(1.016, within(1e-9));
        assertThat(FuseSizing.VEHICLE_PRACTICE.metres()).isCloseTo(0.45, within(0.01));
    }

    @Test
    void choosesTheLeastThatFits() {
        Random random = new Random(3);
        for (int n = 0; n < 2000; n++) {
            FuseBody body = List.of(FuseBody.values()).get(random.nextInt(4));
            double continuous = Math.exp(random.nextDouble() * 5);
            double peak = continuous * (1 + random.nextDouble() * 0.5);
            String size = SizeSeries.AWG.sizes().get(random.nextInt(16)).value();
            double celsius = random.nextDouble() * 100;
            FuseSizing sizing = sizing(continuous, peak, size, celsius, body, null);
            double factor = celsius > 25 ? 1 - 0.0015 * (celsius - 25) : 1;
            Double expected = null;
            for (double rating : body.ratingsAmps()) {
                boolean carries =
                        continuous <= 0.75 * factor * rating * (1 + 1e-12) && peak <= factor * rating * (1 + 1e-12);
                if (carries && rating <= sizing.allowableAmps() && expected == null) {
                    expected = rating;
                }
            }
            Option chosen = sizing.choose().chosen();
            assertThat(chosen == null ? null : (Double) chosen.ratingAmps()).isEqualTo(expected);
            Double most = sizing.mostContinuousAmps();
            if (most != null) {
                assertThat(sizing(most * 0.999999, most * 0.999999, size, celsius, body, null)
                                .choose()
                                .chosen())
                        .as("the greatest load fits")
                        .isNotNull();
                assertThat(sizing(most * 1.000001, most * 1.000001, size, celsius, body, null)
                                .choose()
                                .chosen())
                        .as("more does not")
                        .isNull();
            }
        }
    }

    private static double rating(FuseSizing sizing) {
        return Objects.requireNonNull(sizing.choose().chosen(), "no fuse").ratingAmps();
    }

    private static FuseSizing sizing(
            double continuous, double peak, String size, double celsius, FuseBody body, @Nullable Inrush burst) {
        return new FuseSizing(
                continuous,
                peak,
                WireConductor.of(new ConductorSize(size), ConductorMaterial.COPPER),
                105,
                30,
                1,
                celsius,
                body,
                burst,
                FuseSizing.RERATING_PERCENT_PER_KELVIN,
                false);
    }
}
