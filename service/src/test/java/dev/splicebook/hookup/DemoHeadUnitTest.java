package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.LengthUnit;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Report.Outcome;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Report.Verdict;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A head unit goes into each vehicle of the demo book that a radio's harness fits. */
class DemoHeadUnitTest {

    private static final String HEAD_UNIT = "HU-A";

    @ParameterizedTest
    @CsvSource({"Pirrow, IFC-H5", "Merrin Hybrid, HAR-S2"})
    void isReadyWithTheHarnessThatFits(String model, String harness) {
        Report report = Hookups.checker().check(hookup(model, harness));

        assertThat(report.findings()).isEmpty();
        assertThat(report.outcomes())
                .filteredOn(outcome -> outcome.result() == Result.NOT_CHECKED)
                .as("facts that the demo book lacks")
                .isEmpty();
        assertThat(report.verdict()).isEqualTo(Verdict.READY);
    }

    @Test
    void tellsTheCallsThatAPlainHarnessLoses() {
        Report report = Hookups.checker().check(hookup("Drovar", "HAR-ISO"));

        assertThat(report.findings())
                .extracting(Finding::message)
                .containsExactly(
                        "nothing is connected to CAR.C-3 (PK/WH), whose connector is off the factory unit, and with"
                                + " that is lost: hands-free calls");
        assertThat(report.verdict()).isEqualTo(Verdict.READY_WITH_CAUTIONS);
    }

    @ParameterizedTest
    @CsvSource({"Pirrow, IFC-H5", "Merrin Hybrid, HAR-S2", "Drovar, HAR-ISO"})
    void isNotReadyWithMemoryAndAccessoryExchanged(String model, String harness) {
        Hookup ready = hookup(model, harness);
        Edits edits = Edits.of(ready);
        String memory = connectionAt(ready, "HU.memory");
        String accessory = connectionAt(ready, "HU.accessory");
        edits.connection(memory, exchanged(ready, memory, "HU.accessory"));
        edits.connection(accessory, exchanged(ready, accessory, "HU.memory"));

        assertThat(Hookups.checker().check(edits.hookup()).findings())
                .extracting(Finding::rule)
                .contains("constant-load-on-switched-supply");
    }

    @Test
    void isReadyWithCautionsWhereTheMapIsThin() {
        Report report = Hookups.checker().check(hookup("Fennick", null));

        assertThat(report.findings()).extracting(Finding::severity).doesNotContain(Severity.DANGER, Severity.ERROR);
        assertThat(report.outcomes()).extracting(Outcome::result).contains(Result.NOT_CHECKED);
        assertThat(report.verdict()).isEqualTo(Verdict.READY_WITH_CAUTIONS);
    }

    @Test
    void leavesTheHybridsOrangeCablesAlone() {
        Hookup hookup = Edits.of(hookup("Merrin Hybrid", "HAR-S2"))
                .connection("T1", Edits.connection("CAR.H1-1", "HU.usb", "16 AWG"))
                .hookup();

        Report report = Hookups.checker().check(hookup);

        assertThat(report.verdict()).isEqualTo(Verdict.NOT_READY);
        assertThat(report.findings()).extracting(Finding::rule).contains("high-voltage-circuit-touched");
    }

