package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.lineIn;
import static dev.splicebook.hookup.Wiring.lineOut;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

class WishUnmetTest {

    private static final Told TOLD = Told.by("wish-unmet");

    private static final String REAR = "audio.line.rear-entertainment";
    private static final String ILLUMINATION = "power.illumination";

    /** The rear seats' sound in a connector that is off the factory unit, to be kept. */
    private static Wiring rearSeats() {
        return new Wiring()
                .car("C2-1", facts(REAR + ".left.signal", lineOut("left", "signal", "isolated")))
                .car("C2-2", facts(REAR + ".left.return", lineOut("left", "return", "isolated")))
                .unplug("C2")
                .lead("HU", "av-left", facts(lineIn("left", "signal", "chassis")))
                .wish(REAR, "keep");
    }

    private static Wiring dimming(String facts) {
        return new Wiring()
                .car("C1-3", facts(ILLUMINATION, supply("running") + ", \"when\": \"lamps\""))
                .unplug("C1")
                .lead("HU", "dim", facts)
                .wish(ILLUMINATION, "keep");
    }

    private static final String DIM = facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01");

    @Test
    void reportsAFunctionToBeKeptOfWhichNothingServesTheCircuit() {
        Finding finding = TOLD.finding(rearSeats());

        assertThat(finding.message()).isEqualTo(REAR + " is to be kept, and CAR.C2-1 reaches nothing that serves it");
        assertThat(finding.help()).isEqualTo("connect CAR.C2-1 to what serves " + REAR + ".");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactly("CAR.C2-1");
    }

    @Test
    void acceptsACircuitThatReachesWhatTakesIt() {
        TOLD.passes(rearSeats().join("CAR.C2-1 HU.av-left"));
    }

    @Test
    void acceptsACircuitBehindAnAdapterAnIsolatorAndAContact() {
        TOLD.passes(rearSeats()
                .inside("ISO", "\"couples\": [" + couple("l", "lr", "lo", "lor", "") + "]")
                .inside("Y", "\"conducts\": [[\"a\", \"b\"]]")
                .relayWhileRunning("K")
                .join("CAR.C2-1 Y.a", "Y.b ISO.l", "ISO.lo K.30", "K.87 HU.av-left"));
    }

    @Test
    void reportsACircuitThatReachesOnlyAnotherSource() {
        assertThat(TOLD.messages(rearSeats()
                        .lead("PLAYER", "out", facts(lineOut("left", "signal", "chassis")))
                        .join("CAR.C2-1 PLAYER.out")))
                .hasSize(1);
    }

    @Test
    void acceptsACircuitThatStaysInTheFactoryUnit() {
        TOLD.passes(new Wiring().car("C2-1", facts(REAR + ".left.signal", "")).wish("audio.line", "keep"));
    }

    @Test
    void followsADiodeTheWayThatCurrentFlowsAndAResistorBothWays() {
        String diode = "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]";

        TOLD.passes(dimming(DIM).inside("D", diode).join("CAR.C1-3 D.a", "D.c HU.dim"));
        assertThat(TOLD.messages(dimming(DIM).inside("D", diode).join("CAR.C1-3 D.c", "D.a HU.dim")))
                .hasSize(1);
        TOLD.passes(dimming(DIM)
                .inside("R", "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 330}]")
                .join("CAR.C1-3 R.b", "R.a HU.dim"));
    }

    @Test
    void acceptsACutThatARelayCloses() {
        Wiring cut = new Wiring()
                .car("C1-3", facts(ILLUMINATION, constant()))
                .cut("C1-3")
                .wish(ILLUMINATION, "keep")
                .relayWhileRunning("K");

        TOLD.passes(cut.join("CAR.C1-3/harness K.30", "CAR.C1-3/unit K.87"));
    }

    @Test
    void reportsACutThatIsLeftOpenWithItsEnds() {
        Wiring cut = new Wiring()
                .car("C1-3", facts(ILLUMINATION, constant()))
                .cut("C1-3")
                .wish(ILLUMINATION, "keep");

        assertThat(TOLD.finding(cut).terminals()).containsExactlyInAnyOrder("CAR.C1-3/harness", "CAR.C1-3/unit");
    }

    @Test
    void reportsAFunctionToBeKeptOfWhichTheMapHasNothing() {
        assertThat(TOLD.messages(new Wiring().wish("telephone", "keep")))
                .containsExactly("telephone is to be kept, and the map has no circuit for it");
    }

