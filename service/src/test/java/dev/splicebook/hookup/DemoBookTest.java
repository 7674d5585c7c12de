package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.function.FunctionId;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every document of the demo book reads strictly, and says what a real one would. */
class DemoBookTest {

    private static final Set<String> WANTED_KINDS = Set.of(
            "head-unit",
            "interface-module",
            "adapter-lead",
            "adapter-harness",
            "isolator",
            "relay",
            "amplifier",
            "subwoofer",
            "line-output-converter",
            "fuse-holder",
            "power-wire-kit",
            "usb-socket",
            "bass-control",
            "camera",
            "loudspeakers",
            "key-interface",
            "antenna-adapter",
            "dash-kit",
            "dash-camera");

    private static final int THIN = 20;

    static Stream<FunctionMap> vehicles() {
        return DemoFiles.vehicles().values().stream();
    }

    /** The maps that know more of a vehicle than one plug. */
    static Stream<FunctionMap> wholeVehicles() {
        return vehicles().filter(map -> map.circuits().size() > THIN);
    }

    static Stream<Device> devices() {
        return DemoFiles.devices().values().stream();
    }

    @Test
    void hasTheVehiclesAndDevicesThatTheJobsNeed() {
        assertThat(DemoFiles.vehicles()).hasSize(6);
        assertThat(wholeVehicles()).hasSize(5);
        assertThat(DemoFiles.devices()).hasSize(30);
        assertThat(devices().map(Device::kind)).containsAll(WANTED_KINDS);
        assertThat(devices().filter(device -> "head-unit".equals(device.kind())))
                .hasSize(2);
        assertThat(devices().filter(device -> "amplifier".equals(device.kind())))
                .hasSize(3);
        assertThat(devices().filter(device -> !device.modes().isEmpty())).hasSize(2);
    }

    @ParameterizedTest
    @MethodSource("wholeVehicles")
    void isAsRichAsTheRealThing(FunctionMap map) {
        assertThat(map.circuits()).hasSizeBetween(60, 90);
        assertThat(map.circuits().values()).allSatisfy(circuit -> {
            assertThat(circuit.function()).isNotNull();
            assertThat(circuit.source()).isNotBlank();
            assertThat(circuit.loadEnd()).isNotBlank();
        });
        assertThat(map.connectors().values())
                .allSatisfy(connector -> assertThat(connector.access()).isNotEmpty())
                .anySatisfy(connector -> assertThat(connector.face()).isNotNull());
        assertThat(map.vinPatterns()).isNotEmpty();
        assertThat(map.radioOpening()).isNotNull();
    }

    @Test
    void hasOneMapThatKnowsThePlugBehindTheRadioAndLittleOfThat() {
        List<FunctionMap> thin =
                vehicles().filter(map -> map.circuits().size() <= THIN).toList();

        assertThat(thin).hasSize(1);
        assertThat(thin.get(0).connectors()).hasSize(1);
        Collection<Circuit> circuits = thin.get(0).circuits().values();
        assertThat(circuits)
                .hasSizeBetween(12, 16)
                .allSatisfy(circuit -> assertThat(circuit.colour()).isNotNull());
        assertThat(circuits.stream().filter(circuit -> circuit.function() == null))
                .hasSize(2);
        assertThat(circuits.stream()
                        .filter(circuit -> circuit.factsWhen(true) == null && circuit.factsWhen(false) == null))
                .hasSizeGreaterThan(circuits.size() / 2);
    }

    @ParameterizedTest
    @MethodSource("vehicles")
    void keepsEveryPinWithinItsConnector(FunctionMap map) {
        map.circuits().keySet().forEach(name -> {
            Connector connector = Objects.requireNonNull(map.connectors().get(Names.connectorOf(name)), name);
            if (connector.pinCount() != null) {
                assertThat(Integer.parseInt(Names.pinOf(name))).as(name).isBetween(1, connector.pinCount());
            }
        });
        assertThat(map.connectors().keySet())
                .allMatch(connector -> map.circuits().keySet().stream()
                        .anyMatch(name -> Names.connectorOf(name).equals(connector)));
    }

