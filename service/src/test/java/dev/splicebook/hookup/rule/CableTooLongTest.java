package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.rule.Bench.assertFigures;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import java.util.Locale;
import org.junit.jupiter.api.Test;

// USB 2.0 specification: 26 ns at 5.2 ns a metre is 5 m
class CableTooLongTest {

    private static final Told RULE = Told.by("cable-too-long");

    @Test
    void reportsSixMetres() {
        Finding finding = RULE.finding(cable(6));

        assertThat(finding.message())
                .isEqualTo(
                        "the USB cable between HU.usb and SOCKET.usb is 6.0 m long, above the 5.0 m that it may have");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("HU.usb", "SOCKET.usb");
        assertFigures(finding, 6, 5, "m");
    }

    @Test
    void acceptsAShortCable() {
        RULE.passes(cable(1.5));
    }

    @Test
    void acceptsExactlyFiveMetres() {
        RULE.passes(cable(5));
        RULE.finding(cable(5.01));
    }

    @Test
    void doesNotApplyToOtherLeads() {
        RULE.doesNotApply(new Wiring()
                .lead("HU", "line", facts(data("can")))
                .lead("IFC", "line", facts(data("can")))
                .joinBy("HU.line IFC.line", metres(30)));
    }

    @Test
    void lacksALengthUnlessTheRestIsTooLongAnyway() {
        RULE.lacks(usb().join("HU.usb SOCKET.usb"), "connection W1.length");
        Wiring coupled = usb().inside("EXT", "\"conducts\": [[\"a\", \"b\"]]");
        RULE.lacks(coupled.joinBy("HU.usb EXT.a", metres(3)).join("EXT.b SOCKET.usb"), "connection W2.length");
        assertThat(RULE.finding(usb().inside("EXT", "\"conducts\": [[\"a\", \"b\"]]")
                                .joinBy("HU.usb EXT.a", metres(5.5))
                                .join("EXT.b SOCKET.usb"))
                        .message())
                .contains("is at least 5.5 m long");
    }

    @Test
    void addsUpAnExtension() {
        Finding finding = RULE.finding(usb().inside("EXT", "\"conducts\": [[\"a\", \"b\"]]")
                .joinBy("HU.usb EXT.a", metres(3))
                .joinBy("EXT.b SOCKET.usb", metres(2.5)));
        assertFigures(finding, 5.5, 5, "m");
        assertThat(finding.connections()).containsExactly("W1", "W2");
    }

    @Test
    void startsAnewAtAHub() {
        RULE.passes(usb().lead("HUB", "up", facts(data("usb")))
                .lead("HUB", "down", facts(data("usb")))
                .joinBy("HU.usb HUB.up", metres(4))
                .joinBy("HUB.down SOCKET.usb", metres(4)));
    }

    @Test
    void tellsTheTwoLinesOfOneCableOnce() {
        Finding finding = RULE.finding(new Wiring()
                .lead("HU", "plus", facts("\"kind\": \"data\", \"bus\": \"usb\", \"line\": \"plus\""))
                .lead("HU", "minus", facts("\"kind\": \"data\", \"bus\": \"usb\", \"line\": \"minus\""))
                .lead("PLUG", "plus", facts("\"kind\": \"data\", \"bus\": \"usb\", \"line\": \"plus\""))
                .lead("PLUG", "minus", facts("\"kind\": \"data\", \"bus\": \"usb\", \"line\": \"minus\""))
                .joinBy("HU.plus PLUG.plus", metres(6))
                .joinBy("HU.minus PLUG.minus", metres(6)));
        assertThat(finding.connections()).containsExactly("W1", "W2");
    }

    private static Wiring usb() {
        return new Wiring().lead("HU", "usb", facts(data("usb"))).lead("SOCKET", "usb", facts(data("usb")));
    }

    private static Wiring cable(double metres) {
        return usb().joinBy("HU.usb SOCKET.usb", metres(metres));
    }

    private static String metres(double metres) {
        return String.format(Locale.ROOT, "\"length\": {\"value\": %s, \"unit\": \"m\"}", metres);
    }

    private static String data(String bus) {
        return "\"kind\": \"data\", \"bus\": \"" + bus + "\", \"line\": \"cable\"";
    }
}
