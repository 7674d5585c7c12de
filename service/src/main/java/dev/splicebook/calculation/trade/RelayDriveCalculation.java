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
import dev.splicebook.electrics.ContactLoad;
import dev.splicebook.electrics.RelayCoil;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/** Whether an output drives a relay, and what the coil does when it is turned off. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "relay-drive",
        purpose =
                "Whether an output can drive a relay's coil, what the coil does to it when it is turned off with nothing, a"
                        + " diode or a resistor across, and whether the contact bears its load.",
        method =
                "Coil current by Ohm's law at 20 °C, where it is greatest. After opening the current falls after L·di/dt ="
                        + " −i·R − v through what is across the coil. A diode is a plain junction unless its drop is given. With"
                        + " nothing across, the volts are what the coil's energy makes of its stray capacity, unless something breaks"
                        + " down first. Release is when the current is down to the release share of its nominal one; the armature's"
                        + " own milliseconds come on top.",
        sources = {
            "v = L·di/dt and Ohm's law: laws; decay through a junction checked with a circuit simulator",
            "an unsuppressed 12 V relay coil: 1000 to 1500 V, published in service literature",
            "copper's zero-resistance offset of 234.5 °C: FAA AC 43.13-1B chapter 11",
            "share of a contact's rating for lamps, motors and coils: common practice, no source; pull-in and release"
                    + " shares: from memory"
        },
        cautions = Cautions.FUSE)
public final class RelayDriveCalculation
        extends Worked<RelayDriveCalculation.RelayDriveQuestion, RelayDriveCalculation.RelayDriveAnswer> {

    /** Drivers without a clamp of their own are often made for this: common practice, no source. */
    private static final double HARMFUL_VOLTS = 60;

    public RelayDriveCalculation() {
        super(RelayDriveQuestion.class, RelayDriveAnswer.class);
    }

    /** Coil, driver and contact. */
    public record RelayDriveQuestion(
            @Fact(value = "nominal volts of the coil", unit = "V", least = 3, most = 60, usual = "12") @Nullable
            Double coilVolts,

            @Fact(value = "resistance of the coil at 20 °C", unit = "Ω", least = 1, most = 20_000)
            double coilOhms,

            @Fact(value = "supply", unit = "V", least = 1, most = 60, usual = "14.2") @Nullable
            Double supplyVolts,

            @Fact(value = "most that the output gives or sinks", unit = "A", least = 0.001, most = 200) @Nullable
            Double driverLimitAmps,

            @Fact(
                    value = "inductance of the coil",
                    unit = "H",
                    least = 1e-6,
                    most = 100,
                    usual = "2.5 ms times its ohms")
            @Nullable
            Double inductanceHenries,

            @Fact(value = "what is across the coil", usual = "none") @Nullable
            CoilClamp clamp,

            @Fact(
                    value = "drop of the diode",
                    unit = "V",
                    least = 0.1,
                    most = 100,
                    usual = "by the law of a plain junction")
            @Nullable
            Double diodeVolts,

            @Fact(value = "resistor across the coil", unit = "Ω", least = 1, most = 1_000_000, usual = "680") @Nullable
            Double resistorOhms,

            @Fact(
                    value = "stray capacity of the coil and its wiring",
                    unit = "nF",
                    least = 0.001,
                    most = 1000,
                    usual = "2")
            @Nullable
            Double strayNanofarads,

            @Fact(
                    value = "share of the nominal volts at which a coil of 20 °C pulls in for certain",
                    least = 0.1,
                    most = 1,
                    usual = "0.6")
            @Nullable
            Double pullInShare,

            @Fact(
                    value = "share of the nominal volts at which it has let go for certain",
                    least = 0.01,
                    most = 0.9,
                    usual = "0.1")
            @Nullable
            Double releaseShare,

            @Fact(value = "temperature of the coil at its hottest", unit = "°C", least = -40, most = 180, usual = "85")
            @Nullable
            Double coilCelsius,

            @Fact(value = "lowest supply at which it must pull in", unit = "V", least = 1, most = 60, usual = "9.5")
            @Nullable
            Double lowSupplyVolts,

            @Fact(value = "what the contact switches", usual = "resistive") @Nullable
            ContactLoad contactLoad,

            @Fact(value = "steady current of that", unit = "A", least = 0.001, most = 1000) @Nullable
            Double contactLoadAmps,

            @Fact(value = "rating of the contact, resistive", unit = "A", least = 0.01, most = 1000) @Nullable
            Double contactRatingAmps,

            @Fact(
                    value = "share of that rating that such a load may use",
                    least = 0.05,
                    most = 1,
                    usual = "1 resistive, 0.6 inductive, 0.5 lamp or motor")
            @Nullable
            Double contactUsableShare) {

        public RelayDriveQuestion {
            Guard guard = new Guard();
            Either.needs(guard, "contactLoadAmps", contactLoadAmps, "contactRatingAmps", contactRatingAmps);
            Either.needs(guard, "contactRatingAmps", contactRatingAmps, "contactLoadAmps", contactLoadAmps);
            Either.needs(guard, "contactLoad", contactLoad, "contactLoadAmps", contactLoadAmps);
            Either.needs(guard, "contactUsableShare", contactUsableShare, "contactRatingAmps", contactRatingAmps);
            guard.check();
        }
    }

    /** What is across a coil. */
    public enum CoilClamp {
        NONE,
        DIODE,
        RESISTOR
    }

    /** Coil, driver, flyback and contact. */
    public record RelayDriveAnswer(
            @Fact(value = "current of the coil at 20 °C", unit = "A")
            double coilAmps,

            @Fact(value = "heat of the coil", unit = "W") double coilWatts,

            @Fact(value = "what the output carries: the coil, and the resistor where one is fitted", unit = "A")
            double driverAmps,

            @Fact("whether the output can drive it, of amperes alone; absent without a limit") @Nullable
            Boolean canDrive,

            @Fact("limit over current; at least 1 can be driven") @Nullable
            Double driverMargin,

            @Fact(value = "volts at which the hot coil pulls in for certain", unit = "V")
            double pullInVolts,

            @Fact("whether it pulls in hot, at the lowest supply")
            boolean pullsIn,

            @Fact(value = "time constant of the coil alone", unit = "ms")
            double tauMilliseconds,

            @Fact("what is across the coil, given or assumed")
            CoilClamp clamp,

            @Fact("what happens at opening with each, the one across first")
            List<FlybackCase> flyback,

            @Fact(value = "what the contact may carry of such a load", unit = "A") @Nullable
            Double contactUsableAmps,

            @Fact("that over the load; at least 1 bears it") @Nullable
            Double contactMargin,

            @Fact("whether the contact bears the load") @Nullable
            Boolean contactBears,

            @Fact(value = "what such a load may draw at first", unit = "A") @Nullable
            Double contactInrushAmps,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** A coil that is turned off with something, or nothing, across it. */
    public record FlybackCase(
            @Fact("what is across the coil") CoilClamp clamp,

            @Fact(value = "volts across the coil at most, against the supply", unit = "V")
            double coilVolts,

            @Fact(value = "volts across the open output at most", unit = "V")
            double driverVolts,

            @Fact(value = "until the current is down to where the relay lets go", unit = "ms")
            double releaseMilliseconds,

            @Fact("current of the coil after each whole time constant of the coil alone, from none to four")
            List<DecayPoint> decay) {}

    /** A current, a while after opening. */
    public record DecayPoint(
            @Fact(value = "after opening", unit = "ms") double milliseconds,
            @Fact(value = "current of the coil", unit = "A") double amps) {}

    /** The coil as it is at opening. */
    private record Opening(double volts, double amps, double ohms, double henries, double releaseAmps) {

        double tauSeconds() {
            return RelayCoil.tauSeconds(henries, ohms);
        }

        FlybackCase flyback(CoilClamp clamp, double clampVolts, double releaseSeconds, DoubleUnaryOperator ampsAt) {
            return new FlybackCase(
                    clamp,
                    clampVolts,
                    RelayCoil.driverVolts(volts, clampVolts),
                    releaseSeconds * 1000,
                    IntStream.rangeClosed(0, 4)
                            .mapToObj(taus -> new DecayPoint(
                                    1000 * taus * tauSeconds(),
                                    taus == 0 ? amps : ampsAt.applyAsDouble(taus * tauSeconds())))
                            .toList());
        }
    }

    @Override
    protected RelayDriveAnswer work(RelayDriveQuestion asked, Worksheet sheet) {
        double nominal = sheet.orAssume(asked.coilVolts(), "coilVolts", 12, "V", "a relay of a 12 V vehicle");
        double supply = sheet.orAssume(asked.supplyVolts(), "supplyVolts", 14.2, "V", "a running vehicle");
        double ohms = asked.coilOhms();
        double amps = sheet.step(
                "the coil draws the supply by its ohms",
                "I = U / R",
                RelayCoil.amps(supply, ohms),
                "A",
                given("U", supply, "V"),
                given("R", ohms, "Ω"));
        double henries = asked.inductanceHenries() == null
                ? sheet.assume(
                        "inductanceHenries",
                        0.0025 * ohms,
                        "H",
                        "a time constant of 2.5 ms: common practice, no source")
                : asked.inductanceHenries();
        double tau = sheet.step(
                "time constant of the coil",
                "τ = 1000 × L / R",
                1000 * RelayCoil.tauSeconds(henries, ohms),
                "ms",
                given("L", henries, "H"),
                given("R", ohms, "Ω"));
        double release = sheet.orAssume(asked.releaseShare(), "releaseShare", 0.1, "", "must-release, from memory");
        double releaseAmps = sheet.step(
                "the relay has let go at its release share of the nominal current",
                "Ir = r × Un / R",
                release * nominal / ohms,
                "A",
                given("r", release, ""),
                given("Un", nominal, "V"),
                given("R", ohms, "Ω"));

        Opening opening = new Opening(supply, amps, ohms, henries, releaseAmps);
        CoilClamp clamp =
                sheet.orAssume(asked.clamp(), "clamp", CoilClamp.NONE, "nothing is said to be across the coil");
        double resistorOhms = asked.resistorOhms() != null
                ? asked.resistorOhms()
                : sheet.assume("resistorOhms", 680, "Ω", "usual in 12 V relays: common practice, no source");
        List<FlybackCase> cases = new ArrayList<>(List.of(
                unclamped(asked, opening, sheet),
                withDiode(asked.diodeVolts(), opening, sheet),
                withResistor(resistorOhms, opening, sheet)));
        cases.sort(Comparator.comparing(each -> each.clamp() != clamp));
        double driverAmps = clamp != CoilClamp.RESISTOR
                ? amps
                : sheet.step(
                        "the output carries the resistor's current too",
                        "Id = I + U / Rp",
                        amps + RelayCoil.amps(supply, resistorOhms),
                        "A",
                        given("I", amps, "A"),
                        given("U", supply, "V"),
                        given("Rp", resistorOhms, "Ω"));
        double pullIn = pullInVolts(asked, nominal, sheet);
        double lowSupply =
                sheet.orAssume(asked.lowSupplyVolts(), "lowSupplyVolts", 9.5, "V", "a 12 V vehicle while it cranks");
        if (clamp != CoilClamp.DIODE && cases.get(0).driverVolts() > HARMFUL_VOLTS) {
            sheet.caution(
                    "More than 60 V at turn-off kills an output that has no clamp of its own: put a diode across the"
                            + " coil, its cathode to the plus side.");
        }
        @Nullable Double limit = asked.driverLimitAmps();
        Contact contact = contact(asked, sheet);
        return new RelayDriveAnswer(
                amps,
                supply * amps,
                driverAmps,
                limit == null ? null : Boolean.valueOf(driverAmps <= limit),
                limit == null ? null : Double.valueOf(limit / driverAmps),
                pullIn,
                pullIn <= lowSupply,
                tau,
                clamp,
                List.copyOf(cases),
                contact.usableAmps(),
                contact.margin(),
                contact.bears(),
                contact.inrushAmps(),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static FlybackCase unclamped(RelayDriveQuestion asked, Opening opening, Worksheet sheet) {
        double stray = sheet.orAssume(
                asked.strayNanofarads(),
                "strayNanofarads",
                2,
                "nF",
                "which takes a usual coil to the published 1500 V");
        double volts = sheet.step(
                "with nothing across, the coil's energy goes into its stray capacity",
                "Uc = I × sqrt(L / (C × 1e-9))",
                RelayCoil.unclampedVolts(opening.amps(), opening.henries(), stray * 1e-9),
                "V",
                given("I", opening.amps(), "A"),
                given("L", opening.henries(), "H"),
                given("C", stray, "nF"));
        // the current is gone a quarter of a swing after opening, as far as a time constant can tell
        double seconds = RelayCoil.unclampedSeconds(opening.henries(), stray * 1e-9);
        return opening.flyback(
                CoilClamp.NONE,
                volts,
                opening.amps() <= opening.releaseAmps() ? 0 : seconds,
                at -> at >= seconds ? 0 : opening.amps() * Math.cos(Math.PI / 2 * at / seconds));
    }

    private static FlybackCase withDiode(@Nullable Double diodeVolts, Opening opening, Worksheet sheet) {
        if (diodeVolts == null) {
            sheet.assume(
                    "diodeVolts", "plain junction", "0.0258649 V × ln(1 + i / 1e-14 A), as circuit simulators take it");
            double volts = sheet.step(
                    "a plain junction drops at opening",
                    "Ud = 0.025864926 × ln(1 + I / 1e-14)",
                    RelayCoil.junctionVolts(opening.amps()),
                    "V",
                    given("I", opening.amps(), "A"));
            return opening.flyback(
                    CoilClamp.DIODE,
                    volts,
                    RelayCoil.junctionDecaySeconds(
                            opening.amps(), opening.releaseAmps(), opening.ohms(), opening.henries()),
                    at -> RelayCoil.junctionDecayAmps(opening.amps(), opening.ohms(), opening.henries(), at));
        }
        return opening.flyback(
                CoilClamp.DIODE,
                diodeVolts,
                release("a diode", diodeVolts, opening.ohms(), opening, sheet),
                at -> RelayCoil.decayAmps(opening.amps(), opening.ohms(), opening.henries(), diodeVolts, at));
    }

    private static FlybackCase withResistor(double resistorOhms, Opening opening, Worksheet sheet) {
        double volts = sheet.step(
                "with a resistor across, the coil's current drops along it",
                "Ur = I × Rp",
                opening.amps() * resistorOhms,
                "V",
                given("I", opening.amps(), "A"),
                given("Rp", resistorOhms, "Ω"));
        double loopOhms = opening.ohms() + resistorOhms;
        return opening.flyback(
                CoilClamp.RESISTOR,
                volts,
                release("a resistor", 0, loopOhms, opening, sheet),
                at -> RelayCoil.decayAmps(opening.amps(), loopOhms, opening.henries(), 0, at));
    }

    private static double release(String with, double clampVolts, double ohms, Opening opening, Worksheet sheet) {
        double seconds =
                RelayCoil.decaySeconds(opening.amps(), opening.releaseAmps(), ohms, opening.henries(), clampVolts);
        if (seconds > 0) {
            sheet.step(
                    "with " + with + " across, the relay has let go after",
                    "tr = 1000 × L / R × ln((I + V / R) / (Ir + V / R))",
                    1000 * seconds,
                    "ms",
                    given("L", opening.henries(), "H"),
                    given("R", ohms, "Ω"),
                    given("I", opening.amps(), "A"),
                    given("Ir", opening.releaseAmps(), "A"),
                    given("V", clampVolts, "V"));
        }
        return seconds;
    }

    private static double pullInVolts(RelayDriveQuestion asked, double nominal, Worksheet sheet) {
        double share =
                sheet.orAssume(asked.pullInShare(), "pullInShare", 0.6, "", "must-operate at 20 °C, from memory");
        double celsius = sheet.orAssume(asked.coilCelsius(), "coilCelsius", 85, "°C", "a coil in a warm place");
        return sheet.step(
                "a hot coil has more ohms and needs more volts for the same pull",
                "Up = p × Un × (234.5 + T) / 254.5",
                RelayCoil.ohmsAt(share * nominal, celsius),
                "V",
                given("p", share, ""),
                given("Un", nominal, "V"),
                given("T", celsius, "°C"));
    }

    private record Contact(
            @Nullable Double usableAmps,
            @Nullable Double margin,
            @Nullable Boolean bears,
            @Nullable Double inrushAmps) {}

    private static Contact contact(RelayDriveQuestion asked, Worksheet sheet) {
        @Nullable Double load = asked.contactLoadAmps();
        @Nullable Double rating = asked.contactRatingAmps();
        if (load == null || rating == null) {
            return new Contact(null, null, null, null);
        }
        ContactLoad kind = sheet.orAssume(
                asked.contactLoad(), "contactLoad", ContactLoad.RESISTIVE, "nothing is said of the load");
        double share = sheet.orAssume(
                asked.contactUsableShare(),
                "contactUsableShare",
                kind.usableShare(),
                "",
                "for a load of this kind: common practice, no source");
        double margin = sheet.step(
                "margin of the contact: what may be used of its rating, by the load",
                "m = Ic × s / Il",
                ContactLoad.margin(rating, share, load),
                "",
                given("Ic", rating, "A"),
                given("s", share, ""),
                given("Il", load, "A"));
        double inrush = load
                * sheet.assume(
                        "inrush of such a load", kind.inrushTimes(), "times its current", "common practice, no source");
        // the margin is 1 where rating and load are equal but for rounding
        return new Contact(rating * share, margin, margin >= 1 - 1e-9, inrush);
    }
}