    @ParameterizedTest
    @MethodSource("devices")
    void keepsEveryPinOfADeviceWithinItsConnector(Device device) {
        device.connectors()
                .forEach((name, connector) -> assertThat(device.terminals().keySet().stream()
                                .filter(terminal -> Names.connectorOf(terminal).equals(name))
                                .map(Names::pinOf)
                                .map(Integer::parseInt))
                        .as("%s of %s", name, device.code())
                        .isNotEmpty()
                        .allMatch(pin -> connector.pinCount() == null || pin <= connector.pinCount()));
    }

    @ParameterizedTest
    @MethodSource("wholeVehicles")
    void givesCircuitsKindsThatSuitTheirFunctions(FunctionMap map) {
        map.circuits().forEach((name, circuit) -> {
            for (boolean plugged : new boolean[] {true, false}) {
                Electrical facts = Objects.requireNonNull(circuit.factsWhen(plugged), name);
                assertThat(kinds(Objects.requireNonNull(circuit.function(), name)))
                        .as(name)
                        .contains(facts.kind());
            }
        });
    }

    @ParameterizedTest
    @MethodSource("devices")
    void givesTerminalsKindsThatSuitTheirFunctions(Device device) {
        device.terminals().forEach((name, terminal) -> {
            Electrical facts = Objects.requireNonNull(terminal.electrical(), name);
            assertThat(kinds(Objects.requireNonNull(terminal.function(), name)))
                    .as("%s of %s", name, device.code())
                    .contains(facts.kind());
        });
    }

    @ParameterizedTest
    @MethodSource("vehicles")
    void wearsEachColourOnceInAConnector(FunctionMap map) {
        Map<String, String> firstOf = new HashMap<>();
        map.circuits().forEach((name, circuit) -> {
            if (circuit.colour() != null) {
                String first = firstOf.putIfAbsent(Names.connectorOf(name) + " " + circuit.colour(), name);
                assertThat(first).as("%s wears what %s wears", name, first).isNull();
            }
        });
    }

    @Test
    void wearsOneColourForDifferentThingsSomewhere() {
        assertThat(wholeVehicles()
                        .filter(DemoBookTest::hasOneColourForDifferentThings)
                        .map(FunctionMap::model))
                .contains("Pirrow", "Merrin Hybrid", "Drovar");
    }

    @ParameterizedTest
    @MethodSource("vehicles")
    void showsEveryCircuitOnTheFaceOfItsConnector(FunctionMap map) {
        map.circuits().keySet().forEach(name -> {
            Face face = Objects.requireNonNull(map.connectors().get(Names.connectorOf(name)), name)
                    .face();
            if (face != null) {
                assertThat(face.findPlace(Names.pinOf(name))).as(name).isPresent();
            }
        });
    }

    @Test
    void hasFacesOfEachNumberingAndFromBothSides() {
        List<Face> faces = vehicles()
                .flatMap(map -> map.connectors().values().stream())
                .map(Connector::face)
                .filter(Objects::nonNull)
                .toList();

        assertThat(faces).extracting(Face::numbering).contains(Face.Numbering.values());
        assertThat(faces).extracting(Face::seenFrom).contains(Face.SeenFrom.values());
        assertThat(faces).anyMatch(face -> face.cavities() < face.rows() * face.columns());
    }

