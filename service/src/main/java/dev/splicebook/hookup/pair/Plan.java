package dev.splicebook.hookup.pair;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connector;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.HookupDocument.VehicleUse;
import dev.splicebook.hookup.Names;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What stands before any wire is drawn: the parts, which plugs are mated, and what is off the factory unit.
 *
 * @param added refs of parts that the question does not have
 * @param unplugged further connectors that are taken off, beside those that a plug of a part takes
 */
record Plan(Hookup bare, List<String> added, Set<String> unplugged) {

    /** The share of a connector's circuits that name a unit if the connector is the unit's. */
    private static final double UNIT_SHARE = 0.8;

    /** The first plan: plugs are mated, and what else belongs to a unit that thereby goes is unplugged. */
    static Plan of(Hookup asked) {
        Hookup mated = mated(asked, Set.of());
        boolean given = asked.document().vehicle() != null
                && !asked.document().vehicle().unplugged().isEmpty();
        return given ? new Plan(mated, List.of(), Set.of()) : unplugging(asked, List.of(), rest(mated));
    }

    private static Plan unplugging(Hookup asked, List<String> added, Set<String> connectors) {
        return new Plan(mated(asked, connectors), added, connectors);
    }

    /** The same with the connectors of a unit taken off that drives loudspeakers, one plan for each such unit. */
    static List<Plan> withoutAUnit(Hookup asked, Plan first) {
        boolean given = asked.document().vehicle() != null
                && !asked.document().vehicle().unplugged().isEmpty();
        boolean drives = asked.devices().values().stream()
                .flatMap(device -> device.allTerminals().values().stream())
                .anyMatch(terminal -> terminal.electrical() instanceof Electrical.SpeakerOut);
        if (given || !drives) {
            return List.of();
        }
        Set<String> units = new TreeSet<>();
        FunctionMap map = asked.map();
        map.circuits().values().forEach(circuit -> {
            if (circuit.source() != null && isDriven(circuit)) {
                units.add(circuit.source());
            }
        });
        List<Plan> plans = new ArrayList<>();
        for (String unit : units) {
            Set<String> connectors = new TreeSet<>(first.unplugged());
            connectorsOf(map).forEach((connector, circuits) -> {
                if (isOf(unit, circuits) && !isUntouchable(circuits)) {
                    connectors.add(connector);
                }
            });
            addOther(first, unplugging(asked, List.of(), connectors), plans);
        }
        asked.devices().values().forEach(device -> {
            Set<String> connectors = replacedBy(device, map);
            if (!connectors.isEmpty()) {
                connectors.addAll(first.unplugged());
                addOther(first, unplugging(asked, List.of(), connectors), plans);
            }
        });
        return plans;
    }

    private static void addOther(Plan first, Plan plan, List<Plan> plans) {
        boolean known = plan.bare().unplugged().equals(first.bare().unplugged())
                || plans.stream()
                        .anyMatch(other ->
                                other.bare().unplugged().equals(plan.bare().unplugged()));
        if (!known) {
            plans.add(plan);
        }
    }

    /**
     * Connectors of a unit that the map does not name and whose loudspeakers a part drives; and those at the same place of
     * which the part has leads for nearly all circuits. What is elsewhere, like a fuse box, stays plugged however alike it is.
     */
    private static Set<String> replacedBy(Device device, FunctionMap map) {
        Set<FunctionId> own = new HashSet<>();
        Set<FunctionId> driven = new HashSet<>();
        device.allTerminals().values().forEach(terminal -> {
            if (terminal.function() != null) {
                own.add(terminal.function());
                if (terminal.electrical() instanceof Electrical.SpeakerOut) {
                    driven.add(terminal.function());
                }
            }
        });
        Map<String, List<Circuit>> nameless = connectorsOf(map);
        nameless.values()
                .removeIf(circuits -> isUntouchable(circuits)
                        || circuits.stream()
                                .anyMatch(circuit -> circuit.source() != null || circuit.loadEnd() != null));
        Set<String> replaced = new TreeSet<>();
        Set<String> places = new HashSet<>();
        nameless.forEach((connector, circuits) -> {
            if (circuits.stream().anyMatch(circuit -> isDriven(circuit) && driven.contains(circuit.function()))) {
                replaced.add(connector);
                places.add(location(map, connector));
            }
        });
        places.remove(null);
        nameless.forEach((connector, circuits) -> {
            long alike = circuits.stream()
                    .filter(circuit -> own.contains(circuit.function()))
                    .count();
            if (places.contains(location(map, connector)) && alike >= UNIT_SHARE * circuits.size()) {
                replaced.add(connector);
            }
        });
        return replaced;
    }

