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
import dev.splicebook.electrics.KeyLadder;
import dev.splicebook.electrics.KeyLadder.Identified;
import dev.splicebook.electrics.KeyLadder.LadderArrangement;
import dev.splicebook.electrics.KeyLadder.LadderReadAcross;
import dev.splicebook.electrics.KeyLadder.LadderSpread;
import dev.splicebook.electrics.KeyLadder.Level;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** What each key of a resistive ladder reads, and which key a reading is. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "key-ladder",
        purpose =
                "What each steering-wheel key of a resistive ladder reads, which keys can be taken for one another, and"
                        + " which key a reading is.",
        method =
                "The ladder and one fixed resistor divide the supply, which is the converter's reference too, so that supply"
                        + " volts drop out of the counts: 2^bits times the share, rounded. Windows meet halfway between neighbours."
                        + " A key can be confused where tolerances, a contact from new to worn, and one count of the converter carry"
                        + " its reading into another's window; how probable that is, is computed from the spread of each part, not"
                        + " drawn. Two keys pressed at once are left out.",
        sources = {
            "voltage divider: Ohm's law",
            "resistors within tolerance, three standard deviations where normal; converters off by a count: common practice,"
                    + " no source"
        },
        cautions = Cautions.AIRBAG)
public final class KeyLadderCalculation
        extends Worked<KeyLadderCalculation.KeyLadderQuestion, KeyLadderCalculation.KeyLadderAnswer> {

    private static final int USUAL_BITS = 10;
    private static final double USUAL_SUPPLY_VOLTS = 5;

    /** A chance of confusion above one in a thousand ladders is a nuisance: common practice, no source. */
    private static final double NUISANCE_PROBABILITY = 0.001;

    public KeyLadderCalculation() {
        super(KeyLadderQuestion.class, KeyLadderAnswer.class);
    }

    /** A ladder, its reader, and readings to be told. */
    public record KeyLadderQuestion(
            @Fact(
                    value =
                            "series: a chain that a key shorts behind its own resistor; parallel: a resistor for each key",
                    usual = "parallel")
            @Nullable
            LadderArrangement arrangement,

            @Fact(
                    value = "the keys; in a chain the one nearest to the reader first",
                    leastEntries = 1,
                    mostEntries = 32)
            List<LadderKey> keys,

            @Fact(
                    value =
                            "resistor that is always there: behind the last key of a chain, or beside the keys of a set",
                    unit = "Ω",
                    least = 0.1,
                    most = 1e7,
                    usual = "open")
            @Nullable
            Double endOhms,

            @Fact(
                    value = "fixed resistor: the pull-up, or the pull-down if read across it",
                    unit = "Ω",
                    least = 1,
                    most = 1e7)
            double pullUpOhms,

            @Fact(
                    value =
                            "keys, the fixed resistor being the pull-up; or fixed, the keys standing on the supply's side",
                    usual = "keys")
            @Nullable
            LadderReadAcross readAcross,

            @Fact(value = "supply and reference of the converter", unit = "V", least = 0.5, most = 30, usual = "5")
            @Nullable
            Double supplyVolts,

            @Fact(value = "tolerance of the ladder's resistors, as a share", least = 0, most = 0.5, usual = "0.05")
            @Nullable
            Double toleranceShare,

            @Fact(
                    value = "tolerance of the fixed resistor, as a share",
                    least = 0,
                    most = 0.5,
                    usual = "as the ladder's")
            @Nullable
            Double pullUpToleranceShare,

            @Fact(value = "how values lie within tolerance", usual = "normal") @Nullable
            LadderSpread spread,

            @Fact(value = "bits of the converter", least = 4, most = 16, usual = "10") @Nullable
            Integer adcBits,

            @Fact(
                    value = "resistance of a worn contact; a new one has none",
                    unit = "Ω",
                    least = 0,
                    most = 10_000,
                    usual = "0")
            @Nullable
            Double contactOhms,

            @Fact(value = "readings whose keys are wanted", mostEntries = 100)
            List<LadderReading> readings) {

        public KeyLadderQuestion {
            keys = List.copyOf(keys);
            readings = List.copyOf(readings);
            Guard guard = new Guard();
            Set<String> names = new HashSet<>();
            for (int index = 0; index < keys.size(); index++) {
                String name = keys.get(index).name();
                guard.refuseIf(
                        !names.add(name),
                        "keys/" + index + "/name",
                        "duplicate",
                        () -> "\"" + name + "\" is the name of another key");
            }
            int mostCounts = (1 << (adcBits == null ? USUAL_BITS : adcBits)) - 1;
            double mostVolts = supplyVolts == null ? USUAL_SUPPLY_VOLTS : supplyVolts;
            for (int index = 0; index < readings.size(); index++) {
                LadderReading reading = readings.get(index);
                guard.between("readings/" + index + "/counts", reading.counts(), 0, mostCounts)
                        .between("readings/" + index + "/volts", reading.volts(), 0, mostVolts);
            }
            guard.check();
        }
    }

    /** A key. */
    public record LadderKey(
            @Fact("what it does; not none, which is no key pressed")
            String name,

            @Fact(
                    value = "its own resistor; in a chain the one between the key before it and itself",
                    unit = "Ω",
                    least = 0,
                    most = 1e7)
            double ohms) {

        public LadderKey {
            new Guard()
                    .refuseIf(
                            KeyLadder.NONE.equals(name),
                            "name",
                            "reserved",
                            () -> "\"none\" is the name of no key pressed")
                    .check();
        }
    }

    /** A reading, in one of three ways. */
    public record LadderReading(
            @Fact(value = "at the reader, at most its supply; or counts or ohms", unit = "V", least = 0, most = 30)
            @Nullable
            Double volts,

            @Fact(value = "of the converter; or volts or ohms", least = 0, most = 65_535) @Nullable
            Integer counts,

            @Fact(
                    value = "of the ladder, unplugged from its reader; or volts or counts",
                    unit = "Ω",
                    least = 0,
                    most = 1e9)
            @Nullable
            Double ohms) {

        public LadderReading {
            long given = Stream.of(volts != null, counts != null, ohms != null)
                    .filter(each -> each)
                    .count();
            String second = volts != null && counts != null ? "counts" : "ohms";
            new Guard()
                    .refuseIf(
                            given == 0,
                            "volts",
                            "missing-field",
                            () -> "volts is missing; volts, counts or ohms is given")
                    .refuseIf(
                            given > 1,
                            second,
                            "either-or",
                            () -> second + " stands beside another; one of the three is given")
                    .check();
        }
    }

    /** How sure a reading is. */
    public enum LadderMatch {
        ONE,
        AMBIGUOUS,
        NO_KEY_FITS
    }

    /** Readings by key, confusions, and keys by reading. */
    public record KeyLadderAnswer(
            @Fact("the learning table: each key and none, by ascending reading")
            List<LadderLevel> levels,

            @Fact("keys that can be taken for one another, the most probable first")
            List<LadderConfusion> confusions,

            @Fact(
                    "least counts between what a key may read and the end of its window; negative where windows are overrun")
            double leastMarginCounts,

            @Fact("the key of each reading, in the order given")
            List<LadderIdentified> readings,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** What a key, or none, reads. */
    public record LadderLevel(
            @Fact("the key, or none for no key pressed") String key,

            @Fact(value = "of the ladder with the contact worn; absent if open", unit = "Ω") @Nullable
            Double ohms,

            @Fact(value = "at the reader", unit = "V") double volts,
            @Fact("of the converter") int counts,

            @Fact("least counts that tolerances, contact and converter allow, unrounded")
            double leastCounts,

            @Fact("most counts that they allow, unrounded") double mostCounts,

            @Fact("first count that is taken for it; absent if the converter cannot tell it from its neighbour")
            @Nullable
            Integer windowFromCounts,

            @Fact("last count that is taken for it; absent likewise") @Nullable
            Integer windowToCounts) {}

    /** One key taken for another. */
    public record LadderConfusion(
            @Fact("the key that is pressed") String pressed,
            @Fact("the key that it is taken for") String readAs,
            @Fact("how probable that is, from 0 to 1") double probability,

            @Fact("whether tolerances alone can bring it about; otherwise it is the tail of a normal spread")
            boolean withinTolerance) {}

    /** The key of a reading. */
    public record LadderIdentified(
            @Fact("one, ambiguous or no-key-fits") LadderMatch match,

            @Fact("every key that tolerances allow, the nearest first")
            List<String> keys,

            @Fact("the key that reads nearest, whether it fits or not")
            String nearest) {

        static LadderIdentified of(Identified identified) {
            int fitting = identified.keys().size();
            return new LadderIdentified(
                    fitting == 0 ? LadderMatch.NO_KEY_FITS : fitting == 1 ? LadderMatch.ONE : LadderMatch.AMBIGUOUS,
                    identified.keys(),
                    identified.nearest());
        }
    }

    @Override
    protected KeyLadderAnswer work(KeyLadderQuestion asked, Worksheet sheet) {
        double supply = sheet.orAssume(asked.supplyVolts(), "supplyVolts", USUAL_SUPPLY_VOLTS, "V", "of most readers");
        KeyLadder ladder = ladder(asked, sheet);
        List<Level> levels = ladder.levels();
        levels.forEach(level -> show(level, ladder, supply, sheet));
        List<KeyLadder.Confusion> confusions = ladder.confusions();
        double steps = 1 << ladder.adcBits();
        if (!confusions.isEmpty() && confusions.get(0).probability() > NUISANCE_PROBABILITY) {
            sheet.caution(
                    "Keys of this ladder are likely to be taken for one another: let the interface learn each key on the"
                            + " very vehicle, or fit closer resistors.");
        }
        return new KeyLadderAnswer(
                levels.stream()
                        .map(level -> new LadderLevel(
                                level.key(),
                                Double.isInfinite(level.ohms()) ? null : Double.valueOf(level.ohms()),
                                supply * level.ratio(),
                                level.counts(),
                                level.leastCounts(),
                                level.mostCounts(),
                                level.windowFromCounts() <= level.windowToCounts() ? level.windowFromCounts() : null,
                                level.windowFromCounts() <= level.windowToCounts() ? level.windowToCounts() : null))
                        .toList(),
                confusions.stream()
                        .map(each -> new LadderConfusion(
                                each.pressed(), each.readAs(), each.probability(), each.withinTolerance()))
                        .toList(),
                ladder.leastMarginCounts(),
                asked.readings().stream()
                        .map(reading -> LadderIdentified.of(identified(reading, ladder, supply, steps)))
                        .toList(),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static KeyLadder ladder(KeyLadderQuestion asked, Worksheet sheet) {
        double tolerance = sheet.orAssume(
                asked.toleranceShare(),
                "toleranceShare",
                0.05,
                "",
                "usual carbon resistors: common practice, no source");
        return new KeyLadder(
                sheet.orAssume(
                        asked.arrangement(), "arrangement", LadderArrangement.PARALLEL, "a resistor for each key"),
                asked.keys().stream()
                        .map(key -> new KeyLadder.Key(key.name(), key.ohms()))
                        .toList(),
                asked.endOhms(),
                asked.pullUpOhms(),
                sheet.orAssume(
                        asked.readAcross(), "readAcross", LadderReadAcross.KEYS, "the fixed resistor is a pull-up"),
                sheet.orAssume(asked.contactOhms(), "contactOhms", 0, "Ω", "new contacts"),
                tolerance,
                sheet.orAssume(asked.pullUpToleranceShare(), "pullUpToleranceShare", tolerance, "", "as the ladder's"),
                sheet.orAssume(asked.spread(), "spread", LadderSpread.NORMAL, "tolerance is three standard deviations"),
                (int) sheet.orAssume(
                        asked.adcBits() == null ? null : Double.valueOf(asked.adcBits()),
                        "adcBits",
                        USUAL_BITS,
                        "bits",
                        "of most converters"));
    }

    private static void show(Level level, KeyLadder ladder, double supply, Worksheet sheet) {
        double volts = supply * level.ratio();
        boolean open = Double.isInfinite(level.ohms());
        if (!open) {
            showOhms(level, ladder, sheet);
            boolean across = ladder.readAcross() == LadderReadAcross.KEYS;
            sheet.step(
                    level.key() + ": the share of the supply that is read",
                    across ? "U = Us × R / (R + Rp)" : "U = Us × Rp / (R + Rp)",
                    volts,
                    "V",
                    given("Us", supply, "V"),
                    given("R", level.ohms(), "Ω"),
                    given("Rp", ladder.fixedOhms(), "Ω"));
        }
        sheet.step(
                level.key() + ": what the converter makes of it",
                "N = min(2^b - 1, floor(2^b × U / Us + 0.5))",
                level.counts(),
                "counts",
                given("b", ladder.adcBits(), ""),
                given("U", volts, "V"),
                given("Us", supply, "V"));
    }

    /** How a chain, or a set with a resistor beside it, makes up what is seen; a set without one shows it as it is. */
    private static void showOhms(Level level, KeyLadder ladder, Worksheet sheet) {
        List<KeyLadder.Key> keys = ladder.keys();
        boolean pressed = !level.key().equals(KeyLadder.NONE);
        @Nullable Double end = ladder.endOhms();
        List<Step.Given> row = new ArrayList<>();
        for (int index = 0; index < keys.size(); index++) {
            boolean here = keys.get(index).name().equals(level.key());
            if (here || ladder.arrangement() == LadderArrangement.SERIES) {
                row.add(given("R" + (index + 1), keys.get(index).ohms(), "Ω"));
            }
            if (here) {
                break;
            }
        }
        if (pressed) {
            row.add(given("Rc", ladder.contactOhms(), "Ω"));
        }
        boolean beside = ladder.arrangement() == LadderArrangement.PARALLEL && end != null;
        if (!pressed && end != null) {
            if (beside) {
                return;
            }
            row.add(given("Re", end, "Ω"));
        }
        String sum = String.join(" + ", row.stream().map(Step.Given::symbol).toList());
        if (beside && end != null) {
            row.add(given("Re", end, "Ω"));
        }
        sheet.step(
                level.key()
                        + (beside
                                ? ": the key's resistor and contact beside the end resistor"
                                : ": what stands in its row"),
                beside ? "R = (" + sum + ") × Re / (" + sum + " + Re)" : "R = " + sum,
                level.ohms(),
                "Ω",
                row.toArray(Step.Given[]::new));
    }

    private static Identified identified(LadderReading reading, KeyLadder ladder, double supply, double steps) {
        @Nullable Double volts = reading.volts();
        @Nullable Integer counts = reading.counts();
        @Nullable Double ohms = reading.ohms();
        if (ohms != null) {
            return ladder.identifyOhms(ohms);
        }
        return ladder.identify(volts != null ? volts / supply : counts != null ? counts / steps : 0);
    }
}
