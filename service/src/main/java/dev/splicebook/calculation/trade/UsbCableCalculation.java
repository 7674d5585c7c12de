package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;
import static dev.splicebook.calculation.trade.WireSteps.figure;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.NoAnswerException;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.UsbCable;
import dev.splicebook.electrics.UsbCable.Segment;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Whether a USB lead is too long. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "usb-cable",
        purpose =
                "Which volts reach a device at the end of a USB lead, whether the lead is too long, and what to shorten.",
        method =
                "Drop in both power lines with their contacts, delay by length, and the longest cable by gauge; several"
                        + " pieces in a row use up shares of that. Passive leads only: a hub or an active extension starts anew.",
        sources = {
            "USB 2.0: port at least 4.75 V, low-power device down to 4.4 V, 5.2 ns a metre and at most 26 ns; longest cable"
                    + " by gauge of the power pair (secondary copy)",
            "Contact of at most 30 mΩ over its life: USB 2.0, from memory",
            WireSteps.AWG_SOURCE,
            WireSteps.RESISTANCE_SOURCE
        })
public final class UsbCableCalculation
        extends Worked<UsbCableCalculation.UsbCableQuestion, UsbCableCalculation.UsbCableAnswer> {

    private static final double STANDARD_AMPS = 0.5;

    public UsbCableCalculation() {
        super(UsbCableQuestion.class, UsbCableAnswer.class);
    }

    /** One piece of the lead. */
    public record UsbSegment(
            @Fact("gauge of its power pair, like 28 AWG") ConductorSize gauge,
            @Fact("its length, above 0 to 1000 m") Length length) {}

    /** A lead and a device. */
    public record UsbCableQuestion(
            @Fact(value = "the pieces, from port to device", leastEntries = 1, mostEntries = 20)
            List<UsbSegment> segments,

            @Fact(value = "what the device draws", unit = "A", least = 0.001, most = 5)
            double currentAmps,

            @Fact(
                    value = "mated contacts in each power line",
                    least = 0,
                    most = 50,
                    usual = "one more than there are segments")
            @Nullable
            Integer contacts,

            @Fact(value = "resistance of each contact", unit = "Ω", least = 0, most = 1, usual = "0.03") @Nullable
            Double contactOhms,

            @Fact(value = "volts at the port under load", unit = "V", least = 4, most = 5.5, usual = "4.75") @Nullable
            Double portVolts,

            @Fact(value = "least volts that the device works with", unit = "V", least = 3, most = 5.5, usual = "4.4")
            @Nullable
            Double leastDeviceVolts,

            @Fact(value = "temperature of the wire", unit = "°C", least = -40, most = 105, usual = "20") @Nullable
            Double temperatureCelsius) {

        public UsbCableQuestion {
            segments = List.copyOf(segments);
            double port = portVolts == null ? UsbCable.PORT_VOLTS : portVolts;
            double device = leastDeviceVolts == null ? UsbCable.DEVICE_VOLTS : leastDeviceVolts;
            new Guard()
                    .refuseIf(
                            device > port,
                            leastDeviceVolts == null ? "portVolts" : "leastDeviceVolts",
                            "inconsistent",
                            () -> "the device needs " + figure(device) + " V, above the port's " + figure(port) + " V")
                    .check();
        }
    }

    /** Whether a lead keeps to USB 2.0. */
    public enum UsbVerdict {
        PASSES,
        FAILS
    }

    /** What one piece takes. */
    public record UsbSegmentShare(
            @Fact("gauge of its power pair") ConductorSize gauge,
            @Fact(value = "its length", unit = "m") double lengthMetres,

            @Fact(value = "volts that it takes, both lines", unit = "V")
            double dropVolts,

            @Fact(value = "longest whole cable of this gauge; absent below the thinnest of the table", unit = "m")
            @Nullable
            Double longestMetres) {}

    /** What to do about it. */
    public record UsbShortening(
            @Fact("which piece, from 0") int segment,

            @Fact(value = "longest that it may be with all else as it is; absent if no length of it passes", unit = "m")
            @Nullable
            Double toMetres,

            @Fact("the thinnest gauge of the table with which its length would pass; absent if none does") @Nullable
            ConductorSize orGauge) {}

    /** Volts, delay and verdict. */
    public record UsbCableAnswer(
            @Fact("whether the lead keeps to all three limits")
            UsbVerdict verdict,

            @Fact("which limits are broken, with figures") List<String> reasons,
            @Fact(value = "volts at the device", unit = "V") double deviceVolts,

            @Fact(value = "volts lost in both lines", unit = "V")
            double dropVolts,

            @Fact(value = "of that in wire", unit = "V") double wireDropVolts,
            @Fact(value = "of that in contacts", unit = "V") double contactDropVolts,

            @Fact(value = "length of all pieces", unit = "m")
            double lengthMetres,

            @Fact(value = "delay of all pieces", unit = "ns")
            double delayNs,

            @Fact("share of the longest length by gauge that is used up; absent below the thinnest of the table")
            @Nullable
            Double shareOfLongest,

            @Fact("each piece") List<UsbSegmentShare> segments,

            @Fact("what to shorten; absent if the lead passes") @Nullable
            UsbShortening shorten,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected UsbCableAnswer work(UsbCableQuestion asked, Worksheet sheet) {
        double port = sheet.orAssume(
                asked.portVolts(), "portVolts", UsbCable.PORT_VOLTS, "V", "the least that a port may give (USB 2.0)");
        double least = sheet.orAssume(
                asked.leastDeviceVolts(),
                "leastDeviceVolts",
                UsbCable.DEVICE_VOLTS,
                "V",
                "what a low-power device works down to (USB 2.0)");
        double celsius =
                sheet.orAssume(asked.temperatureCelsius(), "temperatureCelsius", 20, "°C", "wire at room temperature");
        sheet.assume("material", ConductorMaterial.COPPER, "solid copper by the AWG law");
        int contacts = (int) sheet.orAssume(
                asked.contacts() == null ? null : asked.contacts().doubleValue(),
                "contacts",
                asked.segments().size() + 1.0,
                "",
                "one at each end of each piece, in each power line");
        double contactOhms = sheet.orAssume(
                asked.contactOhms(),
                "contactOhms",
                UsbCable.CONTACT_OHMS,
                "Ω",
                "a worn contact (USB 2.0, from memory)");
        List<Segment> pieces = asked.segments().stream()
                .map(piece -> new Segment(piece.gauge(), piece.length().metres()))
                .toList();
        UsbCable cable = new UsbCable(pieces, asked.currentAmps(), contacts, contactOhms, celsius);
        double drop = cable.dropVolts();
        if (drop >= port) {
            throw new NoAnswerException(
                    "The lead would take " + figure(drop) + " V, and the port gives " + figure(port) + " V.",
                    "/currentAmps",
                    "beyond-supply",
                    "the lead lets at most " + figure(asked.currentAmps() * port / drop) + " A pass");
        }
        steps(asked, sheet, cable, port);
        List<String> reasons = reasons(cable, port, least);
        if (asked.currentAmps() > STANDARD_AMPS) {
            sheet.caution("More than 0.5 A is beyond what a USB 2.0 port must give; the table by gauge is for 0.5 A.");
        }
        sheet.caution(
                "Links that mirror a phone fail on long leads before the limits here (common practice, no source).");
        return new UsbCableAnswer(
                reasons.isEmpty() ? UsbVerdict.PASSES : UsbVerdict.FAILS,
                reasons,
                port - drop,
                drop,
                asked.currentAmps() * cable.wireOhms(),
                asked.currentAmps() * cable.contactsOhms(),
                cable.metres(),
                cable.delayNs(),
                cable.shareOfLongest(),
                pieces.stream()
                        .map(piece -> new UsbSegmentShare(
                                piece.gauge(),
                                piece.metres(),
                                asked.currentAmps() * cable.pairOhms(piece),
                                UsbCable.longestMetres(piece.gauge())))
                        .toList(),
                reasons.isEmpty() ? null : shorten(cable, port, least),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static void steps(UsbCableQuestion asked, Worksheet sheet, UsbCable cable, double port) {
        double ohms = 0;
        for (Segment piece : cable.segments()) {
            double perMetre = WireSteps.ohmsPerMetre(
                    sheet, WireConductor.of(piece.gauge(), ConductorMaterial.COPPER), cable.conductorCelsius());
            double before = ohms;
            ohms += cable.pairOhms(piece);
            sheet.step(
                    "both lines of the piece, added to those before",
                    "R = R0 + 2 × r × L",
                    ohms,
                    "Ω",
                    given("R0", before, "Ω"),
                    given("r", perMetre, "Ω/m"),
                    given("L", piece.metres(), "m"));
        }
        double contacts = sheet.step(
                "the contacts of both lines",
                "Rc = 2 × n × rc",
                cable.contactsOhms(),
                "Ω",
                given("n", cable.contacts(), ""),
                given("rc", cable.contactOhms(), "Ω"));
        sheet.step(
                "what is left at the device",
                "U = Up − I × (R + Rc)",
                port - cable.dropVolts(),
                "V",
                given("Up", port, "V"),
                given("I", asked.currentAmps(), "A"),
                given("R", ohms, "Ω"),
                given("Rc", contacts, "Ω"));
        sheet.step("the delay by length", "t = 5.2 × L", cable.delayNs(), "ns", given("L", cable.metres(), "m"));
    }

    private static List<String> reasons(UsbCable cable, double port, double least) {
        List<String> reasons = new ArrayList<>();
        double volts = port - cable.dropVolts();
        if (volts < least) {
            reasons.add("the device gets " + figure(volts) + " V, below " + figure(least) + " V");
        }
        // the standard's own 5.00 m is 26 ns but for the last bit
        if (cable.delayNs() > UsbCable.MOST_NS * (1 + 1e-9)) {
            reasons.add("the delay is " + figure(cable.delayNs()) + " ns, above 26 ns");
        }
        Double share = cable.shareOfLongest();
        if (share == null) {
            reasons.add("a power pair is thinner than 28 AWG, the thinnest that USB 2.0 allows");
        } else if (share > 1 + 1e-9) {
            reasons.add("the length is " + figure(100 * share) + " % of the longest for its gauge");
        }
        return reasons;
    }

    private static UsbShortening shorten(UsbCable cable, double port, double least) {
        int worst = cable.worstSegment();
        double longest = cable.longestSegmentMetres(worst, port - least);
        Segment piece = cable.segments().get(worst);
        ConductorSize gauge = null;
        for (int awg : UsbCable.LONGEST_METRES.keySet()) {
            List<Segment> changed = new ArrayList<>(cable.segments());
            changed.set(worst, new Segment(new ConductorSize(awg + " AWG"), piece.metres()));
            UsbCable thicker = new UsbCable(
                    changed, cable.currentAmps(), cable.contacts(), cable.contactOhms(), cable.conductorCelsius());
            if (gauge == null
                    && changed.get(worst).gauge().areaMm2() > piece.gauge().areaMm2()
                    && reasons(thicker, port, least).isEmpty()) {
                gauge = changed.get(worst).gauge();
            }
        }
        return new UsbShortening(worst, longest > 0 ? (Double) longest : null, gauge);
    }
}
