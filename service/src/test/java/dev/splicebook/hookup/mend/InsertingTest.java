package dev.splicebook.hookup.mend;

import static dev.splicebook.hookup.mend.Proposing.after;
import static dev.splicebook.hookup.mend.Proposing.changed;
import static dev.splicebook.hookup.mend.Proposing.propose;
import static dev.splicebook.hookup.mend.Proposing.what;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.Wiring;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Converters, isolators and diodes that a change puts in. */
class InsertingTest {

    /** A speaker output of 17.32 V straight on a line input that takes 4 V. */
    private static Wiring tooHigh() {
        return new Wiring()
                .carFloating("C1-1", "C1-2", "left")
                .lineInput("HU", "in", "in-return", "left")
                .join("CAR.C1-1 HU.in", "CAR.C1-2 HU.in-return");
    }

    private static Stock converters(String... couples) {
        List<Stock.Item> items = Arrays.stream(couples)
                .map(couple -> new Stock.Item(
                        Proposing.device("{\"code\": \"LOC-" + couple.length()
                                + "\", \"kind\": \"line-output-converter\"," + " \"couples\": [" + couple + "]}"),
                        1))
                .toList();
        return kind -> kind.equals("line-output-converter") ? items : List.of();
    }

    private static String couple(String stem, double gain, double maxVolts) {
        return Wiring.couple(
                stem + "-in",
                stem + "-in-return",
                stem,
                stem + "-return",
                "\"gain\": " + gain + ", \"maxVolts\": " + maxVolts);
    }

    @Test
    void putsAPlainConverterThatBringsTheOutputJustBelowWhatTheInputTakes() {
        List<Proposal> proposals = propose(new AddConverter(), "level-too-high", tooHigh(), "CAR.C1-1 HU.in", "");

        assertThat(what(proposals)).containsExactly("Put a passive line-output converter between CAR.C1-1 and HU.in.");
        assertThat(changed(proposals.get(0), tooHigh()))
                .containsExactly(
                        "W1: CAR.C1-1 - LOC.in-plus",
                        "W2: CAR.C1-2 - LOC.in-minus",
                        "W3: HU.in - LOC.out",
                        "W4: HU.in-return - LOC.out-return");
        Device plain = Objects.requireNonNull(after(proposals.get(0)).devices().get("LOC"));
        // nine tenths of 4 V from 17.32 V
        assertThat(plain.couples().get(0).gain()).isCloseTo(0.207, within(0.0005));
        assertThat(plain.couples().get(0).maxVolts()).isEqualTo(17.32);
    }

    @Test
    void startsFromTheReturnToo() {
        List<Proposal> proposals =
                propose(new AddConverter(), "level-too-high", tooHigh(), "CAR.C1-2 HU.in-return", "");

        assertThat(changed(proposals.get(0), tooHigh()))
                .containsExactly(
                        "W1: CAR.C1-1 - LOC.in-plus",
                        "W2: CAR.C1-2 - LOC.in-minus",
                        "W3: HU.in - LOC.out",
                        "W4: HU.in-return - LOC.out-return");
    }

    @Test
    void givesAReturnThatHangsOnNothingWiresOfItsOwn() {
        Wiring wiring = new Wiring()
                .carFloating("C1-1", "C1-2", "left")
                .lineInput("HU", "in", "in-return", "left")
                .join("CAR.C1-1 HU.in");

        assertThat(changed(
                        propose(new AddConverter(), "level-too-high", wiring, "CAR.C1-1 HU.in", "")
                                .get(0),
                        wiring))
                .containsExactly(
                        "W1: CAR.C1-1 - LOC.in-plus",
                        "W2: HU.in - LOC.out",
                        "W3: CAR.C1-2 - LOC.in-minus",
                        "W4: HU.in-return - LOC.out-return");
    }

    @Test
    void takesAConverterOfTheStockThatBearsTheVoltsAndGivesNoMoreThanTheInputTakes() {
        Stock unfit = converters(couple("weak", 0.2, 17), couple("strong-one", 0.3, 40), couple("r", -0.2, 40));
        assertThat(what(propose(new AddConverter(), "level-too-high", tooHigh(), unfit, "CAR.C1-1 HU.in", "")))
                .containsExactly("Put a passive line-output converter between CAR.C1-1 and HU.in.");
        Stock fit = converters(couple("left", 0.2, 17.32) + ", " + couple("right", 0.2, 17.32));
        List<Proposal> proposals = propose(new AddConverter(), "level-too-high", tooHigh(), fit, "CAR.C1-1 HU.in", "");

        assertThat(what(proposals))
                .containsExactly(
                        "Put a line-output converter between CAR.C1-1 and HU.in.",
                        "Put a passive line-output converter between CAR.C1-1 and HU.in.");
        assertThat(changed(proposals.get(0), tooHigh()))
                .contains("W1: CAR.C1-1 - LOC.left-in", "W2: CAR.C1-2 - LOC.left-in-return");
    }

