package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** "The amplifier stays on all night" and "nothing ever turns it on", whatever stands between. */
class LivePropagationTest {

    private static final Told ALWAYS = Told.by("control-always-active");
    private static final Told NEVER = Told.by("control-never-active");
    private static final Told ALL_NIGHT = Told.by("switched-load-on-constant-supply");
    private static final String DIODE = "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]";

    @Test
    void seesATurnOnThatStaysThroughTwoRelays() {
        Wiring relays = amplifier()
                .relay("K1")
                .relay("K2")
                .join(
                        "CAR.C1-7 K1.86",
                        "K1.85 CAR.chassis",
                        "CAR.C1-7 K1.30",
                        "K1.87 K2.86",
                        "K2.85 CAR.chassis",
                        "CAR.C1-7 K2.30",
                        "K2.87 AMP.on");
        assertThat(ALWAYS.finding(relays).message())
                .isEqualTo("AMP.on is active in every state, asleep too: CAR.C1-7 never goes away, through K2, which is"
                        + " pulled in then");
        NEVER.passes(relays);
    }

    @Test
    void seesATurnOnThatARelayHoldsAllNightByItsOwnContact() {
        Wiring latch = new Wiring()
                .car("C1-7", facts(constant()))
                .car("C1-8", facts(supply("accessory", "ignition", "running", "restarting")))
                .lead(
                        "AMP",
                        "on",
                        facts("control.amplifier-on", "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"))
                .relay("K")
                .inside("D", DIODE)
                .join("CAR.C1-8 D.a", "D.c K.86", "K.85 CAR.chassis", "CAR.C1-7 K.30", "K.87 K.86", "K.87 AMP.on");
        assertThat(ALWAYS.finding(latch).message())
                .isEqualTo("AMP.on is active in every state, asleep too: one of CAR.C1-8 and CAR.C1-7 is always live,"
                        + " through K, which holds itself by its own contact once it has pulled in");
    }

    @Test
    void seesALoadThatADoorOnceOpenedKeepsFedAllNight() {
        Wiring latch = new Wiring()
                .car("C1-7", facts(constant()))
                .car(
                        "C1-8",
                        facts("\"kind\": \"supply\", \"live\": [\"asleep\", \"running\"], \"when\": \"door-open\""))
                .lead("L", "plus", facts("\"kind\": \"load\", \"needs\": \"switched\""))
                .relay("K")
                .inside("D", DIODE)
                .join("CAR.C1-8 D.a", "D.c K.86", "K.85 CAR.chassis", "CAR.C1-7 K.30", "K.87 K.86", "K.87 L.plus");
        assertThat(ALL_NIGHT.finding(latch).message())
                .isEqualTo(
                        "L.plus needs a switched feed, and CAR.C1-7 keeps it fed while the vehicle is asleep, through"
                                + " K, which holds itself by its own contact once it has pulled in");
        assertThat(ALL_NIGHT.finding(latch).help())
                .startsWith("see that the coil of K goes dead when the vehicle sleeps");
    }

    @Test
    void seesATurnOnThatNeverComesThroughTwoRelays() {
        // the first relay pulls while the engine runs and then opens the feed of the second's coil
        Wiring relays = amplifier()
                .relay("K1")
                .relay("K2")
                .join(
                        "CAR.C1-8 K1.86",
                        "K1.85 CAR.chassis",
                        "CAR.C1-8 K1.30",
                        "K1.87a K2.86",
                        "K2.85 CAR.chassis",
                        "CAR.C1-8 K2.30",
                        "K2.87 AMP.on");
        NEVER.finding(relays);
    }

    @Test
    void tellsWhyTheFirstOfTwoRelaysInARowNeverPulls() {
        Wiring row = amplifier()
                .lead("HU", "memory", facts("\"kind\": \"load\", \"needs\": \"constant\""))
                .lead("HU", "on", facts("\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 0.3"))
                .relay("K1")
                .relay("K2")
                .unused("HU.memory", "capped")
                .join(
                        "HU.on K1.86",
                        "K1.85 CAR.chassis",
                        "CAR.C1-7 K1.30",
                        "K1.87 K2.86",
                        "K2.85 CAR.chassis",
                        "CAR.C1-7 K2.30",
                        "K2.87 AMP.on");
        assertThat(NEVER.finding(row).message())
                .isEqualTo("AMP.on is driven by nothing: the relay K2 between it and CAR.C1-7 never pulls in: its coil"
                        + " hangs on the relay K1, which never pulls in: HU.on, which feeds its coil, is never live, as"
                        + " every feed of HU is listed as unused");
        assertThat(NEVER.finding(row).help())
                .isEqualTo("feed HU, or connect AMP.on to something that gives 12 V when it is wanted.");
    }

