package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;
import static dev.splicebook.calculation.trade.WireSteps.figure;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.Cautions;
import dev.splicebook.calculation.NoAnswerException;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.Ampacity;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.FuseBody;
import dev.splicebook.electrics.FuseGates.Burst;
import dev.splicebook.electrics.FuseSizing;
import dev.splicebook.electrics.FuseSizing.Choice;
import dev.splicebook.electrics.FuseSizing.Option;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.guard.Guard;
import dev.splicebook.guard.Invalid;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The fuse between a load and the conductor that feeds it. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "fuse",
        purpose =
                "Which fuse carries a load, protects its conductor, and bears the load's inrush; and where it must sit.",
        method =
                "The least rating is the continuous load by 75 %, and the peak, both re-rated for the heat at the fuse; the"
                        + " greatest is what the conductor bears. An inrush is held against the time gates, never between them.",
        sources = {
            WireSteps.AMPACITY_SOURCE,
            "33 CFR 183.455: place of the fuse, and at most 150 % of the ampacity below 50 V",
            "Continuous load of at most 75 % of the rating at 25 °C, as makers of fuses publish",
            "Ratings, colours and time gates of blade fuses after ISO 8820-3 (gates of 30 to 40 A, secondary copy); 40 A"
                    + " orange and the colours of maxi fuses from memory",
            "Ratings of bolt-down fuses: common practice, no source"
        },
        cautions = {Cautions.BATTERY, Cautions.FUSE, Cautions.HEAT})
public final class FuseCalculation extends Worked<FuseCalculation.FuseQuestion, FuseCalculation.FuseAnswer> {

    /** Least multiple of its rating that a short should draw for the fuse to open in a moment: the last of the gates. */
    private static final double LAST_GATE = 6;

    public FuseCalculation() {
        super(FuseQuestion.class, FuseAnswer.class);
    }

    /** How large a fuse may be for its conductor. */
    public enum FuseLimit {
        /** What the conductor bears. */
        AMPACITY,
        /** 150 % of it, as 33 CFR 183.455 allows below 50 V. */
        REGULATION
    }

    /** What a load draws as it starts. */
    public record FuseInrush(
            @Fact(value = "current", unit = "A", least = 0.001, most = 10_000)
            double amps,

            @Fact(value = "how long", unit = "s", least = 1e-6, most = 3600)
            double seconds) {}

    /** A load, a conductor and a fuse holder. */
    public record FuseQuestion(
            @Fact(value = "current that the load draws for good", unit = "A", least = 0.001, most = 1000)
            double continuousAmps,

            @Fact(
                    value = "most that it draws for longer than an inrush",
                    unit = "A",
                    least = 0.001,
                    most = 2000,
                    usual = "continuousAmps")
            @Nullable
            Double peakAmps,

            @Fact("the thinnest conductor behind the fuse") ConductorInput conductor,

            @Fact(value = "rating of its insulation", unit = "°C", least = 60, most = 250, usual = "105") @Nullable
            Double insulationCelsius,

            @Fact(value = "air around the fuse", unit = "°C", least = -40, most = 125, usual = "25") @Nullable
            Double ambientCelsius,

            @Fact(
                    value = "air around the conductor",
                    unit = "°C",
                    least = -60,
                    most = 190,
                    usual = "ambientCelsius, or 30 where that is less or not given")
            @Nullable
            Double conductorAmbientCelsius,

            @Fact(
                    value = "conductors under load in the same bundle, this one among them",
                    least = 1,
                    most = 100,
                    usual = "1, no bundle")
            @Nullable
            Integer bundledConductors,

            @Fact(value = "body of the fuse", usual = "regular") @Nullable
            FuseBody body,

            @Fact(value = "what the load draws as it starts", usual = "no more than its peak") @Nullable
            FuseInrush inrush,

            @Fact(
                    value = "what the fuse bears less for each kelvin above 25 °C",
                    unit = "%/K",
                    least = 0,
                    most = 0.9,
                    usual = "0.15")
            @Nullable
            Double reratingPercentPerKelvin,

            @Fact(value = "how large the fuse may be for the conductor", usual = "ampacity") @Nullable
            FuseLimit limit) {

        public FuseQuestion {
            Guard guard = new Guard()
                    .refuseIf(
                            peakAmps != null && peakAmps < continuousAmps,
                            "peakAmps",
                            "inconsistent",
                            () -> "peakAmps is below continuousAmps");
            boolean stated = conductorAmbientCelsius != null || ambientCelsius == null;
            WireSteps.coolerThanInsulation(
                            guard,
                            stated ? "conductorAmbientCelsius" : "ambientCelsius",
                            stated ? conductorAmbientCelsius : ambientCelsius,
                            insulationCelsius)
                    .check();
        }
    }