    /** Whether a circuit is a loudspeaker that a unit drives while it is plugged in. */
    private static boolean isDriven(Circuit circuit) {
        return circuit.factsWhen(true) instanceof Electrical.SpeakerOut
                && circuit.factsWhen(false) instanceof Electrical.SpeakerIn;
    }

    /** The same with one part more. */
    Plan with(Hookup asked, String ref, PartUse use, Device device) {
        HookupDocument document = asked.document();
        Map<String, PartUse> parts = new LinkedHashMap<>(bare.document().parts());
        parts.put(ref, use);
        Map<String, Device> devices = new LinkedHashMap<>(bare.devices());
        devices.put(ref, device);
        HookupDocument wider = new HookupDocument(
                document.vehicle(), parts, Map.of(), List.of(), Map.of(), document.settings(), document.wishes());
        List<String> all = new ArrayList<>(added);
        all.add(ref);
        return unplugging(
                Hookup.resolve(wider, asked.map(), devices, List.of())
                        .with(bare.latest().and(ref, use.revision())),
                all,
                unplugged);
    }

    private static Hookup mated(Hookup asked, Set<String> unplugged) {
        HookupDocument document = asked.document();
        VehicleUse vehicle = document.vehicle();
        List<List<String>> plugs = plugs(asked);
        Set<String> off = new TreeSet<>(unplugged);
        if (vehicle != null) {
            off.addAll(vehicle.unplugged());
        }
        for (List<String> plug : plugs) {
            for (String connector : plug) {
                if (connector.startsWith(Names.VEHICLE + ".")) {
                    off.add(connector.substring(Names.VEHICLE.length() + 1));
                }
            }
        }
        HookupDocument mated = new HookupDocument(
                vehicle == null
                        ? null
                        : new VehicleUse(vehicle.id(), vehicle.revision(), vehicle.inline(), off, vehicle.cuts()),
                document.parts(),
                Map.of(),
                plugs,
                Map.of(),
                document.settings(),
                document.wishes());
        return Hookup.resolve(mated, asked.map(), asked.devices(), List.of()).with(asked.latest());
    }

    /** Connectors by what they belong to, like {@code CAR.C1}. */
    private record Half(String ref, Connector connector, boolean vehicle, String key, String owner) {}

    private static List<List<String>> plugs(Hookup asked) {
        List<Half> halves = new ArrayList<>();
        Map<String, List<Circuit>> circuits = connectorsOf(asked.map());
        asked.map().connectors().forEach((name, connector) -> {
            if (!isUntouchable(circuits.getOrDefault(name, List.of()))) {
                halves.add(new Half(
                        Names.VEHICLE + "." + name,
                        connector,
                        true,
                        key(circuits.getOrDefault(name, List.of())),
                        Names.VEHICLE));
            }
        });
        asked.devices()
                .forEach((part, device) -> device.connectors()
                        .forEach((name, connector) -> halves.add(new Half(
                                part + "." + name,
                                connector,
                                false,
                                key(device.terminals().entrySet().stream()
                                        .filter(entry -> Names.connectorOf(entry.getKey())
                                                .equals(name))
                                        .map(entry -> entry.getValue().function() + "|"
                                                + entry.getValue().electrical())
                                        .toList()),
                                part))));
        halves.sort(Comparator.comparing(Half::vehicle)
                .reversed()
                .thenComparing(Half::key)
                .thenComparing(Half::ref));
        List<List<String>> plugs = new ArrayList<>();
        Set<Half> taken = new HashSet<>();
        for (Half one : halves) {
            for (Half other : halves) {
                boolean vehicles = halves.stream()
                        .anyMatch(half -> half.vehicle() && half.connector().fits(other.connector()));
                // two parts that both mate the vehicle's connector do not mate each other
                if (one.connector().fits(other.connector())
                        && !other.vehicle()
                        && !one.owner().equals(other.owner())
                        && (one.vehicle() || !vehicles)
                        && !taken.contains(one)
                        && !taken.contains(other)) {
                    taken.add(one);
                    taken.add(other);
                    plugs.add(List.of(one.ref(), other.ref()));
                }
            }
        }
        return plugs;
    }

