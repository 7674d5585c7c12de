package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.LengthUnit;
import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever is connected with whatever, the checker answers. */
class RandomHookupsTest {

    static LongStream seeds() {
        return LongStream.range(0, 600);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void isCheckedWithoutAnException(long seed) {
        Hookup hookup = new Maker(new Random(seed)).hookup();

        Report report = Hookups.checker().check(hookup);

        assertThat(report.order()).hasSameSizeAs(hookup.document().connections().keySet());
        assertThat(report.outcomes()).hasSameSizeAs(Hookups.checker().listPages());
        assertThat(report.findings()).allSatisfy(finding -> {
            assertThat(finding.message()).isNotBlank().doesNotContain("null");
            assertThat(finding.help()).endsWith(".").doesNotContain("null");
            assertThat(finding.fingerprint()).matches("[0-9a-f]{16}");
        });
        boolean grave = report.findings().stream()
                .anyMatch(finding -> finding.severity().compareTo(Severity.ERROR) <= 0);
        assertThat(report.verdict() == Report.Verdict.NOT_READY).isEqualTo(grave);
        assertThat(Hookups.checker().check(hookup)).isEqualTo(report);
    }

    @Test
    void findsTheNetsOfSignalsTheSameWhereNoContactMovesThem() {
        int compared = 0;
        for (long seed : seeds().toArray()) {
            Network network = new Network(new Maker(new Random(seed)).hookup());
            Scenario first = network.scenarios().get(0);
            for (Scenario other : network.mayContactsMoveSignals() ? List.<Scenario>of() : network.scenarios()) {
                for (Node node : network.nodes()) {
                    if (node.audio() != null && other.partition() != first.partition()) {
                        assertThat(other.members(other.netOf(node)))
                                .as("%s in hookup %d", node, seed)
                                .containsExactlyInAnyOrderElementsOf(first.members(first.netOf(node)));
                        assertThat(Set.copyOf(other.reaches(node))).isEqualTo(Set.copyOf(first.reaches(node)));
                        compared++;
                    }
                }
            }
        }
        assertThat(compared).isPositive();
    }

    private static final class Maker {

        private static final List<FunctionId> FUNCTIONS = Functions.vocabulary().listFunctions().stream()
                .map(dev.splicebook.function.Function::id)
                .toList();
        private static final List<String> COLOURS = List.of("RD", "BK", "YE", "BU/WH", "GN", "WH/BK");

        private final Random random;

        Maker(Random random) {
            this.random = random;
        }

        Hookup hookup() {
            Map<String, Circuit> circuits = new LinkedHashMap<>();
            for (int at = 0; at < random.nextInt(30); at++) {
                circuits.put("C" + random.nextInt(4) + "-" + random.nextInt(12), circuit());
            }
            Map<String, Device> devices = new LinkedHashMap<>();
            for (int at = 0; at < random.nextInt(7); at++) {
                devices.put("P" + at, device());
            }
            Set<String> cuts = new LinkedHashSet<>();
            Set<String> unplugged = new LinkedHashSet<>();
            for (String name : circuits.keySet()) {
                if (random.nextInt(6) == 0) {
                    cuts.add(name);
                }
                if (random.nextInt(4) == 0) {
                    unplugged.add(Names.connectorOf(name));
                }
            }
            List<String> terminals = new ArrayList<>(List.of("CAR.battery-plus", "CAR.battery-minus", "CAR.chassis"));
            circuits.keySet().forEach(name -> {
                if (cuts.contains(name)) {
                    terminals.add("CAR." + name + "/unit");
                    terminals.add("CAR." + name + "/harness");
                } else {
                    terminals.add("CAR." + name);
                }
            });
            Map<String, HookupDocument.PartUse> parts = new LinkedHashMap<>();
            devices.forEach((ref, device) -> {
                parts.put(ref, new HookupDocument.PartUse(null, null, device, null));
                device.allTerminals().keySet().forEach(name -> terminals.add(ref + "." + name));
            });
            Map<String, Connection> connections = new LinkedHashMap<>();
            for (int at = 0; at < random.nextInt(60); at++) {
                String one = pick(terminals);
                String other = pick(terminals);
                if (!one.equals(other)) {
                    connections.put("W" + at, connection(one, other));
                }
            }
            Map<String, Unused> unused = new LinkedHashMap<>();
            terminals.stream()
                    .filter(name -> random.nextInt(5) == 0)
                    .forEach(name -> unused.put(name, new Unused(pick(List.of(Unused.Fate.values())), null)));
            List<Wish> wishes = new ArrayList<>();
            for (int at = 0; at < random.nextInt(3); at++) {
                wishes.add(new Wish(pick(FUNCTIONS), pick(List.of(Wish.Want.values()))));
            }
            HookupDocument document = new HookupDocument(
                    new HookupDocument.VehicleUse(null, null, FunctionMap.of(circuits), unplugged, cuts),
                    parts,
                    connections,
                    plugs(circuits, devices),
                    unused,
                    Map.of(),
                    wishes);
            return Hookup.resolve(document, FunctionMap.of(circuits), devices, List.of());
        }

        private List<List<String>> plugs(Map<String, Circuit> circuits, Map<String, Device> devices) {
            List<String> connectors = new ArrayList<>();
            circuits.keySet().stream()
                    .map(Names::connectorOf)
                    .distinct()
                    .forEach(name -> connectors.add("CAR." + name));
            devices.forEach((ref, device) -> {
                if (!device.connectors().isEmpty()) {
                    connectors.add(ref + ".X");
                }
            });
            List<List<String>> plugs = new ArrayList<>();
            while (connectors.size() > 1 && random.nextBoolean()) {
                String one = connectors.remove(random.nextInt(connectors.size()));
                String other = connectors.remove(random.nextInt(connectors.size()));
                plugs.add(List.of(one, other));
            }
            return plugs;
        }

        private Connection connection(String one, String other) {
            return new Connection(
                    List.of(one, other),
                    maybe(() -> new Connection.Conductor(
                            new ConductorSize(pick(List.of("18 AWG", "22 AWG", "8 AWG", "1/0 AWG", "2.5 mm2"))),
                            maybe(() -> pick(List.of(ConductorMaterial.values()))),
                            maybe(() -> 60 + 10.0 * random.nextInt(15)))),
                    maybe(() -> new Length(1 + random.nextInt(9), LengthUnit.FT)),
                    maybe(() -> new Connection.WireFuse(1 + random.nextInt(90), null)));
        }

        private Circuit circuit() {
            if (random.nextBoolean()) {
                return new Circuit(
                        maybe(() -> pick(FUNCTIONS)),
                        colour(),
                        maybe(this::facts),
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        List.of(),
                        null);
            }
            return new Circuit(
                    maybe(() -> pick(FUNCTIONS)),
                    colour(),
                    null,
                    maybe(this::facts),
                    maybe(this::facts),
                    maybe(() -> "F" + random.nextInt(3)),
                    null,
                    null,
                    null,
                    List.of(),
                    null);
        }

        private Device device() {
            List<String> names = new ArrayList<>();
            Map<String, Device.Terminal> terminals = new LinkedHashMap<>();
            for (int at = 0; at < 2 + random.nextInt(8); at++) {
                String name = random.nextBoolean() ? "t" + at : "X-" + at;
                names.add(name);
                if (random.nextInt(5) > 0) {
                    terminals.put(
                            name,
                            new Device.Terminal(maybe(() -> pick(FUNCTIONS)), colour(), maybe(this::facts), null));
                }
            }
            boolean pins = terminals.keySet().stream().anyMatch(name -> name.startsWith("X-"));
            return new Device(
                    null,
                    null,
                    null,
                    null,
                    terminals,
                    some(() -> distinct(names, 2)),
                    some(() -> new Device.Couple(
                            distinct(names, 2),
                            distinct(names, 2),
                            maybe(() -> pick(List.of(-2.0, 0.5, 20.0))),
                            null,
                            maybe(() -> 5.0))),
                    names.size() < 5
                            ? List.of()
                            : some(() -> {
                                List<String> used = distinct(names, 5);
                                return new Device.Relay(
                                        used.subList(0, 2),
                                        maybe(() -> 90.0),
                                        12.0,
                                        used.get(2),
                                        used.get(3),
                                        maybe(() -> used.get(4)),
                                        null,
                                        maybe(random::nextBoolean));
                            }),
                    some(() -> new Device.Fuse(distinct(names, 2), 1 + random.nextInt(60))),
                    some(() -> {
                        List<String> used = distinct(names, 2);
                        return new Device.Diode(used.get(0), used.get(1), null);
                    }),
                    some(() -> new Device.Resistor(distinct(names, 2), 330, null)),
                    random.nextInt(5) == 0 ? Map.of("s", new Device.Setting(Map.of(), true, null)) : Map.of(),
                    Map.of(),
                    pins ? Map.of("X", Connector.unknown()) : Map.of(),
                    null,
                    List.of(),
                    null);
        }

        private Electrical facts() {
            return switch (random.nextInt(15)) {
                case 0, 1 ->
                    new Electrical.Supply(null, amps(), live(), when(), amps(), maybe(random::nextBoolean), null);
                case 2, 3 ->
                    new Electrical.Load(null, amps(), maybe(() -> pick(List.of(Need.values()))), null, 13.0, null);
                case 4 -> new Electrical.Ground(null);
                case 5 -> new Electrical.ControlOut(active(), amps(), live(), when(), null);
                case 6 -> new Electrical.ControlIn(active(), amps(), null, 13.0);
                case 7 ->
                    new Electrical.SpeakerOut(
                            channel(),
                            speakerSide(),
                            maybe(() -> pick(List.of(Drive.values()))),
                            amps(),
                            amps(),
                            amps(),
                            amps());
                case 8 ->
                    new Electrical.SpeakerIn(
                            channel(),
                            speakerSide(),
                            maybe(() -> 4.0),
                            amps(),
                            amps(),
                            maybe(() -> pick(List.of("1", "2"))));
                case 9 ->
                    new Electrical.LineOut(
                            channel(),
                            lineSide(),
                            amps(),
                            amps(),
                            amps(),
                            maybe(() -> pick(List.of(OutputReturn.values()))));
                case 10 ->
                    new Electrical.LineIn(
                            channel(),
                            lineSide(),
                            maybe(() -> 0.1),
                            amps(),
                            amps(),
                            maybe(() -> pick(List.of(InputReturn.values()))),
                            amps());
                case 11 ->
                    random.nextBoolean()
                            ? new Electrical.VideoOut(lineSide(), maybe(() -> pick(List.of("composite", "s-video"))))
                            : new Electrical.VideoIn(lineSide(), maybe(() -> pick(List.of("composite", "s-video"))));
                case 12 -> new Electrical.Data(maybe(() -> pick(List.of(Bus.values()))), null);
                case 13 -> new Electrical.Untouchable(maybe(() -> pick(List.of(Hazard.values()))));
                default -> new Electrical.Passive();
            };
        }

        private @Nullable List<State> live() {
            return maybe(() -> List.of(State.values()).stream()
                    .filter(state -> random.nextBoolean())
                    .toList());
        }

        private List<Condition> when() {
            return random.nextInt(3) == 0 ? List.of(pick(List.of(Condition.values()))) : List.of();
        }

        private @Nullable Active active() {
            return maybe(() -> pick(List.of(Active.values())));
        }

        private @Nullable Channel channel() {
            return maybe(() -> pick(List.of(Channel.values())));
        }

        private @Nullable Side speakerSide() {
            return maybe(() -> pick(List.of(Side.PLUS, Side.MINUS)));
        }

        private @Nullable Side lineSide() {
            return maybe(() -> pick(List.of(Side.SIGNAL, Side.RETURN)));
        }

        private @Nullable Double amps() {
            return maybe(() -> 0.1 + random.nextInt(200) / 10.0);
        }

        private @Nullable Colour colour() {
            return maybe(() -> new Colour(pick(COLOURS)));
        }

        private <T> List<T> some(Supplier<T> make) {
            List<T> some = new ArrayList<>();
            while (random.nextInt(3) == 0) {
                some.add(make.get());
            }
            return some;
        }

        private List<String> distinct(List<String> names, int count) {
            Set<String> picked = new LinkedHashSet<>();
            while (picked.size() < count) {
                picked.add(pick(names));
            }
            return List.copyOf(picked);
        }

        private <T> @Nullable T maybe(Supplier<T> make) {
            return random.nextInt(4) == 0 ? null : make.get();
        }

        private <T> T pick(List<T> all) {
            return all.get(random.nextInt(all.size()));
        }
    }
}