    /** A rating between load and conductor. */
    public record FuseOption(
            @Fact(value = "rating", unit = "A") double ratingAmps,

            @Fact("its colour in this body; absent where none is known") @Nullable
            String colour,

            @Fact(value = "what it carries for good in this heat", unit = "A")
            double carriesAmps,

            @Fact("what it does in the inrush by the gates; absent without one") @Nullable
            Burst inrush) {

        static FuseOption of(Option option) {
            return new FuseOption(option.ratingAmps(), option.colour(), option.carriesAmps(), option.burst());
        }
    }

    /** A place where the fuse must sit, by one authority. */
    public record FusePlace(
            @Fact("at most this far from the source, along the conductor")
            Length within,

            @Fact("when it holds") String when,
            @Fact("who says so") String source) {}

    /** The fuse, and what it was chosen from. */
    public record FuseAnswer(
            @Fact(value = "rating", unit = "A") double ratingAmps,

            @Fact("its colour in this body; absent where none is known") @Nullable
            String colour,

            @Fact("body of the fuse") FuseBody body,

            @Fact(value = "least rating that the load allows", unit = "A")
            double leastAmps,

            @Fact(value = "greatest rating that the conductor allows", unit = "A")
            double mostAmps,

            @Fact(value = "what the conductor bears for good", unit = "A")
            double allowableAmps,

            @Fact(value = "150 % of that, the most by 33 CFR 183.455 below 50 V", unit = "A")
            double regulationMostAmps,

            @Fact("what the fuse bears in this heat, of what it bears at 25 °C")
            double reratingFactor,

            @Fact(value = "what it carries for good in this heat", unit = "A")
            double carriesAmps,

            @Fact("what it does in the inrush by the gates; absent without one") @Nullable
            Burst inrush,

            @Fact(
                    value = "short-circuit current from which it opens within 0.15 s by the gates; absent for bodies"
                            + " that have other gates",
                    unit = "A")
            @Nullable
            Double opensAtOnceAmps,

            @Fact("every rating of the body between load and conductor")
            List<FuseOption> options,

            @Fact("where it must sit") List<FusePlace> placement,
            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected FuseAnswer work(FuseQuestion asked, Worksheet sheet) {
        FuseSizing sizing = sizing(asked, sheet);
        Choice choice = sizing.choose();
        Option chosen = choice.chosen();
        if (chosen == null) {
            throw noFuse(asked, sizing, choice);
        }
        double rerating = sheet.step(
                "the fuse bears less in heat, by so much a kelvin above 25 °C",
                "f = max(0.05, 1 − c / 100 × max(0, T − 25))",
                sizing.rerating(),
                "",
                given("c", sizing.reratingPercentPerKelvin(), "%/K"),
                given("T", sizing.fuseCelsius(), "°C"));
        double least = sheet.step(
                "the least rating: the continuous load is 75 % of it at most, and the peak all of it",
                "Fmin = max(I / 0.75, Ip) / f",
                sizing.leastAmps(),
                "A",
                given("I", sizing.continuousAmps(), "A"),
                given("Ip", sizing.peakAmps(), "A"),
                given("f", rerating, ""));
        double allowable = WireSteps.allowableAmps(
                sheet,
                sizing.conductor(),
                sizing.insulationCelsius(),
                sizing.conductorCelsius(),
                sizing.bundledConductors());
        double regulation = sheet.step(
                "the regulation would allow half more",
                "F150 = 1.5 × Imax",
                FuseSizing.REGULATION_SHARE * allowable,
                "A",
                given("Imax", allowable, "A"));
        sheet.step(
                "the chosen rating carries three quarters of it for good, less in heat",
                "Ic = 0.75 × f × F",
                chosen.carriesAmps(),
                "A",
                given("f", rerating, ""),
                given("F", chosen.ratingAmps(), "A"));
        if (asked.inrush() != null) {
            sheet.step(
                    "the inrush against the rating in this heat; the next time gate above holds for certain",
                    "k = Ii / (f × F)",
                    asked.inrush().amps() / (rerating * chosen.ratingAmps()),
                    "",
                    given("Ii", asked.inrush().amps(), "A"),
                    given("f", rerating, ""),
                    given("F", chosen.ratingAmps(), "A"));
        }
        boolean gated = sizing.body() == FuseBody.MINI || sizing.body() == FuseBody.REGULAR;
        if (!gated) {
            sheet.caution("The time gates are those of small blade fuses; a " + sizing.body()
                    + " fuse is slower (common practice, no source), and its maker's curve decides how fast it opens.");
        }
        if (asked.conductor().size().areaMm2() < new ConductorSize("18 AWG").areaMm2() * 0.999) {
            sheet.caution(
                    "The table of 33 CFR 183.425 ends at 18 AWG; thinner conductors are taken at its current density.");
        }
        return new FuseAnswer(
                chosen.ratingAmps(),
                chosen.colour(),
                sizing.body(),
                least,
                sizing.mostAmps(),
                allowable,
                regulation,
                rerating,
                chosen.carriesAmps(),
                chosen.burst(),
                gated ? (Double) (LAST_GATE * chosen.ratingAmps()) : null,
                choice.options().stream().map(FuseOption::of).toList(),
                placement(),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static FuseSizing sizing(FuseQuestion asked, Worksheet sheet) {
        WireConductor conductor = asked.conductor().resolveForAmpacity(sheet);
        double insulation = WireSteps.insulation(sheet, asked.insulationCelsius());
        double fuseCelsius = sheet.orAssume(
                asked.ambientCelsius(),
                "ambientCelsius",
                FuseSizing.RATED_CELSIUS,
                "°C",
                "air around the fuse, where its rating holds; a holder in an engine space is at 85 and more");
        double conductorCelsius = sheet.orAssume(
                asked.conductorAmbientCelsius(),
                "conductorAmbientCelsius",
                Math.max(fuseCelsius, Ampacity.TABLE_AMBIENT_CELSIUS),
                "°C",
                "air around the conductor: as at the fuse, at least the 30 °C of 33 CFR 183.425 table 5");
        int bundled = (int) sheet.orAssume(
                asked.bundledConductors() == null
                        ? null
                        : asked.bundledConductors().doubleValue(),
                "bundledConductors",
                1,
                "",
                "the conductor lies by itself");
        FuseBody body = sheet.orAssume(asked.body(), "body", FuseBody.REGULAR, "what the holder takes");
        double rerating = sheet.orAssume(
                asked.reratingPercentPerKelvin(),
                "reratingPercentPerKelvin",
                FuseSizing.RERATING_PERCENT_PER_KELVIN,
                "%/K",
                "from memory; the maker's sheet of the fuse states it");
        FuseLimit limit = sheet.orAssume(
                asked.limit(),
                "limit",
                FuseLimit.AMPACITY,
                "a fuse is at most what its conductor bears, not 150 % of it");
        double peak = sheet.orAssume(
                asked.peakAmps(), "peakAmps", asked.continuousAmps(), "A", "the load never draws more for long");
        FuseInrush inrush = asked.inrush();
        return new FuseSizing(
                asked.continuousAmps(),
                peak,
                conductor,
                insulation,
                conductorCelsius,
                bundled,
                fuseCelsius,
                body,
                inrush == null ? null : new FuseSizing.Inrush(inrush.amps(), inrush.seconds()),
                rerating,
                limit == FuseLimit.REGULATION);
    }

    static List<FusePlace> placement() {
        return List.of(
                new FusePlace(
                        FuseSizing.REGULATION_BARE,
                        "the conductor lies open between source and fuse",
                        "33 CFR 183.455"),
                new FusePlace(
                        FuseSizing.REGULATION_SHEATHED,
                        "the conductor is sheathed or enclosed all the way between source and fuse",
                        "33 CFR 183.455"),
                new FusePlace(
                        FuseSizing.VEHICLE_PRACTICE, "from the battery of a vehicle", "common practice, no source"));
    }

    /** What a thicker conductor and another body together would do. */
    private static String both(FuseSizing sizing) {
        return Arrays.stream(FuseBody.values())
                .filter(body -> sizing.thickerThatFits(body) != null)
                .findFirst()
                .map(body -> "with " + sizing.thickerThatFits(body) + " a " + body + " fuse would fit")
                .orElse("no other body has one that fits, with any size");
    }

    private static NoAnswerException noFuse(FuseQuestion asked, FuseSizing sizing, Choice choice) {
        String size = sizing.conductor().size().value();
        List<Invalid> figures = new ArrayList<>();
        String why = switch (Objects.requireNonNull(choice.obstacle())) {
            case WINDOW_EMPTY ->
                "The load needs a fuse of at least " + figure(sizing.leastAmps()) + " A, and " + size
                        + " allows at most " + figure(sizing.mostAmps()) + " A.";
            case NO_SUCH_RATING ->
                "A " + sizing.body() + " fuse has no rating from " + figure(sizing.leastAmps()) + " A to "
                        + figure(sizing.mostAmps()) + " A.";
            case BURST ->
                "No " + sizing.body() + " fuse from " + figure(sizing.leastAmps()) + " A to "
                        + figure(sizing.mostAmps()) + " A is sure to bear the inrush by the time gates.";
        };
        Double fewer = sizing.mostContinuousAmps();
        figures.add(new Invalid(
                "/continuousAmps",
                "no-fuse-fits",
                "needs at least " + figure(sizing.leastAmps()) + " A; "
                        + (fewer == null
                                ? "no lesser load helps either"
                                : "up to " + figure(fewer) + " A a " + sizing.body() + " fuse would fit")));
        ConductorSize thicker = sizing.thickerThatFits();
        figures.add(new Invalid(
                "/conductor/size",
                "no-fuse-fits",
                size + " allows at most " + figure(sizing.mostAmps()) + " A; "
                        + (thicker == null ? "no thicker size helps" : "with " + thicker + " a fuse would fit")));
        List<FuseBody> others = sizing.otherBodiesThatFit();
        figures.add(new Invalid(
                "/body",
                "no-fuse-fits",
                "ratings of " + sizing.body() + " fuses go from "
                        + figure(sizing.body().ratingsAmps().get(0)) + " A to "
                        + figure(sizing.body()
                                .ratingsAmps()
                                .get(sizing.body().ratingsAmps().size() - 1))
                        + " A; "
                        + (others.isEmpty()
                                ? both(sizing)
                                : "one would fit in: "
                                        + others.stream()
                                                .map(FuseBody::toString)
                                                .collect(Collectors.joining(", ")))));
        for (Option option : choice.options()) {
            figures.add(new Invalid(
                    "/inrush",
                    "no-fuse-fits",
                    figure(option.ratingAmps()) + " A: "
                            + figure(Objects.requireNonNull(asked.inrush()).amps())
                            + " A for " + figure(asked.inrush().seconds()) + " s "
                            + (option.burst() == Burst.OPENS ? "opens it" : "may open it")));
        }
        return new NoAnswerException(why, figures);
    }
}