    private static String key(Collection<?> facts) {
        return facts.stream().map(String::valueOf).sorted().toList().toString();
    }

    /** Connectors at the place of one that is mated which belong to the unit that it belonged to. */
    private static Set<String> rest(Hookup mated) {
        Set<String> rest = new TreeSet<>();
        Map<String, List<Circuit>> connectors = connectorsOf(mated.map());
        for (String connector : mated.unplugged()) {
            String unit = unitOf(connectors.getOrDefault(connector, List.of()));
            String place = location(mated.map(), connector);
            // a unit that keeps its feed works on with some of its outputs open
            if (unit == null || place == null || !feeds(unit, mated, connectors)) {
                continue;
            }
            connectors.forEach((other, circuits) -> {
                if (place.equals(location(mated.map(), other)) && isOf(unit, circuits) && !isUntouchable(circuits)) {
                    rest.add(other);
                }
            });
        }
        rest.removeAll(mated.unplugged());
        return rest;
    }

    private static boolean feeds(String unit, Hookup mated, Map<String, List<Circuit>> connectors) {
        return mated.unplugged().stream()
                .flatMap(connector -> connectors.getOrDefault(connector, List.of()).stream())
                .anyMatch(circuit -> unit.equals(circuit.loadEnd())
                        && circuit.factsWhen(true) instanceof Electrical.Supply supply
                        && supply.when().isEmpty());
    }

    private static @Nullable String location(FunctionMap map, String connector) {
        Connector known = map.connectors().get(connector);
        return known == null ? null : known.location();
    }

    private static Map<String, List<Circuit>> connectorsOf(FunctionMap map) {
        Map<String, List<Circuit>> connectors = new TreeMap<>();
        map.circuits().forEach((name, circuit) -> {
            if (name.contains("-") && !name.startsWith("battery-")) {
                connectors
                        .computeIfAbsent(Names.connectorOf(name), key -> new ArrayList<>())
                        .add(circuit);
            }
        });
        return connectors;
    }

    /** The unit at one end of most circuits; null if none is at one end of nearly all, or more than one is. */
    private static @Nullable String unitOf(List<Circuit> circuits) {
        Set<String> units = new LinkedHashSet<>();
        circuits.forEach(circuit -> Stream.of(circuit.source(), circuit.loadEnd())
                .filter(Objects::nonNull)
                .map(String.class::cast)
                .forEach(units::add));
        List<String> own = units.stream().filter(unit -> isOf(unit, circuits)).toList();
        return own.size() == 1 ? own.get(0) : null;
    }

    private static boolean isOf(String unit, List<Circuit> circuits) {
        long naming = circuits.stream()
                .filter(circuit -> unit.equals(circuit.source()) || unit.equals(circuit.loadEnd()))
                .count();
        return naming > 0 && naming >= UNIT_SHARE * circuits.size();
    }

    private static boolean isUntouchable(List<Circuit> circuits) {
        return circuits.stream().anyMatch(Circuit::mustBeLeftAlone);
    }
}
