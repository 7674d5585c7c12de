package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.function.FunctionId;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
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
            "camera");

    static Stream<FunctionMap> vehicles() {
        return DemoFiles.vehicles().values().stream();
    }

    static Stream<Device> devices() {
        return DemoFiles.devices().values().stream();
    }

    @Test
    void hasTheVehiclesAndDevicesThatTheJobsNeed() {
        assertThat(DemoFiles.vehicles()).hasSize(2);
        assertThat(DemoFiles.devices()).hasSizeGreaterThanOrEqualTo(15);
        assertThat(devices().map(Device::kind)).containsAll(WANTED_KINDS);
        assertThat(devices().filter(device -> "head-unit".equals(device.kind())))
                .hasSize(2);
        assertThat(devices().filter(device -> "amplifier".equals(device.kind())))
                .hasSize(2);
        assertThat(devices().filter(device -> device.modes().containsKey("bridged")))
                .hasSize(1);
    }

    @ParameterizedTest
    @MethodSource("vehicles")
    void isAsRichAsTheRealThing(FunctionMap map) {
        assertThat(map.circuits()).hasSizeBetween(60, 90);
        assertThat(map.circuits().values()).allSatisfy(circuit -> {
            assertThat(circuit.function()).isNotNull();
            assertThat(circuit.source()).isNotBlank();
            assertThat(circuit.loadEnd()).isNotBlank();
        });
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
    @MethodSource("vehicles")
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
