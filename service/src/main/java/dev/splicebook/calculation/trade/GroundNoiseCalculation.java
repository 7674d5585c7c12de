package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.GroundNoise;
import dev.splicebook.electrics.Length;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a difference between two grounds adds to a signal, and what helps. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "ground-noise",
        purpose = "How much noise a ground loop adds to an audio signal, whether it is heard, and what each fix gives.",
        method =
                "What flows along the shield drops volts along it, and an input that is referred to its own end of the shield"
                        + " takes them for signal. The current is the offset of the two grounds by the loop's resistance, or is"
                        + " given; with the loop's size and a frequency its inductance holds it back. Heard is what is less than 60 dB"
                        + " below the signal.",
        sources = {
            "shield resistance times shield current adds to the signal: Ohm's law",
            "inductance of a circular loop, μ0·r·(ln(8r/a) − 2): from memory, in agreement with a published loop of RG-58",
            "what is heard, and what an isolator, a differential input and a common ground give: common practice, no source"
        })
public final class GroundNoiseCalculation
        extends Worked<GroundNoiseCalculation.GroundNoiseQuestion, GroundNoiseCalculation.GroundNoiseAnswer> {

    public GroundNoiseCalculation() {
        super(GroundNoiseQuestion.class, GroundNoiseAnswer.class);
    }

    /** Loop, signal and what is there against noise. */
    public record GroundNoiseQuestion(
            @Fact(value = "between the two grounds; or loopAmps", unit = "V", least = 0.000_001, most = 10) @Nullable
            Double groundOffsetVolts,

            @Fact(value = "along the shield; or groundOffsetVolts", unit = "A", least = 0.000_001, most = 100) @Nullable
            Double loopAmps,

            @Fact(
                    value = "resistance of the shield; or shieldMilliohmsPerMetre",
                    unit = "Ω",
                    least = 0.000_01,
                    most = 1000)
            @Nullable
            Double shieldOhms,

            @Fact(value = "the same by its length; needs shieldLength", unit = "mΩ/m", least = 0.1, most = 10_000)
            @Nullable
            Double shieldMilliohmsPerMetre,

            @Fact("length of the shield; needs shieldMilliohmsPerMetre") @Nullable
            Length shieldLength,

            @Fact(
                    value = "resistance of the rest of the loop; needs groundOffsetVolts",
                    unit = "Ω",
                    least = 0,
                    most = 1000,
                    usual = "0")
            @Nullable
            Double otherLoopOhms,

            @Fact("radius of the loop, for its inductance; needs shieldRadius") @Nullable
            Length loopRadius,

            @Fact("radius of the shield; needs loopRadius") @Nullable
            Length shieldRadius,

            @Fact(
                    value = "frequency of the noise; needs loopRadius and groundOffsetVolts",
                    unit = "Hz",
                    least = 0.1,
                    most = 100_000)
            @Nullable
            Double noiseHertz,

            @Fact(value = "signal", unit = "V", least = 0.000_1, most = 100)
            double signalVolts,

            @Fact(
                    value = "rejection of the input or isolator that is there",
                    unit = "dB",
                    least = 0,
                    most = 140,
                    usual = "0")
            @Nullable
            Double rejectionDecibels,

            @Fact(
                    value = "noise is heard less than this below the signal",
                    unit = "dB",
                    least = 10,
                    most = 120,
                    usual = "60")
            @Nullable
            Double audibleDecibels,

            @Fact(value = "rejection of an isolator to be added", unit = "dB", least = 0, most = 140, usual = "60")
            @Nullable
            Double isolatorDecibels,

            @Fact(
                    value = "rejection of a differential input in its place",
                    unit = "dB",
                    least = 0,
                    most = 140,
                    usual = "40")
            @Nullable
            Double differentialDecibels,

            @Fact(
                    value = "share of the offset that is left with both grounds at one point",
                    least = 0.000_1,
                    most = 1,
                    usual = "0.05")
            @Nullable
            Double singlePointShare,

            @Fact(value = "how many times thicker a ground is thought of, by area", least = 1, most = 100, usual = "2")
            @Nullable
            Double groundAreaTimes) {

        public GroundNoiseQuestion {
            Guard guard = new Guard();
            Either.one(guard, "groundOffsetVolts", groundOffsetVolts, "loopAmps", loopAmps);
            Either.one(guard, "shieldOhms", shieldOhms, "shieldMilliohmsPerMetre", shieldMilliohmsPerMetre);
            Either.needs(guard, "shieldMilliohmsPerMetre", shieldMilliohmsPerMetre, "shieldLength", shieldLength);
            Either.atMostOne(guard, "shieldOhms", shieldOhms, "shieldLength", shieldLength);
            Either.needs(guard, "loopRadius", loopRadius, "shieldRadius", shieldRadius);
            Either.needs(guard, "shieldRadius", shieldRadius, "loopRadius", loopRadius);
            Either.needs(guard, "noiseHertz", noiseHertz, "loopRadius", loopRadius);
            Either.atMostOne(guard, "loopAmps", loopAmps, "noiseHertz", noiseHertz);
            Either.atMostOne(guard, "loopAmps", loopAmps, "otherLoopOhms", otherLoopOhms);
            guard.refuseIf(
                    loopRadius != null && shieldRadius != null && loopRadius.metres() < 5 * shieldRadius.metres(),
                    "loopRadius",
                    "inconsistent",
                    () -> "loopRadius is " + loopRadius + ", less than five times shieldRadius of " + shieldRadius);
            guard.check();
        }
    }

    /** What may be done against noise. */
    public enum NoiseFix {
        SINGLE_POINT_GROUND,
        ISOLATOR,
        DIFFERENTIAL_INPUT,
        THICKER_GROUND
    }

    /** Noise, and what helps. */
    public record GroundNoiseAnswer(
            @Fact(value = "noise added to the signal, behind what rejects it", unit = "V")
            double noiseVolts,

            @Fact(value = "how far that is below the signal", unit = "dB")
            double belowSignalDecibels,

            @Fact("whether it is heard") boolean audible,

            @Fact(value = "resistance of the shield", unit = "Ω")
            double shieldOhms,

            @Fact(value = "current along the shield", unit = "A")
            double shieldAmps,

            @Fact(value = "inductance of the loop", unit = "µH") @Nullable
            Double loopMicrohenries,

            @Fact(value = "above this it holds the current back", unit = "Hz") @Nullable
            Double cornerHertz,

            @Fact("what each fix gives, the quietest first") List<NoiseFixEffect> fixes,
            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** What a fix gives. */
    public record NoiseFixEffect(
            @Fact("what is done") NoiseFix fix,
            @Fact(value = "noise that is left", unit = "V") double noiseVolts,

            @Fact(value = "how far that is below the signal", unit = "dB")
            double belowSignalDecibels,

            @Fact("whether it is still heard") boolean audible,
            @Fact("what to mind") String about) {}

    @Override
    protected GroundNoiseAnswer work(GroundNoiseQuestion asked, Worksheet sheet) {
        double shield = shieldOhms(asked, sheet);
        @Nullable Double amps = asked.loopAmps();
        double loopOhms = shield;
        if (amps == null) {
            double other = sheet.orAssume(
                    asked.otherLoopOhms(), "otherLoopOhms", 0, "Ω", "the chassis has next to none: the worst case");
            loopOhms = shield + other;
        }
        @Nullable Double henries = henries(asked, sheet);
        @Nullable
        Double corner = henries == null
                ? null
                : Double.valueOf(sheet.step(
                        "the inductance holds the current back above",
                        "fc = R / (2 × π × L × 1e-6)",
                        GroundNoise.cornerHertz(loopOhms, henries),
                        "Hz",
                        given("R", loopOhms, "Ω"),
                        given("L", henries * 1e6, "µH")));
        double shieldAmps = amps == null ? loopAmps(asked, loopOhms, corner, sheet) : amps;
        double raw = sheet.step(
                "the shield drops its current times its resistance, and that adds to the signal",
                "Ul = I × Rs",
                GroundNoise.noiseVolts(shieldAmps, shield),
                "V",
                given("I", shieldAmps, "A"),
                given("Rs", shield, "Ω"));
        double rejection = sheet.orAssume(
                asked.rejectionDecibels(), "rejectionDecibels", 0, "dB", "an input referred to its end of the shield");
        double noise = sheet.step(
                "what the input or isolator leaves of it",
                "Un = Ul × 10^(-a / 20)",
                GroundNoise.rejectedVolts(raw, rejection),
                "V",
                given("Ul", raw, "V"),
                given("a", rejection, "dB"));
        double signal = asked.signalVolts();
        double below = sheet.step(
                "the noise is below the signal by",
                "D = 20 × log10(Us / Un)",
                GroundNoise.belowDecibels(signal, noise),
                "dB",
                given("Us", signal, "V"),
                given("Un", noise, "V"));
        double audible = sheet.orAssume(
                asked.audibleDecibels(),
                "audibleDecibels",
                60,
                "dB",
                "noise is heard above: common practice, no source");
        return new GroundNoiseAnswer(
                noise,
                below,
                below < audible,
                shield,
                shieldAmps,
                henries == null ? null : Double.valueOf(henries * 1e6),
                corner,
                fixes(asked, raw, rejection, signal, audible, sheet),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static double shieldOhms(GroundNoiseQuestion asked, Worksheet sheet) {
        @Nullable Double milliohms = asked.shieldMilliohmsPerMetre();
        @Nullable Length length = asked.shieldLength();
        if (milliohms == null || length == null) {
            return asked.shieldOhms() == null ? 0 : asked.shieldOhms();
        }
        return sheet.step(
                "resistance of the shield by its length",
                "Rs = r / 1000 × l",
                GroundNoise.shieldOhms(milliohms / 1000, length.metres()),
                "Ω",
                given("r", milliohms, "mΩ/m"),
                given("l", length.metres(), "m"));
    }

    private static @Nullable Double henries(GroundNoiseQuestion asked, Worksheet sheet) {
        @Nullable Length loop = asked.loopRadius();
        @Nullable Length shield = asked.shieldRadius();
        if (loop == null || shield == null) {
            return null;
        }
        double henries = GroundNoise.loopHenries(loop.metres(), shield.metres());
        sheet.step(
                "inductance of a round loop",
                "L = 0.4 × π × r × (ln(8 × r / a) - 2)",
                henries * 1e6,
                "µH",
                given("r", loop.metres(), "m"),
                given("a", shield.metres(), "m"));
        return henries;
    }

    private static double loopAmps(
            GroundNoiseQuestion asked, double loopOhms, @Nullable Double corner, Worksheet sheet) {
        double offset = asked.groundOffsetVolts() == null ? 0 : asked.groundOffsetVolts();
        double amps = sheet.step(
                "the offset drives round the loop",
                "I0 = Uo / R",
                GroundNoise.loopAmps(offset, loopOhms),
                "A",
                given("Uo", offset, "V"),
                given("R", loopOhms, "Ω"));
        @Nullable Double hertz = asked.noiseHertz();
        if (hertz == null || corner == null) {
            return amps;
        }
        return sheet.step(
                "of which the inductance leaves",
                "I = I0 / sqrt(1 + (f / fc)^2)",
                amps * GroundNoise.inductiveShare(hertz, corner),
                "A",
                given("I0", amps, "A"),
                given("f", hertz, "Hz"),
                given("fc", corner, "Hz"));
    }

    private static List<NoiseFixEffect> fixes(
            GroundNoiseQuestion asked, double raw, double rejection, double signal, double audible, Worksheet sheet) {
        double isolator = sheet.orAssume(
                asked.isolatorDecibels(),
                "isolatorDecibels",
                60,
                "dB",
                "of a small transformer: common practice, no source");
        double differential = sheet.orAssume(
                asked.differentialDecibels(),
                "differentialDecibels",
                40,
                "dB",
                "with sources as unequal as usual: common practice, no source");
        double share = sheet.orAssume(
                asked.singlePointShare(), "singlePointShare", 0.05, "", "of the offset: common practice, no source");
        double times = sheet.orAssume(
                asked.groundAreaTimes(), "groundAreaTimes", 2, "", "three gauge numbers thicker: half the drop");
        record Fix(NoiseFix fix, double decibels, String about) {}
        List<Fix> fixes = List.of(
                new Fix(
                        NoiseFix.SINGLE_POINT_GROUND,
                        rejection + GroundNoise.rejectionDecibels(share),
                        "Ground both units at one point, bare metal, short leads: it removes the cause and costs no sound."),
                new Fix(
                        NoiseFix.ISOLATOR,
                        rejection + isolator,
                        "It breaks the loop for this signal only; a small transformer costs bass and takes little level."),
                new Fix(
                        NoiseFix.DIFFERENTIAL_INPUT,
                        Math.max(rejection, differential),
                        "It reads between signal and shield; only as good as the two sides are alike."),
                new Fix(
                        NoiseFix.THICKER_GROUND,
                        rejection + GroundNoise.rejectionDecibels(1 / times),
                        "Twice the area is half the offset: a little help, and good for the amplifier."));
        return fixes.stream()
                .sorted(Comparator.comparingDouble(Fix::decibels).reversed())
                .map(fix -> effect(fix.fix(), raw, fix.decibels(), signal, audible, fix.about(), sheet))
                .toList();
    }

    private static NoiseFixEffect effect(
            NoiseFix fix, double raw, double decibels, double signal, double audible, String about, Worksheet sheet) {
        double left = sheet.step(
                "noise with " + words(fix),
                "Uf = Ul × 10^(-a / 20)",
                GroundNoise.rejectedVolts(raw, decibels),
                "V",
                given("Ul", raw, "V"),
                given("a", decibels, "dB"));
        double below = GroundNoise.belowDecibels(signal, left);
        return new NoiseFixEffect(fix, left, below, below < audible, about);
    }

    private static String words(NoiseFix fix) {
        return switch (fix) {
            case SINGLE_POINT_GROUND -> "both grounds at one point";
            case ISOLATOR -> "an isolator";
            case DIFFERENTIAL_INPUT -> "a differential input";
            case THICKER_GROUND -> "a thicker ground";
        };
    }
}