    @Test
    void tellsARelayThatOnlyItsOwnContactWouldFeedOnce() {
        Wiring own = amplifier().relay("K").join("CAR.C1-7 K.30", "K.87 K.86", "K.85 CAR.chassis", "K.87 AMP.on");
        assertThat(NEVER.finding(own).message())
                .isEqualTo(
                        "AMP.on is driven by nothing: the relay K between it and CAR.C1-7 never pulls in: its coil gets"
                                + " no 12 V");
    }

    @Test
    void seesATurnOnThatTakesTwoConditionsAtOnce() {
        // the brake lamps' relay hands on what is live in reverse
        NEVER.passes(twoConditions("K.85 CAR.chassis"));
        ALWAYS.passes(twoConditions("K.85 CAR.chassis"));
        NEVER.finding(twoConditions("K.85 CAR.C5-3"));
    }

    private static Wiring twoConditions(String coilReturn) {
        return amplifier()
                .car("C5-3", facts(supply("running") + ", \"when\": \"reverse\""))
                .car("C5-4", facts(supply("running") + ", \"when\": \"brake\""))
                .relay("K")
                .join("CAR.C5-4 K.86", coilReturn, "CAR.C5-3 K.30", "K.87 AMP.on");
    }

    @Test
    void seesATurnOnThatEitherOfTwoDiodesHolds() {
        Wiring diodes = amplifier()
                .inside("D1", DIODE)
                .inside("D2", DIODE)
                .join("CAR.C1-7 D1.a", "D1.c AMP.on", "CAR.C1-8 D2.a", "D2.c AMP.on");
        assertThat(ALWAYS.finding(diodes).terminals()).contains("CAR.C1-7", "AMP.on");
    }

    @Test
    void followsTheSignalOfTheFactoryUnit() {
        Wiring bySignal = converter().join("CAR.A1-1 LOC.in", "CAR.A1-2 LOC.in-return", "LOC.on AMP.on");
        NEVER.passes(bySignal);
        ALWAYS.passes(bySignal);
    }

    @Test
    void seesASignalTurnOnThatNoSignalReaches() {
        assertThat(NEVER.finding(converter().join("LOC.on AMP.on")).message())
                .isEqualTo("AMP.on is active in no state: LOC.on is never live");
    }

    @Test
    void seesASignalTurnOnThatAHeadUnitHoldsAllNight() {
        // the head unit's switched lead on the constant feed: it plays on, and the converter hears it
        Wiring awake = head("CAR.C1-7");
        assertThat(ALWAYS.finding(awake).message())
                .isEqualTo("AMP.on is active in every state, asleep too: LOC.on never goes away");
        assertThat(ALL_NIGHT.finding(awake).terminals()).contains("HU.accessory", "CAR.C1-7");
        ALWAYS.passes(head("CAR.C1-8"));
    }

