package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.VoltageDrop.Run;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class VoltageDropTest {

    // FAA AC 43.13-1B table 11-7, tin-plated copper by the ohms of table 11-9 at 20 °C. The row of 12 AWG prints 3.60
    // V,
    // which its own figures do not give: 0.00202 Ω/ft × 88 ft × 20 A is 3.555 V
    @ParameterizedTest
    @CsvSource({"0.44, 107, 0.942, 0.942", "0.28, 90, 0.504, 0.504", "2.02, 88, 3.555, 3.60", "3.06, 100, 6.12, 6.12"})
    void findsWhatTheFiguresOfAHandbookGive(double ohmsPer1000Feet, double feet, double exact, double printed) {
        double drop = VoltageDrop.dropVolts(20, ohmsPer1000Feet / 1000 * feet);
        assertThat(drop).as("volts").isCloseTo(exact, within(0.0005));
        assertThat(Math.abs(drop - printed) < 0.001).as("is as printed").isEqualTo(printed != 3.60);
    }

    @Test
    void countsBothConductorsOfATwoWireRun() {
        // an online electrical training text: 100 ft of two-wire run, 16 AWG at 4.99 Ω per 1000 ft, 4 A: 3.99 V
        WireConductor stranded = new WireConductor(new ConductorSize("16 AWG"), null, null, 2.0);
        assertThat(VoltageDrop.of(new Run(stranded, 30.48, ReturnPath.CONDUCTOR, 0), 4, 75, 12.6)
                        .dropVolts())
                .as("volts")
                .isCloseTo(3.99, within(0.01));
        assertThat(VoltageDrop.dropVolts(4, 4.99e-3 * 200)).isCloseTo(3.99, within(0.005));
    }

    @Test
    void dropsEighteenAmpsOverTwentyFeet() {
        // 0.6282 Ω per 1000 ft of 8 AWG at 20 °C (Floyd's table) over 40 ft, 18 A
        VoltageDrop drop = VoltageDrop.of(run("8 AWG", 6.096, ReturnPath.CONDUCTOR, 0), 18, 20, 12.6);
        assertThat(drop.dropVolts()).as("volts").isCloseTo(0.4523, within(0.0005));
        assertThat(drop.loadVolts()).isCloseTo(12.6 - 0.4523, within(0.0005));
        assertThat(drop.dropPercent()).isCloseTo(3.590, within(0.005));
        assertThat(drop.lossWatts()).isCloseTo(8.142, within(0.01));
        assertThat(drop.shortCircuitAmps()).isCloseTo(501.4, within(0.5));
    }

    @Test
    void goesByTheWayBack() {
        double twice = drop(ReturnPath.CONDUCTOR, 0.003);
        double body = drop(ReturnPath.CHASSIS, 0.003);
        double once = drop(ReturnPath.NONE, 0.003);
        assertThat(twice).isCloseTo(2 * once, within(1e-12));
        assertThat(body).isCloseTo(once + 10 * 0.003, within(1e-12));
    }

    private static double drop(ReturnPath path, double chassisOhms) {
        return VoltageDrop.of(run("10 AWG", 3, path, chassisOhms), 10, 20, 12.6).dropVolts();
    }

    @Test
    void isLinearInLengthAndAmps() {
        Random random = new Random(1);
        for (int n = 0; n < 300; n++) {
            String size = SizeSeries.AWG.sizes().get(random.nextInt(16)).value();
            double metres = 0.1 + random.nextDouble() * 20;
            double amps = 0.1 + random.nextDouble() * 100;
            double times = 0.1 + random.nextDouble() * 10;
            double celsius = random.nextDouble() * 100 - 20;
            VoltageDrop one = VoltageDrop.of(run(size, metres, ReturnPath.CONDUCTOR, 0), amps, celsius, 12.6);
            VoltageDrop longer =
                    VoltageDrop.of(run(size, metres * times, ReturnPath.CONDUCTOR, 0), amps, celsius, 12.6);
            VoltageDrop more = VoltageDrop.of(run(size, metres, ReturnPath.CONDUCTOR, 0), amps * times, celsius, 12.6);
            assertThat(longer.dropVolts()).isCloseTo(one.dropVolts() * times, within(1e-9 * longer.dropVolts()));
            assertThat(more.dropVolts()).isCloseTo(one.dropVolts() * times, within(1e-9 * more.dropVolts()));
            // energy: what the supply gives is what load and run take
            assertThat(more.loadVolts() * amps * times + more.lossWatts()).isCloseTo(12.6 * amps * times, within(1e-6));
        }
    }

    private static Run run(String size, double metres, ReturnPath path, double chassisOhms) {
        return new Run(WireConductor.of(new ConductorSize(size), ConductorMaterial.COPPER), metres, path, chassisOhms);
    }
}
