package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

// ISO 11898-2, ISO 17987, USB 2.0: from memory
class BusDisturbedTest {

    private static final Told RULE = Told.by("bus-disturbed");

    @Test
    void reportsHighJoinedWithLow() {
        Finding finding = RULE.finding(line(data("can", "low")));

        assertThat(finding.message())
                .isEqualTo(
                        "CAR.D1-1 (CAN high) and IFC.line (CAN low) are joined, and a bus line bears nothing but its like");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.D1-1", "IFC.line");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void acceptsHighAtHigh() {
        RULE.passes(line(data("can", "high")));
        RULE.passes(line(data("can", "CAN-H")));
        RULE.passes(line("\"kind\": \"passive\""));
    }

    @ParameterizedTest
    @CsvSource({
        "can, high, lin, ",
        "can, high, other, high",
        "usb, plus, usb, minus",
        "usb, cable, can, low",
        "other, k, other, l",
        "other, transmit, other, display"
    })
    void reportsAnotherLineOrAnotherBus(String bus, String line, String otherBus, String otherLine) {
        RULE.finding(joined(data(bus, line), data(otherBus, otherLine)));
    }

    @ParameterizedTest
    @CsvSource({
        "lin, , lin, ",
        "lin, , lin, 1",
        "usb, cable, usb, cable",
        "usb, D+, usb, plus",
        "other, transmit, other, receive"
    })
    void acceptsItsLike(String bus, String line, String otherBus, String otherLine) {
        RULE.passes(joined(data(bus, line), data(otherBus, otherLine)));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "\"kind\": \"load\", \"maxAmps\": 1",
                "\"kind\": \"control-in\", \"active\": \"12V\"",
                "\"kind\": \"line-in\", \"channel\": \"left\", \"side\": \"signal\"",
                "\"kind\": \"video-in\", \"side\": \"signal\"",
                "\"kind\": \"antenna\""
            })
    void reportsATapThatIsNoBusLine(String facts) {
        assertThat(RULE.finding(line(facts)).terminals()).contains("CAR.D1-1", "IFC.line");
    }

    @Test
    void reportsPowerGroundAndSoundOnABusLine() {
        Wiring bus = new Wiring().car("D1-1", facts(data("can", "high")));
        assertThat(RULE.finding(bus.car("C1-8", facts(supply("running"))).join("CAR.D1-1 CAR.C1-8"))
                        .message())
                .isEqualTo(
                        "CAR.D1-1 (CAN high) is joined with CAR.C1-8, which gives power, and a bus line bears nothing but"
                                + " its like");
        RULE.finding(new Wiring().car("D1-1", facts(data("can", "high"))).join("CAR.D1-1 CAR.chassis"));
        RULE.finding(new Wiring()
                .car("D1-1", facts(data("can", "high")))
                .car("A1-1", facts(floating("left", "plus")))
                .join("CAR.D1-1 CAR.A1-1"));
    }

    @Test
    void seesThroughAnAdapterAndAClosedContact() {
        RULE.finding(new Wiring()
                .car("D1-1", facts(data("can", "high")))
                .lead("IFC", "low", facts(data("can", "low")))
                .relayWhileRunning("K")
                .inside("AD", "\"conducts\": [[\"a\", \"b\"]]")
                .join("CAR.D1-1 AD.a", "AD.b K.30", "K.87 IFC.low"));
    }

    @Test
    void letsPowerAndGroundOfAUsbCableBe() {
        RULE.doesNotApply(new Wiring()
                .lead("HU", "usb-ground", facts(data("usb", "ground")))
                .join("HU.usb-ground CAR.chassis"));
    }

    @Test
    void doesNotApplyWithoutABus() {
        RULE.doesNotApply(new Wiring().car("C1-8", facts(supply("running"))).join("CAR.C1-8 CAR.chassis"));
    }

    @Test
    void lacksTheLineTheBusAndTheFacts() {
        RULE.lacks(line("\"kind\": \"data\", \"bus\": \"can\""), "IFC.line.line");
        RULE.lacks(line("\"kind\": \"data\""), "IFC.line.bus");
        RULE.lacks(
                new Wiring()
                        .car("D1-1", facts(data("can", "high")))
                        .car("D2-1", "{}")
                        .join("CAR.D1-1 CAR.D2-1"),
                "CAR.D2-1.electrical");
    }

    private static String data(String bus, String line) {
        return "\"kind\": \"data\", \"bus\": \"" + bus + "\"" + (line == null ? "" : ", \"line\": \"" + line + "\"");
    }

    private static Wiring line(String facts) {
        return joined(data("can", "high"), facts);
    }

    private static Wiring joined(String one, String other) {
        return new Wiring()
                .car("D1-1", facts(one))
                .lead("IFC", "line", facts(other))
                .join("CAR.D1-1 IFC.line");
    }
}
