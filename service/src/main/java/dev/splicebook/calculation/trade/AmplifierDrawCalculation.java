package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;
import static dev.splicebook.calculation.trade.WireSteps.figure;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.Cautions;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.AmplifierClass;
import dev.splicebook.electrics.AmplifierDraw;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.FuseBody;
import dev.splicebook.electrics.FuseSizing;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.Programme;
import dev.splicebook.electrics.ReturnPath;
import dev.splicebook.electrics.SizeSeries;
import dev.splicebook.electrics.VoltageDrop.Run;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.electrics.WireSizing;
import dev.splicebook.electrics.WireSizing.Candidate;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** What an amplifier draws, and the wire and fuse that follow. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "amplifier-draw",
        purpose = "How many amperes an amplifier draws, how much heat it makes, and which wire and fuse follow.",
        method =
                "Power given, by the efficiency stated, or by that of its class: A draws the same at any level, B and AB by"
                        + " the root of the level, D in proportion above an idle loss. The wire's drop is for the average"
                        + " current; the fuse carries that for good and a full note for a while.",
        sources = {
            "P = U·I",
            "Class A 25 % and class B 78.5 % at most, about 50 % typical, class D 90 % and more near full power: textbooks;"
                    + " its idle loss of 3 % of rated power is an assumption, no source",
            "Programme of one eighth of rated power: EN 60065; one third: common practice, no source",
            "Supply of 14.4 V: CTA-2006, from memory",
            WireSteps.AWG_SOURCE,
            WireSteps.RESISTANCE_SOURCE,
            WireSteps.AMPACITY_SOURCE,
            "Continuous load of at most 75 % of a fuse's rating at 25 °C, as makers of fuses publish"
        },
        cautions = {Cautions.BATTERY, Cautions.FUSE, Cautions.HEAT, Cautions.HEARING})
