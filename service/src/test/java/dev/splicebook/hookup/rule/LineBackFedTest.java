package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import java.util.Locale;
import org.junit.jupiter.api.Test;

// what current matters: common practice, no source; the rest is Kirchhoff's
class LineBackFedTest {

    private static final Told RULE = Told.by("line-back-fed");
    private static final String DIODE = "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]";

    @Test
    void reportsAnAccessoryLineThatTheConstantFeedHoldsUpThroughADiode() {
        Finding finding = RULE.finding(lines().inside("D", DIODE).join("CAR.C1-7 D.a", "D.c CAR.C1-8"));

        assertThat(finding.message())
                .isEqualTo(
                        "CAR.C1-8 is fed backwards in the states asleep and cranking, when its own source gives nothing:"
                                + " CAR.C1-7 feeds it through D");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-7", "CAR.C1-8");
        assertThat(finding.connections()).containsExactlyInAnyOrder("W1", "W2");
        assertThat(finding.states()).containsExactly(State.ASLEEP, State.CRANKING);
    }

    @Test
    void acceptsADiodeInEachFeed() {
        RULE.passes(lines().lead("HU", "memory", facts("\"kind\": \"load\", \"needs\": \"constant\""))
                .inside("D", DIODE)
                .inside("E", DIODE)
                .join("CAR.C1-7 D.a", "D.c HU.memory", "CAR.C1-8 E.a", "E.c HU.memory"));
    }

    @Test
    void countsAResistorFromATenthOfAnAmpere() {
        // 12.6 V over 126 ohms is 0.1 A
        Finding finding = RULE.finding(lamp(126));
        assertThat(finding.message()).endsWith("CAR.C1-7 feeds it through the 126 ohms of LAMP");
        RULE.passes(lamp(126.1));
    }

    @Test
    void addsUpWhatResistorsAndCoilsSideBySideLetIntoALine() {
        // 200 ohms by 340.5 ohms is 126 ohms, and 12.6 V over that is 0.1 A
        Finding finding = RULE.finding(besides(200, 340.5, "CAR.C1-7"));
        assertThat(finding.message()).endsWith("CAR.C1-7 feeds it through the 126 ohms of LAMP and LED");
        assertThat(finding.connections()).containsExactlyInAnyOrder("W1", "W2", "W3", "W4");
        RULE.passes(besides(200, 341, "CAR.C1-7"));
        assertThat(RULE.finding(besides(200, 340.5, "CAR.C1-17")).message())
                .endsWith("CAR.C1-17 and CAR.C1-7 feed it through the 126 ohms of LAMP and LED");
        RULE.finding(lines().relay("K")
                .inside("R", "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 150}]")
                .inside("S", "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 60}]")
                .join("CAR.C1-7 R.a", "R.b CAR.C1-8", "CAR.C1-7 K.86", "K.85 S.a", "S.b CAR.C1-8"));
    }

    @Test
    void tellsOfTheCoilWhereAResistorBesideItCarriesMore() {
        Finding finding = RULE.finding(lamp(150)
                .relay("K")
                .inside("S", "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 200}]")
                .join("CAR.C1-7 K.86", "K.85 S.a", "S.b CAR.C1-8"));
        assertThat(finding.help()).startsWith("take one end of the coil of K off its feed");
    }

    private static Wiring besides(double one, double other, String second) {
        return lamp(one)
                .car("C1-17", facts(constant()))
                .inside(
                        "LED",
                        String.format(
                                Locale.ROOT, "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": %s}]", other))
                .join(second + " LED.a", "LED.b CAR.C1-8");
    }

    @Test
    void doesNotApplyWithoutASupply() {
        RULE.doesNotApply(new Wiring().inside("D", DIODE).join("CAR.chassis D.a"));
    }

    @Test
    void lacksTheStatesOfALineAndOfWhatFeedsIt() {
        RULE.lacks(
                new Wiring()
                        .car("C1-7", facts(constant()))
                        .car("C1-8", facts("\"kind\": \"supply\", \"maxAmps\": 5, \"fuseAmps\": 5"))
                        .inside("D", DIODE)
                        .join("CAR.C1-7 D.a", "D.c CAR.C1-8"),
                "CAR.C1-8.live");
        RULE.lacks(
                new Wiring()
                        .car("C1-7", facts("\"kind\": \"supply\", \"maxAmps\": 5, \"fuseAmps\": 5"))
                        .car("C1-8", facts(supply("running")))
                        .inside("D", DIODE)
                        .join("CAR.C1-7 D.a", "D.c CAR.C1-8"),
                "CAR.C1-7.live");
    }

