package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.LengthUnit;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.HookupDocument.VehicleUse;
import dev.splicebook.hookup.PairingQuestion.Preferences;
import dev.splicebook.hookup.Proposal.Alternative;
import dev.splicebook.hookup.Proposal.Choice;
import dev.splicebook.hookup.Proposal.GivenUp;
import dev.splicebook.hookup.Proposal.SettingToMake;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Report.Verdict;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Hookups proposed from the bare maps and devices of the demo book. */
class PairingTest {

    private static final String REAR = "rear-entertainment/check-3-ready";
    private static final String REAR_DRAFT = "rear-entertainment/check-1-first-draft";
    private static final String BASS = "amplifier-and-subwoofers/check-2-ready";
    private static final String BASS_DRAFT = "amplifier-and-subwoofers/check-1-first-draft";

    /** Catalogue of the demo, as the service hands it in. */
    private static final Stock STOCK = new Stock() {
        @Override
        public List<Item> listDevices(String kind) {
            return DemoFiles.devices().values().stream()
                    .filter(device -> kind.equals(device.kind()))
                    .map(device -> new Item(device, 1))
                    .toList();
        }

        @Override
        public List<Listed> listDevices(FunctionId function) {
            return DemoFiles.devices().values().stream()
                    .filter(device -> device.terminals().values().stream()
                            .anyMatch(lead ->
                                    lead.function() != null && lead.function().isAtOrBelow(function)))
                    .map(device -> new Listed(String.valueOf(device.code()), device.kind()))
                    .sorted(Comparator.comparing(Listed::code))
                    .toList();
        }
    };

