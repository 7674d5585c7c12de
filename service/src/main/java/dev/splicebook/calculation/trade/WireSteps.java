package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;

import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.Ampacity;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.ReturnPath;
import dev.splicebook.electrics.VoltageDrop.Run;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.electrics.WireConductor.Basis;
import dev.splicebook.guard.Guard;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;

/** Defaults and steps that the calculations of wires share. */
final class WireSteps {

    static final double INSULATION_CELSIUS = 105;
    static final double SUPPLY_VOLTS = 12.6;

    static final String AWG_SOURCE = "AWG law of ASTM B258, from memory";
    static final String RESISTANCE_SOURCE =
            "Annealed copper 0.017241 Ω·mm²/m at 20 °C (IACS, from memory), zero at −234.5 °C (FAA AC 43.13-1B chapter 11);"
                    + " copper-clad aluminium by the least conductivity of ASTM B566, zero at −228 °C (IEC 60287-1-1, from"
                    + " memory)";
    static final String METRIC_SOURCE =
            "Metric sizes from 0.5 mm² by the maxima of IEC 60228 class 5 (secondary copy), others by area";
    static final String AMPACITY_SOURCE =
            "33 CFR 183.425 table 5 at 30 °C; other ambients by the closed form of NEC 310.15(B)(1); bundles by its note 2,"
                    + " which it applies from 50 V on";
    static final String HEATING_SOURCE =
            "Temperature rise by the square of the current, from I²·R; FAA AC 43.13-1B chapter 11 prints the root (from"
                    + " memory), which says more below full load";

    private static final MathContext READABLE = new MathContext(4, RoundingMode.HALF_UP);

    private WireSteps() {}

    /** A figure for a sentence: four digits, never with an exponent. */
    static String figure(double value) {
        BigDecimal rounded = new BigDecimal(value).round(READABLE).stripTrailingZeros();
        return rounded.scale() < 0
                ? rounded.setScale(0, RoundingMode.UNNECESSARY).toPlainString()
                : rounded.toPlainString();
    }

    /** Refuses a length that is no run of wire: below 1 mm. */
    static Guard longEnough(Guard guard, String field, @Nullable Length length) {
        return guard.refuseIf(
                length != null && length.metres() < 0.001,
                field,
                "out-of-range",
                () -> field + " is " + length + ", below 1 mm");
    }

    /** Refuses air that is as hot as the insulation bears. */
    static Guard coolerThanInsulation(
            Guard guard, String field, @Nullable Double ambientCelsius, @Nullable Double insulationCelsius) {
        double rated = Ampacity.ratedCelsius(insulationCelsius == null ? INSULATION_CELSIUS : insulationCelsius);
        double ambient = ambientCelsius == null ? Ampacity.TABLE_AMBIENT_CELSIUS : ambientCelsius;
        return guard.refuseIf(
                ambient >= rated,
                field,
                "inconsistent",
                () -> field + " is " + figure(ambient) + ", not below the " + figure(rated)
                        + " °C that the insulation is rated for");
    }

    static double insulation(Worksheet sheet, @Nullable Double given) {
        return sheet.orAssume(
                given, "insulationCelsius", INSULATION_CELSIUS, "°C", "usual insulation of wire for vehicles");
    }

    static double ambient(Worksheet sheet, @Nullable Double given) {
        return sheet.orAssume(
                given,
                "ambientCelsius",
                Ampacity.TABLE_AMBIENT_CELSIUS,
                "°C",
                "air around the conductor, the ambient of 33 CFR 183.425 table 5; an engine space is 50 and more");
    }

    static double supply(Worksheet sheet, @Nullable Double given) {
        return sheet.orAssume(given, "supplyVolts", SUPPLY_VOLTS, "V", "a rested, full battery of 12 V");
    }

    /** Ohms of the vehicle's body, 0 where it does not count. */
    static double chassis(Worksheet sheet, ReturnPath returnPath, @Nullable Double given) {
        return returnPath == ReturnPath.CHASSIS
                ? sheet.orAssume(
                        given, "chassisOhms", 0, "Ω", "body and bonds as good as none; measure them to be sure")
                : 0;
    }

