package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Mending.Fix;
import dev.splicebook.hookup.Remedy.Added;
import dev.splicebook.hookup.Report.Verdict;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** First drafts that a search makes ready, and what it may not do. */
class MendingTest {

    private static final String REAR_DRAFT = "rear-entertainment/check-1-first-draft";
    private static final String REAR_LATE = "rear-entertainment/check-2-isolator-after-sleeve";
    private static final String BASS_DRAFT = "amplifier-and-subwoofers/check-1-first-draft";

    private static final Mending MENDING = new Mending();

    /** The demo catalogue. */
    static final Stock STOCK = kind -> DemoFiles.devices().values().stream()
            .filter(device -> kind.equals(device.kind()))
            .map(device -> new Stock.Item(device, 1))
            .toList();

    /** Enough on a machine that has other things to do. */
    static final Mending.Bounds PATIENT = new Mending.Bounds(2000, Duration.ofSeconds(60));

    static Mending.Means means(Stock stock) {
        return new Mending.Means(Hookups.checker()::check, stock, PATIENT);
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR_DRAFT, REAR_LATE, BASS_DRAFT})
    void makesEveryFirstDraftReady(String job) {
        for (Stock stock : List.of(STOCK, Stock.NONE)) {
            Fix fix = fix(DemoFiles.example(job), stock);

            assertThat(fix.isReady()).as("%s", fix.report().findings()).isTrue();
            assertThat(fix.report().verdict()).isEqualTo(Verdict.READY);
            assertThat(fix.bound()).isNull();
            assertThat(fix.checks()).isLessThan(200);
        }
    }

    @Test
    void mendsTheRearEntertainmentByAnIsolatorBeforeTheSleeveAndTheBrakesOwnCircuit() {
        Fix fix = fix(DemoFiles.example(REAR_DRAFT), STOCK);

        assertThat(fix.adds()).containsExactly(new Added("ISO", null, "ISO-2", "Ground-loop isolator, two channels"));
        assertThat(fix.what()).hasSize(2);
        assertThat(wire(fix, "W16").ends()).containsExactly("CAR.C6-4", "HU.parking-brake");
        assertThat(wire(fix, "W26").ends()).containsExactly("IFC.re-left-return", "ISO.left-in-return");
        assertThat(wire(fix, "W31").ends()).containsExactly("AVA.plug-sleeve", "HU.av-sleeve");
    }

    private static Hookup with(Hookup hookup, Map<String, Connection> connections, List<List<String>> plugs) {
        HookupDocument document = hookup.document();
        return Hookup.resolve(
                new HookupDocument(
                        document.vehicle(),
                        document.parts(),
                        connections,
                        plugs,
                        document.unused(),
                        document.settings(),
                        document.wishes()),
                hookup.map(),
                hookup.devices(),
                List.of());
    }

    @Test
    void matesAPlugThatHangsFreeRatherThanSplicingEachPin() {
        Hookup ready = DemoFiles.example("rear-entertainment/check-3-ready");
        Hookup apart = with(ready, ready.document().connections(), List.of());

        Fix fix = fix(apart, STOCK);

        assertThat(fix.isReady()).isTrue();
        assertThat(fix.what()).containsExactlyInAnyOrder("Mate CAR.C1 with HAR.C1.", "Mate CAR.C2 with IFC.C2.");
    }

    @Test
    void bringsALeadThatStrayedToAnotherOutputBackIntoTheStringOfCoils() {
        Hookup ready = DemoFiles.example("amplifier-and-subwoofers/check-2-ready");
        Map<String, Connection> connections =
                new LinkedHashMap<>(ready.document().connections());
        Connection strayed = Objects.requireNonNull(connections.get("W20"));
        assertThat(strayed.ends()).containsExactly("SUB2.coil-1-minus", "SUB2.coil-2-plus");
        connections.put(
                "W20",
                new Connection(List.of("CAR.A2-1", "SUB2.coil-2-plus"), strayed.conductor(), strayed.length(), null));
        Hookup crossed = with(ready, connections, ready.document().plugs());

        Fix fix = fix(crossed, STOCK);

        assertThat(fix.isReady()).isTrue();
        assertThat(fix.what()).containsExactly("Move the lead of SUB2.coil-2-plus from CAR.A2-1 to SUB2.coil-1-minus.");
    }

    @Test
    void movesTheIsolatorThatIsThereRatherThanBuyingAnother() {
        Fix fix = fix(DemoFiles.example(REAR_LATE), STOCK);

        assertThat(fix.adds()).isEmpty();
        assertThat(fix.what())
                .containsExactly("Move the isolator ISO to the pairs at IFC.re-left and IFC.re-left-return, and at"
                        + " IFC.re-right and IFC.re-right-return, before their returns meet.");
    }

    @Test
    void mendsTheFiveMistakesWithFiveChangesAndOneFuse() {
        Fix fix = fix(DemoFiles.example(BASS_DRAFT), STOCK);

        assertThat(fix.what()).hasSize(5);
        assertThat(fix.adds()).containsExactly(new Added(null, "W1", null, "50 A fuse"));
        assertThat(wire(fix, "W5").ends()).containsExactly("LOC.turn-on", "AMP.remote");
    }

    @Test
    void leavesADefeatedInterlockAloneWhereTheMapHasNoParkingBrakeCircuit() {
        Hookup hookup = interlock("").hookup();
        Report report = Hookups.checker().check(hookup);
        Finding finding = Hookups.findings(report, "interlock-defeated").get(0);
        Fix fix = MENDING.fix(hookup, report, means(STOCK));

        assertThat(remedies(hookup, finding)).isEmpty();
        assertThat(fix.isReady()).isFalse();
        assertThat(Hookups.findings(fix.report(), "interlock-defeated")).hasSize(1);
    }

    @Test
    void bringsADefeatedInterlockToItsCircuit() {
        Hookup hookup = interlock(
                        "\"kind\": \"control-out\", \"active\": \"ground\", \"when\": \"parking-brake\", \"live\": [\"running\"]")
                .hookup();
        Finding finding = Hookups.findings(Hookups.checker().check(hookup), "interlock-defeated")
                .get(0);

        assertThat(remedies(hookup, finding))
                .containsExactly("Move the lead of HU.brake to the vehicle's parking-brake circuit at CAR.C6-4.");
    }

    private static Wiring interlock(String circuit) {
        Wiring wiring = new Wiring()
                .lead(
                        "HU",
                        "brake",
                        Wiring.facts("control.parking-brake", "\"kind\": \"control-in\", \"active\": \"ground\""))
                .join("CAR.chassis HU.brake");
        return circuit.isEmpty() ? wiring : wiring.car("C6-4", Wiring.facts("control.parking-brake", circuit));
    }

    @Test
    void putsAFuseIntoALeadThatTwoFusedRunsFeedOrLaysItThicker() {
        Hookup hookup = new Wiring()
                .lead(
                        "AMP",
                        "plus",
                        Wiring.facts(
                                "\"kind\": \"load\", \"typicalAmps\": 20, \"maxAmps\": 40, \"needs\": \"constant\""))
                .lead("AMP", "minus", Wiring.facts("\"kind\": \"ground\""))
                .inside("J", "\"conducts\": [[\"a\", \"b\", \"c\"]]")
                .joinBy("CAR.battery-plus J.a", fused("8 AWG", 60))
                .joinBy("CAR.battery-plus J.b", fused("8 AWG", 60))
                .joinBy("J.c AMP.plus", laid("8 AWG"))
                .joinBy("AMP.minus CAR.chassis", laid("8 AWG"))
                .hookup();
        Finding finding = Hookups.findings(Hookups.checker().check(hookup), "fuse-missing")
                .get(0);

        assertThat(remedies(hookup, finding)).contains("Put a 40 A fuse into W3, at its source.", "Lay W3 in 6 AWG.");
    }

    @Test
    void returnsADeviceAtTheChassisWhoseFactoryGroundBearsTooLittle() {
        Hookup hookup = new Wiring()
                .car("C1-4", Wiring.facts("\"kind\": \"ground\", \"maxAmps\": 5"))
                .car("C1-7", Wiring.facts(Wiring.constant()))
                .lead(
                        "X",
                        "plus",
                        Wiring.facts("\"kind\": \"load\", \"typicalAmps\": 5, \"maxAmps\": 8, \"needs\": \"constant\""))
                .lead("X", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.C1-7 X.plus", laid("8 AWG"))
                .joinBy("X.minus CAR.C1-4", laid("8 AWG"))
                .hookup();
        Finding finding = Hookups.findings(Hookups.checker().check(hookup), "ground-undersized")
                .get(0);

        assertThat(remedies(hookup, finding)).containsExactly("Move the ground lead of X.minus to CAR.chassis.");
    }

    @Test
    void returnsACoilToGroundThatStandsBetweenTwoFeeds() {
        Hookup hookup = new Wiring()
                .car("C1-7", Wiring.facts(Wiring.constant()))
                .car("C1-8", Wiring.facts(Wiring.supply("accessory", "running")))
                .relay("K")
                .join("CAR.C1-7 K.86", "K.85 CAR.C1-8")
                .hookup();
        Finding finding = Hookups.findings(Hookups.checker().check(hookup), "line-back-fed")
                .get(0);

        assertThat(remedies(hookup, finding))
                .contains(
                        "Return the coil of K to ground: K.86 to CAR.chassis, not to CAR.C1-7.",
                        "Return the coil of K to ground: K.85 to CAR.chassis, not to CAR.C1-8.");
    }

    @Test
    void takesOffTheLeadByWhichARelayHoldsItselfAllNight() {
        Hookup hookup = new Wiring()
                .car("C1-7", Wiring.facts(Wiring.constant()))
                .car("C1-8", Wiring.facts(Wiring.supply("accessory", "ignition", "running", "restarting")))
                .lead(
                        "AMP",
                        "on",
                        Wiring.facts(
                                "control.amplifier-on",
                                "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"))
                .relay("K")
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]")
                .join("CAR.C1-8 D.a", "D.c K.86", "K.85 CAR.chassis", "CAR.C1-7 K.30", "K.87 K.86", "K.87 AMP.on")
                .hookup();
        Finding finding = Hookups.findings(Hookups.checker().check(hookup), "control-always-active")
                .get(0);

        assertThat(remedies(hookup, finding))
                .contains("Take off W5, between K.87 and K.86, by which the relay holds itself.");
    }

    /** A lamp behind a relay, of which the throws and the coil are wired as told. */
    private static Wiring relayed(String... joins) {
        return new Wiring()
                .car("C1-7", Wiring.facts(Wiring.constant()))
                .car("C1-8", Wiring.facts(Wiring.supply("accessory", "ignition", "running", "restarting")))
                .lead("L", "plus", Wiring.facts("\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 3"))
                .lead("L", "minus", Wiring.facts("\"kind\": \"ground\""))
                .inside("BLOCK", "\"conducts\": [[\"in\", \"out\"]]")
                .relay("K")
                .join("CAR.C1-7 K.30", "BLOCK.out L.plus", "L.minus CAR.chassis")
                .join(joins);
    }

    @Test
    void joinsTheOtherLineOfABusBesideTheOneThatItIsOn() {
        Wiring bus = new Wiring()
                .lead(
                        "IF",
                        "high",
                        Wiring.facts("data.can.high", "\"kind\": \"data\", \"bus\": \"can\", \"line\": \"high\""))
                .lead(
                        "IF",
                        "low",
                        Wiring.facts("data.can.low", "\"kind\": \"data\", \"bus\": \"can\", \"line\": \"low\""));
        for (String connector : List.of("C4", "C9")) {
            for (String line : List.of("high", "low")) {
                bus.car(
                        connector + (line.equals("high") ? "-1" : "-2"),
                        Wiring.facts("\"kind\": \"data\", \"bus\": \"can\", \"line\": \"" + line + "\""));
            }
        }

        assertThat(remedies(bus.join("CAR.C4-1 IF.high"), "pair-half-connected"))
                .containsExactly("Connect IF.low to CAR.C4-2.");
    }

    @Test
    void swapsAPictureAndItsReturn() {
        Wiring turned = new Wiring();
        for (String side : List.of("signal", "return")) {
            String rest = "\"side\": \"" + side + "\", \"format\": \"composite\"";
            turned.lead("CAM", side, Wiring.facts("\"kind\": \"video-out\", " + rest))
                    .lead("HU", side, Wiring.facts("\"kind\": \"video-in\", " + rest));
        }

        assertThat(remedies(turned.join("CAM.signal HU.return", "CAM.return HU.signal"), "signal-type-mismatch"))
                .contains("Swap the leads of CAM.signal and CAM.return.");
    }

    @Test
    void connectsAnInputToTheCircuitThatItIsForRatherThanCapIt() {
        Wiring camera = new Wiring()
                .car(
                        "C5-3",
                        Wiring.facts(
                                "control.reverse",
                                "\"kind\": \"supply\", \"maxAmps\": 5, \"fuseAmps\": 5, \"live\": [\"ignition\", \"running\"],"
                                        + " \"when\": \"reverse\""))
                .lead(
                        "HU",
                        "reverse",
                        Wiring.facts(
                                "control.reverse",
                                "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01, \"minVolts\": 6"))
                .car(
                        "C1-8",
                        Wiring.facts(
                                "power.accessory", Wiring.supply("accessory", "ignition", "running", "restarting")))
                .lead(
                        "HU",
                        "plus",
                        Wiring.facts(
                                "\"kind\": \"load\", \"needs\": \"switched\", \"typicalAmps\": 0.5, \"maxAmps\": 1,"
                                        + " \"minVolts\": 6, \"sleepAmps\": 0"))
                .lead("HU", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy(
                        "CAR.C1-8 HU.plus",
                        "\"conductor\": {\"size\": \"18 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}")
                .joinBy(
                        "HU.minus CAR.chassis",
                        "\"conductor\": {\"size\": \"18 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}");

        assertThat(remedies(camera, "lead-unaccounted")).first().isEqualTo("Connect HU.reverse to CAR.C5-3.");
        assertThat(fix(camera.hookup(), STOCK).what()).containsExactly("Connect HU.reverse to CAR.C5-3.");
    }

    @Test
    void leavesALoadWithTheOutputThatTurnsItOn() {
        Wiring siren = new Wiring()
                .car("C1-7", Wiring.facts("power.battery", Wiring.constant()))
                .car("C1-8", Wiring.facts("power.accessory", Wiring.supply("accessory", "ignition", "running")))
                .lead(
                        "AL",
                        "siren",
                        Wiring.facts(
                                "\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 0.3, \"live\": [\"running\"]"))
                .lead("AL", "plus", Wiring.facts("\"kind\": \"load\", \"needs\": \"constant\", \"maxAmps\": 0.1"))
                .lead("AL", "minus", Wiring.facts("\"kind\": \"ground\""))
                .lead("SI", "plus", Wiring.facts("\"kind\": \"load\", \"needs\": \"either\", \"maxAmps\": 1"))
                .lead("SI", "minus", Wiring.facts("\"kind\": \"ground\""))
                .join("CAR.C1-7 AL.plus", "AL.minus CAR.chassis", "AL.siren SI.plus", "SI.minus CAR.chassis");

        assertThat(remedies(siren, "control-overloaded"))
                .isNotEmpty()
                .allMatch(what -> what.startsWith("Let AL.siren drive a relay"));
    }

    @Test
    void returnsACoilToGroundOfWhichBothEndsHangOnPlus() {
        Wiring lamp = new Wiring()
                .car("C1-7", Wiring.facts("power.battery", Wiring.constant()))
                .car("C1-8", Wiring.facts("power.accessory", Wiring.supply("accessory", "ignition", "running")))
                .relay("K")
                .lead("L", "plus", Wiring.facts("\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 2"))
                .lead("L", "minus", Wiring.facts("\"kind\": \"ground\""))
                .join("CAR.C1-8 K.86", "CAR.C1-7 K.85", "CAR.C1-7 K.30", "K.87 L.plus", "L.minus CAR.chassis");

        assertThat(remedies(lamp, "load-without-supply"))
                .first()
                .isEqualTo("Return the coil of K to ground: K.85 to CAR.chassis, not to CAR.C1-7.");
    }

    @Test
    void takesNoFuseForACircuitOfWhichNobodyKnowsWhatItTakes() {
        String wire = "\"conductor\": {\"size\": \"20 AWG\"}, \"length\": {\"value\": 20, \"unit\": \"cm\"}";
        Wiring starter = new Wiring()
                .car(
                        "I-1",
                        Wiring.facts(
                                "power.start",
                                "\"kind\": \"supply\", \"maxAmps\": 25, \"fuseAmps\": 30, \"live\": [\"cranking\"]"))
                .car("C1-8", Wiring.facts("power.ignition", Wiring.supply("ignition", "cranking", "running")))
                .cut("I-1")
                .relay("K")
                .join("CAR.C1-8 K.86", "K.85 CAR.chassis")
                .joinBy("CAR.I-1/harness K.30", wire)
                .joinBy("K.87a CAR.I-1/unit", wire);

        List<String> remedies = remedies(starter, "fuse-exceeds-conductor");
        assertThat(remedies).first().isEqualTo("Lay W3 in 14 AWG, W4 in 14 AWG.");
        assertThat(remedies).allMatch(what -> what.startsWith("Lay "));
    }

    private static List<String> remedies(Wiring wiring, String rule) {
        Hookup hookup = wiring.hookup();
        return remedies(
                hookup, Hookups.findings(Hookups.checker().check(hookup), rule).get(0));
    }

    @Test
    void movesTheCoilOfARelayThatStandsBeforeABlock() {
        assertThat(remedies(
                        relayed("CAR.C1-7 K.86", "K.85 CAR.chassis", "K.87 BLOCK.in"),
                        "switched-load-on-constant-supply"))
                .contains("Move the lead of K.86 from CAR.C1-7 to CAR.C1-8, so that the relay rests when the vehicle"
                        + " does.");
    }

    @Test
    void movesWhatHangsOnTheWrongThrow() {
        assertThat(remedies(relayed("CAR.C1-8 K.86", "K.85 CAR.chassis", "K.87a BLOCK.in"), "load-without-supply"))
                .contains("Move what hangs on K.87a to K.87, which is closed while the relay pulls.");
    }

    @Test
    void feedsACoilThatStandsOnGroundWithBothEnds() {
        assertThat(remedies(relayed("CAR.chassis K.86", "K.85 CAR.chassis", "K.87 BLOCK.in"), "load-without-supply"))
                .contains("Move the lead of K.86 from CAR.chassis to CAR.C1-8.");
    }

    @Test
    void feedsACoilPastTheResistorThatTakesItsVolts() {
        assertThat(remedies(
                        relayed("CAR.C1-8 R.a", "R.b K.86", "K.85 CAR.chassis", "K.87 BLOCK.in")
                                .inside("R", "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 1500}]"),
                        "undervoltage"))
                .contains("Move the lead of K.86 from R.b to CAR.C1-8.");
    }

    @Test
    void movesTheFeedOfAChainOfInputsAtTheEndThatBringsIt() {
        String on =
                Wiring.facts("control.amplifier-on", "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01");
        Wiring chain = new Wiring()
                .car("C1-7", Wiring.facts(Wiring.constant()))
                .car("C1-8", Wiring.facts(Wiring.supply("accessory", "ignition", "running", "restarting")))
                .lead("AMP", "on", on)
                .lead("BASS", "on", on)
                .join("CAR.C1-7 AMP.on", "AMP.on BASS.on");

        assertThat(remedies(chain, "control-always-active"))
                .contains("Move the lead of AMP.on from CAR.C1-7 to CAR.C1-8.");
    }

    @Test
    void feedsFromTheCircuitThatWaitsForWhatALoadIsFor() {
        Wiring aid = new Wiring()
                .car(
                        "C1-8",
                        Wiring.facts(
                                "power.accessory", Wiring.supply("accessory", "ignition", "running", "restarting")))
                .car(
                        "C5-3",
                        Wiring.facts(
                                "lighting.reverse",
                                "\"kind\": \"supply\", \"maxAmps\": 5, \"fuseAmps\": 5, \"live\": [\"ignition\", \"running\"],"
                                        + " \"when\": \"reverse\""))
                .lead(
                        "PA",
                        "plus",
                        Wiring.facts(
                                "control.reverse", "\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 0.3"))
                .lead("PA", "minus", Wiring.facts("\"kind\": \"ground\""))
                .join("CAR.C1-8 PA.plus", "PA.minus CAR.chassis");

        assertThat(remedies(aid, "function-mismatched"))
                .contains("Move the lead of PA.plus from CAR.C1-8 to CAR.C5-3.");
    }

    @Test
    void movesALoadToAFeedOfItsOwnVoltsAndToNoOther() {
        String live =
                "\"maxAmps\": 5, \"fuseAmps\": 5, \"live\": [\"accessory\", \"ignition\", \"running\", \"restarting\"]";
        Wiring lorry = new Wiring()
                .car("C1-7", Wiring.facts("power.accessory", "\"kind\": \"supply\", \"volts\": 24, " + live))
                .car("C1-8", Wiring.facts("power.accessory", "\"kind\": \"supply\", \"volts\": 28, " + live))
                .car("C5-3", Wiring.facts("power.accessory", "\"kind\": \"supply\", \"volts\": 12, " + live))
                .lead(
                        "HU",
                        "plus",
                        Wiring.facts("\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 2, \"maxVolts\": 16"))
                .lead("HU", "minus", Wiring.facts("\"kind\": \"ground\""))
                .join("CAR.C1-7 HU.plus", "HU.minus CAR.chassis");

        assertThat(remedies(lorry, "overvoltage"))
                .containsExactly("Move the lead of HU.plus from CAR.C1-7 to CAR.C5-3.");
    }

    @Test
    void swapsSoundAndPictureBack() {
        Wiring crossed = new Wiring()
                .lead("P", "sound", Wiring.facts("\"kind\": \"line-out\", \"channel\": \"left\", \"side\": \"signal\""))
                .lead(
                        "P",
                        "picture",
                        Wiring.facts("\"kind\": \"video-out\", \"side\": \"signal\", \"format\": \"composite\""))
                .lead("X", "sound", Wiring.facts("\"kind\": \"line-in\", \"channel\": \"left\", \"side\": \"signal\""))
                .lead(
                        "M",
                        "picture",
                        Wiring.facts("\"kind\": \"video-in\", \"side\": \"signal\", \"format\": \"composite\""))
                .join("P.sound M.picture", "P.picture X.sound");

        assertThat(remedies(crossed, "signal-type-mismatch"))
                .anyMatch(what -> what.startsWith("Swap the leads of P.") && what.contains("P.sound"));
    }

    @Test
    void takesOffTheLeadByWhichTwoRelaysHoldEachOther() {
        Hookup hookup = new Wiring()
                .car("C1-7", Wiring.facts(Wiring.constant()))
                .car("C1-8", Wiring.facts(Wiring.supply("accessory", "ignition", "running", "restarting")))
                .lead("L", "plus", Wiring.facts("\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 3"))
                .relay("K1")
                .relay("K2")
                .inside("D1", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]")
                .inside("D2", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]")
                .join("CAR.C1-8 D1.a", "D1.c K1.86", "K1.85 CAR.chassis", "CAR.C1-7 K1.30", "K1.87 K2.86")
                .join("K2.85 CAR.chassis", "CAR.C1-7 K2.30", "K2.87 L.plus", "K2.87 D2.a", "D2.c K1.86")
                .hookup();
        Finding finding = Hookups.findings(Hookups.checker().check(hookup), "switched-load-on-constant-supply")
                .get(0);

        assertThat(remedies(hookup, finding))
                .contains("Take off W9, between K2.87 and D2.a, by which K2 keeps K1 pulled.");
    }

    @Test
    void leavesAnAirbagCircuitAlone() {
        Hookup hookup = new Wiring()
                .car("C4-1", Wiring.facts("safety.airbag", "\"kind\": \"untouchable\", \"reason\": \"airbag\""))
                .lead("HU", "out", Wiring.facts("\"kind\": \"control-out\", \"active\": \"12V\""))
                .join("HU.out CAR.C4-1")
                .hookup();
        Fix fix = fix(hookup, STOCK);

        assertThat(fix.hookup().document().connections()).isEmpty();
        assertThat(fix.hookup().document().unused()).containsKey("HU.out");
        assertThat(Hookups.findings(fix.report(), "airbag-circuit-touched")).isEmpty();
    }

    @Test
    void relievesAWeakOutputByARelayFedFromAFusedConstantSupply() {
        Hookup hookup = new Wiring()
                .car("C6-1", Wiring.facts("power.battery", Wiring.constant()))
                .car(
                        "C6-2",
                        Wiring.facts(
                                "power.accessory",
                                Wiring.supply("accessory", "running").replace("\"maxAmps\": 10", "\"maxAmps\": 1")))
                .lead("USB", "plus", Wiring.facts(load("switched", 2.4)))
                .lead("USB", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.C6-2 USB.plus", laid("18 AWG"))
                .joinBy("USB.minus CAR.chassis", laid("18 AWG"))
                .hookup();
        Fix fix = fix(hookup, STOCK);

        assertThat(fix.isReady()).as("%s", fix.report().findings()).isTrue();
        assertThat(fix.what())
                .containsExactly(
                        "Let CAR.C6-2 drive a relay, and feed USB.plus through its contact from CAR.C6-1, fused at"
                                + " 3 A.");
        Map<String, Connection> connections = fix.hookup().document().connections();
        assertThat(connections.values())
                .extracting(Connection::ends)
                .contains(
                        List.of("REL.87", "USB.plus"),
                        List.of("CAR.C6-2", "REL.86"),
                        List.of("REL.85", "CAR.chassis"),
                        List.of("CAR.C6-1", "REL.30"));
        assertThat(fix.hookup().document().unused()).containsKey("REL.87a");
    }

    @Test
    void turnsAnOutputThatSpeaksTheOtherWayRoundByARelay() {
        Hookup hookup = new Wiring()
                .car(
                        "C6-2",
                        Wiring.facts(
                                "\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 1, \"live\": [\"running\"]"))
                .lead("HU", "mute", Wiring.facts("\"kind\": \"control-in\", \"active\": \"ground\", \"amps\": 0.01"))
                .join("CAR.C6-2 HU.mute")
                .hookup();
        Fix fix = fix(hookup, Stock.NONE);

        assertThat(fix.isReady()).as("%s", fix.report().findings()).isTrue();
        assertThat(fix.what()).containsExactly("Let CAR.C6-2 drive a relay whose contact gives HU.mute ground.");
    }

    @Test
    void swapsTheLeadsOfTwoChannelsInOneChange() {
        Wiring wiring = new Wiring()
                .carFloating("A-1", "A-2", "left")
                .carFloating("A-3", "A-4", "right")
                .speakerInput("AMP", "left-plus", "left-minus", "left")
                .speakerInput("AMP", "right-plus", "right-minus", "right")
                .join(
                        "CAR.A-1 AMP.right-plus",
                        "CAR.A-2 AMP.right-minus",
                        "CAR.A-3 AMP.left-plus",
                        "CAR.A-4 AMP.left-minus");
        Fix fix = fix(wiring.hookup(), STOCK);

        assertThat(fix.isReady()).isTrue();
        assertThat(fix.what()).hasSize(1);
        assertThat(fix.adds()).isEmpty();
    }

    @Test
    void givesASettingWithOneChoiceAndLeavesAChoiceToThePerson() {
        Hookup one = settings("\"only\": \"the only one\"");
        Hookup two = settings("\"1\": \"one\", \"2\": \"two\"");

        assertThat(fix(one, STOCK).what()).containsExactly("Set mode of IFC to only, its only choice.");
        assertThat(fix(two, STOCK).what()).isEmpty();
        assertThat(fix(two, STOCK).isReady()).isFalse();
    }

    private static Hookup settings(String choices) {
        return new Wiring()
                .inside("IFC", "\"settings\": {\"mode\": {\"choices\": {" + choices + "}, \"required\": true}}")
                .hookup();
    }

    @Test
    void takesNothingOffThatTakesSomethingToBecomeReady() {
        // the lead of the switched load would be quiet if it were taken off and capped
        Hookup hookup = new Wiring()
                .car("C6-1", Wiring.facts("power.battery", Wiring.constant()))
                .car("C6-2", Wiring.facts("power.accessory", Wiring.supply("running")))
                .lead("HU", "plus", Wiring.facts(load("switched", 2)))
                .lead("HU", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.C6-1 HU.plus", laid("16 AWG"))
                .joinBy("HU.minus CAR.chassis", laid("16 AWG"))
                .joinBy("CAR.C6-1 CAR.C6-2", laid("16 AWG"))
                .hookup();
        Fix fix = fix(hookup, STOCK);

        assertThat(fix.isReady()).as("%s", fix.report().findings()).isTrue();
        assertThat(fix.hookup().document().unused()).isEmpty();
        assertThat(fix.hookup().document().connections().values())
                .anyMatch(connection -> connection.ends().contains("HU.plus"));
    }

    @Test
    void connectsATurnOnLeadInsteadOfCappingIt() {
        // capped it would be quiet too, and the amplifier off for good
        Hookup hookup = new Wiring()
                .car("C6-1", Wiring.facts("power.battery", Wiring.constant()))
                .car("C6-2", Wiring.facts("power.accessory", Wiring.supply("accessory", "ignition", "running")))
                .lead("AMP", "plus", Wiring.facts(load("either", 5)))
                .lead("AMP", "minus", Wiring.facts("\"kind\": \"ground\""))
                .lead(
                        "AMP",
                        "remote",
                        Wiring.facts(
                                "control.amplifier-on",
                                "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.02, \"minVolts\": 6"))
                .joinBy("CAR.C6-1 AMP.plus", laid("16 AWG"))
                .joinBy("AMP.minus CAR.chassis", laid("16 AWG"))
                .hookup();
        Fix fix = fix(hookup, STOCK);

        assertThat(fix.what()).contains("Connect AMP.remote to CAR.C6-2.").noneMatch(what -> what.startsWith("Cap"));
        assertThat(fix.isReady()).as("%s", fix.report().findings()).isTrue();
    }

    @Test
    void wiresCoilsAnewWhereTheirLoadIsTooLow() {
        // four coils of 4 ohms side by side are 1 ohm; two strings of two are 4 ohms, and all in series 16
        String coil =
                "\"kind\": \"speaker-in\", \"channel\": \"subwoofer\", \"ohms\": 4, \"maxWatts\": 300, \"side\": ";
        String out = "\"kind\": \"speaker-out\", \"channel\": \"subwoofer\", \"drive\": \"floating\", \"maxVolts\": 30,"
                + " \"minOhms\": 4, \"side\": ";
        Wiring wiring = new Wiring()
                .lead("AMP", "out-plus", Wiring.facts(out + "\"plus\""))
                .lead("AMP", "out-minus", Wiring.facts(out + "\"minus\""));
        for (String part : List.of("SUB1", "SUB2")) {
            for (String one : List.of("a", "b")) {
                wiring.lead(part, one + "-plus", Wiring.facts(coil + "\"plus\", \"coil\": \"" + one + "\""))
                        .lead(part, one + "-minus", Wiring.facts(coil + "\"minus\", \"coil\": \"" + one + "\""));
                for (String side : List.of("plus", "minus")) {
                    wiring.joinBy("AMP.out-" + side + " " + part + "." + one + "-" + side, laid("12 AWG"));
                }
            }
        }
        Hookup hookup = wiring.hookup();
        Fix fix = fix(hookup, STOCK);

        assertThat(Hookups.findings(Hookups.checker().check(hookup), "load-below-rating"))
                .hasSize(1);
        assertThat(fix.isReady()).as("%s", fix.report().findings()).isTrue();
        assertThat(fix.what())
                .containsExactly(
                        "Wire the 4 coils at AMP.out-plus and AMP.out-minus in 2 strings of 2 in series, side by"
                                + " side.");
        assertThat(fix.report().speakerLoads())
                .singleElement()
                .satisfies(load -> assertThat(load.ohms()).isBetween(4.0, 4.1));
    }

    @Test
    void takesACoilThatWasCappedIntoTheString() {
        // two strings of 8 ohms are 4 ohms; with one coil of the second left off they are 8 and 4, 2.7 ohms
        Wiring wiring = Speakers.dual(
                Speakers.dual(Speakers.amplifier("\"drive\": \"floating\", \"minOhms\": 4, \"maxVolts\": 15"), "S1"),
                "S2");
        wiring.join("AMP.plus S1.1-plus", "S1.1-minus S1.2-plus", "S1.2-minus AMP.minus")
                .join("AMP.plus S2.1-plus", "S2.1-minus AMP.minus")
                .unused("S2.2-plus", "capped")
                .unused("S2.2-minus", "capped");
        Hookup hookup = wiring.hookup();
        Fix fix = fix(hookup, Stock.NONE);

        assertThat(Hookups.findings(Hookups.checker().check(hookup), "load-below-rating"))
                .hasSize(1);
        assertThat(fix.what())
                .containsExactly(
                        "Wire the 4 coils at AMP.plus and AMP.minus in 2 strings of 2 in series, side by side.");
        assertThat(fix.report().speakerLoads())
                .singleElement()
                .satisfies(load -> assertThat(load.ohms()).isBetween(4.0, 4.1));
    }

    @Test
    void turnsTheOneCoilOfAStringThatIsTurned() {
        Wiring wiring = Speakers.inSeriesWithOneTurned(
                Speakers.dual(Speakers.amplifier("\"drive\": \"floating\", \"minOhms\": 4, \"maxVolts\": 15"), "SUB"),
                "SUB");
        Fix fix = fix(wiring.hookup(), Stock.NONE);

        assertThat(fix.what()).contains("Swap the leads of SUB.2-plus and SUB.2-minus.");
        assertThat(Hookups.findings(fix.report(), "polarity-reversed")).isEmpty();
        assertThat(fix.report().speakerLoads())
                .singleElement()
                .satisfies(load -> assertThat(load.coils())
                        .extracting(Report.DrivenCoil::polarity)
                        .containsExactly(Report.Polarity.RIGHT, Report.Polarity.RIGHT));
    }

    @Test
    void swapsFeedAndReturnAtThePartAndLeavesTheFuseAtTheBattery() {
        Hookup hookup = new Wiring()
                .lead("L", "plus", Wiring.facts(load("constant", 8)))
                .lead("L", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.battery-plus L.minus", fused(15))
                .joinBy("L.plus CAR.chassis", laid("14 AWG"))
                .hookup();
        Fix fix = fix(hookup, Stock.NONE);

        assertThat(fix.what()).containsExactly("Swap the leads of L.plus and L.minus.");
        assertThat(wire(fix, "W1").ends()).containsExactly("CAR.battery-plus", "L.plus");
        assertThat(wire(fix, "W2").ends()).containsExactly("L.minus", "CAR.chassis");
    }

    @Test
    void keepsBothFeedsOfALampByADiodeRatherThanTakeOneOff() {
        Hookup hookup = new Wiring()
                .car("A-1", Wiring.facts("power.accessory", Wiring.supply("accessory", "ignition", "running")))
                .car(
                        "A-2",
                        Wiring.facts(
                                "power.illumination",
                                Wiring.supply("asleep", "accessory", "ignition", "cranking", "running", "restarting")
                                        + ", \"when\": \"lamps\""))
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"k\", \"amps\": 3}]")
                .lead("L", "plus", Wiring.facts(load("switched", 1, 6)))
                .lead("L", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.A-1 L.plus", fused(2))
                .joinBy("CAR.A-2 D.a", fused(2))
                .joinBy("D.k L.plus", fused(2))
                .joinBy("L.minus CAR.chassis", fused(15))
                .hookup();
        Report report = Hookups.checker().check(hookup);

        assertThat(Hookups.findings(report, "line-back-fed"))
                .singleElement()
                .satisfies(finding -> assertThat(remedies(hookup, finding))
                        .first()
                        .isEqualTo("Put a diode into the lead of CAR.A-1, conducting away from it."));
        assertThat(fix(hookup, STOCK).what())
                .contains("Put a diode into the lead of CAR.A-1, conducting away from it.")
                .noneMatch(what -> what.startsWith("Take off"));
    }

    @Test
    void bringsTheOtherSideOfAnInputToTheOtherSideOfWhatItGets() {
        Wiring half = new Wiring()
                .lead("HU", "out", Wiring.facts(Wiring.lineOut("left", "signal", "isolated")))
                .lead("HU", "out-return", Wiring.facts(Wiring.lineOut("left", "return", "isolated")))
                .lead("HV", "out-return", Wiring.facts(Wiring.lineOut("right", "return", "isolated")))
                .lead("AMP", "in", Wiring.facts(Wiring.lineIn("left", "signal", "chassis")))
                .lead("AMP", "in-return", Wiring.facts(Wiring.lineIn("left", "return", "chassis")))
                .join("HU.out AMP.in");

        assertThat(fix(half.hookup(), Stock.NONE).what()).contains("Connect AMP.in-return to HU.out-return.");
        assertThat(fix(half.join("HV.out-return AMP.in-return").hookup(), Stock.NONE)
                        .what())
                .contains("Move the lead of AMP.in-return from HV.out-return to HU.out-return.");
    }

    @Test
    void joinsTwoReturnsThatWereForgottenThoughAnotherChannelBringsThemTogether() {
        Wiring stereo = new Wiring();
        for (String channel : List.of("left", "right")) {
            stereo.lead("HU", channel, Wiring.facts(Wiring.lineOut(channel, "signal", "chassis")))
                    .lead("HU", channel + "-return", Wiring.facts(Wiring.lineOut(channel, "return", "chassis")))
                    .lead("AMP", channel, Wiring.facts(Wiring.lineIn(channel, "signal", "chassis")))
                    .lead("AMP", channel + "-return", Wiring.facts(Wiring.lineIn(channel, "return", "chassis")))
                    .join("HU." + channel + " AMP." + channel);
        }
        stereo.inside("HU", "\"conducts\": [[\"left-return\", \"right-return\"]]")
                .inside("AMP", "\"conducts\": [[\"left-return\", \"right-return\"]]")
                .join("HU.right-return AMP.right-return");

        Hookup hookup = stereo.hookup();
        assertThat(fix(hookup, Stock.NONE).what()).containsExactly("Connect AMP.left-return to HU.left-return.");
        assertThat(Hookups.findings(Hookups.checker().check(hookup), "lead-unaccounted"))
                .hasSize(2)
                .allSatisfy(finding ->
                        assertThat(remedies(hookup, finding)).contains("Connect AMP.left-return to HU.left-return."));
    }

    @Test
    void sortsChannelsThatWereSwappedBetweenTwoLoudspeakers() {
        Wiring swapped = new Wiring();
        for (String channel : List.of("front-left", "front-right")) {
            String other = channel.equals("front-left") ? "front-right" : "front-left";
            for (String side : List.of("plus", "minus")) {
                swapped.lead("AMP", channel + "-" + side, Wiring.facts(Wiring.floating(channel, side)))
                        .lead("S-" + channel, side, Wiring.facts(Wiring.loudspeaker(channel, side)))
                        .join("AMP." + other + "-" + side + " S-" + channel + "." + side);
            }
        }
        Fix fix = fix(swapped.hookup(), Stock.NONE);

        assertThat(fix.what()).hasSize(1);
        assertThat(Hookups.findings(fix.report(), "channels-swapped")).isEmpty();
    }

    @Test
    void sortsTheLeadsBeforeAnAmplifierWhoseLoudspeakersAreRight() {
        Wiring swapped = new Wiring();
        List<String> couples = new ArrayList<>();
        for (String channel : List.of("left", "right")) {
            String other = channel.equals("left") ? "right" : "left";
            String in = "in-" + channel;
            couples.add(Wiring.couple(in, in + "-return", channel + "-plus", channel + "-minus", "\"gain\": 2"));
            swapped.lead("HU", channel, Wiring.facts(Wiring.lineOut(channel, "signal", "isolated")))
                    .lead("HU", channel + "-return", Wiring.facts(Wiring.lineOut(channel, "return", "isolated")))
                    .lead("AMP", in, Wiring.facts(Wiring.lineIn(channel, "signal", "isolated")))
                    .lead("AMP", in + "-return", Wiring.facts(Wiring.lineIn(channel, "return", "isolated")))
                    .join("HU." + other + " AMP." + in, "HU." + other + "-return AMP." + in + "-return");
            for (String side : List.of("plus", "minus")) {
                swapped.lead("AMP", channel + "-" + side, Wiring.facts(Wiring.floating(channel, side)))
                        .lead("S-" + channel, side, Wiring.facts(Wiring.loudspeaker(channel, side)))
                        .join("AMP." + channel + "-" + side + " S-" + channel + "." + side);
            }
        }
        Fix fix = fix(
                swapped.inside("AMP", "\"couples\": [" + String.join(", ", couples) + "]")
                        .hookup(),
                Stock.NONE);

        assertThat(fix.what())
                .containsExactly("Connect AMP.in-left to HU.left, AMP.in-left-return to HU.left-return, AMP.in-right to"
                        + " HU.right, AMP.in-right-return to HU.right-return.");
        assertThat(Hookups.findings(fix.report(), "channels-swapped")).isEmpty();
    }

    @Test
    void joinsTheReturnOfAPictureThatWasCappedOrWentToGround() {
        Wiring capped = pictured().unused("HU.camera-return", "capped").unused("CAM.video-return", "capped");
        assertThat(fix(capped.hookup(), Stock.NONE).what())
                .containsExactly("Connect HU.camera-return to CAM.video-return.");
        Wiring grounded = pictured().unused("CAM.video-return", "capped").join("HU.camera-return CAR.chassis");
        assertThat(fix(grounded.hookup(), Stock.NONE).what())
                .containsExactly("Move the lead of HU.camera-return from CAR.chassis to CAM.video-return.");
    }

    private static Wiring pictured() {
        return new Wiring()
                .lead("CAM", "video", Wiring.facts("\"kind\": \"video-out\", \"side\": \"signal\""))
                .lead("CAM", "video-return", Wiring.facts("\"kind\": \"video-out\", \"side\": \"return\""))
                .lead("HU", "camera", Wiring.facts("\"kind\": \"video-in\", \"side\": \"signal\""))
                .lead("HU", "camera-return", Wiring.facts("\"kind\": \"video-in\", \"side\": \"return\""))
                .join("CAM.video HU.camera");
    }

    @Test
    void settlesWhatIsConnectedWhereBeforeHowThickItIs() {
        // the turn-on has the battery, and the feed the thin lead of the accessory circuit
        Hookup hookup = new Wiring()
                .car("A-1", Wiring.facts("power.accessory", Wiring.supply("accessory", "ignition", "running")))
                .lead("AMP", "plus", Wiring.facts("power.battery", load("constant", 30, 6)))
                .lead("AMP", "minus", Wiring.facts("\"kind\": \"ground\""))
                .lead(
                        "AMP",
                        "on",
                        Wiring.facts(
                                "control.amplifier-on",
                                "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.02, \"minVolts\": 6"))
                .joinBy("CAR.battery-plus AMP.on", fused("8 AWG", 40))
                .joinBy("CAR.A-1 AMP.plus", fused("18 AWG", 1))
                .joinBy("AMP.minus CAR.chassis", laid("8 AWG"))
                .hookup();
        Report report = Hookups.checker().check(hookup);

        assertThat(report.findings()).extracting(Finding::rule).contains("conductor-too-small");
        assertThat(fix(hookup, Stock.NONE).what()).containsExactly("Swap the leads of AMP.plus and AMP.on.");
    }

    @Test
    void mendsTheDropThoughNothingMendsTheRestart() {
        Hookup hookup = new Wiring()
                .lead("L", "plus", Wiring.facts(load("constant", 30, 9)))
                .lead("L", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy(
                        "CAR.battery-plus L.plus",
                        "\"conductor\": {\"size\": \"12 AWG\"}, \"length\": {\"value\": 4, \"unit\": \"m\"},"
                                + " \"fuse\": {\"ratingAmps\": 30, \"fromSource\": {\"value\": 10, \"unit\": \"cm\"}}")
                .joinBy("L.minus CAR.chassis", laid("8 AWG"))
                .hookup();
        Fix fix = fix(hookup, Stock.NONE);

        assertThat(Hookups.findings(fix.report(), "voltage-drop-excessive")).isEmpty();
        assertThat(Hookups.findings(fix.report(), "undervoltage")).hasSize(1);
        assertThat(fix.what()).singleElement().asString().startsWith("Lay W1 in ");
    }

    @Test
    void groundsAPartAtTheChassisRatherThanThroughTheLeadOfAnother() {
        Hookup hookup = new Wiring()
                .lead("A", "plus", Wiring.facts(load("constant", 1, 6)))
                .lead("A", "minus", Wiring.facts("\"kind\": \"ground\""))
                .lead("B", "plus", Wiring.facts(load("constant", 28, 6)))
                .lead("B", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.battery-plus A.plus", fused(2))
                .joinBy("A.minus CAR.chassis", laid("18 AWG"))
                .joinBy("CAR.battery-plus B.plus", fused("8 AWG", 30))
                .joinBy("B.minus A.minus", laid("10 AWG"))
                .hookup();
        Fix fix = fix(hookup, Stock.NONE);

        assertThat(fix.isReady()).as("%s", fix.report().findings()).isTrue();
        assertThat(fix.what()).containsExactly("Move the ground lead of B.minus to CAR.chassis.");
    }

    @Test
    void joinsNoContactSoThatItWouldShortIfItClosed() {
        // the coil is on all night; with K.85 and K.87 swapped it would never pull in, and battery would wait for
        // ground
        Hookup hookup = new Wiring()
                .car("A-1", Wiring.facts("power.accessory", Wiring.supply("accessory", "ignition", "running")))
                .inside(
                        "K",
                        "\"relays\": [{\"coil\": [\"85\", \"86\"], \"coilOhms\": 90, \"common\": \"30\", \"open\": \"87\","
                                + " \"contactAmps\": 30, \"clamped\": true}]")
                .lead("L", "plus", Wiring.facts(load("switched", 8)))
                .lead("L", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.battery-plus K.86", fused(5))
                .joinBy("K.85 CAR.chassis", fused(5))
                .joinBy("CAR.battery-plus K.30", fused(15))
                .joinBy("K.87 L.plus", fused(15))
                .joinBy("L.minus CAR.chassis", fused(15))
                .hookup();
        Report report = Hookups.checker().check(hookup);
        Fix fix = fix(hookup, STOCK);

        assertThat(report.findings()).isNotEmpty();
        assertThat(report.findings().stream()
                        .flatMap(finding -> remedies(hookup, finding).stream())
                        .toList())
                .isNotEmpty()
                .doesNotContain("Swap the leads of K.87 and K.85.", "Swap the leads of K.85 and K.87.");
        assertThat(fix.what())
                .contains("Move the lead of K.86 from CAR.battery-plus to CAR.A-1, so that the relay rests when the"
                        + " vehicle does.")
                .noneMatch(what -> what.startsWith("Swap"));
    }

    @Test
    void sizesTheFuseBetweenTwoBatteriesByTheConductor() {
        // 33 CFR 183.425 table 5: 4 AWG with 105 °C insulation takes 160 A
        String battery =
                "\"kind\": \"supply\", \"volts\": 12.6, \"live\": [\"asleep\", \"accessory\", \"ignition\", \"cranking\","
                        + " \"running\", \"restarting\"]";
        Hookup hookup = new Wiring()
                .car("A-1", Wiring.facts("power.ignition", Wiring.supply("ignition", "running")))
                .inside(
                        "K",
                        "\"relays\": [{\"coil\": [\"85\", \"86\"], \"coilOhms\": 90, \"common\": \"30\", \"open\": \"87\","
                                + " \"contactAmps\": 200, \"clamped\": true}]")
                .lead("B2", "plus", Wiring.facts("power.battery", battery))
                .lead("B2", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy(
                        "CAR.battery-plus K.30",
                        "\"conductor\": {\"size\": \"4 AWG\"}, " + METRE
                                + ", \"fuse\": {\"ratingAmps\": 150, \"fromSource\": {\"value\": 20, \"unit\": \"cm\"}}")
                .joinBy("K.87 B2.plus", laid("4 AWG"))
                .joinBy("B2.minus CAR.chassis", laid("4 AWG"))
                .joinBy("CAR.A-1 K.86", laid("18 AWG"))
                .joinBy("K.85 CAR.chassis", laid("18 AWG"))
                .hookup();
        Report report = Hookups.checker().check(hookup);

        assertThat(Hookups.findings(report, "fuse-missing"))
                .singleElement()
                .satisfies(finding -> assertThat(remedies(hookup, finding))
                        .anyMatch(what -> what.startsWith("Put a 150 A fuse into"))
                        .noneMatch(what -> what.startsWith("Put a 1 A")));
    }

    private static String fused(double amps) {
        return fused("14 AWG", amps);
    }

    @Test
    void saysWhichBoundEndedTheSearch() {
        Hookup draft = DemoFiles.example(BASS_DRAFT);
        Report report = Hookups.checker().check(draft);
        Mending.Bounds three = new Mending.Bounds(3, Duration.ofSeconds(60));
        Mending.Means means = new Mending.Means(Hookups.checker()::check, STOCK, three);
        Mending.Bounds noTime = new Mending.Bounds(100, Duration.ZERO);

        Fix fix = MENDING.fix(draft, report, means);
        assertThat(fix.checks()).isEqualTo(3);
        assertThat(fix.bound()).isEqualTo("ended after 3 checks");
        assertThat(fix.isReady()).isFalse();
        assertThat(MENDING.remedy(draft, report, means).bound()).isEqualTo("ended after 3 checks");
        assertThat(MENDING.fix(draft, report, new Mending.Means(Hookups.checker()::check, STOCK, noTime))
                        .bound())
                .isEqualTo("ended after 0 ms and 0 checks");
    }

    @Test
    void takesTheLatestRevisionOfADeviceAndOfTheMap() {
        HookupDocument document = Hookups.document("""
                {"vehicle": {"id": "e1f4b9c2-6d03-4a7e-9c58-2b8f71d0a603", "revision": 2},
                 "parts": {"D1": {"device": "DIO-1", "revision": 1}, "D2": {"device": "DIO-1", "revision": 1}},
                 "unused": {"D1.anode": {"as": "capped", "why": "a spare"}, "D1.cathode": {"as": "capped", "why": "a spare"},
                   "D2.anode": {"as": "capped", "why": "a spare"}, "D2.cathode": {"as": "capped", "why": "a spare"}}}""");
        Device diode = Objects.requireNonNull(DemoFiles.devices().get("DIO-1"));
        FunctionMap map = FunctionMap.of(Map.of());
        Hookup hookup = Hookup.resolve(document, map, Map.of("D1", diode, "D2", diode), List.of())
                .with(new LatestRevisions(3, Map.of("D1", 4, "D2", 4)));
        Stock latest = new Stock() {
            @Override
            public List<Item> listDevices(String kind) {
                return List.of();
            }

            @Override
            public Item findDevice(String code) {
                assertThat(code).isEqualTo("DIO-1");
                return new Item(diode, 4);
            }

            @Override
            public StockedMap findMap(String vehicle) {
                assertThat(vehicle).startsWith("e1f4b9c2");
                return new StockedMap(map, 3);
            }
        };

        Fix fix = fix(hookup, latest);

        assertThat(fix.report().findings()).isEmpty();
        assertThat(fix.what())
                .containsExactlyInAnyOrder(
                        "Take revision 3 of the vehicle's map.", "Take revision 4 of the device DIO-1.");
        assertThat(fix.patch())
                .extracting(Remedy.Operation::path)
                .containsExactly("/parts/D1", "/parts/D2", "/vehicle/revision");
        assertThat(fix(hookup, Stock.NONE).what()).isEmpty();
    }

    @Test
    void leadsACableAShorterWayWhereThatMayDo() {
        String usb = "\"kind\": \"data\", \"bus\": \"usb\", \"line\": \"%s\"";
        Wiring wiring = new Wiring();
        for (String line : List.of("plus", "minus")) {
            wiring.lead("HU", line, Wiring.facts(usb.formatted(line)))
                    .lead("SOCKET", line, Wiring.facts(usb.formatted(line)))
                    .joinBy("HU." + line + " SOCKET." + line, "\"length\": {\"value\": 18, \"unit\": \"ft\"}");
        }
        Fix fix = fix(wiring.hookup(), Stock.NONE);

        assertThat(fix.what()).containsExactly("Lead W1 and W2 a shorter way, of 16.4 ft at most.");
        assertThat(fix.report().findings()).isEmpty();
        Hookup far = new Wiring()
                .lead("HU", "usb", Wiring.facts(usb.formatted("cable")))
                .lead("SOCKET", "usb", Wiring.facts(usb.formatted("cable")))
                .joinBy("HU.usb SOCKET.usb", "\"length\": {\"value\": 12, \"unit\": \"m\"}")
                .hookup();
        assertThat(fix(far, Stock.NONE).what()).isEmpty();
    }

    @Test
    void wiresCoilsThatGetTooMuchInSeries() {
        String output = "\"drive\": \"floating\", \"maxVolts\": 20, \"minOhms\": 2";
        String coil = "\"ohms\": 4, \"maxWatts\": 60, \"coil\": \"%d\"";
        Wiring wiring = new Wiring()
                .lead("AMP", "plus", Wiring.facts(Wiring.speakerOut("subwoofer", "plus", output)))
                .lead("AMP", "minus", Wiring.facts(Wiring.speakerOut("subwoofer", "minus", output)));
        for (int at = 1; at < 3; at++) {
            for (String side : List.of("plus", "minus")) {
                wiring.lead(
                                "SUB",
                                side + at,
                                Wiring.facts(Wiring.audio("speaker-in", "subwoofer", side, coil.formatted(at))))
                        .join("AMP." + side + " SUB." + side + at);
            }
        }
        // 20 V across 4 ohms are 100 W a coil; in series 10 V are left for each, 25 W
        Fix fix = fix(wiring.hookup(), Stock.NONE);

        assertThat(fix.what()).containsExactly("Wire the 2 coils at AMP.plus and AMP.minus in series.");
        assertThat(fix.report().findings()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"rear-entertainment/check-3-ready", "amplifier-and-subwoofers/check-2-ready"})
    void makesTheConnectionThatWasForgotten(String job) {
        Hookup whole = DemoFiles.example(job);
        int same = 0;
        for (String left : whole.document().connections().keySet()) {
            Fix fix = fix(Edits.of(whole).without(left).hookup(), STOCK);

            assertThat(fix.isReady())
                    .as("without %s: %s, %s", left, fix.what(), fix.report().findings())
                    .isTrue();
            same += ends(fix.hookup()).equals(ends(whole)) ? 1 : 0;
        }
        // some leads may go to several places that are as good
        assertThat(same).isGreaterThanOrEqualTo(whole.document().connections().size() * 7 / 10);
    }

    private static Set<Set<String>> ends(Hookup hookup) {
        return hookup.document().connections().values().stream()
                .map(connection -> Set.copyOf(connection.ends()))
                .collect(Collectors.toSet());
    }

    @Test
    void looksForNoLessCostlyMendOnceItIsLate() {
        Hookup draft = DemoFiles.example(BASS_DRAFT);
        Report report = Hookups.checker().check(draft);
        Mending.Bounds late = new Mending.Bounds(2000, Duration.ofSeconds(60), Duration.ZERO);

        Fix fix = MENDING.fix(draft, report, new Mending.Means(Hookups.checker()::check, STOCK, late));

        assertThat(fix.isReady()).isTrue();
        assertThat(fix.bound())
                .isEqualTo("found a mend, and looked for a less costly one until 0 ms and " + fix.checks() + " checks");
        assertThat(fix.checks()).isLessThan(fix(draft, STOCK).checks());
    }

    @Test
    void hasNothingToDoWhereAllIsReady() {
        Fix fix = fix(DemoFiles.example("rear-entertainment/check-3-ready"), STOCK);

        assertThat(fix.isReady()).isTrue();
        assertThat(fix.patch()).isEmpty();
        assertThat(fix.checks()).isZero();
    }

    private static final String METRE = "\"length\": {\"value\": 1, \"unit\": \"m\"}";

    private static String load(String needs, double amps) {
        return load(needs, amps, 8);
    }

    private static String load(String needs, double amps, double minVolts) {
        return "\"kind\": \"load\", \"needs\": \"%s\", \"typicalAmps\": %s, \"maxAmps\": %s, \"minVolts\": %s, \"sleepAmps\": 0"
                .formatted(needs, amps / 2, amps, minVolts);
    }

    private static String laid(String size) {
        return "\"conductor\": {\"size\": \"" + size + "\"}, " + METRE;
    }

    private static String fused(String size, double amps) {
        return laid(size) + ", \"fuse\": {\"ratingAmps\": " + amps
                + ", \"fromSource\": {\"value\": 10, \"unit\": \"cm\"}}";
    }

    private static Connection wire(Fix fix, String ref) {
        return Objects.requireNonNull(fix.hookup().document().connections().get(ref), ref);
    }

    private static Fix fix(Hookup hookup, Stock stock) {
        return MENDING.fix(hookup, Hookups.checker().check(hookup), means(stock));
    }

    private static List<String> remedies(Hookup hookup, Finding finding) {
        return MENDING.remedy(hookup, Hookups.checker().check(hookup), means(STOCK)).report().findings().stream()
                .filter(one -> one.fingerprint().equals(finding.fingerprint()))
                .flatMap(one -> Objects.requireNonNull(one.remedies()).stream())
                .map(Remedy::what)
                .toList();
    }
}
