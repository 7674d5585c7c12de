package dev.splicebook.hookup;

import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Tells a hookup and what was found in it as {@link Fact facts}. The order of lists depends on what is known of the
 * entries and on their names only where nothing else tells them apart.
 */
public final class Facts {

    private final Network network;
    private final Map<Node, Fact> terminals = new HashMap<>();
    private final Map<String, Fact> connections = new LinkedHashMap<>();

    private final Map<String, Fact> connectionPower = new HashMap<>();
    private final Map<String, Fact> terminalPower = new HashMap<>();
    private final Map<String, Double> groundVolts = new HashMap<>();

    private Facts(Hookup hookup, Report report) {
        this.network = new Network(hookup);
        readPower(report.power().cases());
    }

    /** The hookup, with everything in it, and what its report found and solved. */
    public static Fact of(Hookup hookup, Report report) {
        return new Facts(hookup, report).whole(report.findings());
    }

    private void readPower(List<Report.PowerCase> cases) {
        Map<String, Report.ConductorPower> most = new HashMap<>();
        Map<String, Double> typicalAmps = new HashMap<>();
        Map<String, Double> volts = new HashMap<>();
        Map<String, Double> amps = new HashMap<>();
        for (Report.PowerCase each : cases) {
            for (Report.ConductorPower one : each.conductors()) {
                most.merge(one.connection(), one, (old, now) -> now.worstAmps() > old.worstAmps() ? now : old);
                typicalAmps.merge(one.connection(), one.typicalAmps(), Math::max);
            }
            for (Report.LoadPower load : each.loads()) {
                volts.merge(load.terminal(), load.worstVolts(), Math::min);
                if (load.worstAmps() != null) {
                    amps.merge(load.terminal(), load.worstAmps(), Math::max);
                }
            }
            each.grounds().forEach(ground -> groundVolts.merge(ground.part(), ground.worstVolts(), Math::max));
        }
        most.forEach((ref, one) -> connectionPower.put(
                ref,
                new Fields()
                        .put("amps", one.worstAmps())
                        .put("lossWatts", one.worstLossWatts())
                        .put("celsius", one.worstCelsius())
                        .put("typicalAmps", typicalAmps.get(ref))
                        .with("ref", ref + ".power")
                        .fact(FactKind.CONNECTION_POWER, "")));
        volts.forEach((ref, least) -> terminalPower.put(
                ref,
                new Fields()
                        .put("volts", least)
                        .put("amps", amps.get(ref))
                        .with("ref", ref + ".power")
                        .fact(FactKind.TERMINAL_POWER, "")));
    }

    private Fact whole(List<Finding> findings) {
        Hookup hookup = network.hookup();
        network.nodes().forEach(node -> terminals.put(node, terminal(node)));
        hookup.document().connections().forEach((ref, connection) -> connections.put(ref, connection(ref, connection)));
        Map<String, Object> fields = new LinkedHashMap<>();
        fields.put("vehicle", vehicle(hookup));
        fields.put(
                "parts",
                sorted(hookup.devices().entrySet().stream()
                        .map(part -> part(part.getKey(), part.getValue()))
                        .toList()));
        fields.put("terminals", sorted(terminals.values()));
        fields.put("connections", sorted(connections.values()));
        fields.put("nets", sorted(nets()));
        fields.put("findings", sorted(findings.stream().map(Facts::finding).toList()));
        fields.put(
                "wishes",
                sorted(hookup.document().wishes().stream().map(Facts::wish).toList()));
        return new Fact(FactKind.HOOKUP, fields, "");
    }

    private static List<Fact> sorted(Collection<Fact> facts) {
        return facts.stream()
                .sorted(Comparator.comparing(Fact::text)
                        .thenComparing(fact -> String.valueOf(fact.fields().get("ref"))))
                .toList();
    }

    private static Fact vehicle(Hookup hookup) {
        FunctionMap map = hookup.map();
        Fields fields = new Fields()
                .put("maker", map.maker())
                .put("model", map.model())
                .put("market", map.market())
                .put("equipment", map.equipment().stream().sorted().toList())
                .put("unplugged", hookup.unplugged().stream().sorted().toList())
                .put("cuts", hookup.cuts().stream().sorted().toList());
        return fields.fact(FactKind.VEHICLE, "");
    }

    private Fact part(String ref, Device device) {
        PartUse use = network.hookup().document().parts().get(ref);
        Fields fields = new Fields()
                .put("ref", ref)
                .put("device", device.code())
                .put("maker", device.maker())
                .put("name", device.name())
                .put("kind", device.kind())
                .put("mode", use == null ? null : use.mode())
                .put(
                        "settings",
                        new TreeMap<>(network.hookup().document().settings().getOrDefault(ref, Map.of())));
        List<Fact> own = sorted(network.nodesOf(ref).stream().map(this::of).toList());
        return fields.with("terminals", own)
                .with("groundVolts", groundVolts.get(ref))
                .fact(FactKind.PART, texts(own));
    }

