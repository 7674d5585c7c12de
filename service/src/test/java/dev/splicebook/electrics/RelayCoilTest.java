package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class RelayCoilTest {

    private static final double OHMS = 80;
    private static final double HENRIES = 0.2;

    @Test
    void drawsWhatOhmSays() {
        // computed: 12 V across 80 Ω
        assertAmps(RelayCoil.amps(12, OHMS), 0.150);
        assertThat(RelayCoil.tauSeconds(HENRIES, OHMS)).isCloseTo(0.0025, within(1e-15));
    }

    @Test
    void decaysThroughADiode() {
        // simulated, 12 V, 80 Ω, 0.2 H with a plain diode: 49.06 mA one time constant after opening; the switch took
        // its
        // microseconds
        assertThat(RelayCoil.junctionDecayAmps(0.150, OHMS, HENRIES, 0.0025)).isCloseTo(0.04906, within(0.0001));
        // the same coil, started at 150 mA, in ngspice at a step of 1 µs
        assertThat(RelayCoil.junctionDecayAmps(0.150, OHMS, HENRIES, 0.0025)).isCloseTo(0.04911215, within(1e-7));
    }

    @Test
    void decaysToTheEthPartOnlyThroughADiodeWithoutDrop() {
        assertAmps(RelayCoil.decayAmps(0.150, OHMS, HENRIES, 0, 0.0025), 0.150 / Math.E);
        // (I + v/R)/e − v/R, worked by hand for 0.7 V
        assertAmps(RelayCoil.decayAmps(0.150, OHMS, HENRIES, 0.7, 0.0025), 0.0496509);
        assertThat(RelayCoil.decayAmps(0.150, OHMS, HENRIES, 0.7, 0.1)).isZero();
    }

    @Test
    void tellsTimesThatUndoTheDecay() {
        for (double seconds = 0.0005; seconds < 0.006; seconds += 0.0005) {
            double amps = RelayCoil.decayAmps(0.150, OHMS, HENRIES, 0.7, seconds);
            assertThat(RelayCoil.decaySeconds(0.150, amps, OHMS, HENRIES, 0.7)).isCloseTo(seconds, within(1e-12));
            double through = RelayCoil.junctionDecayAmps(0.150, OHMS, HENRIES, seconds);
            assertThat(RelayCoil.junctionDecaySeconds(0.150, through, OHMS, HENRIES))
                    .isCloseTo(seconds, within(1e-9));
        }
        assertThat(RelayCoil.decaySeconds(0.1, 0.2, OHMS, HENRIES, 0.7)).isZero();
        assertThat(RelayCoil.junctionDecaySeconds(0.1, 0.2, OHMS, HENRIES)).isZero();
        assertThat(RelayCoil.junctionDecayAmps(0.150, OHMS, HENRIES, 1)).isZero();
    }

    @Test
    void releasesFasterTheHigherTheClamp() {
        double slower = Double.POSITIVE_INFINITY;
        for (double clampVolts = 0; clampVolts <= 60; clampVolts += 2) {
            double seconds = RelayCoil.decaySeconds(0.150, 0.015, OHMS, HENRIES, clampVolts);
            assertThat(seconds).as(clampVolts + " V").isPositive().isLessThan(slower);
            slower = seconds;
        }
    }

    @Test
    void flashesOverWithoutAClamp() {
        // published: 1000 to 1500 V for an unsuppressed 12 V coil; what such a coil reaches with 2 and 4.5 nF beside it
        assertThat(RelayCoil.unclampedVolts(0.150, HENRIES, 2e-9)).isCloseTo(1500, within(1e-6));
        assertThat(RelayCoil.unclampedVolts(0.150, HENRIES, 4.5e-9)).isCloseTo(1000, within(1e-6));
        assertThat(RelayCoil.unclampedSeconds(HENRIES, 2e-9)).isCloseTo(31.4e-6, within(0.1e-6));
        assertThat(RelayCoil.driverVolts(12, 0.7)).isCloseTo(12.7, within(1e-12));
    }

    @Test
    void hasMoreOhmsWhenHot() {
        // zero-resistance offset of 234.5 °C: FAA AC 43.13-1B chapter 11
        assertThat(RelayCoil.ohmsAt(80, 20)).isEqualTo(80);
        assertThat(RelayCoil.ohmsAt(80, 85)).isCloseTo(80 * 319.5 / 254.5, within(1e-9));
    }

    @Test
    void keepsWithinTheContact() {
        // common practice, no source
        assertThat(ContactLoad.margin(30, ContactLoad.RESISTIVE.usableShare(), 20))
                .isCloseTo(1.5, within(1e-12));
        assertThat(ContactLoad.margin(30, ContactLoad.LAMP.usableShare(), 20)).isLessThan(1);
        for (ContactLoad kind : ContactLoad.values()) {
            assertThat(kind.usableShare()).as(kind.name()).isBetween(0.0, 1.0);
            assertThat(kind.inrushTimes()).as(kind.name()).isGreaterThanOrEqualTo(1);
        }
    }

    private static void assertAmps(double actual, double expected) {
        assertThat(actual).as("amperes").isCloseTo(expected, within(1e-7));
    }
}