    @Test
    void seesALampThatFeedsTheAccessoryLineWhileTheLampsAreOn() {
        Finding finding = RULE.finding(new Wiring()
                .car("C1-6", facts(constant() + ", \"when\": \"lamps\""))
                .car("C1-8", facts(supply("accessory", "ignition", "running", "restarting")))
                .inside("D", DIODE)
                .join("CAR.C1-6 D.a", "D.c CAR.C1-8"));
        assertThat(finding.message())
                .isEqualTo(
                        "CAR.C1-8 is fed backwards while asleep with lamps and cranking with lamps, when its own source"
                                + " gives nothing: CAR.C1-6 feeds it through D");
        assertThat(finding.states()).containsExactly(State.ASLEEP, State.CRANKING);
    }

    @Test
    void seesAnOutputThatIsFedBackThroughACoil() {
        // the coil between battery and accessory line lets 12.6 V over 90 ohms, 140 mA, into the dead line
        Finding finding = RULE.finding(lines().relay("K").join("CAR.C1-7 K.86", "K.85 CAR.C1-8"));
        assertThat(finding.message()).contains("CAR.C1-7 feeds it through the 90 ohms of K");
        // a diode there would keep the coil from pulling at all
        assertThat(finding.help())
                .isEqualTo(
                        "take one end of the coil of K off its feed and connect that end to ground: between two feeds"
                                + " a coil pulls whenever one of them is dead.");
        RULE.passes(lines().relay("K").join("CAR.C1-8 K.86", "K.85 CAR.chassis", "CAR.C1-7 K.30"));
    }

    @Test
    void seesTwoTurnOnOutputsOnOneLead() {
        Told.by("line-back-fed").leavesTo("outputs-tied", outputs().join("CAR.C1-5 AMP.on", "CAR.C2-5 AMP.on"));
        // one diode keeps C1-5 from feeding C2-5, and not the other way round
        Finding finding =
                RULE.finding(outputs().inside("D", DIODE).join("CAR.C1-5 AMP.on", "CAR.C2-5 D.a", "D.c AMP.on"));
        assertThat(finding.message())
                .isEqualTo(
                        "CAR.C1-5 is fed backwards in the state accessory, when its own source gives nothing: CAR.C2-5"
                                + " feeds it through D");
    }

    @Test
    void doesNotFollowTheGroundThatEverythingMeetsAt() {
        // an indicator to ground, and a clamped coil: nothing comes back out of the chassis
        RULE.passes(lines().relay("K")
                .inside("K", "\"diodes\": [{\"anode\": \"85\", \"cathode\": \"86\"}]")
                .inside("LED", "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 20}]")
                .inside("S", "\"conducts\": [[\"a\", \"b\", \"c\"]]")
                .join("CAR.C1-8 K.86", "K.85 S.a", "LED.b S.b", "CAR.C1-7 LED.a", "S.c CAR.chassis"));
    }

    @Test
    void leavesTwoSuppliesOnOneNetToTheirOwnRule() {
        RULE.leavesTo("supplies-tied", lines().join("CAR.C1-7 CAR.C1-8"));
    }

    @Test
    void tellsALoadThatTheLineKeepsAwakeOnce() {
        Report report = lines().lead(
                        "HU", "accessory", facts("\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 1"))
                .lead("HU", "ground", facts("\"kind\": \"ground\""))
                .inside("D", DIODE)
                .join("CAR.C1-7 D.a", "D.c CAR.C1-8", "CAR.C1-8 HU.accessory", "HU.ground CAR.chassis")
                .check();
        assertThat(report.findings())
                .filteredOn(finding -> finding.severity() != Severity.NOTE)
                .extracting(Finding::rule)
                .containsExactly("line-back-fed");
    }

    @Test
    void acceptsCircuitsThatAreLiveTogetherOrShareTheirSource() {
        RULE.passes(new Wiring()
                .car("C1-8", facts(supply("running")))
                .car("C2-8", facts(supply("running")))
                .inside("D", DIODE)
                .join("CAR.C1-8 D.a", "D.c CAR.C2-8"));
    }

    private static Wiring lines() {
        return new Wiring()
                .car("C1-7", facts(constant()))
                .car("C1-8", facts(supply("accessory", "ignition", "running", "restarting")));
    }

    private static Wiring outputs() {
        return new Wiring()
                .car(
                        "C1-5",
                        facts(
                                "\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 0.3, \"live\": [\"running\"]"))
                .car(
                        "C2-5",
                        facts(
                                "\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 0.3, \"live\": [\"accessory\"]"))
                .lead("AMP", "on", facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"));
    }

    private static Wiring lamp(double ohms) {
        return lines().inside(
                        "LAMP",
                        String.format(
                                Locale.ROOT, "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": %s}]", ohms))
                .join("CAR.C1-7 LAMP.a", "LAMP.b CAR.C1-8");
    }
}