    private final Pairing pairing = new Pairing(Hookups.checker()::check);

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS, REAR_DRAFT, BASS_DRAFT})
    void makesOfEachJobAHookupThatIsReady(String job) {
        Proposal proposal = propose(job);

        assertThat(proposal.report().findings()).isEmpty();
        assertThat(proposal.report().outcomes())
                .filteredOn(outcome -> outcome.result() == Result.NOT_CHECKED)
                .isEmpty();
        assertThat(proposal.report().verdict()).isEqualTo(Verdict.READY);
        assertThat(proposal.gaveUp()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void joinsWhatTheHandMadeHookupJoins(String job) {
        Hookup handMade = DemoFiles.example(job);
        Proposal proposal = propose(job);
        Hookup proposed = DemoFiles.resolve(proposal.hookup());

        // where power and ground come from is a matter of taste, and so is which of two like coils comes first
        assertThat(signals(proposed)).containsAll(signals(handMade));
        assertThat(proposed.unplugged()).isEqualTo(handMade.unplugged());
        assertThat(proposal.added()).isEmpty();
    }

    @Test
    void saysOfEachChoiceOfTheRearEntertainmentWhy() {
        assertThat(PairingCasesTest.reasons(propose(REAR)))
                .containsExactlyInAnyOrder("""
                ISO.left-in ISO.left-in-return -> CAR.C2-1 CAR.C2-2 | audio.line.rear-entertainment.left.signal is wished for | not AVA.plug-left AVA.plug-sleeve: its two sides share one return
                HU.av-left HU.av-sleeve -> AVA.plug-left AVA.plug-sleeve | what it passes on is wished for; both are audio.line.auxiliary.left | not ISO.left-out ISO.left-out-return: just as good
                ISO.right-in ISO.right-in-return -> CAR.C2-3 CAR.C2-4 | audio.line.rear-entertainment.right.signal is wished for | not AVA.plug-right AVA.plug-sleeve: its two sides share one return
                HU.av-right HU.av-sleeve -> AVA.plug-right AVA.plug-sleeve | what it passes on is wished for; both are audio.line.auxiliary.right | not ISO.right-out ISO.right-out-return: just as good
                AVA.left AVA.left-return -> ISO.left-out ISO.left-out-return | its return floats, so that it may meet others | not CAR.C2-13 CAR.C2-15: nobody wished for it
                AVA.right AVA.right-return -> ISO.right-out ISO.right-out-return | its return floats, so that it may meet others | not CAR.C2-14 CAR.C2-15: nobody wished for it
                CAR.C1-6 CAR.C1-7 -> HU.front-left-plus HU.front-left-minus | both are front-left; the harness brings it
                CAR.C1-8 CAR.C1-9 -> HU.front-right-plus HU.front-right-minus | both are front-right; the harness brings it
                CAR.C1-10 CAR.C1-11 -> HU.rear-left-plus HU.rear-left-minus | both are rear-left; the harness brings it
                CAR.C1-12 CAR.C1-13 -> HU.rear-right-plus HU.rear-right-minus | both are rear-right; the harness brings it
                USB.power -> CAR.C1-1 IFC.accessory by REL | both are power.battery; the harness brings it; both are power.accessory | not CAR.C10-1: it takes a tap at connector C10
                HU.memory -> CAR.C1-1 | both are power.battery; the harness brings it; it gives 15 A | not CAR.C6-1: it takes a tap at connector C6
                IFC.memory -> CAR.C1-1 | both are power.battery; the harness brings it; it gives 15 A | not CAR.C6-1: it takes a tap at connector C6
                HU.accessory -> IFC.accessory | both are power.accessory; it is a lead of a part; it gives 1 A | not CAR.C1-1 IFC.accessory through REL: REL carries the current, and IFC.accessory only its coil
                CAR.C1-5 -> HU.antenna-on | both are control.antenna-on; it is a lead of a part; it gives 0.3 A | not IFC.accessory: it is power.accessory and not control.antenna-on
                HU.mute -> CAR.C1-14 | both are control.mute; the harness brings it
                HU.parking-brake -> CAR.C6-4 | both are control.parking-brake; the factory unit hangs on it too; it takes a tap at connector C6
                HU.illumination -> CAR.C1-3 | both are power.illumination; the harness brings it | not CAR.C6-10: it takes a tap at connector C6
                HU.reverse -> CAR.C2-12 | both are control.reverse; the harness brings it | not CAR.C9-1: it takes a tap at connector C9
                HU.wired-remote -> IFC.wired-remote | both are control.wired-remote; it is a lead of a part | not CAR.C2-5: it is control.steering-wheel and not control.wired-remote
                HU.ground -> CAR.C1-2 | it is in the connector that the feed comes from; the harness brings it | not CAR.chassis: it takes a lead to the body
                USB.ground -> CAR.C1-2 | it is in the connector that the feed comes from; the harness brings it | not CAR.chassis: it takes a lead to the body
                IFC.ground -> CAR.C1-2 | it is in the connector that the feed comes from; the harness brings it | not CAR.chassis: it takes a lead to the body
                REL.85 -> CAR.C1-2 | the harness brings it | not CAR.chassis: it takes a lead to the body
                USB.usb -> HU.usb | both are data.usb
                IFC.wired-remote-return -> HU.wired-remote-return | both are control.steering-wheel-return; its line goes the same way | not CAR.C2-6: its line goes elsewhere
                HU.antenna -> CAR.C11-1 | both are antenna.radio; its connector C11 is off already; no adapter is between
                HU.av-video ->  | nothing here gives a picture
                HU.camera-signal HU.camera-return ->  | nothing here gives a picture
                HU steering-keys
                IFC head-unit-maker = 1 | Hexhollow is the only maker among its choices that a part here has
                """.lines().toArray(String[]::new));
    }

    @Test
    void saysOfEachChoiceOfTheSubwoofersWhy() {
        assertThat(PairingCasesTest.reasons(propose(BASS)))
                .containsExactlyInAnyOrder("""
                AMP.in-left AMP.in-left-return -> LOC.out-left LOC.out-left-return | both are audio.line.left | not CAR.A1-8 CAR.A1-9: it takes a tap at connector A1
                AMP.in-right AMP.in-right-return -> LOC.out-right LOC.out-right-return | both are audio.line.right | not CAR.A1-10 CAR.A1-11: it takes a tap at connector A1
                LOC.in-left-plus LOC.in-left-minus -> CAR.A2-1 CAR.A2-2 | its channel is front-left; it gives up to 17.3 V; it takes a tap at connector A2 | not CAR.A2-5 CAR.A2-6: it gives up to 11 V
                LOC.in-right-plus LOC.in-right-minus -> CAR.A2-3 CAR.A2-4 | its channel is front-right; it gives up to 17.3 V; it takes a tap at connector A2 | not CAR.A2-7 CAR.A2-8: it gives up to 11 V
                SUB2.coil-1-plus SUB2.coil-1-minus SUB2.coil-2-plus SUB2.coil-2-minus -> AMP.out-plus AMP.out-minus | both are subwoofer; wired as (SUB2 coil 1 in series with SUB2 coil 2) side by side with (SUB1 coil 1 in series with SUB1 coil 2), a load of 4 ohms, and the output bears 2
                SUB1.coil-1-plus SUB1.coil-1-minus SUB1.coil-2-plus SUB1.coil-2-minus -> AMP.out-plus AMP.out-minus | both are subwoofer; wired as (SUB2 coil 1 in series with SUB2 coil 2) side by side with (SUB1 coil 1 in series with SUB1 coil 2), a load of 4 ohms, and the output bears 2
                AMP.power -> CAR.battery-plus by KIT | the battery; KIT brings its wires and fuse; 42 A belong straight on the battery | not CAR.B1-1 through KIT: a tap is no place for 42 A
                LOC.power -> CAR.A1-2 | both are power.battery; it gives 30 A; connector A1 is where the work is | not CAR.A1-1: just as good
                AMP.bass-knob -> BASS.knob | both are control.bass-level; it is a lead of a part
                AMP.remote -> LOC.turn-on | both are control.amplifier-on; it is a lead of a part | not CAR.A1-5: it takes a tap at connector A1
                AMP.ground -> CAR.chassis by KIT | the body is near | not CAR.A1-4 through KIT: a factory ground wire is no place for 42 A
                LOC.ground -> CAR.A1-4 | it is in the connector that the feed comes from; connector A1 is where the work is | not CAR.A1-3: just as good
                AMP low-pass
                LOC turn-on
                """.lines().toArray(String[]::new));
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS, REAR_DRAFT, BASS_DRAFT})
    void proposesAHookupThatCanBeCheckedAsItIs(String job) {
        Proposal proposal = propose(job);

        Report again = Hookups.checker().check(DemoFiles.resolve(proposal.hookup()));

        assertThat(again).isEqualTo(proposal.report());
    }

    @ParameterizedTest
    @ValueSource(strings = {"safety.airbag", "safety"})
    void leavesAConnectorThatOnlyItsFunctionMarksAsUntouchable(String function) {
        Hookup asked = Hookups.hookup("""
                {"vehicle": {"inline": {
                   "connectors": {"C1": {"location": "dash", "mates": ["R-1"]}, "C2": {"location": "dash"}},
                   "circuits": {
                     "C1-1": {"function": "power.battery", "loadEnd": "radio", "electrical": {"kind": "supply", "maxAmps": 10,
                       "fuseAmps": 10, "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                     "C2-1": {"function": "%s", "loadEnd": "radio"}}}},
                 "parts": {"HU": {"inline": {"connectors": {"A": {"mates": ["R-1"]}}, "terminals": {
                   "A-1": {"function": "power.battery", "electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 2,
                     "needs": "constant", "minVolts": 6, "sleepAmps": 0}}}}}}}
                """.formatted(function));
        Proposal proposal = pairing.propose(asked, Preferences.none(), STOCK);
        Hookup proposed = Hookup.resolve(proposal.hookup());

        assertThat(proposed.unplugged()).contains("C1").doesNotContain("C2");
        assertThat(Hookups.findings(proposal.report(), "airbag-circuit-touched"))
                .isEmpty();
    }

    @Test
    void refusesWhatWouldTakeMinutes() {
        StringBuilder terminals = new StringBuilder();
        for (int each = 0; each < 101; each++) {
            String facts = "\"channel\": \"front-left\", \"side\": \"signal\"";
            terminals
                    .append("\"o%d\": {\"electrical\": {\"kind\": \"line-out\", %s}},".formatted(each, facts))
                    .append("\"i%d\": {\"electrical\": {\"kind\": \"line-in\", %s}},".formatted(each, facts));
        }
        terminals.setLength(terminals.length() - 1);
        Hookup asked = Hookups.hookup("{\"parts\": {\"A\": {\"inline\": {\"terminals\": {" + terminals + "}}}}}");

        assertThat(Pairing.tooLarge(asked))
                .isEqualTo("101 outputs and 101 inputs of sound can pair in 10201 ways, above the 10000 that a pairing"
                        + " takes");
        assertThat(Pairing.tooLarge(DemoFiles.example(REAR))).isNull();
    }

    @Test
    void putsTheIsolatorBeforeTheSleeve() {
        Map<String, Choice> choices = choices(propose(REAR));

        assertThat(Objects.requireNonNull(choices.get("ISO.left-in")).to()).containsExactly("CAR.C2-1", "CAR.C2-2");
        assertThat(Objects.requireNonNull(choices.get("AVA.left")).to())
                .containsExactly("ISO.left-out", "ISO.left-out-return");
        assertThat(Objects.requireNonNull(choices.get("HU.av-left")).to())
                .containsExactly("AVA.plug-left", "AVA.plug-sleeve");
    }

    @Test
    void addsTheIsolatorThatTheDraftLacks() {
        Proposal proposal = propose(REAR_DRAFT);

        assertThat(proposal.added()).containsExactly("ISO1");
        PartUse added = proposal.hookup().parts().get("ISO1");
        assertThat(Objects.requireNonNull(added).device()).isEqualTo("ISO-2");
        assertThat(added.revision()).isEqualTo(1);
    }

    @Test
    void addsTheConverterThatAnAmplifierWithoutLineLevelLacks() {
        Proposal proposal = propose(demo("Tessick", List.of(add("audio.speaker.subwoofer")), "AMP-1", "SUB-D4"));

        assertThat(proposal.added()).containsExactly("LOC1");
        assertThat(Objects.requireNonNull(choices(proposal).get("AMP-1.in-left"))
                        .to())
                .containsExactly("LOC1.out-left", "LOC1.out-left-return");
        assertThat(Objects.requireNonNull(choices(proposal).get("LOC1.in-left-plus"))
                        .to())
                .containsExactly("CAR.C1-6", "CAR.C1-7");
        assertThat(proposal.report().verdict()).isEqualTo(Verdict.READY);
    }

    @Test
    void takesOffAUnitThatTheMapDoesNotNameForTheHeadUnitThatReplacesIt() {
        String out =
                "{'kind': 'speaker-out', 'channel': 'front-left', 'side': '%s', 'drive': 'floating', 'maxVolts': 9, 'minOhms': 4}";
        String in = "{'kind': 'speaker-in', 'channel': 'front-left', 'side': '%s', 'ohms': 4, 'maxWatts': 60}";
        String always =
                "{'kind': 'supply', 'maxAmps': 15, 'fuseAmps': 15, 'live': ['asleep', 'accessory', 'ignition', 'cranking',"
                        + " 'running', 'restarting']}";
        String power = "{'function': 'power.battery', 'electrical': " + always + "}";
        String ground = "{'function': 'ground.chassis', 'electrical': {'kind': 'ground'}}";
        StringBuilder speakers = new StringBuilder();
        StringBuilder leads = new StringBuilder();
        for (String side : List.of("plus", "minus")) {
            String function = "'function': 'audio.speaker.front-left." + side + "', ";
            speakers.append(", 'C2-%s': {%s'whenPlugged': %s, 'whenUnplugged': %s}"
                    .formatted(side.length(), function, out.formatted(side), in.formatted(side)));
            leads.append(", 'front-left-%s': {%s'electrical': %s}".formatted(side, function, out.formatted(side)));
        }
        // the fuse box has what the head unit has too, and is somewhere else
        Hookup asked = Hookups.hookup(
                """
                {'vehicle': {'inline': {
                   'connectors': {'C1': {'location': 'radio'}, 'C2': {'location': 'radio'}, 'F1': {'location': 'fuse box'}},
                   'circuits': {'C1-1': %s, 'C1-2': %s, 'F1-1': %s, 'F1-2': %s%s}}},
                 'parts': {'HU': {'inline': {'terminals': {
                   'memory': {'function': 'power.battery', 'electrical': {'kind': 'load', 'typicalAmps': 2, 'maxAmps': 8,
                     'needs': 'constant'}},
                   'ground': {'function': 'ground.chassis', 'electrical': {'kind': 'ground'}}%s}}}},
                 'wishes': [{'function': 'audio.speaker', 'want': 'keep'}]}
                """.formatted(power, ground, power, ground, speakers, leads).replace('\'', '"'));

        Proposal proposal = pairing.propose(asked, null, STOCK);

        assertThat(Objects.requireNonNull(proposal.hookup().vehicle()).unplugged())
                .containsExactlyInAnyOrder("C1", "C2");
        assertThat(proposal.hookup().connections().values())
                .extracting(connection -> Set.copyOf(connection.ends()))
                .contains(Set.of("CAR.C2-4", "HU.front-left-plus"), Set.of("CAR.C2-5", "HU.front-left-minus"));
    }

    /** Two seat heaters of 5 A on one circuit of 5 A: each gets a relay that the search adds. */
    @Test
    void saysNoMoreOfAWayThanItsTrialHasShown() {
        String seat = """
                {'inline': {'terminals': {
                   'plus': {'function': 'power.seat', 'electrical': {'kind': 'load', 'typicalAmps': 4, 'maxAmps': 5,
                     'needs': 'switched', 'minVolts': 10, 'sleepAmps': 0}},
                   'ground': {'function': 'ground.chassis', 'electrical': {'kind': 'ground', 'maxAmps': 10}}}}}""";
        Hookup asked = Hookups.hookup("""
                {'vehicle': {'inline': {'automaticRestart': false, 'batterySensor': false, 'circuits': {
                   'FB-1': {'function': 'power.battery', 'electrical': {'kind': 'supply', 'maxAmps': 30, 'fuseAmps': 30,
                     'live': ['asleep', 'accessory', 'ignition', 'cranking', 'running', 'restarting']}},
                   'FB-3': {'function': 'power.ignition', 'electrical': {'kind': 'supply', 'maxAmps': 5, 'fuseAmps': 5,
                     'live': ['ignition', 'cranking', 'running', 'restarting']}},
                   'FB-4': {'function': 'ground.chassis', 'electrical': {'kind': 'ground', 'maxAmps': 30}}}}},
                 'parts': {'A': %s, 'B': %s},
                 'wishes': [{'function': 'power.seat', 'want': 'add'}]}
                """.formatted(seat, seat).replace('\'', '"'));

        Proposal proposal = pairing.propose(asked, null, STOCK);

        Map<String, Choice> choices = choices(proposal);
        assertThat(proposal.added()).hasSize(2);
        // the finding for which the tap of the ground was given up did not name it, or is there still
        assertThat(Objects.requireNonNull(choices.get("A.ground")).against())
                .isEqualTo("CAR.FB-4: it was tried, and the whole came out worse");
        // the relay was added because of the circuit, not the other way round
        assertThat(Objects.requireNonNull(choices.get("A.plus")).against())
                .startsWith("CAR.FB-3: it has not enough left");
    }

    @Test
    void addsTheIsolatorThatOpensAGroundLoopRatherThanGiveUpWhatTheVehiclePlays() {
        Wiring wiring = new Wiring()
                .car("P-5", Wiring.facts("power.battery", constant(15)))
                .unplug("P")
                .lead("HU", "memory", Wiring.facts("power.battery", load("constant", 2, 8)))
                .lead("HU", "ground", Wiring.facts("ground.chassis", "\"kind\": \"ground\""))
                .wish("audio.line.rear-entertainment", "keep")
                .wish("audio.line.auxiliary", "add");
        int pin = 1;
        for (String channel : List.of("left", "right")) {
            for (String side : List.of("signal", "return")) {
                wiring.car("P-" + pin++, line("rear-entertainment", "line-out", channel, side, "chassis"))
                        .lead("HU", channel + "-" + side, line("auxiliary", "line-in", channel, side, "chassis"))
                        .lead("PL", channel + "-" + side, line("auxiliary", "line-out", channel, side, "isolated"));
            }
        }
        Hookup asked = wiring.hookup();

        Proposal proposal = pairing.propose(asked, null, STOCK);
        Proposal alone = pairing.propose(asked, null, Stock.NONE);

        assertThat(proposal.added()).containsExactly("ISO1");
        assertThat(Objects.requireNonNull(choices(proposal).get("HU.left-signal"))
                        .against())
                .contains("ground-loop");
        assertThat(proposal.gaveUp()).extracting(GivenUp::wish).containsExactly(add("audio.line.auxiliary"));
        assertThat(proposal.report().findings())
                .extracting(Finding::message)
                .containsExactly(
                        "audio.line.auxiliary is to be added, and HU.left-signal, HU.right-signal, PL.left-signal"
                                + " and PL.right-signal reach nothing that serves it");
        assertThat(alone.gaveUp()).extracting(GivenUp::wish).containsExactly(keep("audio.line.rear-entertainment"));
    }

    @Test
    void saysOfALeadThatTheModeLeavesIdleThatItDoesNothingThere() {
        Hookup asked = Hookups.hookup("""
                {"vehicle": {"inline": {"circuits": {}}},
                 "parts": {"AMP": {"mode": "bridged", "inline": {
                   "terminals": {"in-1": {"electrical": {"kind": "line-in", "channel": "left", "side": "signal"}},
                                 "in-2": {"electrical": {"kind": "line-in", "channel": "right", "side": "signal"}}},
                   "modes": {"bridged": {"terminals": {"in-2": {"electrical": {"kind": "passive"}}}}}}},
                  "HU": {"inline": {"terminals": {
                    "out": {"electrical": {"kind": "line-out", "channel": "left", "side": "signal"}}}}}}}
                """);

        assertThat(pairing.propose(asked, null, Stock.NONE).hookup().unused())
                .hasEntrySatisfying(
                        "AMP.in-2",
                        unused -> assertThat(unused.why()).isEqualTo("it does nothing in the mode bridged"));
    }

    @Test
    void addsARelayWhereNoSwitchedSourceGivesEnough() {
        String switched =
                "\"kind\": \"supply\", \"maxAmps\": 0.5, \"limited\": true, \"live\": [\"accessory\", \"ignition\","
                        + " \"running\", \"restarting\"]";
        Hookup asked = inline(
                Map.of(
                        "P-1", Wiring.facts("power.battery", constant(15)),
                        "P-2", Wiring.facts("power.accessory", switched),
                        "P-3", Wiring.facts("ground.chassis", "\"kind\": \"ground\", \"maxAmps\": 15")),
                Map.of(
                        "USB",
                        Map.of(
                                "power", Wiring.facts("power.usb", load("switched", 1.2, 2.4)),
                                "ground", Wiring.facts("ground.chassis", "\"kind\": \"ground\""))));

        Proposal proposal = pairing.propose(asked, null, STOCK);
        Proposal alone = pairing.propose(asked, null, Stock.NONE);

        assertThat(proposal.added()).containsExactly("REL1");
        assertThat(Objects.requireNonNull(proposal.hookup().parts().get("REL1")).device())
                .as("the relay with a diode")
                .isEqualTo("REL-30D");
        assertThat(proposal.report().verdict()).isEqualTo(Verdict.READY);
        assertThat(Objects.requireNonNull(choices(proposal).get("USB.power")).to())
                .containsExactly("CAR.P-1", "CAR.P-2");
        assertThat(Objects.requireNonNull(choices(proposal).get("USB.power")).through())
                .containsExactly("REL1");
        assertThat(Objects.requireNonNull(choices(alone).get("USB.power")).to()).isEmpty();
    }

    @Test
    void wiresTwoDualCoilSubwoofersSoThatTheAmplifierBearsThem() {
        Proposal proposal = propose(BASS);
        List<Set<String>> joined = joined(proposal);

        for (String driver : List.of("SUB1", "SUB2")) {
            assertThat(joined)
                    .contains(
                            Set.of("AMP.out-plus", driver + ".coil-1-plus"),
                            Set.of(driver + ".coil-1-minus", driver + ".coil-2-plus"),
                            Set.of("AMP.out-minus", driver + ".coil-2-minus"));
        }
        assertThat(Objects.requireNonNull(choices(proposal).get("SUB1.coil-1-plus"))
                        .why())
                .contains("4 ohms", "bears 2");
    }

    @Test
    void givesUpTheSocketWhoseSoundComesByUsbToo() {
        Proposal proposal = propose(demo(
                "Tessick",
                List.of(keep("audio.line.auxiliary"), keep("audio.line.rear-entertainment")),
                "HU-A",
                "IFC-T7",
                "HAR-T1",
                "AVA-35"));

        assertThat(proposal.gaveUp())
                .extracting(given -> given.wish().function().value())
                .containsExactly("audio.line.auxiliary");
        GivenUp given = proposal.gaveUp().get(0);
        assertThat(given.why()).contains("HU-A.av-left", "take AVA-35.plug-left");
        assertThat(given.instead()).contains("USB", "HU-A.usb", "USB-2");
        assertThat(proposal.report().findings()).extracting(Finding::rule).containsExactly("wish-unmet");
    }

    @Test
    void namesADeviceForAWishThatNothingBroughtServes() {
        Wish bass = new Wish(new FunctionId("control.bass-level"), Wish.Want.ADD);
        Wish subwoofer = new Wish(new FunctionId("audio.speaker.subwoofer"), Wish.Want.ADD);
        Wish camera = new Wish(new FunctionId("video.camera-rear"), Wish.Want.ADD);

        Proposal proposal = propose(demo("Fennick", List.of(bass, subwoofer, camera), "HU-B"));

        assertThat(proposal.gaveUp())
                .extracting(given -> given.wish().function() + " " + given.instead())
                .containsExactlyInAnyOrder(
                        "control.bass-level a part that has it, like AMP-1 or AMP-5 or BASS-1",
                        "audio.speaker.subwoofer a part that has it, like AMP-1 or AMP-5 or SUB-D4",
                        "video.camera-rear a part that has it, like CAM-R or HAR-S2 or IFC-H5");
    }

    @Test
    void keepsTheSocketWhereNothingElseWantsTheInput() {
        Proposal proposal = propose(demo("Tessick", List.of(keep("audio.line.auxiliary")), "HU-A", "IFC-T7", "HAR-T1"));

        assertThat(proposal.gaveUp()).isEmpty();
        assertThat(Objects.requireNonNull(choices(proposal).get("HU-A.av-left")).to())
                .containsExactly("CAR.C2-13", "CAR.C2-15");
    }

    @Test
    void makesTheSettingThatFollowsFromAnotherPartsMaker() {
        Proposal proposal = propose(REAR);

        assertThat(proposal.hookup().settings().get("IFC")).containsEntry("head-unit-maker", "1");
        assertThat(proposal.settingsToMake())
                .filteredOn(SettingToMake::required)
                .extracting(SettingToMake::value)
                .containsExactly("1");
    }

    @Test
    void leavesASettingThatIsGivenAndOneThatIsToBeDecided() {
        HookupDocument document = DemoFiles.example(REAR).document();
        Hookup asked = DemoFiles.resolve(bare(document, Map.of("IFC", Map.of("head-unit-maker", "6"))));

        Proposal given = pairing.propose(asked, null, STOCK);
        Proposal open = propose(demo("Sarrow", List.of(), "DVR-1"));

        assertThat(given.hookup().settings().get("IFC")).containsEntry("head-unit-maker", "6");
        assertThat(open.settingsToMake())
                .extracting(SettingToMake::setting)
                .containsExactlyInAnyOrder("cut-off", "parking-hours");
        assertThat(open.settingsToMake()).extracting(SettingToMake::value).containsOnlyNulls();
    }

    @ParameterizedTest
    @CsvSource({"Tessick, CAR.C6-4", "Drovar, CAR.CB-7", "Pirrow, CAR.BM-4"})
    void takesTheInterlockFromTheParkingBrakesCircuit(String model, String circuit) {
        Proposal proposal = propose(demo(model, List.of(), "HU-A"));

        assertThat(Objects.requireNonNull(choices(proposal).get("HU-A.parking-brake"))
                        .to())
                .containsExactly(circuit);
    }

    @Test
    void leavesTheInterlockOpenWhereTheBrakeHasNoSuchCircuit() {
        Proposal proposal = propose(demo("Sarrow", List.of(), "HU-A"));

        assertThat(Objects.requireNonNull(choices(proposal).get("HU-A.parking-brake"))
                        .to())
                .isEmpty();
        assertThat(Objects.requireNonNull(proposal.hookup().unused().get("HU-A.parking-brake"))
                        .fate())
                .isEqualTo(Unused.Fate.CAPPED);
    }

    @Test
    void saysWhyAndWhatSpeaksAgainstTheNextBest() {
        Proposal proposal = propose(REAR);

        assertThat(proposal.choices())
                .allSatisfy(choice -> assertThat(choice.why())
                        .as("why of %s", choice.terminals())
                        .isNotBlank());
        assertThat(Objects.requireNonNull(choices(proposal).get("HU.memory")).against())
                .startsWith("CAR.C6-1: ")
                .contains("tap");
        assertThat(Objects.requireNonNull(choices(proposal).get("USB.power")).against())
                .startsWith("CAR.C10-1: ");
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void tellsAlternativesThatDifferAndAreNoWorse(String job) {
        Proposal proposal = propose(job);

        assertThat(proposal.alternatives()).hasSizeBetween(1, 3);
        for (Alternative alternative : proposal.alternatives()) {
            Report report = Hookups.checker().check(DemoFiles.resolve(alternative.hookup()));
            assertThat(alternative.differs()).isNotEmpty();
            assertThat(alternative.verdict()).isEqualTo(report.verdict()).isEqualTo(Verdict.READY);
            assertThat(joined(alternative.hookup())).isNotEqualTo(joined(proposal.hookup()));
        }
    }

    @Test
    void offersTheOutletsFeedInPlaceOfTheRelay() {
        assertThat(propose(REAR).alternatives())
                .anySatisfy(alternative -> assertThat(alternative.differs())
                        .anyMatch(text -> text.startsWith("USB.power from CAR.C10-1 instead of")));
    }

    @Test
    void isJudgedByTheCheckThatItIsGiven() {
        Checker checker = Hookups.checker();
        String relay = "USB.power";
        Pairing strict = new Pairing(hookup -> {
            Report report = checker.check(hookup);
            List<Finding> findings = new ArrayList<>(report.findings());
            hookup.document().connections().forEach((ref, connection) -> {
                if (connection.ends().contains(relay)
                        && connection.ends().stream().anyMatch(end -> end.startsWith("REL."))) {
                    findings.add(Finding.of(
                            "house-no-relay", Severity.ERROR, "a relay", "none", connection.ends(), List.of(ref), ref));
                }
            });
            return report.with(findings, report.outcomes());
        });

        Proposal usual = propose(REAR);
        Proposal proposal = strict.propose(asked(REAR), null, STOCK);

        assertThat(Objects.requireNonNull(choices(usual).get(relay)).through()).contains("REL");
        assertThat(Objects.requireNonNull(choices(proposal).get(relay)).to()).containsExactly("CAR.C10-1");
        assertThat(proposal.report().findings()).extracting(Finding::rule).doesNotContain("house-no-relay");
        assertThat(proposal.alternatives())
                .extracting(Alternative::verdict)
                .isNotEmpty()
                .doesNotContain(Verdict.NOT_READY);
    }

    @Test
    void asksForNoAlternativesWhereNoneAreWanted() {
        Preferences none =
                new Preferences(new Connection.Conductor(new ConductorSize("18 AWG"), null, null), null, null, null, 0);

        assertThat(pairing.propose(asked(REAR), none, STOCK).alternatives()).isEmpty();
    }

    @Test
    void drawsConductorsAsLongAndThickAsAsked() {
        Preferences preferences = new Preferences(
                new Connection.Conductor(new ConductorSize("2.5 mm2"), null, null),
                new Length(10, LengthUnit.CM),
                new Length(2, LengthUnit.M),
                new Length(7, LengthUnit.M),
                0);

        Proposal proposal = pairing.propose(asked(BASS), preferences, STOCK);

        Connection power = connection(proposal, "KIT.feed", "AMP.power");
        Connection remote = connection(proposal, "LOC.turn-on", "AMP.remote");
        assertThat(power.length()).isEqualTo(new Length(7, LengthUnit.M));
        assertThat(Objects.requireNonNull(power.conductor()).size().areaMm2()).isGreaterThan(20);
        assertThat(Objects.requireNonNull(remote.conductor()).size()).isEqualTo(new ConductorSize("2.5 mm2"));
        assertThat(proposal.assumptions()).isEmpty();
        assertThat(propose(BASS).assumptions())
                .extracting(Report.Assumption::name)
                .containsExactly("leastConductor", "spliceLength", "tapLength", "powerRunLength");
    }

    @Test
    void fusesATapThatItsSourceDoesNotProtect() {
        Proposal proposal = propose(demo("Sarrow", List.of(), "DVR-1"));
        Connection feed = proposal.hookup().connections().values().stream()
                .filter(connection -> connection.ends().contains("DVR-1.power"))
                .findFirst()
                .orElseThrow();

        assertThat(Objects.requireNonNull(feed.fuse()).ratingAmps()).isEqualTo(2);
        assertThat(Objects.requireNonNull(feed.fuse().fromSource()).metres()).isLessThanOrEqualTo(0.178);
    }

    @Test
    void unpluggesWhatIsAskedAndNothingElse() {
        HookupDocument document = DemoFiles.example(REAR).document();
        VehicleUse vehicle =
                new VehicleUse(Objects.requireNonNull(document.vehicle()).id(), 1, null, Set.of("C1", "C2"), Set.of());
        Hookup asked = DemoFiles.resolve(new HookupDocument(
                vehicle, document.parts(), Map.of(), List.of(), Map.of(), Map.of(), document.wishes()));

        Proposal proposal = pairing.propose(asked, null, STOCK);

        assertThat(Objects.requireNonNull(proposal.hookup().vehicle()).unplugged())
                .containsExactlyInAnyOrder("C1", "C2");
    }

    @Test
    void keepsAUnitPluggedThatKeepsItsFeed() {
        Proposal proposal = propose(demo("Sarrow", List.of(), "AMP-5", "HAR-L1", "CMP-65", "SUB-D4", "KIT-4"));

        assertThat(Objects.requireNonNull(proposal.hookup().vehicle()).unplugged())
                .containsExactly("A2");
        assertThat(proposal.report().findings()).isEmpty();
        // the map does not say which coil hangs on the factory amplifier's outputs
        assertThat(proposal.report().outcomes())
                .filteredOn(outcome -> outcome.result() == Result.NOT_CHECKED)
                .flatExtracting(Report.Outcome::missing)
                .isNotEmpty()
                .allMatch(fact -> fact.matches("CAR\\.A2-\\d\\.coil"));
    }

    @Test
    void showsACameraToTheInputForIt() {
        Proposal proposal = propose(demo("Merrin", List.of(keep("video.camera-rear")), "HU-B", "HAR-S2", "SWK-1"));

        assertThat(Objects.requireNonNull(choices(proposal).get("HU-B.camera-signal"))
                        .to())
                .hasSize(2);
        assertThat(Objects.requireNonNull(choices(proposal).get("HU-B.front-camera-signal"))
                        .to())
                .isEmpty();
        assertThat(Objects.requireNonNull(choices(proposal).get("HU-B.av-video"))
                        .to())
                .isEmpty();
        assertThat(Objects.requireNonNull(choices(proposal).get("SWK-1.keys-return"))
                        .to())
                .containsExactly("CAR.M1-19");
    }

    @Test
    void tapsTheLoudspeakerForAnAmplifierOfWhichNoInsideIsTold() {
        String give =
                "\"kind\": \"speaker-out\", \"channel\": \"front-left\", \"drive\": \"floating\", \"maxVolts\": 11, \"side\": ";
        String take = "\"kind\": \"speaker-in\", \"channel\": \"front-left\", \"maxVolts\": 20, \"side\": ";
        Map<String, String> amplifier = new TreeMap<>(Map.of(
                "in-plus", Wiring.facts("audio.speaker.front-left.plus", take + "\"plus\""),
                "in-minus", Wiring.facts("audio.speaker.front-left.minus", take + "\"minus\""),
                "power", Wiring.facts("power.battery", load("constant", 5, 10)),
                "ground", Wiring.facts("ground.chassis", "\"kind\": \"ground\"")));
        Map<String, String> circuits = Map.of(
                "S-1", Wiring.facts("audio.speaker.front-left.plus", give + "\"plus\""),
                "S-2", Wiring.facts("audio.speaker.front-left.minus", give + "\"minus\""),
                "C-1", Wiring.facts("power.battery", constant(15)),
                "C-2", Wiring.facts("power.accessory", Wiring.supply("accessory", "ignition", "running")));

        // without a turn-on it may be a head unit's input, which nobody asked for
        assertThat(joined(propose(inline(circuits, Map.of("AMP", amplifier)))))
                .noneMatch(ends -> ends.contains("CAR.S-1"));
        amplifier.put(
                "on",
                Wiring.facts("control.amplifier-on", "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.02"));
        Proposal proposal = propose(inline(circuits, Map.of("AMP", amplifier)));

        assertThat(joined(proposal))
                .contains(
                        Set.of("CAR.S-1", "AMP.in-plus"),
                        Set.of("CAR.S-2", "AMP.in-minus"),
                        Set.of("CAR.C-2", "AMP.on"));
        assertThat(proposal.report().verdict()).isNotEqualTo(Report.Verdict.NOT_READY);
    }

    @Test
    void leavesOpenWhatMustBeFedAndCannotBeSoThatTheCheckTellsIt() {
        Proposal proposal = propose(inline(
                Map.of("C-1", Wiring.facts("power.battery", constant(15))),
                Map.of(
                        "HU",
                        Map.of(
                                "memory", Wiring.facts("power.battery", load("constant", 1, 5)),
                                "accessory", Wiring.facts("power.accessory", load("switched", 0.1, 0.3)),
                                "ground", Wiring.facts("ground.chassis", "\"kind\": \"ground\"")))));

        assertThat(proposal.hookup().unused()).doesNotContainKey("HU.accessory");
        assertThat(Hookups.findings(proposal.report(), "load-without-supply"))
                .singleElement()
                .satisfies(finding -> assertThat(finding.terminals()).containsExactly("HU.accessory"));
    }

    @Test
    void putsTwoLoudspeakersInSeriesThatAreTooMuchSideBySideAndTakesNoOtherChannelForThem() {
        Map<String, Map<String, String>> parts = new TreeMap<>(
                Map.of("AMP", output("subwoofer", 2), "HU", output("front-left", 4), "DOOR", coil("front-left", 4)));
        parts.put("SUB1", coil("subwoofer", 2));
        parts.put("SUB2", coil("subwoofer", 2));
        Proposal proposal = propose(inline(Map.of(), parts));

        assertThat(joined(proposal)).contains(Set.of("HU.plus", "DOOR.plus"), Set.of("HU.minus", "DOOR.minus"));
        assertThat(Objects.requireNonNull(choices(proposal).get("SUB1.plus")).why())
                .contains("in series with", "a load of 4 ohms");
        assertThat(proposal.report().speakerLoads())
                .filteredOn(load -> load.output().contains("AMP.plus"))
                .singleElement()
                .satisfies(
                        load -> assertThat(Objects.requireNonNull(load.ohms())).isBetween(4.0, 4.1));
    }

    @Test
    void leavesALoudspeakerOpenThatIsNoLoadForTheAmplifier() {
        Proposal proposal =
                propose(inline(Map.of(), Map.of("AMP", output("subwoofer", 2), "SUB", coil("subwoofer", 1))));

        assertThat(proposal.hookup().connections()).isEmpty();
        assertThat(proposal.hookup().unused()).doesNotContainKeys("SUB.plus", "SUB.minus");
        assertThat(Objects.requireNonNull(choices(proposal).get("SUB.plus")).why())
                .isEqualTo("AMP.plus AMP.minus is left: its coils of 1 ohm are no load for it, and the output bears 2");
    }

    private static Map<String, String> output(String channel, double minOhms) {
        return pair("speaker-out", channel, "\"drive\": \"floating\", \"maxVolts\": 20, \"minOhms\": " + minOhms);
    }

    private static Map<String, String> coil(String channel, double ohms) {
        return pair("speaker-in", channel, "\"maxWatts\": 500, \"ohms\": " + ohms);
    }

    private static Map<String, String> pair(String kind, String channel, String more) {
        Map<String, String> pair = new TreeMap<>();
        for (String side : List.of("plus", "minus")) {
            pair.put(
                    side,
                    Wiring.facts(
                            "audio.speaker." + channel + "." + side,
                            "\"kind\": \"%s\", \"channel\": \"%s\", \"side\": \"%s\", %s"
                                    .formatted(kind, channel, side, more)));
        }
        return pair;
    }

    @Test
    void feedsTheRearOfAnAmplifierFromTheRearOfAHeadUnitThatHasLineLevelInFrontAlone() throws IOException {
        String question;
        try (InputStream file =
                PairingTest.class.getResourceAsStream("/dev/splicebook/hookup/four-channels-two-line-outputs.json")) {
            question = new String(Objects.requireNonNull(file).readAllBytes(), StandardCharsets.UTF_8);
        }
        Proposal proposal = propose(Hookups.hookup(question));
        Map<String, Choice> choices = choices(proposal);

        for (String side : List.of("left", "right")) {
            String letter = side.substring(0, 1);
            assertThat(Objects.requireNonNull(choices.get("AMP.in-front-" + side))
                            .to())
                    .containsExactly("HU.line-front-" + side, "HU.line-front-" + side + "-return");
            assertThat(Objects.requireNonNull(choices.get("AMP.in-rear-" + side))
                            .to())
                    .containsExactly("LOC1.out-" + side, "LOC1.out-" + side + "-return");
            assertThat(Objects.requireNonNull(choices.get("LOC1.in-" + side + "-plus"))
                            .to())
                    .containsExactly("HU.r" + letter + "-plus", "HU.r" + letter + "-minus");
        }
        for (int circuit : List.of(6, 8, 10, 12)) {
            assertThat(Objects.requireNonNull(choices.get("CAR.C1-" + circuit))
                            .to()
                            .get(0))
                    .startsWith("AMP.out-");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void isTheSameUpToNames(String job) {
        Hookup asked = asked(job);
        Proposal proposal = pairing.propose(asked, null, Stock.NONE);

        for (long seed = 0; seed < 4; seed++) {
            Proposal renamed = pairing.propose(new Renaming(seed).apply(asked), null, Stock.NONE);

            assertThat(renamed.report().verdict()).isEqualTo(proposal.report().verdict());
            assertThat(renamed.cost()).isEqualTo(proposal.cost());
            assertThat(facts(renamed, new Renaming(seed).apply(asked)))
                    .as("what is joined with seed %s", seed)
                    .isEqualTo(facts(proposal, asked));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void isTheSameAgain(String job) {
        assertThat(propose(job)).isEqualTo(propose(job));
    }

    private Proposal propose(String job) {
        return propose(asked(job));
    }

    private Proposal propose(Hookup asked) {
        return pairing.propose(asked, null, STOCK);
    }

    private static Hookup asked(String job) {
        return DemoFiles.resolve(bare(DemoFiles.example(job).document(), Map.of()));
    }

    private static HookupDocument bare(HookupDocument document, Map<String, Map<String, String>> settings) {
        VehicleUse vehicle = document.vehicle();
        return new PairingQuestion(
                        new VehicleUse(
                                Objects.requireNonNull(vehicle).id(), vehicle.revision(), null, Set.of(), Set.of()),
                        document.parts(),
                        document.wishes(),
                        settings,
                        null)
                .document();
    }

    private static Hookup demo(String model, List<Wish> wishes, String... devices) {
        Map<String, PartUse> parts = new LinkedHashMap<>();
        for (String device : devices) {
            parts.put(device, new PartUse(device, null, null, null));
        }
        String id = DemoFiles.vehicles().entrySet().stream()
                .filter(entry -> String.valueOf(entry.getValue().model()).startsWith(model))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElseThrow();
        return DemoFiles.resolve(
                new PairingQuestion(new VehicleUse(id, null, null, Set.of(), Set.of()), parts, wishes, Map.of(), null)
                        .document());
    }

    /** A side of a channel at line level. */
    private static String line(String what, String kind, String channel, String side, String returns) {
        return Wiring.facts(
                "audio.line." + what + "." + channel + "." + side,
                "\"kind\": \"" + kind + "\", \"channel\": \"" + channel + "\", \"side\": \"" + side
                        + "\", \"maxVolts\": 2, \"return\": \"" + returns + "\"");
    }

    private static Hookup inline(Map<String, String> circuits, Map<String, Map<String, String>> parts) {
        return Hookups.hookup("{\"vehicle\": {\"inline\": {\"circuits\": " + json(circuits) + "}}, \"parts\": {"
                + String.join(
                        ", ",
                        new TreeMap<>(parts)
                                .entrySet().stream()
                                        .map(part -> "\"" + part.getKey() + "\": {\"inline\": {\"terminals\": "
                                                + json(part.getValue()) + "}}")
                                        .toList())
                + "}}");
    }

    private static String json(Map<String, String> entries) {
        return "{"
                + String.join(
                        ", ",
                        new TreeMap<>(entries)
                                .entrySet().stream()
                                        .map(entry -> "\"" + entry.getKey() + "\": " + entry.getValue())
                                        .toList())
                + "}";
    }

    private static String constant(double fuseAmps) {
        return "\"kind\": \"supply\", \"fuseAmps\": " + fuseAmps
                + ", \"live\": [\"asleep\", \"accessory\", \"ignition\", \"cranking\", \"running\", \"restarting\"]";
    }

    private static String load(String needs, double typicalAmps, double maxAmps) {
        return "\"kind\": \"load\", \"needs\": \"" + needs + "\", \"typicalAmps\": " + typicalAmps + ", \"maxAmps\": "
                + maxAmps;
    }

    private static Wish keep(String function) {
        return new Wish(new FunctionId(function), Wish.Want.KEEP);
    }

    private static Wish add(String function) {
        return new Wish(new FunctionId(function), Wish.Want.ADD);
    }

    /** By the first terminal of each want. */
    private static Map<String, Choice> choices(Proposal proposal) {
        Map<String, Choice> choices = new LinkedHashMap<>();
        proposal.choices().forEach(choice -> choices.put(choice.terminals().get(0), choice));
        return choices;
    }

    private static List<Set<String>> joined(Proposal proposal) {
        return joined(proposal.hookup());
    }

    private static List<Set<String>> joined(HookupDocument hookup) {
        return hookup.connections().values().stream()
                .map(connection -> Set.copyOf(connection.ends()))
                .toList();
    }

    private static Connection connection(Proposal proposal, String from, String to) {
        return proposal.hookup().connections().values().stream()
                .filter(connection -> connection.ends().equals(List.of(from, to)))
                .findFirst()
                .orElseThrow();
    }

    /** What is joined that is neither power nor ground. */
    private static Set<Set<String>> signals(Hookup hookup) {
        Network network = new Network(hookup);
        Set<Set<String>> signals = new java.util.HashSet<>();
        hookup.document().connections().values().forEach(connection -> {
            boolean power = connection.ends().stream()
                    .map(network::findNode)
                    .anyMatch(node -> node == null
                            || network.netOf(node).stream()
                                    .anyMatch(other -> other.facts() instanceof Electrical.Load
                                            || other.facts() instanceof Electrical.Ground)
                            || network.coils().stream().anyMatch(coil -> coil.one() == node || coil.other() == node)
                            || node.name().equals("30"));
            if (!power) {
                signals.add(Set.copyOf(connection.ends()));
            }
        });
        return signals;
    }

    /** What is joined, without names. */
    private static List<String> facts(Proposal proposal, Hookup asked) {
        Hookup hookup = Hookup.resolve(proposal.hookup(), asked.map(), asked.devices(), List.of());
        Network network = new Network(hookup);
        List<String> facts = new ArrayList<>();
        proposal.hookup()
                .connections()
                .values()
                .forEach(connection -> facts.add(connection.ends().stream()
                                .map(network::findNode)
                                .map(Node::factsText)
                                .sorted()
                                .toList()
                        + " " + connection.conductor() + connection.length() + connection.fuse()));
        facts.sort(null);
        return facts;
    }
}
