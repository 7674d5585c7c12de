package dev.splicebook.hookup.mend;

import static dev.splicebook.hookup.mend.Proposing.after;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Wiring;
import dev.splicebook.hookup.net.Network;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.ServiceLoader;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What single changes propose, before any check. */
class ChangesTest {

    @Test
    void areFoundOnTheClassPathAndEachIsForSomeRule() {
        List<Change> changes = new ArrayList<>();
        ServiceLoader.load(Change.class).forEach(changes::add);

        assertThat(changes)
                .hasSizeGreaterThanOrEqualTo(15)
                .allMatch(change -> !change.rules().isEmpty());
        assertThat(changes.stream().map(Object::getClass)).doesNotHaveDuplicates();
    }

    @Test
    void putsADiodeAcrossACoilWithItsCathodeToPlus() {
        for (String plus : List.of("85", "86")) {
            String minus = plus.equals("85") ? "86" : "85";
            Hookup hookup = new Wiring()
                    .car("C6-2", Wiring.facts(Wiring.supply("running")))
                    .relay("K1")
                    .join("CAR.C6-2 K1." + plus, "K1." + minus + " CAR.chassis")
                    .hookup();
            List<Proposal> proposals =
                    new ClampCoil().propose(defect("coil-unclamped", hookup, List.of("K1.85", "K1.86"), List.of()));

            assertThat(proposals).hasSize(1);
            assertThat(endsAfter(proposals.get(0)))
                    .contains(Set.of("DIO.cathode", "K1." + plus), Set.of("DIO.anode", "K1." + minus));
        }
    }

    @Test
    void movesAFuseNearItsSourceAndKeepsItsRating() {
        Hookup hookup = new Wiring()
                .lead("AMP", "plus", Wiring.facts("\"kind\": \"load\", \"maxAmps\": 20, \"needs\": \"either\""))
                .joinBy(
                        "CAR.battery-plus AMP.plus",
                        "\"conductor\": {\"size\": \"8 AWG\"}, \"length\": {\"value\": 4, \"unit\": \"m\"},"
                                + " \"fuse\": {\"ratingAmps\": 40, \"fromSource\": {\"value\": 2, \"unit\": \"m\"}}")
                .hookup();
        List<Proposal> proposals =
                new ChangeFuse().propose(defect("fuse-too-far", hookup, List.of("CAR.battery-plus"), List.of("W1")));

        assertThat(proposals).hasSize(1);
        Connection.WireFuse fuse = Objects.requireNonNull(wire(proposals.get(0)).fuse());
        assertThat(fuse.ratingAmps()).isEqualTo(40);
        assertThat(Objects.requireNonNull(fuse.fromSource()).metres()).isLessThan(0.178);
    }

    @Test
    void laysTheNextThickerSizesAndNoThinner() {
        Hookup hookup = new Wiring()
                .lead("AMP", "plus", Wiring.facts("\"kind\": \"load\""))
                .joinBy("CAR.battery-plus AMP.plus", "\"conductor\": {\"size\": \"10 AWG\"}")
                .hookup();
        List<Proposal> proposals = new ChangeConductor()
                .propose(defect("voltage-drop-excessive", hookup, List.of("AMP.plus"), List.of("W1")));

        assertThat(proposals)
                .extracting(proposal -> Objects.requireNonNull(wire(proposal).conductor())
                        .size()
                        .value())
                .containsExactly("8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG", "1 AWG");
    }

    @Test
    void loadsAnOutputThatMutesWithAResistorThatItDetectsAndThatBearsItsVolts() {
        String more = "\"drive\": \"floating\", \"maxVolts\": 10, \"minOhms\": 4, \"maxDetectOhms\": 100";
        Hookup hookup = new Wiring()
                .carPair("A-1", "A-2", side -> Wiring.speakerOut("left", side, more), "plus", "minus")
                .speakerInput("LOC", "plus", "minus", "left")
                .join("CAR.A-1 LOC.plus", "CAR.A-2 LOC.minus")
                .hookup();
        List<Proposal> proposals = new AddLoadResistor()
                .propose(defect("load-not-detected", hookup, List.of("CAR.A-1", "CAR.A-2"), List.of()));

        assertThat(proposals).hasSize(1);
        Device.Resistor resistor = Objects.requireNonNull(
                        after(proposals.get(0)).devices().get("LOAD"))
                .resistors()
                .get(0);
        assertThat(resistor.ohms()).isEqualTo(68);
        // 10 V across 68 ohms: 1.47 W
        assertThat(resistor.watts()).isEqualTo(2);
    }

