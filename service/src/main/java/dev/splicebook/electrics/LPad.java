package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;

/**
 * Two resistors that make one driver of a crossover quieter and leave its load as it was: R1 = Z·(1 − k) in series, then
 * R2 = Z·k/(1 − k) across the driver, k = 10^(−dB/20). The driver counts as a resistance.
 *
 * @param ohms of the driver, 0.5 to 1000
 * @param decibels taken away, above 0 to 60
 */
public record LPad(double ohms, double decibels) {

    public LPad {
        new Guard()
                .between("ohms", ohms, 0.5, 1000)
                .positive("decibels", decibels, 60)
                .check();
    }

    /** R1 in ohms. */
    public double seriesOhms() {
        return ohms * (1 - ratio());
    }

    /** R2 in ohms. */
    public double shuntOhms() {
        return ohms * ratio() / (1 - ratio());
    }

    /** Which part of the power that goes in is turned to heat in the series resistor, 0 to 1. */
    public double seriesPowerShare() {
        return 1 - ratio();
    }

    /** Which part is turned to heat in the shunt resistor, 0 to 1. */
    public double shuntPowerShare() {
        return ratio() * (1 - ratio());
    }

    /** Which part reaches the driver, 0 to 1. */
    public double driverPowerShare() {
        return ratio() * ratio();
    }

    /** The decibels that two given resistors take away in front of this driver. */
    public double decibelsWith(double seriesOhms, double shuntOhms) {
        double behind = Levels.parallelOhms(shuntOhms, ohms);
        return -Levels.decibelsOfVolts(behind, seriesOhms + behind);
    }

    /** The load that two given resistors and this driver are. */
    public double loadOhmsWith(double seriesOhms, double shuntOhms) {
        return seriesOhms + Levels.parallelOhms(shuntOhms, ohms);
    }

    private double ratio() {
        return Levels.voltRatio(-decibels);
    }
}
