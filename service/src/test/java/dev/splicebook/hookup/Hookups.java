package dev.splicebook.hookup;

import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Hookups as tests write them: JSON in, report out. */
public final class Hookups {

    private static final Checker CHECKER = new Checker();

    private Hookups() {}

    public static Checker checker() {
        return CHECKER;
    }

    public static HookupDocument document(String json) {
        return StrictReader.read(json.getBytes(StandardCharsets.UTF_8), HookupDocument.class);
    }

    /** Parts may be devices of the demo book. */
    public static Hookup hookup(String json) {
        return DemoFiles.resolve(document(json));
    }

    /** The hookup with every circuit of its map proved, so that no note about that stands beside what a test is about. */
    public static Hookup verified(String json) {
        HookupDocument document = document(json);
        HookupDocument.VehicleUse vehicle = document.vehicle();
        FunctionMap map = vehicle == null ? null : vehicle.inline();
        if (vehicle != null && map != null) {
            Map<String, Circuit> circuits = new LinkedHashMap<>();
            map.circuits().forEach((name, circuit) -> circuits.put(name, verified(circuit)));
            document = new HookupDocument(
                    new HookupDocument.VehicleUse(
                            null,
                            null,
                            new FunctionMap(
                                    map.maker(),
                                    map.model(),
                                    map.modelYears(),
                                    map.market(),
                                    map.steeringSide(),
                                    map.equipment(),
                                    map.vinPatterns(),
                                    map.radioOpening(),
                                    map.runningVolts(),
                                    map.batterySensor(),
                                    map.automaticRestart(),
                                    map.connectors(),
                                    circuits,
                                    map.notes()),
                            vehicle.unplugged(),
                            vehicle.cuts()),
                    document.parts(),
                    document.connections(),
                    document.plugs(),
                    document.unused(),
                    document.settings(),
                    document.wishes());
        }
        return DemoFiles.resolve(document);
    }

    private static Circuit verified(Circuit circuit) {
        return new Circuit(
                circuit.function(),
                circuit.colour(),
                circuit.electrical(),
                circuit.whenPlugged(),
                circuit.whenUnplugged(),
                circuit.source(),
                circuit.loadEnd(),
                circuit.test(),
                circuit.note(),
                circuit.carries(),
                LocalDate.of(2026, 3, 14));
    }

    public static Report check(String json) {
        return CHECKER.check(hookup(json));
    }

    /** The findings of one rule. */
    public static List<Finding> findings(Report report, String rule) {
        return report.findings().stream()
                .filter(finding -> finding.rule().equals(rule))
                .toList();
    }

    /** How one rule ended. */
    public static Report.Outcome outcome(Report report, String rule) {
        return report.outcomes().stream()
                .filter(outcome -> outcome.rule().equals(rule))
                .findFirst()
                .orElseThrow();
    }
}