    /** Ohms of one metre, step by step. */
    static double ohmsPerMetre(Worksheet sheet, WireConductor conductor, double celsius) {
        ConductorMaterial made = conductor.madeOf();
        double cold = conductor.ohmsPerMetre(20);
        if (conductor.basis() == Basis.IEC_60228) {
            sheet.step(
                    "a metre of " + conductor.size() + " " + made
                            + " at 20 °C: a thousandth of the most that a flexible"
                            + " conductor may have per kilometre",
                    "r20 = R_km / 1000",
                    cold,
                    "Ω/m",
                    given("R_km", cold * 1000, "Ω/km"));
        } else {
            Double own = conductor.resistivityOhmMm2PerMetre();
            sheet.step(
                    "a metre of " + conductor.size() + " " + made
                            + " at 20 °C: resistivity by cross-section, and what the" + " strands add",
                    "r20 = ρ / A × (1 + s / 100)",
                    cold,
                    "Ω/m",
                    given("ρ", own == null ? made.resistivityOhmMm2PerMetre() : own, "Ω·mm²/m"),
                    given("A", conductor.size().areaMm2(), "mm²"),
                    given("s", conductor.strandingPercent() == null ? 0 : conductor.strandingPercent(), "%"));
        }
        return sheet.step(
                "resistance grows with temperature, in proportion to the distance from where it would be zero",
                "r = r20 × (T − T0) / (20 − T0)",
                conductor.ohmsPerMetre(celsius),
                "Ω/m",
                given("r20", cold, "Ω/m"),
                given("T", celsius, "°C"),
                given("T0", made.zeroOhmCelsius(), "°C"));
    }

    /** Allowable amperes with ambient and bundle, step by step. */
    static double allowableAmps(
            Worksheet sheet, WireConductor conductor, double insulationCelsius, double ambientCelsius, int bundled) {
        double bundle = Ampacity.bundleFactor(bundled);
        return sheet.step(
                "what " + conductor.size() + " with " + figure(insulationCelsius)
                        + " °C insulation bears: the table's figure for its material, corrected for the air and the bundle",
                "Imax = I30 × sqrt((Tr − Ta) / (Tr − 30)) × b",
                conductor.allowableAmps(insulationCelsius, ambientCelsius) * bundle,
                "A",
                given("I30", conductor.allowableAmps(insulationCelsius, Ampacity.TABLE_AMBIENT_CELSIUS), "A"),
                given("Tr", Ampacity.ratedCelsius(insulationCelsius), "°C"),
                given("Ta", ambientCelsius, "°C"),
                given("b", bundle, ""));
    }

    /** Temperature that the conductor comes to, as a step. */
    static double conductorCelsius(
            Worksheet sheet,
            double ambientCelsius,
            double insulationCelsius,
            double currentAmps,
            double allowableAmps) {
        double rated = Ampacity.ratedCelsius(insulationCelsius);
        return sheet.step(
                "the conductor warms above the air by the square of the current, up to its rating at what it bears",
                "T = Ta + (Tr − Ta) × (I / Imax)^2",
                Ampacity.conductorCelsius(ambientCelsius, rated, currentAmps, allowableAmps),
                "°C",
                given("Ta", ambientCelsius, "°C"),
                given("Tr", rated, "°C"),
                given("I", currentAmps, "A"),
                given("Imax", allowableAmps, "A"));
    }

    /** Ohms of all that the current passes, step by step. */
    static double runOhms(Worksheet sheet, Run run, double celsius) {
        double perMetre = ohmsPerMetre(sheet, run.conductor(), celsius);
        boolean body = run.returnPath() == ReturnPath.CHASSIS;
        return sheet.step(
                switch (run.returnPath()) {
                    case CONDUCTOR -> "the run is there and back";
                    case CHASSIS -> "the run is there, and back through the body";
                    case NONE -> "the run is one way";
                },
                body ? "R = r × L + Rb" : "R = r × " + (run.returnPath() == ReturnPath.CONDUCTOR ? "2 × L" : "L"),
                run.ohms(celsius),
                "Ω",
                body
                        ? new Step.Given[] {
                            given("r", perMetre, "Ω/m"),
                            given("L", run.lengthMetres(), "m"),
                            given("Rb", run.chassisOhms(), "Ω")
                        }
                        : new Step.Given[] {given("r", perMetre, "Ω/m"), given("L", run.lengthMetres(), "m")});
    }
}
