package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class LeadAcidBatteryTest {

    @Test
    void turnsReserveMinutesIntoAmpereHours() {
        // SAE J537: minutes at 25 A; 100 min are 41.67 Ah
        assertThat(LeadAcidBattery.ampereHours(LeadAcidBattery.RESERVE_AMPS, 100))
                .isCloseTo(41.67, within(0.005));
    }

    @Test
    void readsChargeOffTheRestedVolts() {
        // common practice, no source
        assertThat(LeadAcidBattery.openCircuitVolts(1)).isCloseTo(12.70, within(1e-12));
        assertThat(LeadAcidBattery.openCircuitVolts(0.5)).isCloseTo(12.24, within(1e-12));
        assertThat(LeadAcidBattery.openCircuitVolts(0)).isCloseTo(11.90, within(1e-12));
        for (double charge = 0; charge <= 1; charge += 0.01) {
            assertThat(LeadAcidBattery.chargeAt(LeadAcidBattery.openCircuitVolts(charge)))
                    .as("charge at the volts of " + charge)
                    .isCloseTo(charge, within(1e-12));
        }
    }

    @Test
    void staysAtTheEndsBeyondThem() {
        assertThat(LeadAcidBattery.openCircuitVolts(1.2)).isEqualTo(LeadAcidBattery.openCircuitVolts(1));
        assertThat(LeadAcidBattery.openCircuitVolts(-1)).isEqualTo(LeadAcidBattery.openCircuitVolts(0));
        assertThat(LeadAcidBattery.chargeAt(14)).isEqualTo(1);
        assertThat(LeadAcidBattery.chargeAt(5)).isZero();
    }

    @Test
    void givesLessInTheColdAndLosesMoreInTheHeat() {
        assertThat(LeadAcidBattery.capacityFactor(27)).isEqualTo(1);
        assertThat(LeadAcidBattery.capacityFactor(60)).isEqualTo(1);
        // from memory: about two thirds are left at the −18 °C of the cold-cranking test
        assertThat(LeadAcidBattery.capacityFactor(-18)).isCloseTo(0.64, within(1e-12));
        assertThat(LeadAcidBattery.capacityFactor(-200)).isEqualTo(0.3);
        assertThat(LeadAcidBattery.selfDischargeFactor(25)).isEqualTo(1);
        assertThat(LeadAcidBattery.selfDischargeFactor(35)).isCloseTo(2, within(1e-12));
        assertThat(LeadAcidBattery.selfDischargeFactor(5)).isCloseTo(0.25, within(1e-12));
    }
}
