package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.Cautions;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.AmplifierOutput;
import dev.splicebook.electrics.SpeakerDriver;
import dev.splicebook.electrics.SpeakerLoad;
import dev.splicebook.electrics.SpeakerLoad.Assessed;
import dev.splicebook.electrics.SpeakerLoad.AtOutput;
import dev.splicebook.electrics.SpeakerLoad.Found;
import dev.splicebook.electrics.SpeakerLoad.SpeakerHazard;
import dev.splicebook.electrics.Wiring;
import dev.splicebook.electrics.WiringText;
import dev.splicebook.guard.Guard;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/** The wirings of speakers to one amplifier output. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "speaker-load",
        purpose =
                "Which ways there are to wire speakers in series and parallel, which of them the amplifier bears, and which is"
                        + " best.",
        method =
                "Every distinct wiring of up to 8 voice coils; equal coils are interchangeable, and the two coils of a driver"
                        + " are put where they carry the same current if that can be. Coils count as resistances of their rated"
                        + " impedance, as amplifier ratings do. Best is the safe one that gives like speakers the same and uses most"
                        + " watts, then the one nearest to the least load.",
        sources = {
            "Ohm's law and Kirchhoff's laws",
            "The least impedance of a speaker is at least 80 % of its rated one; after IEC 60268-5, from a secondary copy",
            "Both coils of a driver at the same current: common practice, no source"
        },
        cautions = {Cautions.SPEAKER_OUTPUT, Cautions.HEARING})
public final class SpeakerLoadCalculation
        extends Worked<SpeakerLoadCalculation.SpeakerLoadQuestion, SpeakerLoadCalculation.SpeakerLoadAnswer> {

    private static final int USUALLY_LISTED = 600;

    public SpeakerLoadCalculation() {
        super(SpeakerLoadQuestion.class, SpeakerLoadAnswer.class);
    }

    /** Speakers and amplifier. */
    public record SpeakerLoadQuestion(
            @Fact(value = "speakers, with 1 to 8 voice coils in all", leastEntries = 1, mostEntries = 8)
            List<SpeakerLoadDriver> drivers,

            @Fact("the amplifier's output") SpeakerLoadAmplifier amplifier,

            @Fact(
                    "one wiring to judge, like (A.1 + A.2) | (B.1 + B.2): + is series, | parallel, a leading - turns a coil round;"
                            + " a driver with one coil goes by its name")
            @Nullable
            WiringText wiring,

            @Fact(value = "how many wirings are listed, the best ones", least = 1, most = 2000, usual = "600") @Nullable
            Integer listed) {

        public SpeakerLoadQuestion {
            drivers = List.copyOf(drivers);
            Guard guard = new Guard();
            List<SpeakerDriver> speakers =
                    drivers.stream().map(SpeakerLoadDriver::driver).toList();
            try {
                SpeakerDriver.check(speakers);
                if (wiring != null) {
                    Wiring.parse(wiring, speakers);
                }
            } catch (InvalidValueException refused) {
                refused.invalids()
                        .forEach(each -> guard.refuseIf(
                                true,
                                (each.code().equals("bad-wiring") ? "wiring" : "drivers") + each.pointer(),
                                each.code(),
                                each::detail));
            }
            guard.check();
        }

        private List<SpeakerDriver> speakers() {
            return drivers.stream().map(SpeakerLoadDriver::driver).toList();
        }
    }

    /** A speaker. */
    public record SpeakerLoadDriver(
            @Fact("its name: letters, figures, - and _, at most 30")
            String name,

            @Fact(value = "its voice coils", leastEntries = 1, mostEntries = 2)
            List<SpeakerLoadCoil> coils) {

        public SpeakerLoadDriver {
            coils = List.copyOf(coils);
            driver(name, coils);
        }

        private SpeakerDriver driver() {
            return driver(name, coils);
        }

        private static SpeakerDriver driver(String name, List<SpeakerLoadCoil> coils) {
            return new SpeakerDriver(
                    name,
                    coils.stream()
                            .map(each -> new SpeakerDriver.Coil(each.ohms(), each.ratedWatts()))
                            .toList());
        }
    }

    /** A voice coil. */
    public record SpeakerLoadCoil(
            @Fact(value = "rated impedance", unit = "Ω", least = 0.1, most = 1000)
            double ohms,

            @Fact(
                    value =
                            "what the coil bears continuously: half of the driver's rating where it has two equal coils",
                    unit = "W",
                    least = 0.01,
                    most = 100_000)
            @Nullable
            Double ratedWatts) {}

    /** An amplifier's output, or two bridged. */
    public record SpeakerLoadAmplifier(
            @Fact(value = "least load", unit = "Ω", least = 0.1, most = 1000)
            double minOhms,

            @Fact(value = "continuous power by load, where known", mostEntries = 10)
            List<SpeakerLoadWatts> wattsByLoad,

            @Fact("two outputs bridged, where it can be; a bridge has its own least load") @Nullable
            SpeakerLoadBridge bridged) {

        public SpeakerLoadAmplifier {
            wattsByLoad = List.copyOf(wattsByLoad);
            output(minOhms, wattsByLoad);
        }

        private AmplifierOutput single() {
            return output(minOhms, wattsByLoad);
        }
    }

    /** The bridged mode. */
    public record SpeakerLoadBridge(
            @Fact(value = "least load", unit = "Ω", least = 0.1, most = 1000)
            double minOhms,

            @Fact(value = "continuous power by load, where known", mostEntries = 10)
            List<SpeakerLoadWatts> wattsByLoad) {

        public SpeakerLoadBridge {
            wattsByLoad = List.copyOf(wattsByLoad);
            SpeakerLoadCalculation.output(minOhms, wattsByLoad);
        }
    }

    /** Power into a load. */
    public record SpeakerLoadWatts(
            @Fact(value = "load", unit = "Ω", least = 0.1, most = 1000)
            double ohms,

            @Fact(value = "power", unit = "W", least = 0.01, most = 100_000)
            double watts) {}

    /** What was found. */
    public record SpeakerLoadAnswer(
            @Fact("how many distinct wirings there are") int total,
            @Fact("the wirings, best ones first") List<SpeakerLoadWiring> wirings,

            @Fact("the best of all that are safe; absent where none is") @Nullable
            SpeakerLoadWiring best,

            @Fact("the best that is safe on the bridged output") @Nullable
            SpeakerLoadWiring bestBridged,

            @Fact("one that would be better, if the gain is set so that no coil gets more than its rating: usableWatts")
            @Nullable
            SpeakerLoadWiring bestTurnedDown,

            @Fact("the same on the bridged output") @Nullable
            SpeakerLoadWiring bestBridgedTurnedDown,

            @Fact("the wiring that was asked about") @Nullable
            SpeakerLoadWiring given,

            @Fact("the answer in a sentence") String verdict,
            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** A wiring. */
    public record SpeakerLoadWiring(
            @Fact("nested expression: + is series, | parallel, a leading - a coil turned round")
            String wiring,

            @Fact(value = "rated impedance", unit = "Ω") double ohms,

            @Fact(value = "what its impedance may fall to at some frequency", unit = "Ω")
            double minimumOhms,

            @Fact("whether nothing speaks against it on the plain output")
            boolean safe,

            @Fact("which terminals are joined") List<String> joins,
            @Fact("coils that are turned against others") List<String> polarityFaults,

            @Fact("drivers whose two coils carry different currents")
            List<String> unbalancedDrivers,

            @Fact("drivers that get more or less than another of the same kind")
            List<String> unevenDrivers,

            @Fact("coils that it leaves open") List<String> unusedCoils,
            @Fact("what each coil gets") List<SpeakerLoadShare> coils,
            @Fact("how it does on the plain output") SpeakerLoadAtOutput single,

            @Fact("how it does on the bridged output; absent where there is none") @Nullable
            SpeakerLoadAtOutput bridged) {

        static SpeakerLoadWiring of(Assessed assessed) {
            AtOutput bridged = assessed.bridged();
            return new SpeakerLoadWiring(
                    assessed.wiring().text(),
                    assessed.ohms(),
                    assessed.minimumOhms(),
                    assessed.single().safe(),
                    assessed.wiring().joins(),
                    assessed.wiring().polarityFaults(),
                    assessed.unbalancedDrivers(),
                    assessed.unevenDrivers(),
                    assessed.unusedCoils(),
                    assessed.wiring().shares().stream()
                            .map(each -> new SpeakerLoadShare(
                                    each.coil().coil(), each.currentShare() * 100, each.powerShare() * 100))
                            .toList(),
                    SpeakerLoadAtOutput.of(assessed.single()),
                    bridged == null ? null : SpeakerLoadAtOutput.of(bridged));
        }

        static @Nullable SpeakerLoadWiring ofNullable(@Nullable Assessed assessed) {
            return assessed == null ? null : of(assessed);
        }
    }

    /** What a coil gets of the whole. */
    public record SpeakerLoadShare(
            @Fact("driver and number of the coil") String coil,
            @Fact(value = "part of the current", unit = "%") double currentPercent,
            @Fact(value = "part of the power", unit = "%") double powerPercent) {}

    /** A wiring at one output. */
    public record SpeakerLoadAtOutput(
            @Fact("whether nothing speaks against it") boolean safe,
            @Fact("what speaks against it") List<SpeakerHazard> hazards,

            @Fact(
                    value = "what the amplifier surely gives; absent, as what follows, where its watts are unknown",
                    unit = "W")
            @Nullable
            Double leastWatts,

            @Fact(value = "what it may give", unit = "W") @Nullable
            Double mostWatts,

            @Fact(value = "what it surely gives, or what the weakest coil allows where that is less", unit = "W")
            @Nullable
            Double usableWatts,

            @Fact("what each coil gets when the amplifier gives the most it may")
            List<SpeakerLoadDrive> coils) {

        static SpeakerLoadAtOutput of(AtOutput output) {
            return new SpeakerLoadAtOutput(
                    output.safe(),
                    output.hazards(),
                    output.leastWatts(),
                    output.mostWatts(),
                    output.usableWatts(),
                    output.coils().stream()
                            .map(each ->
                                    new SpeakerLoadDrive(each.coil(), each.amps(), each.watts(), each.overloaded()))
                            .toList());
        }
    }

    /** One coil at one output. */
    public record SpeakerLoadDrive(
            @Fact("driver and number of the coil") String coil,

            @Fact(value = "effective current", unit = "A") @Nullable
            Double amps,

            @Fact(value = "power", unit = "W") @Nullable Double watts,
            @Fact("whether that is above its rating") boolean overloaded) {}

    @Override
    protected SpeakerLoadAnswer work(SpeakerLoadQuestion asked, Worksheet sheet) {
        List<SpeakerDriver> drivers = asked.speakers();
        AmplifierOutput single = asked.amplifier().single();
        SpeakerLoadBridge bridge = asked.amplifier().bridged();
        AmplifierOutput bridged = bridge == null ? null : output(bridge.minOhms(), bridge.wattsByLoad());
        int listed = sheet.orAssume(
                asked.listed(), "listed", USUALLY_LISTED, "how many wirings are listed; all are counted and compared");
        sheet.assume(
                "coils",
                "resistances",
                "each coil is taken as a resistance of its rated ohms, as amplifier ratings do");
        assumeWatts(single, drivers, sheet);
        Found found = SpeakerLoad.wirings(drivers, single, bridged, listed);
        WiringText wiring = asked.wiring();
        Assessed given =
                wiring == null ? null : SpeakerLoad.assess(Wiring.parse(wiring, drivers), drivers, single, bridged);
        Assessed best = found.best();
        Assessed shown = given;
        if (shown == null) {
            shown = best == null ? found.listed().get(0) : best;
        }
        show(shown, sheet);
        return new SpeakerLoadAnswer(
                found.total(),
                found.listed().stream().map(SpeakerLoadWiring::of).toList(),
                SpeakerLoadWiring.ofNullable(best),
                SpeakerLoadWiring.ofNullable(found.bestBridged()),
                SpeakerLoadWiring.ofNullable(found.limited()),
                SpeakerLoadWiring.ofNullable(found.limitedBridged()),
                SpeakerLoadWiring.ofNullable(given),
                verdict(found, given, single),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static AmplifierOutput output(double minOhms, List<SpeakerLoadWatts> wattsByLoad) {
        return new AmplifierOutput(
                minOhms,
                wattsByLoad.stream()
                        .map(each -> new AmplifierOutput.LoadWatts(each.ohms(), each.watts()))
                        .toList());
    }

    private static void assumeWatts(AmplifierOutput single, List<SpeakerDriver> drivers, Worksheet sheet) {
        if (single.wattsByLoad().isEmpty()) {
            sheet.assume(
                    "wattsByLoad", "unknown", "no watts are given, so that wirings are ranked by their load alone");
        } else {
            sheet.assume(
                    "wattsBetweenLoads",
                    "volts of the neighbouring loads",
                    "between the loads given, the amplifier is taken as a source of voltage: the lesser volts for what it"
                            + " surely gives, the greater for what coils must bear");
        }
        boolean unrated =
                drivers.stream().flatMap(each -> each.coils().stream()).anyMatch(each -> each.ratedWatts() == null);
        if (unrated) {
            sheet.assume("ratedWatts", "enough", "coils without a rating are not judged for overload");
        }
    }

    private static void show(Assessed shown, Worksheet sheet) {
        showOhms(shown.wiring(), sheet);
        Double watts = shown.single().mostWatts();
        if (watts == null) {
            return;
        }
        double amps = sheet.step(
                "the current into " + shown.wiring().text() + " at the most the amplifier may give",
                "I = sqrt(P / R)",
                Math.sqrt(watts / shown.ohms()),
                "A",
                given("P", watts, "W"),
                given("R", shown.ohms(), "Ω"));
        for (Wiring.Share each : shown.wiring().shares()) {
            sheet.step(
                    "the power in " + each.coil().coil() + " by its share of the current",
                    "Pc = (k × I)^2 × Rc",
                    watts * each.powerShare(),
                    "W",
                    given("k", each.currentShare(), ""),
                    given("I", amps, "A"),
                    given("Rc", each.coil().ohms(), "Ω"));
        }
    }

    /** One step for each group, from the inside out. */
    private static void showOhms(Wiring wiring, Worksheet sheet) {
        List<Wiring> parts = Wiring.partsOf(wiring);
        if (parts.isEmpty()) {
            sheet.step("the coil alone is the load", "R = R1", wiring.ohms(), "Ω", given("R1", wiring.ohms(), "Ω"));
            return;
        }
        parts.stream().filter(each -> !(each instanceof Wiring.One)).forEach(each -> showOhms(each, sheet));
        boolean series = wiring instanceof Wiring.Series;
        Step.Given[] numbers = IntStream.range(0, parts.size())
                .mapToObj(each -> given("R" + (each + 1), parts.get(each).ohms(), "Ω"))
                .toArray(Step.Given[]::new);
        String terms = IntStream.rangeClosed(1, parts.size())
                .mapToObj(each -> (series ? "R" : "1 / R") + each)
                .collect(Collectors.joining(" + "));
        sheet.step(
                wiring.text() + (series ? ": in series ohms add up" : ": side by side the reciprocals of ohms add up"),
                series ? "R = " + terms : "R = 1 / (" + terms + ")",
                wiring.ohms(),
                "Ω",
                numbers);
    }

    private static String verdict(Found found, @Nullable Assessed given, AmplifierOutput single) {
        Assessed best = found.best();
        List<String> sentences = new ArrayList<>();
        if (given != null) {
            sentences.add(
                    given.single().safe()
                            ? say("The wiring given is safe at %.2f Ω.", given.ohms())
                            : say(
                                    "The wiring given is not safe at %.2f Ω: %s.",
                                    given.ohms(), hazards(given.single().hazards())));
        }
        sentences.add(
                best == null
                        ? say(
                                "None of the %d wirings is safe on an output for %.2f Ω and more.",
                                found.total(), single.minOhms())
                        : say(
                                "Best of %d wirings is %s at %.2f Ω.",
                                found.total(), best.wiring().text(), best.ohms()));
        Assessed limited = found.limited();
        Double usable = limited == null ? null : limited.single().usableWatts();
        if (limited != null && usable != null) {
            sentences.add(say(
                    "With the gain set for at most %.0f W, %s at %.2f Ω would be better.",
                    usable, limited.wiring().text(), limited.ohms()));
        }
        return String.join(" ", sentences);
    }

    private static String hazards(List<SpeakerHazard> hazards) {
        return hazards.stream()
                .map(each -> each.name().toLowerCase(Locale.ROOT).replace('_', ' '))
                .collect(Collectors.joining(", "));
    }

    private static String say(String format, Object... figures) {
        return String.format(Locale.ROOT, format, figures);
    }
}