    @ParameterizedTest
    @MethodSource("wholeVehicles")
    void hasAnAdapterOfWhichEachPlugFitsPinByPin(FunctionMap map) {
        List<Device> fitting = devices()
                .filter(device -> device.connectors().values().stream()
                        .anyMatch(plug ->
                                map.connectors().values().stream().anyMatch(connector -> fits(plug, connector))))
                .toList();

        assertThat(fitting).isNotEmpty();
        fitting.forEach(device -> device.connectors().forEach((plugName, plug) -> {
            String name = connectorThatFits(map, plug);
            Connector connector = Objects.requireNonNull(map.connectors().get(name), device.code());
            assertThat(plug.pinCount()).as("%s of %s", plugName, device.code()).isEqualTo(connector.pinCount());
            // what is seen on one housing's mating side stands as it does on the other's wire side
            assertThat(Objects.requireNonNull(plug.face())
                            .seenFrom(Face.SeenFrom.MATING_SIDE)
                            .grid())
                    .isEqualTo(Objects.requireNonNull(connector.face())
                            .seenFrom(Face.SeenFrom.WIRE_SIDE)
                            .grid());
            map.circuits().forEach((circuitName, circuit) -> {
                if (Names.connectorOf(circuitName).equals(name)) {
                    String pin = plugName + "-" + Names.pinOf(circuitName);
                    assertThat(Objects.requireNonNull(device.terminals().get(pin), pin)
                                    .function())
                            .as("%s of %s", pin, device.code())
                            .isEqualTo(circuit.function());
                }
            });
        }));
    }

    @Test
    void keepsTheIdentificationNumbersOfTheVehiclesApart() {
        List<FunctionMap> maps = vehicles().toList();
        for (int one = 0; one < maps.size(); one++) {
            for (int other = one + 1; other < maps.size(); other++) {
                for (VinPattern pattern : maps.get(one).vinPatterns()) {
                    assertThat(maps.get(other).vinPatterns()).noneMatch(another -> overlap(pattern, another));
                }
            }
        }
    }

    @ParameterizedTest
    @MethodSource("devices")
    void namesAccessoriesThatTheCatalogueHas(Device device) {
        assertThat(DemoFiles.devices().keySet())
                .containsAll(device.accessories().stream()
                        .map(Device.Accessory::device)
                        .toList());
        assertThat(device.accessories()).extracting(Device.Accessory::device).doesNotContain(device.code());
    }

    @Test
    void hasAHeadUnitThatGoesIntoEachOpeningOfAStandard() {
        assertThat(devices().filter(device -> "head-unit".equals(device.kind())))
                .allSatisfy(device -> assertThat(device.chassis()).isNotNull());
        wholeVehicles()
                .map(map -> Objects.requireNonNull(map.radioOpening()))
                .filter(opening -> opening.form() != PanelSize.Form.MEASURED)
                .forEach(opening -> assertThat(devices()
                                .filter(device -> "head-unit".equals(device.kind()))
                                .map(device -> Objects.requireNonNull(device.chassis())))
                        .anyMatch(chassis -> chassis.form() == opening.form()
                                && Objects.requireNonNull(chassis.depth()).metres()
                                        < Objects.requireNonNull(opening.depth())
                                                .metres()));
    }

    @Test
    void keepsTheHybridsOrangeCircuitsUntouchable() {
        FunctionMap hybrid = vehicles()
                .filter(map -> map.equipment().contains("hybrid"))
                .findFirst()
                .orElseThrow();
        FunctionId highVoltage = new FunctionId("safety.high-voltage");
        List<Circuit> orange = hybrid.circuits().values().stream()
                .filter(circuit ->
                        circuit.colour() != null && circuit.colour().value().startsWith("OG"))
                .toList();

        assertThat(orange).hasSizeGreaterThan(5).allSatisfy(circuit -> {
            assertThat(circuit.function()).isEqualTo(highVoltage);
            assertThat(circuit.electrical()).isEqualTo(new Electrical.Untouchable(Hazard.HIGH_VOLTAGE));
        });
        assertThat(hybrid.circuits().values().stream().filter(circuit -> highVoltage.equals(circuit.function())))
                .hasSameSizeAs(orange);
        assertThat(hybrid.circuits().values())
                .anyMatch(circuit -> new FunctionId("control.battery-sensor").equals(circuit.function()));
        assertThat(hybrid.runningVolts()).isNotNull();
    }