    @Test
    void reportsAFunctionToBeAddedThatNoPartHasOrNothingServes() {
        assertThat(TOLD.messages(new Wiring().wish("video.camera-rear", "add")))
                .containsExactly("video.camera-rear is to be added, and no part has it");
        assertThat(TOLD.messages(new Wiring()
                        .lead("HU", "cam", facts("video.camera-rear.signal", "\"kind\": \"video-in\""))
                        .wish("video.camera-rear", "add")))
                .containsExactly("video.camera-rear is to be added, and HU.cam reaches nothing that serves it");
    }

    @Test
    void acceptsAnAddedCameraThatReachesTheScreen() {
        TOLD.passes(new Wiring()
                .lead("HU", "cam", facts("video.camera-rear.signal", "\"kind\": \"video-in\""))
                .lead("CAM", "out", facts("video.camera-rear.signal", "\"kind\": \"video-out\""))
                .join("CAM.out HU.cam")
                .wish("video.camera-rear", "add"));
    }

    @Test
    void countsNoIsolatorForWhatItPassesOnIfThatIsThereForAnotherWish() {
        Wiring both = rearSeats()
                .lead("HU", "av-left", facts("audio.line.auxiliary.left.signal", lineIn("left", "signal", "chassis")))
                .lead("ISO", "out", facts("audio.line.left.signal", lineOut("left", "signal", "isolated")))
                .inside("ISO", "\"couples\": [" + couple("in", "in-return", "out", "out-return", "") + "]")
                .join("CAR.C2-1 ISO.in", "ISO.out HU.av-left")
                .wish("audio.line.auxiliary", "add");

        assertThat(TOLD.messages(both))
                .containsExactly("audio.line.auxiliary is to be added, and HU.av-left reaches nothing that serves it");
    }

    @Test
    void acceptsABusLineAtItsLikeAndReportsItAtAnother() {
        String high = "\"kind\": \"data\", \"bus\": \"can\", \"line\": \"high\"";
        Wiring bus = new Wiring()
                .car("C5-6", facts("data.can.high", high))
                .unplug("C5")
                .lead("IFC", "high", facts(high))
                .lead("IFC", "low", facts("\"kind\": \"data\", \"bus\": \"can\", \"line\": \"low\""))
                .wish("data.can", "keep");

        assertThat(TOLD.messages(bus.join("CAR.C5-6 IFC.low"))).hasSize(1);
        TOLD.passes(bus.join("CAR.C5-6 IFC.high"));
    }

    @Test
    void isSilentWithoutAWish() {
        TOLD.doesNotApply(
                new Wiring().car("C2-1", facts(REAR + ".left.signal", "")).unplug("C2"));
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhatTheCircuitReaches() {
        TOLD.lacks(dimming(facts(ILLUMINATION, "")).join("CAR.C1-3 HU.dim"), "HU.dim.electrical");
    }

    @Test
    void tellsTwoWishesApartThatLackTheSame() {
        assertThat(new Wiring()
                        .wish("telephone", "keep")
                        .wish("telephone", "add")
                        .wish("video", "add")
                        .check()
                        .findings())
                .extracting(Finding::fingerprint)
                .hasSize(3)
                .doesNotHaveDuplicates();
    }

    @Test
    void tellsKeysThatAnInterfacePassesOnToNothing() {
        Wiring keys = new Wiring()
                .car(
                        "C3-1",
                        facts(
                                "control.steering-wheel",
                                "\"kind\": \"control-out\", \"active\": \"resistance\", \"live\":"
                                        + " [\"accessory\", \"running\"]"))
                .unplug("C3")
                .lead(
                        "SW",
                        "in",
                        facts("control.steering-wheel", "\"kind\": \"control-in\", \"active\": \"resistance\""))
                .lead(
                        "SW",
                        "out",
                        facts("control.wired-remote", "\"kind\": \"control-out\", \"active\": \"resistance\""))
                .lead("HU", "in", facts("control.wired-remote", "\"kind\": \"control-in\", \"active\": \"resistance\""))
                .join("CAR.C3-1 SW.in")
                .wish("control.steering-wheel", "keep");

        assertThat(TOLD.messages(keys))
                .containsExactly("control.steering-wheel is to be kept, and CAR.C3-1 reaches nothing that serves it");
        TOLD.passes(keys.join("SW.out HU.in"));
    }
}