    @Test
    void givesTwoDevicesOneGroundPoint() {
        Hookup hookup = new Wiring()
                .car("C1-2", Wiring.facts("\"kind\": \"ground\""))
                .lead("HU", "ground", Wiring.facts("\"kind\": \"ground\""))
                .lead("AMP", "ground", Wiring.facts("\"kind\": \"ground\""))
                .join("HU.ground CAR.C1-2", "AMP.ground CAR.chassis")
                .hookup();
        List<Proposal> proposals =
                new MoveGround().propose(defect("ground-loop", hookup, List.of("HU.ground", "AMP.ground"), List.of()));

        assertThat(proposals)
                .extracting(Proposal::what)
                .containsExactly(
                        "Move the ground lead of HU.ground to CAR.chassis.",
                        "Move the ground lead of AMP.ground to CAR.C1-2.");
    }

    @Test
    void capsALooseLeadThatTakesOnlyIfNothingEverWasOnIt() {
        Wiring wiring = new Wiring()
                .lead("AMP", "remote", Wiring.facts("\"kind\": \"control-in\", \"active\": \"12V\""))
                .lead("HU", "turn-on", Wiring.facts("\"kind\": \"control-out\", \"active\": \"12V\""));
        Hookup loose = wiring.hookup();
        Hookup joined = wiring.join("HU.turn-on AMP.remote").hookup();
        Finding finding = Proposing.finding("lead-unaccounted", List.of("AMP.remote"), List.of());

        assertThat(new CapLead().propose(new Defect(finding, new Network(loose), loose, Stock.NONE)))
                .hasSize(1);
        assertThat(new CapLead().propose(new Defect(finding, new Network(loose), joined, Stock.NONE)))
                .isEmpty();
    }

    @Test
    void takesALeadThatIsConnectedOffTheListOfUnusedOnes() {
        Hookup both = new Wiring()
                .lead(
                        "AMP",
                        "remote",
                        Wiring.facts("control.amplifier-on", "\"kind\": \"control-in\", \"active\": \"12V\""))
                .lead(
                        "HU",
                        "turn-on",
                        Wiring.facts("control.amplifier-on", "\"kind\": \"control-out\", \"active\": \"12V\""))
                .join("HU.turn-on AMP.remote")
                .unused("AMP.remote", "capped")
                .hookup();
        Finding finding = Proposing.finding("lead-unaccounted", List.of("AMP.remote"), List.of("W1"));

        List<Proposal> proposals = new UnlistUnused().propose(new Defect(finding, new Network(both), both, Stock.NONE));
        assertThat(proposals).extracting(Proposal::what).containsExactly("Take AMP.remote out of unused.");
        assertThat(after(proposals.get(0)).document().unused()).isEmpty();
        assertThat(new CapLead().propose(new Defect(finding, new Network(both), both, Stock.NONE)))
                .isEmpty();
    }

    private static Set<Set<String>> endsAfter(Proposal proposal) {
        Set<Set<String>> ends = new HashSet<>();
        after(proposal)
                .document()
                .connections()
                .values()
                .forEach(connection -> ends.add(Set.copyOf(connection.ends())));
        return ends;
    }

    private static Connection wire(Proposal proposal) {
        return Objects.requireNonNull(after(proposal).document().connections().get("W1"));
    }

    private static Defect defect(String rule, Hookup hookup, List<String> terminals, List<String> connections) {
        return new Defect(Proposing.finding(rule, terminals, connections), new Network(hookup), hookup, Stock.NONE);
    }
}