public final class AmplifierDrawCalculation
        extends Worked<AmplifierDrawCalculation.AmplifierDrawQuestion, AmplifierDrawCalculation.AmplifierDrawAnswer> {

    private static final double SUPPLY_VOLTS = 14.4;
    private static final double MAX_DROP_PERCENT = 3;
    private static final double FUSE_CELSIUS = 40;

    public AmplifierDrawCalculation() {
        super(AmplifierDrawQuestion.class, AmplifierDrawAnswer.class);
    }

    /** Channels that are alike. */
    public record AmplifierChannels(
            @Fact(value = "how many", least = 1, most = 32) int count,

            @Fact(value = "rated sine power of each", unit = "W", least = 0.01, most = 20_000)
            double watts) {}

    /** An amplifier and what it plays. */
    public record AmplifierDrawQuestion(
            @Fact(value = "its channels, in groups that are alike", leastEntries = 1, mostEntries = 16)
            List<AmplifierChannels> channels,

            @JsonProperty("class") @Fact("how its output stage works; this or efficiency") @Nullable
            AmplifierClass amplifierClass,

            @Fact(
                    value = "share of what it draws that it gives, with this programme; this or class",
                    least = 0.05,
                    most = 1)
            @Nullable
            Double efficiency,

            @Fact(value = "volts at the amplifier", unit = "V", least = 5, most = 60, usual = "14.4") @Nullable
            Double supplyVolts,

            @Fact(value = "what it plays, as share of rated power", usual = "sine, the worst") @Nullable
            Programme programme,

            @Fact(value = "length of the supply wire, one way", usual = "none: the wire is sized by ampacity alone")
            @Nullable
            Length length,

            @Fact(value = "how the current comes back", usual = "chassis") @Nullable
            ReturnPath returnPath,

            @Fact(value = "most that the run may lose, of the supply", unit = "%", least = 0.01, most = 50, usual = "3")
            @Nullable
            Double maxDropPercent,

            @Fact(value = "which sizes are tried", usual = "awg") @Nullable
            SizeSeries series,

            @Fact(value = "what the wire is made of", usual = "copper") @Nullable
            ConductorMaterial material,

            @Fact(value = "rating of its insulation", unit = "°C", least = 60, most = 250, usual = "105") @Nullable
            Double insulationCelsius,

            @Fact(value = "air around the wire", unit = "°C", least = -60, most = 190, usual = "30") @Nullable
            Double ambientCelsius,

            @Fact(value = "body of the fuse", usual = "the first of regular, maxi and bolt-down that fits") @Nullable
            FuseBody body) {

        public AmplifierDrawQuestion {
            channels = List.copyOf(channels);
            Guard guard = WireSteps.longEnough(new Guard(), "length", length)
                    .refuseIf(
                            amplifierClass == null && efficiency == null,
                            "class",
                            "missing-field",
                            () -> "class is missing; either class or efficiency is given")
                    .refuseIf(
                            amplifierClass != null && efficiency != null,
                            "efficiency",
                            "either-or",
                            () -> "efficiency stands beside class; one of the two is given");
            WireSteps.coolerThanInsulation(guard, "ambientCelsius", ambientCelsius, insulationCelsius)
                    .check();
        }
    }

    /** The wire that follows. */
    public record AmplifierWire(
            @Fact("size") ConductorSize size,

            @Fact(value = "what it bears for good", unit = "A")
            double allowableAmps,

            @Fact(value = "temperature that it comes to", unit = "°C")
            double conductorCelsius,

            @Fact(value = "volts that it loses; absent without a length", unit = "V") @Nullable
            Double dropVolts,

            @Fact(value = "the same of the supply", unit = "%") @Nullable
            Double dropPercent) {}

    /** The fuse that follows. */
    public record AmplifierFuse(
            @Fact(value = "rating", unit = "A") double ratingAmps,

            @Fact("its colour; absent where none is known") @Nullable
            String colour,

            @Fact("its body") FuseBody body) {}

    /** What it draws. */
    public record AmplifierDrawAnswer(
            @Fact(value = "average current drawn", unit = "A")
            double currentAmps,

            @Fact(value = "power drawn", unit = "W") double supplyWatts,

            @Fact(value = "power given to the loudspeakers", unit = "W")
            double outputWatts,

            @Fact(value = "heat in the amplifier", unit = "W")
            double heatWatts,

            @Fact("share of what it draws that it gives") double efficiency,

            @Fact(value = "current at full sine power, for moments at least; absent with efficiency", unit = "A")
            @Nullable
            Double sineAmps,

            @Fact("the thinnest wire that serves; absent where none of the series does") @Nullable
            AmplifierWire wire,

            @Fact("the fuse in front of it; absent without a wire") @Nullable
            AmplifierFuse fuse,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    private record WireAndFuse(AmplifierWire wire, AmplifierFuse fuse) {}

    @Override
    protected AmplifierDrawAnswer work(AmplifierDrawQuestion asked, Worksheet sheet) {
        double supply = sheet.orAssume(
                asked.supplyVolts(), "supplyVolts", SUPPLY_VOLTS, "V", "where mobile amplifiers are rated");
        Programme programme =
                sheet.orAssume(asked.programme(), "programme", Programme.SINE, "a steady tone, the worst case");
        double rated = 0;
        for (AmplifierChannels group : asked.channels()) {
            double before = rated;
            rated += group.count() * group.watts();
            sheet.step(
                    "rated power, group by group",
                    "P = P0 + n × p",
                    rated,
                    "W",
                    given("P0", before, "W"),
                    given("n", group.count(), ""),
                    given("p", group.watts(), "W"));
        }
        AmplifierDraw draw = draw(asked, sheet, rated, programme, supply);
        sheet.step(
                "amperes are the watts drawn by the volts",
                "I = Ps / U",
                draw.supplyAmps(),
                "A",
                given("Ps", draw.supplyWatts(), "W"),
                given("U", supply, "V"));
        sheet.step(
                "what is drawn and not given is heat",
                "Q = Ps − Po",
                draw.heatWatts(),
                "W",
                given("Ps", draw.supplyWatts(), "W"),
                given("Po", draw.outputWatts(), "W"));
        double sineAmps = sineAmps(asked, sheet, rated, programme, draw, supply);
        WireAndFuse follows = wireAndFuse(asked, sheet, draw.supplyAmps(), sineAmps, supply);
        if (follows == null) {
            sheet.caution("No single wire of the series with a fuse in front of it serves " + figure(draw.supplyAmps())
                    + " A: share the load among several runs, each with its own fuse.");
        }
        if (programme != Programme.SINE) {
            sheet.caution("The wire's drop and heat are for the average of music. A steady tone at full power draws "
                    + figure(sineAmps) + " A, which the fuse carries for a while and not for good.");
        }
        return new AmplifierDrawAnswer(
                draw.supplyAmps(),
                draw.supplyWatts(),
                draw.outputWatts(),
                draw.heatWatts(),
                draw.efficiency(),
                sineAmps,
                follows == null ? null : follows.wire(),
                follows == null ? null : follows.fuse(),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static AmplifierDraw draw(
            AmplifierDrawQuestion asked, Worksheet sheet, double rated, Programme programme, double supply) {
        double output = sheet.step(
                "what it gives on average",
                "Po = P × s",
                rated * programme.share(),
                "W",
                given("P", rated, "W"),
                given("s", programme.share(), ""));
        AmplifierClass amplifierClass = asked.amplifierClass();
        if (amplifierClass == null) {
            double efficiency = Objects.requireNonNull(asked.efficiency());
            AmplifierDraw draw = AmplifierDraw.of(rated, programme, efficiency, supply);
            sheet.step(
                    "what it draws is what it gives by its efficiency",
                    "Ps = Po / η",
                    draw.supplyWatts(),
                    "W",
                    given("Po", output, "W"),
                    given("η", efficiency, ""));
            return draw;
        }
        AmplifierDraw draw = AmplifierDraw.of(rated, programme, amplifierClass, supply);
        double full = sheet.assume(
                "fullPowerEfficiency",
                amplifierClass.fullPowerEfficiency(),
                "",
                "share of what a class " + amplifierClass.name() + " stage draws that it gives at full sine power");
        Step.Given[] given = {given("P", rated, "W"), given("η", full, ""), given("s", programme.share(), "")};
        switch (amplifierClass) {
            case A ->
                sheet.step(
                        "class A draws the same at any level",
                        "Ps = P / η",
                        draw.supplyWatts(),
                        "W",
                        given("P", rated, "W"),
                        given("η", full, ""));
            case B, AB ->
                sheet.step(
                        "class B and AB draw by the root of the level",
                        "Ps = P / η × sqrt(s)",
                        draw.supplyWatts(),
                        "W",
                        given);
            case D -> {
                sheet.assume(
                        "idleShare",
                        AmplifierClass.IDLE_SHARE,
                        "",
                        "of rated power that a class D stage draws at idle; an assumption, no source");
                sheet.step(
                        "class D draws in proportion, above an idle loss of 3 % of its rated power",
                        "Ps = 0.03 × P + (P / η − 0.03 × P) × s", draw.supplyWatts(), "W", given);
            }
        }
        return draw;
    }

    private static double sineAmps(
            AmplifierDrawQuestion asked,
            Worksheet sheet,
            double rated,
            Programme programme,
            AmplifierDraw draw,
            double supply) {
        AmplifierClass amplifierClass = asked.amplifierClass();
        double efficiency = amplifierClass == null ? draw.efficiency() : amplifierClass.fullPowerEfficiency();
        if (amplifierClass == null && programme != Programme.SINE) {
            sheet.assume(
                    "fullPowerEfficiency", efficiency, "", "as with the programme; it is seldom less at full power");
        }
        return sheet.step(
                "a note at full power draws rated power by the efficiency there",
                "Is = P / η / U",
                AmplifierDraw.of(rated, Programme.SINE, efficiency, supply).supplyAmps(),
                "A",
                given("P", rated, "W"),
                given("η", efficiency, ""),
                given("U", supply, "V"));
    }

    private static @Nullable WireAndFuse wireAndFuse(
            AmplifierDrawQuestion asked, Worksheet sheet, double amps, double sineAmps, double supply) {
        ReturnPath returnPath = ReturnPath.NONE;
        double maxDrop = Double.POSITIVE_INFINITY;
        if (asked.length() == null) {
            sheet.assume("length", "none", "the wire is sized by ampacity alone; give its length to hold the drop");
        } else {
            returnPath = sheet.orAssume(asked.returnPath(), "returnPath", ReturnPath.CHASSIS, "the vehicle's body");
            WireSteps.chassis(sheet, returnPath, null);
            maxDrop = supply
                    / 100
                    * sheet.orAssume(
                            asked.maxDropPercent(),
                            "maxDropPercent",
                            MAX_DROP_PERCENT,
                            "%",
                            "common practice, no source");
        }
        double metres = asked.length() == null ? 1 : asked.length().metres();
        SizeSeries series = sheet.orAssume(asked.series(), "series", SizeSeries.AWG, "sizes that are tried");
        ConductorMaterial material =
                sheet.orAssume(asked.material(), "material", ConductorMaterial.COPPER, "what the wire is made of");
        double insulation = WireSteps.insulation(sheet, asked.insulationCelsius());
        double ambient = WireSteps.ambient(sheet, asked.ambientCelsius());
        double fuseCelsius = sheet.assume(
                "fuseCelsius",
                Math.min(Math.max(FUSE_CELSIUS, ambient), 125),
                "°C",
                "air around the fuse, with 0.15 % less for each kelvin above 25 °C (from memory)");
        List<FuseBody> bodies = asked.body() == null
                ? List.of(FuseBody.REGULAR, FuseBody.MAXI, FuseBody.BOLT_DOWN)
                : List.of(asked.body());
        if (asked.body() == null) {
            sheet.assume("body", "regular, maxi, bolt-down", "the first that fits");
        }
        WireConductor like = WireConductor.of(series.sizes().get(0), material);
        WireSizing sizing = new WireSizing(
                amps, metres, returnPath, 0, supply, maxDrop, insulation, ambient, null, 1, series, like);
        for (Candidate candidate : sizing.candidates()) {
            if (!candidate.passes()) {
                continue;
            }
            for (FuseBody body : bodies) {
                FuseSizing fuse = new FuseSizing(
                        amps,
                        Math.max(amps, sineAmps),
                        like.withSize(candidate.size()),
                        insulation,
                        ambient,
                        1,
                        fuseCelsius,
                        body,
                        null,
                        FuseSizing.RERATING_PERCENT_PER_KELVIN,
                        false);
                FuseSizing.Option chosen = fuse.choose().chosen();
                if (chosen != null) {
                    boolean run = asked.length() != null;
                    noteSteps(
                            sheet,
                            fuse,
                            candidate,
                            amps,
                            run ? new Run(fuse.conductor(), metres, returnPath, 0) : null);
                    return new WireAndFuse(
                            new AmplifierWire(
                                    candidate.size(),
                                    candidate.allowableAmps(),
                                    candidate.conductorCelsius(),
                                    run ? (Double) candidate.dropVolts() : null,
                                    run ? (Double) candidate.dropPercent() : null),
                            new AmplifierFuse(chosen.ratingAmps(), chosen.colour(), body));
                }
            }
        }
        return null;
    }

    private static void noteSteps(
            Worksheet sheet, FuseSizing fuse, Candidate candidate, double amps, @Nullable Run run) {
        double allowable =
                WireSteps.allowableAmps(sheet, fuse.conductor(), fuse.insulationCelsius(), fuse.conductorCelsius(), 1);
        double celsius =
                WireSteps.conductorCelsius(sheet, fuse.conductorCelsius(), fuse.insulationCelsius(), amps, allowable);
        if (run != null) {
            double ohms = WireSteps.runOhms(sheet, run, celsius);
            sheet.step(
                    "the drop of " + candidate.size() + " is the current times the resistance",
                    "Ud = I × R",
                    candidate.dropVolts(),
                    "V",
                    given("I", amps, "A"),
                    given("R", ohms, "Ω"));
        }
        sheet.step(
                "the least rating of the fuse: the average is 75 % of it at most, a full note all of it, less in heat",
                "Fmin = max(I / 0.75, Is) / f",
                fuse.leastAmps(),
                "A",
                given("I", amps, "A"),
                given("Is", fuse.peakAmps(), "A"),
                given("f", fuse.rerating(), ""));
    }
}