    @Test
    void takesTheChannelOfAConverterThatIsForIt() {
        String terminals = "\"terminals\": {\"right-in\": " + Wiring.facts(Wiring.speakerIn("right", "plus"))
                + ", \"left-in\": " + Wiring.facts(Wiring.speakerIn("left", "plus")) + "}";
        Stock stock = kind -> List.of(new Stock.Item(
                Proposing.device("{\"code\": \"LOC-2\", \"couples\": [" + couple("right", 0.2, 20) + ", "
                        + couple("left", 0.2, 20) + "], " + terminals + "}"),
                1));
        Proposal proposal = propose(new AddConverter(), "level-too-high", tooHigh(), stock, "CAR.C1-1 HU.in", "")
                .get(0);

        assertThat(changed(proposal, tooHigh())).contains("W1: CAR.C1-1 - LOC.left-in");
        assertThat(after(proposal).document().unused().get("LOC.right-in"))
                .isEqualTo(new Unused(Unused.Fate.CAPPED, "one channel is enough"));
        assertThat(after(proposal).document().unused()).doesNotContainKey("LOC.left-in");
    }

    @Test
    void takesAFreeChannelOfAConverterThatIsThereAlready() {
        Wiring wiring = tooHigh()
                .carFloating("C1-3", "C1-4", "right")
                .inside("LOC", "\"couples\": [" + couple("right", 0.2, 20) + ", " + couple("left", 0.2, 20) + "]")
                .join("CAR.C1-3 LOC.right-in", "CAR.C1-4 LOC.right-in-return");
        List<Proposal> proposals = propose(new AddConverter(), "level-too-high", wiring, "CAR.C1-1 HU.in", "");

        assertThat(what(proposals))
                .containsExactly(
                        "Put the free channel of LOC from left-in to left between CAR.C1-1 and HU.in.",
                        "Put a passive line-output converter between CAR.C1-1 and HU.in.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly(
                        "W1: CAR.C1-1 - LOC.left-in",
                        "W2: CAR.C1-2 - LOC.left-in-return",
                        "W5: HU.in - LOC.left",
                        "W6: HU.in-return - LOC.left-return");
    }

    @Test
    void convertsNothingThatTheInputTakes() {
        Wiring wiring = new Wiring()
                .carPair("C1-1", "C1-2", side -> Wiring.lineOut("left", side, "chassis"), "signal", "return")
                .lineInput("HU", "in", "in-return", "left")
                .join("CAR.C1-1 HU.in", "CAR.C1-2 HU.in-return");

        assertThat(propose(new AddConverter(), "level-too-high", wiring, "CAR.C1-1 HU.in", ""))
                .isEmpty();
    }

    @Test
    void needsPowerForAConverterThatTakesSome() {
        String active = "{\"code\": \"LOC-A\", \"couples\": [" + couple("x", 0.2, 20) + "], \"terminals\": {"
                + "\"plus\": " + Wiring.facts("\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 0.1")
                + ", \"minus\": " + Wiring.facts("\"kind\": \"ground\"") + "}}";
        Stock stock = kind -> List.of(new Stock.Item(Proposing.device(active), 1));
        Wiring dark = tooHigh();
        assertThat(what(propose(new AddConverter(), "level-too-high", dark, stock, "CAR.C1-1 HU.in", "")))
                .containsExactly("Put a passive line-output converter between CAR.C1-1 and HU.in.");

        Wiring fed = tooHigh().car("C3-1", Wiring.facts(Wiring.supply("running")));
        Proposal proposal = propose(new AddConverter(), "level-too-high", fed, stock, "CAR.C1-1 HU.in", "")
                .get(0);
        assertThat(proposal.what()).isEqualTo("Put a line-output converter between CAR.C1-1 and HU.in.");
        assertThat(changed(proposal, fed)).contains("W5: CAR.C3-1 - LOC.plus", "W6: CAR.chassis - LOC.minus");
    }