    @Test
    void tellsInputsOfOneLineAsOne() {
        Wiring two = amplifier()
                .lead("AMP2", "on", facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"))
                .join("AMP.on AMP2.on");
        assertThat(NEVER.finding(two).message()).isEqualTo("AMP.on and AMP2.on are driven by nothing");
        assertThat(ALWAYS.finding(two.join("CAR.C1-7 AMP.on")).message())
                .isEqualTo("AMP.on and AMP2.on are active in every state, asleep too: CAR.C1-7 never goes away");
    }

    @Test
    void followsATurnOnThatAnAmplifierPassesOn() {
        ALWAYS.passes(passedOn().join("CAR.C1-8 AMP.on"));
        NEVER.passes(passedOn().join("CAR.C1-8 AMP.on"));
        assertThat(ALWAYS.finding(passedOn().join("CAR.C1-7 AMP.on")).terminals())
                .containsExactlyInAnyOrder("AMP.on", "CAR.C1-7");
        assertThat(NEVER.finding(passedOn()
                                .inside("L", "\"conducts\": [[\"a\", \"b\"]]")
                                .join("L.a AMP.on"))
                        .terminals())
                .containsExactly("AMP.on");
    }

    @Test
    void tellsInputsThatWaitForEachOther() {
        assertThat(NEVER.messages(
                        passedOn().lead("AMP2", "out", facts(OUT_FOLLOWS_ON)).join("AMP2.out AMP.on")))
                .hasSize(2);
    }

    @Test
    void seesALoadThatAModulesOutputKeepsAwake() {
        Wiring module = amplifier()
                .lead("IFC", "feed", facts("\"kind\": \"load\", \"needs\": \"constant\""))
                .lead("IFC", "ground", facts("\"kind\": \"ground\""))
                .lead("IFC", "out", facts(constant().replace("\"fuseAmps\": 10", "\"limited\": true")))
                .lead("FAN", "plus", facts("\"kind\": \"load\", \"needs\": \"switched\""))
                .lead("FAN", "minus", facts("\"kind\": \"ground\""))
                .join("IFC.ground CAR.chassis", "FAN.minus CAR.chassis", "IFC.out FAN.plus");
        ALL_NIGHT.finding(module.join("CAR.C1-7 IFC.feed"));
    }

    @Test
    void isNotMisledByWhatMeetsAtGround() {
        // 12 V through an indicator to the chassis does not come back up through the clamp of a coil
        Wiring indicator = amplifier()
                .relay("K")
                .inside("K", "\"diodes\": [{\"anode\": \"85\", \"cathode\": \"86\"}]")
                .inside("LED", "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 680}]")
                .join(
                        "CAR.C1-7 LED.a",
                        "LED.b CAR.chassis",
                        "CAR.C1-8 K.86",
                        "K.85 CAR.chassis",
                        "CAR.C1-7 K.30",
                        "K.87 AMP.on");
        ALWAYS.passes(indicator);
    }

    private static final String OUT_FOLLOWS_ON =
            "\"kind\": \"control-out\", \"active\": \"12V\", \"follows\": \"on\", \"maxAmps\": 0.3";

    /** An amplifier that passes its turn-on to a second. */
    private static Wiring passedOn() {
        return amplifier()
                .lead("AMP", "feed", facts("\"kind\": \"load\", \"needs\": \"constant\""))
                .lead("AMP", "ground", facts("\"kind\": \"ground\""))
                .lead("AMP", "out", facts(OUT_FOLLOWS_ON))
                .lead("AMP2", "on", facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"))
                .join("CAR.C1-7 AMP.feed", "AMP.ground CAR.chassis", "AMP.out AMP2.on");
    }

    private static Wiring amplifier() {
        return new Wiring()
                .car("C1-7", facts(constant()))
                .car("C1-8", facts(supply("accessory", "ignition", "running", "restarting")))
                .lead("AMP", "on", facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"));
    }

    /** A converter whose turn-on follows what arrives at its input. */
    private static Wiring converter() {
        return amplifier()
                .car("A1-1", facts(floating("left", "plus")))
                .car("A1-2", facts(floating("left", "minus")))
                .lead("LOC", "feed", facts("\"kind\": \"load\", \"needs\": \"constant\""))
                .lead("LOC", "ground", facts("\"kind\": \"ground\""))
                .lead("LOC", "in", facts("\"kind\": \"speaker-in\", \"channel\": \"left\", \"side\": \"plus\""))
                .lead("LOC", "in-return", facts("\"kind\": \"speaker-in\", \"channel\": \"left\", \"side\": \"minus\""))
                .lead("LOC", "on", facts("\"kind\": \"control-out\", \"active\": \"12V\", \"follows\": \"in\""))
                .inside("LOC", "\"couples\": [" + couple("in", "in-return", "out", "out-return", "") + "]")
                .join("CAR.C1-7 LOC.feed", "LOC.ground CAR.chassis");
    }

    /** A head unit whose switched lead is fed from a circuit, and whose sound turns the amplifier on. */
    private static Wiring head(String feed) {
        return converter()
                .lead("HU", "accessory", facts("\"kind\": \"load\", \"needs\": \"switched\""))
                .lead("HU", "ground", facts("\"kind\": \"ground\""))
                .lead("HU", "plus", facts(floating("left", "plus")))
                .lead("HU", "minus", facts(floating("left", "minus")))
                .join(
                        feed + " HU.accessory",
                        "HU.ground CAR.chassis",
                        "HU.plus LOC.in",
                        "HU.minus LOC.in-return",
                        "LOC.on AMP.on");
    }
}