    /** The head unit joined by function with what the harness, or the bare plug, offers; the rest is capped. */
    private static Hookup hookup(String model, @Nullable String harnessCode) {
        Map.Entry<String, FunctionMap> vehicle = DemoFiles.vehicles().entrySet().stream()
                .filter(entry -> model.equals(entry.getValue().model()))
                .findFirst()
                .orElseThrow();
        FunctionMap map = vehicle.getValue();
        Map<String, HookupDocument.PartUse> parts = new LinkedHashMap<>();
        parts.put("HU", new HookupDocument.PartUse(HEAD_UNIT, null, null, null));
        List<List<String>> plugs = new ArrayList<>();
        Set<String> mated = new LinkedHashSet<>();
        Map<String, FunctionId> offers = new LinkedHashMap<>();
        if (harnessCode != null) {
            Device harness = device(harnessCode);
            parts.put("HAR", new HookupDocument.PartUse(harnessCode, null, null, null));
            harness.connectors().forEach((name, plug) -> {
                String connector = map.connectors().entrySet().stream()
                        .filter(entry -> entry.getValue().mates().equals(plug.mates()))
                        .findFirst()
                        .orElseThrow()
                        .getKey();
                mated.add(connector);
                plugs.add(List.of("CAR." + connector, "HAR." + name));
            });
            harness.terminals().forEach((name, terminal) -> {
                if (!harness.connectors().containsKey(Names.connectorOf(name))) {
                    offers.put("HAR." + name, Objects.requireNonNull(terminal.function(), name));
                }
            });
        }
        Set<String> unplugged = new LinkedHashSet<>();
        map.connectors().forEach((name, connector) -> {
            if (mated.contains(name)
                    || String.valueOf(connector.location()).startsWith("behind the radio")
                    || String.valueOf(connector.location()).equals("behind the display")) {
                unplugged.add(name);
            }
        });
        Map<String, Unused> unused = new LinkedHashMap<>();
        Unused capped = new Unused(Unused.Fate.CAPPED, "not needed for a head unit alone");
        map.circuits().forEach((name, circuit) -> {
            String connector = Names.connectorOf(name);
            boolean loose = unplugged.contains(connector) && !mated.contains(connector);
            if (loose
                    || (circuit.function() != null && circuit.function().value().equals("control.parking-brake"))) {
                if (circuit.function() != null) {
                    offers.put("CAR." + name, circuit.function());
                }
                if (loose) {
                    unused.put("CAR." + name, capped);
                }
            }
        });
        offers.keySet().stream().filter(offer -> offer.startsWith("HAR.")).forEach(offer -> unused.put(offer, capped));

        Map<String, Connection> connections = new LinkedHashMap<>();
        Set<String> taken = new TreeSet<>();
        device(HEAD_UNIT).terminals().forEach((name, terminal) -> {
            String wanted = Objects.requireNonNull(terminal.function(), name).value();
            String offer = offers.entrySet().stream()
                    .filter(entry -> !taken.contains(entry.getKey()))
                    .filter(entry -> entry.getValue().value().equals(wanted)
                            || (wanted.equals("power.accessory")
                                    && entry.getValue().value().equals("power.ignition")))
                    .map(Map.Entry::getKey)
                    .findFirst()
                    .orElse(null);
            if (offer == null) {
                unused.put("HU." + name, capped);
            } else {
                taken.add(offer);
                unused.remove(offer);
                connections.put("W" + (connections.size() + 1), wire(offer, "HU." + name));
            }
        });
        // the camera was fed by the radio that is gone
        if (offers.containsKey("HAR.camera-on")) {
            unused.remove("HAR.camera-on");
            connections.put("W" + (connections.size() + 1), wire("HAR.reverse", "HAR.camera-on"));
        }
        return DemoFiles.resolve(new HookupDocument(
                new HookupDocument.VehicleUse(vehicle.getKey(), null, null, unplugged, Set.of()),
                parts,
                connections,
                plugs,
                unused,
                settings(parts),
                List.of()));
    }

    private static Map<String, Map<String, String>> settings(Map<String, HookupDocument.PartUse> parts) {
        Map<String, Map<String, String>> settings = new HashMap<>();
        parts.forEach((ref, part) -> {
            Map<String, String> chosen = new HashMap<>();
            device(String.valueOf(part.device())).settings().forEach((name, setting) -> {
                if (Boolean.TRUE.equals(setting.required())) {
                    chosen.put(name, setting.choices().keySet().iterator().next());
                }
            });
            settings.put(ref, chosen);
        });
        return settings;
    }

    private static Connection wire(String from, String to) {
        return new Connection(
                List.of(from, to),
                new Connection.Conductor(new ConductorSize("16 AWG"), null, 105.0),
                new Length(30, LengthUnit.CM),
                null);
    }

    private static Device device(String code) {
        return Objects.requireNonNull(DemoFiles.devices().get(code), code);
    }

    private static String connectionAt(Hookup hookup, String terminal) {
        return hookup.document().connections().entrySet().stream()
                .filter(entry -> entry.getValue().ends().contains(terminal))
                .findFirst()
                .orElseThrow()
                .getKey();
    }

    private static Connection exchanged(Hookup hookup, String ref, String to) {
        Connection connection =
                Objects.requireNonNull(hookup.document().connections().get(ref), ref);
        return Edits.withEnds(connection, connection.ends().get(0), to);
    }
}