    /** Two pairs whose driven returns meet at one sleeve. */
    private static Wiring oneSleeve() {
        return new Wiring()
                .carDriven("C1-1", "C1-2", "left")
                .carDriven("C1-3", "C1-4", "right")
                .lead("HU", "left", Wiring.facts(Wiring.lineIn("left", "signal", "chassis")))
                .lead("HU", "right", Wiring.facts(Wiring.lineIn("right", "signal", "chassis")))
                .lead(
                        "HU",
                        "sleeve",
                        Wiring.facts("\"kind\": \"line-in\", \"side\": \"return\", \"return\": \"chassis\""))
                .join("CAR.C1-1 HU.left", "CAR.C1-2 HU.sleeve", "CAR.C1-3 HU.right", "CAR.C1-4 HU.sleeve");
    }

    @Test
    void isolatesBothPairsOrOneOfThemBeforeTheirReturnsMeet() {
        List<Proposal> proposals =
                propose(new AddIsolator(), "returns-tied", oneSleeve(), "CAR.C1-2 CAR.C1-4 HU.sleeve", "W2 W4");

        assertThat(what(proposals))
                .containsExactly(
                        "Put an isolator into the pairs at CAR.C1-1 and CAR.C1-2, and at CAR.C1-3 and CAR.C1-4, before"
                                + " their returns meet.",
                        "Put an isolator into the pair at CAR.C1-1 and CAR.C1-2, before its return meets another.",
                        "Put an isolator into the pair at CAR.C1-3 and CAR.C1-4, before its return meets another.");
        assertThat(changed(proposals.get(0), oneSleeve()))
                .containsExactly(
                        "W1: CAR.C1-1 - ISO.in-1",
                        "W2: CAR.C1-2 - ISO.in-1-return",
                        "W3: CAR.C1-3 - ISO.in-2",
                        "W4: CAR.C1-4 - ISO.in-2-return",
                        "W5: HU.left - ISO.out-1",
                        "W6: HU.sleeve - ISO.out-1-return",
                        "W7: HU.right - ISO.out-2",
                        "W8: HU.sleeve - ISO.out-2-return");
        // an isolator, and half a point for each pair
        assertThat(proposals).extracting(Proposal::cost).containsExactly(9.0, 8.5, 8.5);
    }

    @Test
    void takesTwoIsolatorsOfOneChannelEach() {
        Stock stock = kind -> kind.equals("isolator")
                ? List.of(
                        new Stock.Item(Proposing.device("{\"code\": \"ISO-0\", \"name\": \"no couple\"}"), 1),
                        new Stock.Item(
                                Proposing.device("{\"code\": \"ISO-1\", \"couples\": [" + couple("a", 1, 5) + "]}"), 1))
                : List.of();
        Proposal both = propose(
                        new AddIsolator(), "returns-tied", oneSleeve(), stock, "CAR.C1-2 CAR.C1-4 HU.sleeve", "")
                .get(0);

        assertThat(changed(both, oneSleeve())).contains("W1: CAR.C1-1 - ISO.a-in", "W3: CAR.C1-3 - ISO2.a-in");
        assertThat(both.cost()).isEqualTo(11);
    }

    @Test
    void isolatesOnlyDrivenReturnsUnlessItIsAboutALoop() {
        Wiring wiring = new Wiring()
                .carPair("C1-1", "C1-2", side -> Wiring.lineOut("left", side, "chassis"), "signal", "return")
                .lineInput("HU", "in", "in-return", "left")
                .join("CAR.C1-1 HU.in", "CAR.C1-2 HU.in-return");

        assertThat(propose(new AddIsolator(), "returns-tied", wiring, "CAR.C1-2 HU.in-return", ""))
                .isEmpty();
        assertThat(what(propose(new AddIsolator(), "ground-loop", wiring, "CAR.C1-2 HU.in-return", "")))
                .containsExactly(
                        "Put an isolator into the pair at CAR.C1-1 and CAR.C1-2, before its return meets another.");
    }

