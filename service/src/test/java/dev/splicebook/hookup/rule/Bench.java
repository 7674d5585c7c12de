package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;

/** Pieces of hookups for the tests of rules about power, with ' for " to keep them legible. */
final class Bench {

    /** Live in every state. */
    static final String ALWAYS = "'live': ['asleep', 'accessory', 'ignition', 'cranking', 'running', 'restarting']";
    /** As an accessory circuit is: dead asleep and while cranking. */
    static final String ON_ACCESSORY = "'live': ['accessory', 'ignition', 'running', 'restarting']";

    /** A constant feed behind a fuse of 10 A. */
    static final String CONSTANT = circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, " + ALWAYS + "}");
    /** An accessory feed behind a fuse of 10 A. */
    static final String ACCESSORY = circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, " + ON_ACCESSORY + "}");
    /** Nothing is known of it but what it is for. */
    static final String UNMETERED = "{'function': 'power.accessory'}";

    static final String GROUND = "{'electrical': {'kind': 'ground'}}";

    private Bench() {}

    static String circuit(String electrical) {
        return "{'electrical': " + electrical + "}";
    }

    /** A terminal of a device that draws power. */
    static String load(String needs, double typicalAmps, double maxAmps) {
        return "{'electrical': {'kind': 'load', 'needs': '%s', 'typicalAmps': %s, 'maxAmps': %s}}"
                .formatted(needs, typicalAmps, maxAmps);
    }

    /** A part with a load {@code plus} and its return {@code minus}. */
    static String device(String load) {
        return "{'inline': {'terminals': {'plus': " + load + ", 'minus': " + GROUND + "}}}";
    }

    /** A part whose insides are given, like {@code 'diodes': [...]}. */
    static String inside(String members) {
        return "{'inline': {" + members + "}}";
    }

    /** A relay by the usual numbers, with a coil of 90 ohms. */
    static String relay() {
        return inside(
                "'relays': [{'coil': ['86', '85'], 'coilOhms': 90, 'common': '30', 'open': '87', 'closed': '87a'}]");
    }

    static String diode() {
        return inside("'diodes': [{'anode': 'a', 'cathode': 'c'}]");
    }

    /** A connection of 16 AWG. */
    static String wire(String one, String other) {
        return wire(one, other, "16 AWG", "");
    }

    static String fused(String one, String other, String size, double ratingAmps) {
        return wire(one, other, size, ", 'fuse': {'ratingAmps': " + ratingAmps + "}");
    }

    static String wire(String one, String other, String size, String more) {
        return "{'ends': ['" + one + "', '" + other + "'], 'conductor': {'size': '" + size + "'}" + more + "}";
    }

    /** Members of an object: key, value, key, value ... */
    static String members(String... keysAndValues) {
        StringBuilder members = new StringBuilder();
        for (int at = 0; at < keysAndValues.length; at += 2) {
            members.append(at == 0 ? "" : ", ")
                    .append("'" + keysAndValues[at] + "': ")
                    .append(keysAndValues[at + 1]);
        }
        return members.toString();
    }

    static Report check(String circuits, String parts, String connections) {
        return check(circuits, parts, connections, "");
    }

    /** Checks a hookup; {@code more} are members of the hookup, or of its vehicle after {@code vehicle:}. */
    static Report check(String circuits, String parts, String connections, String more) {
        return Hookups.checker()
                .check(Hookups.verified(
                        ("{'vehicle': {'inline': {'circuits': {" + circuits + "}}" + vehicle(more) + "}, 'parts': {"
                                        + parts + "}, 'connections': {" + connections + "}" + hookup(more) + "}")
                                .replace('\'', '"')));
    }

    private static String vehicle(String more) {
        return more.startsWith("vehicle:") ? ", " + more.substring("vehicle:".length()) : "";
    }

    private static String hookup(String more) {
        return more.isEmpty() || more.startsWith("vehicle:") ? "" : ", " + more;
    }

    /** The only finding of a rule. */
    static Finding only(Report report, String rule) {
        assertThat(Hookups.findings(report, rule)).as("findings of %s", rule).hasSize(1);
        return Hookups.findings(report, rule).get(0);
    }

    static void assertPassed(Report report, String rule) {
        assertThat(Hookups.findings(report, rule)).as("findings of %s", rule).isEmpty();
        assertThat(Hookups.outcome(report, rule).result()).isEqualTo(Result.PASSED);
    }

    static void assertNotApplicable(Report report, String rule) {
        assertThat(Hookups.outcome(report, rule).result()).isEqualTo(Result.NOT_APPLICABLE);
    }

    static void assertNotChecked(Report report, String rule, String... missing) {
        Report.Outcome outcome = Hookups.outcome(report, rule);
        assertThat(outcome.result()).as("%s with %s", rule, outcome).isEqualTo(Result.NOT_CHECKED);
        assertThat(outcome.missing()).containsExactlyInAnyOrder(missing);
    }

    static void assertSilent(Report report, String rule) {
        assertThat(Hookups.findings(report, rule)).as("findings of %s", rule).isEmpty();
    }

    static void assertFigures(Finding finding, double measured, double limit, String unit) {
        assertThat(finding.measured()).isCloseTo(measured, within(1e-6));
        assertThat(finding.limit()).isCloseTo(limit, within(1e-6));
        assertThat(finding.unit()).isEqualTo(unit);
    }
}
