package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ALWAYS;
import static dev.splicebook.hookup.rule.Bench.UNMETERED;
import static dev.splicebook.hookup.rule.Bench.assertFigures;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.assertSilent;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.fused;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.load;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.relay;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Assumption;
import dev.splicebook.hookup.Severity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

// ampacities: 33 CFR 183.425 table 5; the share of 100 % is a choice of ours, 33 CFR 183.455 allows 150 % below 50 V
class FuseExceedsConductorTest {

    private static final String RULE = "fuse-exceeds-conductor";
    private static final String RETURN = members("W9", wire("CAR.chassis", "AMP.minus", "8 AWG", ""));
    private static final String AMP = members("AMP", device(load("constant", 5, 10)));

    @Test
    void reportsAFuseAboveItsWire() {
        Report report = amplifier(fused("CAR.battery-plus", "AMP.plus", "10 AWG", 80));

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "connection W1 (CAR.battery-plus to AMP.plus) is fused at 80 A, above the 60.0 A that 10 AWG with"
                                + " 105 °C insulation takes");
        assertThat(finding.help()).isEqualTo("use a fuse of at most 60 A, or use a thicker conductor.");
        assertThat(finding.severity()).isEqualTo(Severity.DANGER);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.battery-plus", "AMP.plus");
        assertThat(finding.connections()).containsExactly("W1");
        assertFigures(finding, 80, 60, "A");
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
        assertThat(report.assumptions())
                .extracting(Assumption::name)
                .contains("insulationCelsius", "ambientCelsius", "material", "fuseShareOfAmpacity");
    }

    @Test
    void acceptsAFuseBelowItsWire() {
        assertPassed(amplifier(fused("CAR.battery-plus", "AMP.plus", "8 AWG", 60)), RULE);
    }

    @ParameterizedTest
    @CsvSource({"18 AWG, 20", "16 AWG, 25", "10 AWG, 60", "8 AWG, 80", "4 AWG, 160", "1/0 AWG, 285", "4/0 AWG, 445"})
    void acceptsAFuseExactlyAtTheAmpacity(String size, double amps) {
        assertPassed(amplifier(fused("CAR.battery-plus", "AMP.plus", size, amps)), RULE);
        only(amplifier(fused("CAR.battery-plus", "AMP.plus", size, amps + 0.5)), RULE);
    }

    @Test
    void heedsTheInsulationAndTheMaterial() {
        // 8 AWG: 55 A with 60 °C insulation; with 105 °C copper-clad aluminium of 10 %, 80 A × √0.629 = 63.4 A (ASTM
        // B566)
        assertFigures(only(amplifier(fusedAt(60, "'size': '8 AWG', 'insulationCelsius': 60")), RULE), 60, 55, "A");
        Finding clad = only(amplifier(fusedAt(70, "'size': '8 AWG', 'material': 'cca-10'")), RULE);
        assertThat(clad.message())
                .endsWith("above the 63.4 A that 8 AWG CCA (10 % copper) with 105 °C insulation takes");
        assertPassed(amplifier(fusedAt(60, "'size': '8 AWG', 'material': 'cca-10'")), RULE);
    }

    @Test
    void takesAMetricSizeByTheThinnerRow() {
        // 2.5 mm² lies between 14 AWG, 35 A, and 12 AWG, 45 A
        assertPassed(amplifier(fused("CAR.battery-plus", "AMP.plus", "2.5 mm2", 35)), RULE);
        assertFigures(only(amplifier(fused("CAR.battery-plus", "AMP.plus", "2.5 mm2", 40)), RULE), 40, 35, "A");
    }

    @Test
    void doesNotApplyWithoutAFuse() {
        assertNotApplicable(amplifier(wire("CAR.battery-plus", "AMP.plus")), RULE);
    }

    @Test
    void isNotCheckedWhereTheSizeIsUnknown() {
        assertNotChecked(
                amplifier("{'ends': ['CAR.battery-plus', 'AMP.plus'], 'fuse': {'ratingAmps': 10}}"),
                RULE,
                "connection W1.conductor");
    }

    @Test
    void isNotCheckedWhereTheFuseUpstreamIsUnknown() {
        assertNotChecked(
                tap("{'kind': 'supply', 'maxAmps': 10, " + ALWAYS + "}", wire("CAR.C1-7", "AMP.plus")),
                RULE,
                "CAR.C1-7.fuseAmps");
        assertNotChecked(
                tap("{'kind': 'supply', 'limited': true, " + ALWAYS + "}", wire("CAR.C1-7", "AMP.plus")),
                RULE,
                "CAR.C1-7.maxAmps");
    }

    @Test
    void judgesAThinTapOfAFactoryCircuitByTheFuseUpstream() {
        String circuit = "{'kind': 'supply', 'maxAmps': 20, 'fuseAmps': 30, " + ALWAYS + "}";
        assertPassed(tap(circuit, wire("CAR.C1-7", "AMP.plus", "14 AWG", "")), RULE);
        Finding finding = only(tap(circuit, wire("CAR.C1-7", "AMP.plus", "16 AWG", "")), RULE);
        assertFigures(finding, 30, 25, "A");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.message())
                .isEqualTo(
                        "connection W1 (CAR.C1-7 to AMP.plus) has no fuse but the 30 A before it, above the 25.0 A that"
                                + " 16 AWG with 105 °C insulation takes");
        assertThat(finding.help()).isEqualTo("put a fuse of at most 25 A where it begins, or use a thicker conductor.");
    }

    @Test
    void reportsAFuseAboveItsOwnWireThoughASmallerOneStandsUpstream() {
        // whoever replaces the 10 A upstream does not look at the wire behind it
        Finding finding = only(
                tap(
                        "{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, " + ALWAYS + "}",
                        fused("CAR.C1-7", "AMP.plus", "18 AWG", 30)),
                RULE);
        assertFigures(finding, 30, 20, "A");
    }

    @Test
    void judgesTheWireBehindAFuseBlockByTheFuseInside() {
        String block = inside("'fuses': [{'between': ['in', 'out'], 'ratingAmps': 30}]");
        String thick = members("W1", fused("CAR.battery-plus", "F.in", "4 AWG", 100), "W2", wire("F.out", "AMP.plus"));
        Report report = check("", AMP + ", " + members("F", block), thick + ", " + RETURN);
        Finding finding = only(report, RULE);
        assertThat(finding.connections()).containsExactly("W2");
        assertFigures(finding, 30, 25, "A");
        assertSilent(report, "fuse-missing");
    }

    @Test
    void judgesTheWireBehindAContact() {
        // the wire's own fuse counts however it is fed
        Report report = check(
                "",
                AMP + ", " + members("K", relay()),
                members(
                                "W1", fused("CAR.battery-plus", "K.30", "8 AWG", 60),
                                "W2", fused("K.87", "AMP.plus", "16 AWG", 30))
                        + ", " + RETURN);
        assertThat(only(report, RULE).connections()).containsExactly("W2");
    }

    @Test
    void judgesAFusedWireThatNothingKnownFeeds() {
        Report report = check(
                members("C1-9", UNMETERED),
                AMP,
                members("W1", fused("CAR.C1-9", "AMP.plus", "16 AWG", 30)) + ", " + RETURN);
        assertFigures(only(report, RULE), 30, 25, "A");
    }

    private static Report amplifier(String wire) {
        return check("", AMP, members("W1", wire) + ", " + RETURN);
    }

    private static String fusedAt(double ratingAmps, String conductor) {
        return "{'ends': ['CAR.battery-plus', 'AMP.plus'], 'conductor': {%s}, 'fuse': {'ratingAmps': %s}}"
                .formatted(conductor, ratingAmps);
    }

    private static Report tap(String electrical, String wire) {
        return check(members("C1-7", circuit(electrical)), AMP, members("W1", wire) + ", " + RETURN);
    }
}
