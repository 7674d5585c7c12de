package dev.splicebook.hookup.mend;

import static dev.splicebook.hookup.mend.Proposing.after;
import static dev.splicebook.hookup.mend.Proposing.changed;
import static dev.splicebook.hookup.mend.Proposing.propose;
import static dev.splicebook.hookup.mend.Proposing.what;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Wiring;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Feeds that move, relays that are added, fuses and conductors that change. */
class FeedingTest {

    private static final String TURN_ON = "control.amplifier-on";
    private static final String LIGHT =
            "\"conductor\": {\"size\": \"16 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}";

    private static Wiring vehicle() {
        return new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant().replace("\"fuseAmps\": 10", "\"fuseAmps\": 20")))
                .car("C1-2", Wiring.facts(Wiring.supply("accessory", "running")));
    }

    private static String load(String needs, double amps) {
        return Wiring.facts("\"kind\": \"load\", \"needs\": \"" + needs + "\", \"maxAmps\": " + amps);
    }

    private static String listens(String active) {
        return Wiring.facts(TURN_ON, "\"kind\": \"control-in\", \"active\": \"" + active + "\", \"amps\": 0.02");
    }

    private static String drives(String active, String live) {
        return Wiring.facts(
                TURN_ON,
                "\"kind\": \"control-out\", \"active\": \"" + active + "\", \"maxAmps\": 0.3, \"live\": [" + live
                        + "]");
    }

    private static Connection wire(Proposal proposal, String ref) {
        return Objects.requireNonNull(after(proposal).document().connections().get(ref), ref);
    }

    private static @Nullable Double fuse(Proposal proposal, String ref) {
        Connection.WireFuse fuse = wire(proposal, ref).fuse();
        return fuse == null ? null : fuse.ratingAmps();
    }

    @Test
    void movesAFeedToWhatALoadNeedsWithTheFuseThatItsWireNeedsThere() {
        Wiring wiring = vehicle().lead("HU", "memory", load("constant", 5)).joinBy("CAR.C1-2 HU.memory", LIGHT);
        List<Proposal> proposals =
                propose(new MoveFeed(), "constant-load-on-switched-supply", wiring, "HU.memory CAR.C1-2", "");

        assertThat(what(proposals))
                .containsExactly(
                        "Move the lead of HU.memory from CAR.C1-2 to CAR.C1-1.",
                        "Move the lead of HU.memory from CAR.C1-2 to CAR.battery-plus.");
        assertThat(changed(proposals.get(0), wiring)).containsExactly("W1: CAR.C1-1 - HU.memory");
        // 20 A upstream are more than the 5 A of the load ask for
        assertThat(fuse(proposals.get(0), "W1")).isEqualTo(5);
        assertThat(fuse(proposals.get(1), "W1")).isEqualTo(5);
    }

    @Test
    void takesAFuseOffWhereAnOutputLimitsAndAddsNoneWithoutAConductor() {
        Wiring wiring = vehicle()
                .lead("HU", "turn-on", drives("12V", "\"accessory\", \"running\""))
                .lead("AMP", "remote", listens("12V"))
                .joinBy("CAR.C1-1 AMP.remote", LIGHT + ", \"fuse\": {\"ratingAmps\": 1}");
        List<Proposal> proposals = propose(new MoveFeed(), "control-always-active", wiring, "AMP.remote", "");

        assertThat(what(proposals))
                .containsExactly(
                        "Move the lead of AMP.remote from CAR.C1-1 to HU.turn-on.",
                        "Move the lead of AMP.remote from CAR.C1-1 to CAR.C1-2.");
        assertThat(fuse(proposals.get(0), "W1")).isNull();
        assertThat(fuse(proposals.get(1), "W1")).isEqualTo(1);
        Wiring bare = vehicle().lead("HU", "memory", load("constant", 5)).join("CAR.C1-2 HU.memory");
        assertThat(fuse(
                        propose(new MoveFeed(), "constant-load-on-switched-supply", bare, "HU.memory", "")
                                .get(0),
                        "W1"))
                .isNull();
    }

    @Test
    void feedsALooseLoadAndConnectsALooseTurnOn() {
        Wiring wiring = vehicle()
                .lead("HU", "memory", load("constant", 5))
                .lead("HU", "turn-on", drives("12V", "\"running\""))
                .lead("HU", "own", listens("12V"))
                .lead("AMP", "remote", listens("12V"));

        assertThat(what(propose(new MoveFeed(), "load-without-supply", wiring, "HU.memory", "")))
                .containsExactly("Feed HU.memory from CAR.C1-1.", "Feed HU.memory from CAR.battery-plus.");
        List<Proposal> turnOn = propose(new MoveFeed(), "control-never-active", wiring, "AMP.remote", "");
        assertThat(what(turnOn))
                .containsExactly("Connect AMP.remote to HU.turn-on.", "Connect AMP.remote to CAR.C1-2.");
        assertThat(fuse(turnOn.get(0), "W1")).isNull();
        assertThat(fuse(turnOn.get(1), "W1")).isEqualTo(1);
        assertThat(what(propose(new MoveFeed(), "lead-unaccounted", wiring, "HU.turn-on", "")))
                .containsExactly("Connect AMP.remote to HU.turn-on.");
    }

    @Test
    void leavesWhatHasSeveralLeadsAndTheParkingBrakeAlone() {
        Wiring wiring = vehicle()
                .lead("HU", "memory", load("constant", 5))
                .lead(
                        "HU",
                        "brake",
                        Wiring.facts("control.parking-brake", "\"kind\": \"control-in\", \"active\": \"12V\""))
                .join("CAR.C1-2 HU.memory", "CAR.C1-1 HU.memory", "CAR.C1-1 HU.brake");

        assertThat(propose(new MoveFeed(), "supplies-tied", wiring, "HU.memory HU.brake CAR.C1-1", ""))
                .isEmpty();
    }

    @Test
    void movesAnInputForGroundToAnOutputThatPullsToGroundWhileRunning() {
        Wiring wiring = vehicle()
                .lead("HU", "low", drives("ground", "\"running\""))
                .lead("HU", "never", drives("ground", "\"accessory\""))
                .lead("HU", "high", drives("12V", "\"running\""))
                .lead("AMP", "remote", listens("ground"))
                .join("HU.high AMP.remote");

        assertThat(what(propose(new MoveFeed(), "control-polarity-mismatch", wiring, "AMP.remote", "")))
                .containsExactly("Move the lead of AMP.remote from HU.high to HU.low.");
    }

    @Test
    void letsAWeakOutputDriveARelayAndFeedsTheLoadThroughItsContact() {
        Wiring wiring = vehicle()
                .lead("HU", "turn-on", drives("12V", "\"running\""))
                .lead("FAN", "plus", load("switched", 8))
                .joinBy("HU.turn-on FAN.plus", LIGHT);
        List<Proposal> proposals = propose(new AddRelay(), "control-overloaded", wiring, "FAN.plus HU.turn-on", "");

        assertThat(what(proposals))
                .containsExactly(
                        "Let HU.turn-on drive a relay, and feed FAN.plus through its contact from CAR.C1-1, fused at 10 A.",
                        "Let HU.turn-on drive a relay, and feed FAN.plus through its contact from CAR.battery-plus,"
                                + " fused at 10 A.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly(
                        "W1: FAN.plus - REL.87",
                        "W2: HU.turn-on - REL.86",
                        "W3: CAR.chassis - REL.85",
                        "W4: CAR.C1-1 - REL.30");
        assertThat(fuse(proposals.get(0), "W4")).isEqualTo(10);
        Device relay = Objects.requireNonNull(after(proposals.get(0)).devices().get("REL"));
        assertThat(relay.relays().get(0).contactAmps()).isEqualTo(30);
        // the banded end, the cathode, is where 12 V arrives
        assertThat(relay.diodes()).containsExactly(new Device.Diode("85", "86", 1.0));
    }

    @Test
    void feedsAllLoadsOfACircuitThroughTheContactOfOneRelay() {
        Wiring wiring = vehicle()
                .lead("FAN", "plus", load("switched", 8))
                .lead("PUMP", "plus", load("switched", 22))
                .joinBy("CAR.C1-2 FAN.plus", LIGHT)
                .joinBy("CAR.C1-2 PUMP.plus", "\"conductor\": {\"size\": \"8 AWG\"}");
        List<Proposal> proposals =
                propose(new AddRelay(), "supply-overloaded", wiring, "CAR.C1-2 FAN.plus PUMP.plus", "").stream()
                        .filter(proposal -> proposal.what().contains(" and PUMP.plus "))
                        .toList();

        assertThat(what(proposals))
                .containsExactly("Let CAR.C1-2 drive a relay, and feed FAN.plus and PUMP.plus through its contact from"
                        + " CAR.battery-plus, fused at 30 A.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly(
                        "W1: FAN.plus - REL.87",
                        "W2: PUMP.plus - REL.87",
                        "W3: CAR.C1-2 - REL.86",
                        "W4: CAR.chassis - REL.85",
                        "W5: CAR.battery-plus - REL.30");
        // 16 AWG bears less than 30 A and gets a fuse of its own; 8 AWG needs none
        assertThat(fuse(proposals.get(0), "W1")).isEqualTo(10);
        assertThat(fuse(proposals.get(0), "W2")).isNull();
    }

    @Test
    void leavesTheFuseOfEachLoadWhereItIsAndAConstantCircuitAlone() {
        String fused = "\"conductor\": {\"size\": \"8 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"},"
                + " \"fuse\": {\"ratingAmps\": 10}";
        for (String circuit : List.of("CAR.C1-2", "CAR.C1-1")) {
            Wiring wiring = vehicle()
                    .lead("FAN", "plus", load("switched", 8))
                    .lead("PUMP", "plus", load("switched", 9))
                    .joinBy(circuit + " FAN.plus", fused)
                    .joinBy(circuit + " PUMP.plus", fused);
            List<Proposal> proposals =
                    propose(new AddRelay(), "supply-overloaded", wiring, circuit + " FAN.plus PUMP.plus", "").stream()
                            .filter(proposal -> proposal.what().contains(" and PUMP.plus "))
                            .toList();
            assertThat(proposals).hasSize(circuit.equals("CAR.C1-2") ? 1 : 0);
            assertThat(proposals).allSatisfy(proposal -> {
                assertThat(fuse(proposal, "W1")).isEqualTo(10);
                assertThat(fuse(proposal, "W2")).isEqualTo(10);
            });
        }
    }

    @Test
    void laysThickerWireWhereTheFuseAsksForIt() {
        String thin = "\"conductor\": {\"size\": \"22 AWG\"}";
        Wiring wiring = vehicle()
                .lead("HU", "turn-on", drives("12V", "\"running\""))
                .lead("FAN", "plus", load("switched", 35))
                .joinBy("HU.turn-on FAN.plus", thin);
        Proposal proposal = propose(new AddRelay(), "control-overloaded", wiring, "FAN.plus", "")
                .get(0);

        assertThat(proposal.what()).endsWith("from CAR.battery-plus, fused at 40 A.");
        assertThat(Sizing.ampacity(Objects.requireNonNull(wire(proposal, "W1").conductor())))
                .isGreaterThanOrEqualTo(40);
        assertThat(Objects.requireNonNull(after(proposal).devices().get("REL"))
                        .relays()
                        .get(0)
                        .contactAmps())
                .isEqualTo(35);
    }

    private static final String FIT = "\"open\": \"O\", \"contactAmps\": 8";

    private static Device relay(String contact, boolean clamped) {
        return Proposing.device(
                "{\"code\": \"X-1\", \"kind\": \"relay\", \"relays\": [{\"coil\": [\"A\", \"B\"], \"coilOhms\": 100,"
                        + " \"common\": \"C\", " + contact + "}]"
                        + (clamped ? ", \"diodes\": [{\"anode\": \"B\", \"cathode\": \"A\", \"amps\": 1}]" : "") + "}");
    }

    @Test
    void takesOfTheStockOnlyAClampedRelayThatBearsTheLoad() {
        Wiring wiring = vehicle()
                .lead("HU", "turn-on", drives("12V", "\"running\""))
                .lead("FAN", "plus", load("switched", 8))
                .join("HU.turn-on FAN.plus");
        for (Device unfit : List.of(
                relay("\"open\": \"O\", \"contactAmps\": 7", true),
                relay("\"open\": \"O\"", true),
                relay("\"closed\": \"N\", \"contactAmps\": 20", true),
                relay("\"open\": \"O\", \"contactAmps\": 20", false))) {
            assertThat(devices(wiring, unfit)).isNotEqualTo("X-1");
        }
        assertThat(devices(wiring, relay(FIT, true))).isEqualTo("X-1");
        Stock stock = kind -> List.of(new Stock.Item(relay(FIT, true), 3));
        Proposal proposal = propose(new AddRelay(), "control-overloaded", wiring, stock, "FAN.plus", "")
                .get(0);
        assertThat(changed(proposal, wiring))
                .contains("W1: FAN.plus - REL.O", "W2: HU.turn-on - REL.A", "W3: CAR.chassis - REL.B");
    }

    private static @Nullable String devices(Wiring wiring, Device relay) {
        Stock stock = kind -> kind.equals("relay") ? List.of(new Stock.Item(relay, 1)) : List.of();
        Proposal proposal = propose(new AddRelay(), "control-overloaded", wiring, stock, "FAN.plus", "")
                .get(0);
        return Objects.requireNonNull(after(proposal).document().parts().get("REL"))
                .device();
    }

    @Test
    void putsAContactIntoAFeedThatNeverSleeps() {
        Wiring wiring = vehicle().lead("FAN", "plus", load("switched", 8)).joinBy("CAR.C1-1 FAN.plus", LIGHT);
        List<Proposal> proposals =
                propose(new AddRelay(), "switched-load-on-constant-supply", wiring, "FAN.plus CAR.C1-1", "");

        assertThat(what(proposals))
                .containsExactly(
                        "Put the contact of a relay between CAR.C1-1 and FAN.plus, and let CAR.C1-2 drive its coil.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly(
                        "W1: CAR.C1-1 - REL.30",
                        "W2: FAN.plus - REL.87",
                        "W3: CAR.C1-2 - REL.86",
                        "W4: CAR.chassis - REL.85");
    }

    @Test
    void turnsAnOutputRoundByARelay() {
        Wiring toGround = vehicle()
                .lead("HU", "turn-on", drives("12V", "\"running\""))
                .lead("AMP", "remote", listens("ground"))
                .join("HU.turn-on AMP.remote");
        List<Proposal> proposals =
                propose(new AddRelay(), "control-polarity-mismatch", toGround, "AMP.remote HU.turn-on", "");

        assertThat(what(proposals))
                .containsExactly("Let HU.turn-on drive a relay whose contact gives AMP.remote ground.");
        assertThat(changed(proposals.get(0), toGround))
                .containsExactly(
                        "W1: AMP.remote - REL.87",
                        "W2: HU.turn-on - REL.86",
                        "W3: CAR.chassis - REL.85",
                        "W4: CAR.chassis - REL.30");
        Wiring toPlus = vehicle()
                .lead("HU", "turn-on", drives("ground", "\"running\""))
                .lead("AMP", "remote", listens("12V"))
                .join("HU.turn-on AMP.remote");
        Proposal plus = propose(new AddRelay(), "control-polarity-mismatch", toPlus, "AMP.remote", "")
                .get(0);
        assertThat(plus.what())
                .isEqualTo("Let HU.turn-on drive a relay whose contact gives AMP.remote 12 V from CAR.C1-1.");
        assertThat(changed(plus, toPlus))
                .containsExactly(
                        "W1: AMP.remote - REL.87",
                        "W2: HU.turn-on - REL.85",
                        "W3: CAR.C1-1 - REL.30",
                        "W4: REL.30 - REL.86");
    }

    @Test
    void turnsNoPulses() {
        Wiring wiring = vehicle()
                .lead("HU", "turn-on", drives("12V", "\"running\""))
                .lead("AMP", "remote", listens("pulse"))
                .join("HU.turn-on AMP.remote");

        assertThat(propose(new AddRelay(), "control-polarity-mismatch", wiring, "AMP.remote", ""))
                .isEmpty();
    }

    @Test
    void movesACoilToWhatSleepsWithTheVehicle() {
        Wiring wiring = vehicle()
                .car("C1-3", drives("12V", "\"running\""))
                .relay("K")
                .joinBy("CAR.C1-1 K.86", LIGHT + ", \"fuse\": {\"ratingAmps\": 1}")
                .join("CAR.chassis K.85");
        List<Proposal> proposals = propose(new MoveCoil(), "parasitic-draw-excessive", wiring, "K.86", "");

        assertThat(what(proposals))
                .containsExactly(
                        "Move the lead of K.86 from CAR.C1-1 to CAR.C1-2, so that the relay rests when the vehicle does.",
                        "Move the lead of K.86 from CAR.C1-1 to CAR.C1-3, so that the relay rests when the vehicle does.");
        assertThat(fuse(proposals.get(0), "W1")).isEqualTo(1);
        assertThat(fuse(proposals.get(1), "W1")).isNull();
    }

    @Test
    void hangsACoilOnTheCircuitThatTheLampBehindItsContactIsFor() {
        String reverse = Wiring.supply("running") + ", \"when\": [\"reverse\"]";
        Wiring wiring = vehicle()
                .car("C1-4", Wiring.facts("lighting.reverse", reverse))
                .relay("K")
                .lead(
                        "LAMP",
                        "plus",
                        Wiring.facts("lighting.reverse", "\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 3"))
                .join("CAR.chassis K.86", "CAR.chassis K.85", "CAR.C1-1 K.30", "K.87 LAMP.plus");

        assertThat(what(propose(new MoveCoil(), "load-without-supply", wiring, "LAMP.plus", "")))
                .startsWith(
                        "Move the lead of K.85 from CAR.chassis to CAR.C1-4.",
                        "Move the lead of K.85 from CAR.chassis to CAR.C1-2.");
    }

    @Test
    void movesACoilOffAWeakOutputOnlyWhereThatIsTheMistake() {
        Wiring wiring = vehicle()
                .lead("HU", "turn-on", drives("12V", "\"running\"").replace("0.3", "0.1"))
                .relay("K")
                .join("HU.turn-on K.86", "CAR.chassis K.85");

        assertThat(what(propose(new MoveCoil(), "control-overloaded", wiring, "HU.turn-on", "W1")))
                .containsExactly("Move the lead of K.86 from HU.turn-on to CAR.C1-2.");
        assertThat(propose(new MoveCoil(), "parasitic-draw-excessive", wiring, "K.86", ""))
                .isEmpty();
    }

    @Test
    void feedsACoilBeforeItsOwnContact() {
        Wiring wiring = vehicle().relay("K").join("CAR.C1-2 K.30", "K.87a K.86", "CAR.chassis K.85", "K.87 K.x");

        assertThat(what(propose(
                        new MoveCoil(), "relay-restless", wiring.lead("K", "x", load("either", 1)), "K.86 K.85", "")))
                .containsExactly("Move the lead of K.86 from K.87a to K.30, before the contact.");
    }

    @Test
    void groundsAPartAtThePointsThatTheHookupUsesWithWireAsThickAsItsFeed() {
        Wiring wiring = vehicle()
                .car("C1-8", Wiring.facts("\"kind\": \"ground\""))
                .lead("AMP", "plus", load("either", 10))
                .lead("AMP", "minus", Wiring.facts("\"kind\": \"ground\""))
                .lead("HU", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.C1-1 AMP.plus", "\"conductor\": {\"size\": \"8 AWG\"}")
                .join("CAR.C1-8 HU.minus");
        List<Proposal> proposals = propose(new MoveGround(), "load-without-ground", wiring, "AMP.plus", "");

        assertThat(what(proposals))
                .containsExactly("Ground AMP.minus at CAR.chassis.", "Ground AMP.minus at CAR.C1-8.");
        assertThat(Objects.requireNonNull(wire(proposals.get(0), "W3").conductor())
                        .size()
                        .value())
                .isEqualTo("8 AWG");
    }

    private static Wiring fed(String more) {
        return vehicle()
                .lead("AMP", "plus", Wiring.facts("\"kind\": \"load\", \"typicalAmps\": 6, \"maxAmps\": 9"))
                .lead("AMP", "remote", listens("12V"))
                .joinBy("CAR.battery-plus AMP.plus", more)
                .join("AMP.plus AMP.remote");
    }

    @Test
    void ratesAFuseForWhatAnotherSourceGivesThroughADiodeAndNotForTheDiodeOfACoil() {
        Wiring charged = vehicle()
                .lead("AUX", "plus", Wiring.facts(Wiring.supply("asleep", "running")))
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"k\", \"amps\": 60}]")
                .join("CAR.battery-plus D.a")
                .joinBy("D.k AUX.plus", LIGHT);
        Wiring coil = vehicle()
                .relay("K1")
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"k\", \"amps\": 1}]")
                .joinBy("CAR.battery-plus K1.86", LIGHT)
                .join("K1.85 CAR.chassis", "D.a K1.85", "D.k K1.86");

        // 16 AWG takes 25 A at 105 degrees, and a coil fractions of an ampere
        assertThat(what(propose(new ChangeFuse(), "fuse-missing", charged, "AUX.plus", "W2")))
                .containsExactly("Put a 25 A fuse into W2, close to AUX.plus.");
        assertThat(what(propose(new ChangeFuse(), "fuse-missing", coil, "CAR.battery-plus", "W1")))
                .containsExactly("Put a 1 A fuse into W1, close to CAR.battery-plus.");
    }

    @Test
    void putsNoFuseIntoALeadToGround() {
        Wiring grounded = fed(LIGHT)
                .lead("AMP", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("AMP.minus CAR.chassis", LIGHT);

        assertThat(propose(new ChangeFuse(), "conductor-too-small", grounded, "AMP.minus", "W3"))
                .isEmpty();
    }

    @Test
    void putsInTheLeastFuseThatBearsAllBehindIt() {
        // 9 A and 20 mA at most; 6 A for long would do with 10 A too
        List<Proposal> proposals = propose(new ChangeFuse(), "fuse-missing", fed(LIGHT), "CAR.battery-plus", "W1 W2");

        assertThat(what(proposals)).containsExactly("Put a 10 A fuse into W1, close to CAR.battery-plus.");
        assertThat(fuse(proposals.get(0), "W1")).isEqualTo(10);
        String fused = LIGHT + ", \"fuse\": {\"ratingAmps\": 3, \"fromSource\": {\"value\": 30, \"unit\": \"cm\"}}";
        Proposal other = propose(new ChangeFuse(), "fuse-below-load", fed(fused), "CAR.battery-plus", "W1")
                .get(0);
        assertThat(other.what()).isEqualTo("Change the 3 A fuse of W1 for a 10 A fuse.");
        assertThat(Objects.requireNonNull(
                                Objects.requireNonNull(wire(other, "W1").fuse()).fromSource())
                        .metres())
                .isEqualTo(0.3);
    }

    @Test
    void laysThickerWireBehindTheFuseThatALoadNeeds() {
        Wiring wiring = vehicle()
                .lead("AMP", "plus", load("either", 60))
                .joinBy("CAR.battery-plus AMP.plus", LIGHT + ", \"fuse\": {\"ratingAmps\": 20}");
        List<Proposal> proposals = propose(new ChangeFuse(), "fuse-below-load", wiring, "", "W1");

        assertThat(what(proposals)).singleElement().asString().matches("Lay W1 in [0-9]+ AWG behind a 60 A fuse\\.");
        Connection wire = wire(proposals.get(0), "W1");
        double ampacity = Sizing.ampacity(Objects.requireNonNull(wire.conductor()));
        assertThat(ampacity).isGreaterThanOrEqualTo(60);
        assertThat(fuse(proposals.get(0), "W1")).isEqualTo(60);
    }

    @Test
    void putsAHolderOfTheStockAtTheSource() {
        Stock stock = kind -> kind.equals("fuse-holder")
                ? List.of(holder("F-30", 30), holder("F-15", 15), holder("F-12", 12), holder("F-5", 5))
                : List.of();
        List<Proposal> proposals = propose(new ChangeFuse(), "fuse-missing", fed(LIGHT), stock, "", "W1");

        // 16 AWG carries less than 30 A, and 5 A blow under 9
        assertThat(what(proposals))
                .containsExactly(
                        "Put a 10 A fuse into W1, close to CAR.battery-plus.",
                        "Put a holder with a 12 A fuse between CAR.battery-plus and W1.");
        assertThat(changed(proposals.get(1), fed(LIGHT)))
                .containsExactly("W1: AMP.plus - FUSE.b", "W3: CAR.battery-plus - FUSE.a");
    }

    private static Stock.Item holder(String code, double amps) {
        return new Stock.Item(
                Proposing.device("{\"code\": \"" + code + "\", \"kind\": \"fuse-holder\", \"fuses\":"
                        + " [{\"between\": [\"a\", \"b\"], \"ratingAmps\": " + amps + "}]}"),
                1);
    }

    @Test
    void fusesAConductorBetweenTwoSourcesByWhatItBears() {
        Wiring wiring = vehicle()
                .lead("BAT", "plus", Wiring.facts(Wiring.constant()))
                .joinBy("CAR.battery-plus BAT.plus", "\"conductor\": {\"size\": \"4 AWG\"}");
        List<Proposal> proposals = propose(new ChangeFuse(), "fuse-missing", wiring, "", "W1");

        // what charges the other battery no load tells
        double fused = Objects.requireNonNull(fuse(proposals.get(0), "W1"));
        double ampacity = Sizing.ampacity(
                Objects.requireNonNull(wire(proposals.get(0), "W1").conductor()));
        assertThat(fused).isLessThanOrEqualTo(ampacity).isGreaterThan(ampacity / 2);
    }

    @Test
    void laysTwoConductorsThickerTogether() {
        Wiring wiring = vehicle()
                .lead("AMP", "plus", load("either", 10))
                .lead("AMP", "minus", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("CAR.C1-1 AMP.plus", "\"conductor\": {\"size\": \"4/0 AWG\"}")
                .joinBy("CAR.chassis AMP.minus", "\"conductor\": {\"size\": \"10 AWG\"}")
                .joinBy("AMP.minus CAR.chassis", "\"conductor\": {\"size\": \"8 AWG\"}");
        List<Proposal> proposals = propose(new ChangeConductor(), "voltage-drop-excessive", wiring, "", "W2 W3");

        assertThat(what(proposals))
                .startsWith(
                        "Lay W2 in 8 AWG.", "Lay W3 in 6 AWG.", "Lay W2 in 8 AWG, W3 in 6 AWG.", "Lay W2 in 6 AWG.");
        assertThat(proposals.subList(0, 4)).extracting(Proposal::cost).containsExactly(4.0, 4.0, 8.0, 4.5);
        // nothing is thicker than the thickest
        assertThat(propose(new ChangeConductor(), "voltage-drop-excessive", wiring, "", "W1"))
                .isEmpty();
    }

    @Test
    void partsTwoBatteriesByARelayThatTheAccessoryFeedDrivesWithAFuseAtTheBareEnd() {
        Wiring wiring = new Wiring()
                .car("C1-2", Wiring.facts(Wiring.supply("accessory", "running")))
                .lead("AUX", "plus", Wiring.facts(Wiring.constant().replace("\"fuseAmps\": 10, ", "")))
                .joinBy(
                        "CAR.battery-plus AUX.plus",
                        "\"conductor\": {\"size\": \"2 AWG\"}, \"fuse\": {\"ratingAmps\": 100}");
        List<Proposal> proposals =
                propose(new AddIsolatingRelay(), "supplies-tied", wiring, "CAR.battery-plus AUX.plus", "W1");

        assertThat(what(proposals))
                .containsExactly("Put the contact of a relay between AUX.plus and CAR.battery-plus, and let CAR.C1-2"
                        + " drive its coil, so that the two part while the vehicle sleeps.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly(
                        "W1: CAR.battery-plus - REL.30",
                        "W2: AUX.plus - REL.87",
                        "W3: CAR.C1-2 - REL.86",
                        "W4: CAR.chassis - REL.85");
        assertThat(fuse(proposals.get(0), "W2")).isEqualTo(100);

        Wiring bare = new Wiring()
                .car("C1-2", Wiring.facts(Wiring.supply("accessory", "running")))
                .lead("AUX", "plus", Wiring.facts(Wiring.constant().replace("\"fuseAmps\": 10, ", "")))
                .joinBy("CAR.battery-plus AUX.plus", "\"conductor\": {\"size\": \"2 AWG\"}");
        Proposal fused = propose(new AddIsolatingRelay(), "supplies-tied", bare, "CAR.battery-plus AUX.plus", "W1")
                .get(0);
        assertThat(fuse(fused, "W1")).isEqualTo(200);
        assertThat(fuse(fused, "W2")).isEqualTo(200);

        Wiring player = wiring.lead("AUX", "load", Wiring.facts("\"kind\": \"load\""));
        assertThat(propose(new AddIsolatingRelay(), "supplies-tied", player, "CAR.battery-plus AUX.plus", "W1"))
                .as("a part that takes power itself is no battery")
                .isEmpty();
    }

    @Test
    void takesAFuseOutOfALeadToGround() {
        Wiring wiring = vehicle()
                .lead("HU", "memory", load("constant", 5))
                .lead("HU", "ground", Wiring.facts("\"kind\": \"ground\""))
                .joinBy("HU.ground CAR.chassis", LIGHT + ", \"fuse\": {\"ratingAmps\": 1}");
        List<Proposal> proposals = propose(new ChangeFuse(), "fuse-below-load", wiring, "HU.ground", "W1");

        assertThat(what(proposals)).containsExactly("Take the fuse out of W1: a lead to ground needs none.");
        assertThat(fuse(proposals.get(0), "W1")).isNull();
    }
}