    private Fact terminal(Node node) {
        Unused unused = network.unused(node);
        Fields fields = new Fields()
                .put("ref", node.ref())
                .put("part", node.owner())
                .put("name", node.name())
                .put(
                        "function",
                        node.function() == null ? null : node.function().value())
                .put("colour", node.colour() == null ? null : node.colour().value())
                .put("unused", unused == null ? null : FactKind.nameOf(unused.fate()))
                .put("connected", network.isConnected(node));
        Electrical facts = node.facts();
        if (facts != null) {
            fields.put("kind", facts.kind());
            for (RecordComponent component : facts.getClass().getRecordComponents()) {
                if (FactKind.scalar(component) != null) {
                    Object value = valueOf(component, facts);
                    fields.put(
                            FactKind.nameOf(component),
                            value instanceof Enum<?> constant ? FactKind.nameOf(constant) : value);
                }
            }
        }
        return fields.with("power", terminalPower.get(node.ref())).fact(FactKind.TERMINAL, node.factsText());
    }

    private static @Nullable Object valueOf(RecordComponent component, Object of) {
        try {
            return component.getAccessor().invoke(of);
        } catch (ReflectiveOperationException impossible) {
            throw new IllegalStateException("a fact cannot be read: " + component, impossible);
        }
    }

    private Fact connection(String ref, Connection connection) {
        Fact from = of(Objects.requireNonNull(network.findNode(connection.ends().get(0))));
        Fact to = of(Objects.requireNonNull(network.findNode(connection.ends().get(1))));
        Fields fields = new Fields().put("ref", ref);
        Connection.Conductor conductor = connection.conductor();
        if (conductor != null) {
            fields.put("size", conductor.size().value())
                    .put("areaMm2", conductor.size().areaMm2())
                    .put("material", conductor.material() == null ? "copper" : FactKind.nameOf(conductor.material()))
                    .put(
                            "insulationCelsius",
                            conductor.insulationCelsius() == null
                                    ? Double.valueOf(105)
                                    : conductor.insulationCelsius());
        }
        if (connection.length() != null) {
            fields.put("lengthMetres", connection.length().metres());
        }
        if (connection.fuse() != null) {
            fields.put("fuseAmps", connection.fuse().ratingAmps());
            if (connection.fuse().fromSource() != null) {
                fields.put(
                        "fuseFromSourceMetres", connection.fuse().fromSource().metres());
            }
        }
        return fields.with("from", from)
                .with("to", to)
                .with("power", connectionPower.get(ref))
                .fact(FactKind.CONNECTION, from.text() + "\n" + to.text());
    }

    private List<Fact> nets() {
        List<Fact> nets = new ArrayList<>();
        Set<Integer> told = new HashSet<>();
        for (Node node : network.nodes()) {
            List<Node> members = network.netOf(node);
            if (members.size() < 2 || !told.add(node.net())) {
                continue;
            }
            List<Fact> facts = sorted(members.stream().map(this::of).toList());
            List<Fact> through = sorted(members.stream()
                    .flatMap(member -> network.linksOf(member).stream())
                    .map(Link::ref)
                    .filter(Objects::nonNull)
                    .distinct()
                    .map(ref -> Objects.requireNonNull(connections.get(ref)))
                    .toList());
            Fields fields = new Fields()
                    .put("kinds", distinct(facts, "kind"))
                    .put("functions", distinct(facts, "function"))
                    .with("terminals", facts)
                    .with("connections", through);
            nets.add(fields.fact(FactKind.NET, texts(facts) + "\n" + texts(through)));
        }
        return nets;
    }

    private static Fact finding(Finding finding) {
        return new Fields()
                .with("rule", finding.rule())
                .with("severity", finding.severity().toString())
                .with("message", finding.message())
                .with("terminals", finding.terminals())
                .with("connections", finding.connections())
                .with("measured", finding.measured())
                .with("limit", finding.limit())
                .with("unit", finding.unit())
                .with("states", finding.states().stream().map(State::toString).toList())
                .fact(FactKind.FINDING, finding.fingerprint());
    }

    private static Fact wish(Wish wish) {
        return new Fields()
                .put("function", wish.function().value())
                .put("want", FactKind.nameOf(wish.want()))
                .fact(FactKind.WISH, "");
    }

    private Fact of(Node node) {
        return Objects.requireNonNull(terminals.get(node), node.ref());
    }

    private static List<String> distinct(List<Fact> facts, String field) {
        return facts.stream()
                .map(fact -> fact.fields().get(field))
                .filter(Objects::nonNull)
                .map(Object::toString)
                .distinct()
                .sorted()
                .toList();
    }

    private static String texts(List<Fact> facts) {
        return facts.stream().map(Fact::text).collect(Collectors.joining("\n"));
    }

    /** Known fields, and beside them the text of those that are no names. */
    private static final class Fields {

        private final Map<String, Object> known = new LinkedHashMap<>();
        private final List<String> told = new ArrayList<>();

        Fields put(String field, @Nullable Object value) {
            if (value != null) {
                told.add(field + "=" + value);
            }
            return with(field, value);
        }

        /** A field that tells nothing by itself, or that is told otherwise. */
        Fields with(String field, @Nullable Object value) {
            if (value != null) {
                known.put(field, value);
            }
            return this;
        }

        Fact fact(FactKind kind, String more) {
            String own = told.stream()
                    .filter(entry -> !kind.isName(entry.substring(0, entry.indexOf('='))))
                    .collect(Collectors.joining("|"));
            return new Fact(kind, known, own + "\n" + more);
        }
    }
}