    @ParameterizedTest
    @MethodSource("vehicles")
    void knowsBothSidesOfEveryLoudspeaker(FunctionMap map) {
        Set<String> pluses = new TreeSet<>();
        Set<String> minuses = new TreeSet<>();
        map.circuits().forEach((name, circuit) -> {
            if (circuit.factsWhen(true) instanceof Electrical.SpeakerOut out) {
                String channel = out.channel() + " " + circuit.loadEnd();
                (out.side() == Side.PLUS ? pluses : minuses).add(channel);
                assertThat(circuit.factsWhen(false))
                        .as(name)
                        .isInstanceOfSatisfying(
                                Electrical.SpeakerIn.class,
                                in -> assertThat(in.side()).isEqualTo(out.side()));
            }
        });
        assertThat(pluses).isNotEmpty().isEqualTo(minuses);
    }

    @Test
    void keepsADrivenReturnForEachSideOfTheRearEntertainment() {
        FunctionMap vehicle = vehicles()
                .filter(map -> map.equipment().contains("rear-entertainment"))
                .findFirst()
                .orElseThrow();

        assertThat(vehicle.circuits().values().stream()
                        .filter(circuit -> circuit.function() != null
                                && circuit.function().isAtOrBelow(new FunctionId("audio.line.rear-entertainment"))
                                && circuit.electrical() instanceof Electrical.LineOut out
                                && out.side() == Side.RETURN
                                && out.returns() == OutputReturn.DRIVEN))
                .hasSize(2);
    }

    private static boolean hasOneColourForDifferentThings(FunctionMap map) {
        Map<String, Set<String>> functions = new TreeMap<>();
        map.circuits().values().forEach(circuit -> {
            if (circuit.colour() != null && circuit.function() != null) {
                functions
                        .computeIfAbsent(circuit.colour().value(), colour -> new TreeSet<>())
                        .add(circuit.function().value());
            }
        });
        return functions.values().stream().anyMatch(meanings -> meanings.size() > 1);
    }

    private static boolean fits(Connector plug, Connector connector) {
        return !Collections.disjoint(plug.mates(), connector.mates());
    }

    private static String connectorThatFits(FunctionMap map, Connector plug) {
        return map.connectors().entrySet().stream()
                .filter(entry -> fits(plug, entry.getValue()))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElseThrow();
    }

    /** Whether some number matches both. */
    private static boolean overlap(VinPattern one, VinPattern other) {
        for (int at = 0; at < Math.min(one.value().length(), other.value().length()); at++) {
            char here = one.value().charAt(at);
            char there = other.value().charAt(at);
            if (here != there && here != '?' && there != '?') {
                return false;
            }
        }
        return true;
    }

    /** The kinds that a circuit or lead of a function can be; a lead of an adapter is passive whatever it carries. */
    private static Set<String> kinds(FunctionId function) {
        Map<String, Set<String>> byArea = Map.of(
                "power", Set.of("supply", "load", "control-in"),
                "ground", Set.of("ground"),
                "control", Set.of("control-out", "control-in", "supply", "load", "data"),
                "audio", Set.of("speaker-out", "speaker-in", "line-out", "line-in", "control-out", "control-in"),
                "video", Set.of("video-out", "video-in"),
                "data", Set.of("data"),
                "antenna", Set.of("antenna"),
                "safety", Set.of("untouchable"),
                "lighting", Set.of("supply", "control-out", "control-in", "load"),
                "lock", Set.of("control-out", "control-in", "supply", "load"));
        String area = List.of(function.value().split("\\.", 2)).get(0);
        Set<String> kinds = new TreeSet<>(byArea.getOrDefault(
                area, Set.of("control-out", "control-in", "supply", "load", "data", "line-out", "line-in")));
        kinds.add("passive");
        return kinds;
    }
}