    @Test
    void movesAnIsolatorThatStandsWhereItDoesNotHelp() {
        Wiring wiring = oneSleeve();
        for (String side : List.of("signal", "return")) {
            String end = side.equals("signal") ? "" : "-return";
            wiring.lead("ISO", "in" + end, Wiring.facts(Wiring.lineIn("left", side, "isolated")))
                    .lead("ISO", "out" + end, Wiring.facts(Wiring.lineOut("left", side, "isolated")))
                    .lead("PLAYER", "out" + end, Wiring.facts(Wiring.lineOut("left", side, "chassis")))
                    .lead("HU", "aux" + end, Wiring.facts(Wiring.lineIn("left", side, "chassis")))
                    .join("PLAYER.out" + end + " ISO.in" + end, "ISO.out" + end + " HU.aux" + end);
        }
        wiring.inside("ISO", "\"couples\": [" + Wiring.couple("in", "in-return", "out", "out-return", "") + "]");
        List<Proposal> proposals = propose(new AddIsolator(), "returns-tied", wiring, "CAR.C1-2 HU.sleeve", "W2");

        assertThat(what(proposals))
                .containsExactly(
                        "Move the isolator ISO to the pair at CAR.C1-1 and CAR.C1-2, before its return meets another.",
                        "Put an isolator into the pair at CAR.C1-1 and CAR.C1-2, before its return meets another.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly(
                        "W1: CAR.C1-1 - ISO.in",
                        "W2: CAR.C1-2 - ISO.in-return",
                        "W5: HU.aux - PLAYER.out",
                        "W7: HU.aux-return - PLAYER.out-return",
                        "W8: HU.left - ISO.out",
                        "W9: HU.sleeve - ISO.out-return");
        assertThat(proposals.get(0).cost()).isEqualTo(4.5);
    }

    @Test
    void clampsACoilWithADiodeOfTheStockThatBearsItsCurrent() {
        Wiring wiring = new Wiring()
                .car("C6-2", Wiring.facts(Wiring.supply("running")))
                .inside(
                        "K",
                        "\"relays\": [{\"coil\": [\"85\", \"86\"], \"coilOhms\": 30, \"common\": \"30\", \"open\": \"87\"}]")
                .join("CAR.C6-2 K.86", "K.85 CAR.chassis");

        // 15 V across 30 ohms are half an ampere
        assertThat(diode(wiring, "\"amps\": 0.4")).isNull();
        assertThat(diode(wiring, "\"amps\": 1")).isEqualTo("DIO-X");
    }

    private static @Nullable String diode(Wiring wiring, String amps) {
        Stock stock = kind -> kind.equals("diode-lead")
                ? List.of(new Stock.Item(
                        Proposing.device("{\"code\": \"DIO-X\", \"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\", "
                                + amps + "}]}"),
                        1))
                : List.of();
        Proposal proposal = propose(new ClampCoil(), "coil-unclamped", wiring, stock, "K.85 K.86", "")
                .get(0);
        Map<String, Device> devices = after(proposal).devices();
        return Objects.requireNonNull(devices.get("DIO")).code();
    }

    @Test
    void leavesAConnectorAndACutCircuitOfTheVehicleAsTheyWere() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C2-1", Wiring.facts(Wiring.lineOut("left", "signal", "chassis")))
                .car("C3-1", Wiring.facts(Wiring.lineOut("right", "signal", "chassis")))
                .unplug("C3")
                .cut("C2-1")
                .lead("HU", "P1-1", Wiring.facts(Wiring.lineIn("left", "signal", "chassis")))
                .lead("HU", "in", Wiring.facts(Wiring.lineIn("left", "signal", "chassis")))
                .unused("CAR.C2-1/harness", "capped")
                .join("CAR.C2-1/unit HU.in", "CAR.C3-1 HU.in");
        Defect defect = Proposing.defect("airbag-circuit-touched", wiring, Stock.NONE, "", "");

        var uncut = Objects.requireNonNull(defect.edit().leaveUncut("C2-1").hookup())
                .document();
        assertThat(uncut.connections().keySet()).containsExactly("W2");
        assertThat(uncut.unused()).doesNotContainKey("CAR.C2-1/harness");
        assertThat(Objects.requireNonNull(uncut.vehicle()).cuts()).isEmpty();
        assertThat(Objects.requireNonNull(uncut.vehicle()).unplugged()).containsExactly("C3");

        var plugged = Objects.requireNonNull(defect.edit().leavePlugged("C3").hookup())
                .document();
        assertThat(Objects.requireNonNull(plugged.vehicle()).unplugged()).isEmpty();
        assertThat(Objects.requireNonNull(plugged.vehicle()).cuts()).containsExactly("C2-1");
    }

    @Test
    void unmatesOnlyTheConnectorThatIsLeft() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C2-1", Wiring.facts(Wiring.constant()))
                .lead("HU", "P1-1", Wiring.facts("\"kind\": \"load\""))
                .lead("HU", "P2-1", Wiring.facts("\"kind\": \"load\""))
                .plug("CAR.C1", "HU.P1")
                .plug("CAR.C2", "HU.P2");
        Defect defect = Proposing.defect("airbag-circuit-touched", wiring, Stock.NONE, "", "");

        assertThat(Objects.requireNonNull(defect.edit().leavePlugged("C1").hookup())
                        .document()
                        .plugs())
                .containsExactly(List.of("CAR.C2", "HU.P2"));
    }
}
