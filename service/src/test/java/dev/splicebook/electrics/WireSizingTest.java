package dev.splicebook.electrics;

import static dev.splicebook.electrics.ConductorMaterial.COPPER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.WireSizing.Candidate;
import dev.splicebook.electrics.WireSizing.Choice;
import dev.splicebook.electrics.WireSizing.Governor;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class WireSizingTest {

    @Test
    void isGovernedByTheDropOnALongRun() {
        // 18 A, 20 ft, 3 % of 12.6 V: 8 AWG would lose 0.477 V warm, 6 AWG 0.298 V; 14 AWG would bear the current (33
        // CFR
        // 183.425 table 5: 35 A at 105 °C)
        Choice choice = sizing(18, 6.096, 0.378, 105, 30, 1, SizeSeries.AWG).choose();
        assertThat(size(choice.chosen())).isEqualTo("6 AWG");
        assertThat(choice.governedBy()).isEqualTo(Governor.DROP);
        assertThat(size(choice.thinner())).isEqualTo("8 AWG");
        assertThat(size(choice.thicker())).isEqualTo("4 AWG");
    }

    @Test
    void isGovernedByTheAmpacityOnAShortRun() {
        // 33 CFR 183.425 table 5 at 105 °C: 10 AWG 60 A, 8 AWG 80 A
        Choice choice = sizing(61, 0.3, 1, 105, 30, 1, SizeSeries.AWG).choose();
        assertThat(size(choice.chosen())).isEqualTo("8 AWG");
        assertThat(choice.governedBy()).isEqualTo(Governor.AMPACITY);
        assertThat(size(sizing(60, 0.3, 1, 105, 30, 1, SizeSeries.AWG).choose().chosen()))
                .as("at the limit itself")
                .isEqualTo("10 AWG");
    }

    @Test
    void thickensForHeatAndBundles() {
        // three in a bundle: 0.70 (33 CFR 183.425 note 2, secondary copy); 50 °C: √(55/75)
        assertThat(size(sizing(60, 0.3, 1, 105, 30, 3, SizeSeries.AWG).choose().chosen()))
                .isEqualTo("6 AWG");
        Candidate hot = sizing(60, 0.3, 1, 105, 50, 3, SizeSeries.AWG).candidate(new ConductorSize("6 AWG"));
        assertThat(hot.allowableAmps()).isCloseTo(120 * 0.70 * Math.sqrt(55.0 / 75), within(1e-9));
    }

    @Test
    void saysWhenNoSizeSuffices() {
        Choice choice = sizing(400, 10, 0.1, 105, 30, 1, SizeSeries.AWG).choose();
        assertThat(choice.chosen()).isNull();
        assertThat(choice.governedBy()).isNull();
        Candidate largest = Objects.requireNonNull(choice.thinner());
        assertThat(size(largest)).isEqualTo("4/0 AWG");
        assertThat(largest.passesDrop()).isFalse();
        assertThat(largest.passesAmpacity()).isTrue();
    }

    @Test
    void choosesTheThinnestThatPasses() {
        Random random = new Random(2);
        int chosen = 0;
        for (int n = 0; n < 2000; n++) {
            SizeSeries series = List.of(SizeSeries.values()).get(random.nextInt(2));
            double ambient = random.nextDouble() * 90 - 30;
            double insulation = 65 + random.nextDouble() * 140;
            double amps = Math.exp(random.nextDouble() * 7 - 1);
            double metres = 0.1 + random.nextDouble() * 12;
            double maxDrop = 0.05 + random.nextDouble() * 2;
            int bundled = 1 + random.nextInt(30);
            ReturnPath path = List.of(ReturnPath.values()).get(random.nextInt(3));
            ConductorMaterial material = List.of(ConductorMaterial.values()).get(random.nextInt(4));
            Choice choice = new WireSizing(
                            amps,
                            metres,
                            path,
                            0.002,
                            12.6,
                            maxDrop,
                            insulation,
                            Math.min(ambient, 59),
                            null,
                            bundled,
                            series,
                            WireConductor.of(new ConductorSize("8 AWG"), material))
                    .choose();
            // brute force, from the tables and laws and not from the candidates
            String expected = null;
            for (ConductorSize size : series.sizes()) {
                WireConductor wire = WireConductor.of(size, material);
                double allowable = Ampacity.allowableAmps(size, material, insulation, Math.min(ambient, 59))
                        * Ampacity.bundleFactor(bundled);
                double share = amps / allowable;
                double celsius = Math.min(ambient, 59)
                        + (Ampacity.ratedCelsius(insulation) - Math.min(ambient, 59)) * share * share;
                double ohms = wire.ohmsPerMetre(celsius) * metres * (path == ReturnPath.CONDUCTOR ? 2 : 1)
                        + (path == ReturnPath.CHASSIS ? 0.002 : 0);
                if (amps <= allowable && amps * ohms <= maxDrop) {
                    expected = size.value();
                    break;
                }
            }
            assertThat(choice.chosen() == null ? null : size(choice.chosen())).isEqualTo(expected);
            if (choice.chosen() != null && choice.thinner() != null) {
                chosen++;
                boolean drop = choice.governedBy() == Governor.DROP;
                assertThat(
                                drop
                                        ? choice.thinner().passesDrop()
                                        : choice.thinner().passesAmpacity())
                        .as("the governor is what the thinner size fails")
                        .isFalse();
            }
        }
        assertThat(chosen).as("cases with a choice").isGreaterThan(500);
    }

    @Test
    void easesFromSizeToSize() {
        for (ConductorMaterial material : ConductorMaterial.values()) {
            for (SizeSeries series : SizeSeries.values()) {
                double before = Double.POSITIVE_INFINITY;
                double allowed = 0;
                for (ConductorSize size : series.sizes()) {
                    WireConductor wire = WireConductor.of(size, material);
                    assertThat(wire.ohmsPerMetre(20))
                            .as("%s %s", material, size)
                            .isLessThan(before);
                    assertThat(wire.allowableAmps(105, 30)).isGreaterThanOrEqualTo(allowed);
                    before = wire.ohmsPerMetre(20);
                    allowed = wire.allowableAmps(105, 30);
                }
            }
        }
    }

    @Test
    void measuresTheMarginAgainstTheTighterLimit() {
        WireSizing sizing = sizing(18, 6.096, 0.378, 105, 30, 1, SizeSeries.AWG);
        List<Candidate> all = sizing.candidates();
        for (Candidate candidate : all) {
            double byDrop = 1 - candidate.dropVolts() / 0.378;
            double byAmps = 1 - 18 / candidate.allowableAmps();
            assertThat(candidate.marginPercent()).isCloseTo(100 * Math.min(byDrop, byAmps), within(1e-9));
            assertThat(candidate.marginPercent() >= 0).isEqualTo(candidate.passes());
        }
    }

    private static String size(@Nullable Candidate candidate) {
        return Objects.requireNonNull(candidate, "no size").size().value();
    }

    private static WireSizing sizing(
            double amps,
            double metres,
            double maxDrop,
            double insulation,
            double ambient,
            int bundled,
            SizeSeries series) {
        return new WireSizing(
                amps,
                metres,
                ReturnPath.CONDUCTOR,
                0,
                12.6,
                maxDrop,
                insulation,
                ambient,
                null,
                bundled,
                series,
                WireConductor.of(new ConductorSize("8 AWG"), COPPER));
    }
}
