package dev.splicebook.hookup.mend;

import dev.splicebook.electrics.Length;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Connection.WireFuse;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.HookupDocument.VehicleUse;
import dev.splicebook.hookup.LatestRevisions;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.Vehicle;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A hookup with something of it changed. A lead that gives and comes loose is capped; one that takes is left to be told. */
public final class Edit {

    private final Hookup before;
    private final Map<String, PartUse> parts;
    private final Map<String, Device> devices;
    private final Map<String, Connection> connections;
    private final Map<String, Unused> unused;
    private final Map<String, Map<String, String>> settings;
    private List<List<String>> plugs;
    private @Nullable VehicleUse vehicle;
    private FunctionMap map;
    private LatestRevisions latest;
    private boolean possible = true;

    Edit(Hookup before) {
        HookupDocument document = before.document();
        this.before = before;
        this.parts = new LinkedHashMap<>(document.parts());
        this.devices = new LinkedHashMap<>(before.devices());
        this.latest = before.latest();
        this.connections = new LinkedHashMap<>(document.connections());
        this.unused = new LinkedHashMap<>(document.unused());
        this.settings = new LinkedHashMap<>(document.settings());
        this.plugs = document.plugs();
        this.vehicle = document.vehicle();
        this.map = before.map();
    }

    Connection wire(String ref) {
        Connection found = connections.get(ref);
        if (found == null) {
            throw new IllegalArgumentException("no connection " + ref);
        }
        return found;
    }

    /** Gives a connection other ends; the change is impossible where they are one. */
    Edit ends(String ref, String one, String other) {
        Connection was = wire(ref);
        return put(ref, one, other, was.conductor(), was.length(), was.fuse());
    }

    private Edit put(
            String ref,
            String one,
            String other,
            @Nullable Conductor conductor,
            @Nullable Length length,
            @Nullable WireFuse fuse) {
        possible &= !one.equals(other);
        if (possible) {
            Connection was = connections.get(ref);
            for (String end : List.of(one, other)) {
                if (was == null || !was.ends().contains(end)) {
                    unused.remove(end);
                }
            }
            connections.put(ref, new Connection(List.of(one, other), conductor, length, fuse));
        }
        return this;
    }

    Edit without(String ref) {
        connections.remove(ref);
        return this;
    }

    /** Puts an end of a connection elsewhere. */
    Edit move(String ref, String from, String to) {
        List<String> ends = wire(ref).ends().stream()
                .map(end -> end.equals(from) ? to : end)
                .toList();
        return ends(ref, ends.get(0), ends.get(1));
    }

    /** Takes a connection off if another joins the same two terminals. */
    Edit withoutTwin(String ref) {
        Set<String> ends = Set.copyOf(wire(ref).ends());
        boolean twin = connections.entrySet().stream()
                .anyMatch(entry -> !entry.getKey().equals(ref)
                        && Set.copyOf(entry.getValue().ends()).equals(ends));
        return twin ? without(ref) : this;
    }

    Edit fuse(String ref, @Nullable WireFuse fuse) {
        Connection was = wire(ref);
        return put(ref, was.ends().get(0), was.ends().get(1), was.conductor(), was.length(), fuse);
    }

    Edit conductor(String ref, Conductor conductor) {
        Connection was = wire(ref);
        return put(ref, was.ends().get(0), was.ends().get(1), conductor, was.length(), was.fuse());
    }

    /** Adds a connection and gives it the next free ref. */
    Edit join(
            String one, String other, @Nullable Conductor conductor, @Nullable Length length, @Nullable WireFuse fuse) {
        int next = 1;
        for (String ref : connections.keySet()) {
            if (ref.matches("W[0-9]{1,6}")) {
                next = Math.max(next, Integer.parseInt(ref.substring(1)) + 1);
            }
        }
        return put("W" + next, one, other, conductor, length, fuse);
    }

    /** Adds a connection that carries a signal or the current of a coil, between two things side by side. */
    Edit light(String one, String other) {
        return join(one, other, Sizing.LIGHT, Sizing.NEAR, null);
    }

    /** Adds a part of the stock and gives it a free ref that starts with a stem. */
    String add(String stem, Stock.Item item) {
        String ref = add(stem, new PartUse(item.device().code(), item.revision(), null, null), item.device());
        latest = latest.and(ref, item.revision());
        return ref;
    }

    /** Adds a plain component and gives it a free ref that starts with a stem. */
    String add(String stem, Device inline) {
        return add(stem, new PartUse(null, null, inline, null), inline);
    }

    private String add(String stem, PartUse part, Device device) {
        String ref = stem;
        for (int at = 2; parts.containsKey(ref); at++) {
            ref = stem + at;
        }
        parts.put(ref, part);
        devices.put(ref, device);
        return ref;
    }

    /** Takes another revision of a part's device. */
    Edit revision(String part, Stock.Item item) {
        PartUse was = parts.get(part);
        if (was == null || item.revision() == null) {
            throw new IllegalArgumentException("no part " + part + " of a stored device");
        }
        parts.put(part, new PartUse(was.device(), item.revision(), null, was.mode()));
        devices.put(part, item.device());
        return this;
    }

    /** Takes another revision of the vehicle's map. */
    Edit revision(Stock.StockedMap stocked) {
        if (vehicle != null) {
            vehicle = new VehicleUse(vehicle.id(), stocked.revision(), null, vehicle.unplugged(), vehicle.cuts());
            map = stocked.map();
        }
        return this;
    }

    /** Gives a connection another length. */
    Edit length(String ref, Length length) {
        Connection was = wire(ref);
        return put(ref, was.ends().get(0), was.ends().get(1), was.conductor(), length, was.fuse());
    }

    Edit unused(String terminal, String why) {
        unused.put(terminal, new Unused(Unused.Fate.CAPPED, why));
        return this;
    }

    /** Takes a terminal off the list of unused ones. */
    Edit used(String terminal) {
        unused.remove(terminal);
        return this;
    }

    Edit setting(String part, String name, String value) {
        Map<String, String> values = new LinkedHashMap<>(settings.getOrDefault(part, Map.of()));
        values.put(name, value);
        settings.put(part, values);
        return this;
    }

    /** Mates two connectors, each with its owner, like {@code CAR.C1}. */
    Edit plug(String one, String other) {
        plugs = new ArrayList<>(plugs);
        plugs.add(List.of(one, other));
        return this;
    }

    /** Leaves a connector of the vehicle where it is. */
    Edit leavePlugged(String connector) {
        plugs = plugs.stream()
                .filter(plug -> !plug.contains(Names.VEHICLE + "." + connector))
                .toList();
        if (vehicle != null) {
            vehicle = vehicle(vehicle, without(vehicle.unplugged(), connector), vehicle.cuts());
        }
        return this;
    }

    /** Leaves a circuit of the vehicle uncut, and takes off what was on its ends. */
    Edit leaveUncut(String circuit) {
        String end = Names.VEHICLE + "." + circuit + "/";
        connections.values().removeIf(wire -> wire.ends().stream().anyMatch(at -> at.startsWith(end)));
        unused.keySet().removeIf(terminal -> terminal.startsWith(end));
        if (vehicle != null) {
            vehicle = vehicle(vehicle, vehicle.unplugged(), without(vehicle.cuts(), circuit));
        }
        return this;
    }

    private static VehicleUse vehicle(VehicleUse was, Set<String> unplugged, Set<String> cuts) {
        return new VehicleUse(was.id(), was.revision(), was.inline(), unplugged, cuts);
    }

    private static Set<String> without(Set<String> all, String one) {
        Set<String> left = new LinkedHashSet<>(all);
        left.remove(one);
        return left;
    }

    /** The changed hookup; null if the change makes none that is well-formed. */
    public @Nullable Hookup hookup() {
        if (!possible) {
            return null;
        }
        Set<String> joined = endsOf(connections);
        unused.keySet().removeIf(joined::contains);
        Set<String> loose = endsOf(before.document().connections());
        devices.forEach((part, device) -> {
            if (!before.devices().containsKey(part)) {
                device.terminals().keySet().forEach(name -> loose.add(part + "." + name));
            }
        });
        loose.stream()
                .filter(terminal -> !joined.contains(terminal) && isGiving(terminal) && mustBeAccounted(terminal))
                .sorted()
                .forEach(terminal ->
                        unused.putIfAbsent(terminal, new Unused(Unused.Fate.CAPPED, "nothing is left for it to feed")));
        HookupDocument document = before.document();
        try {
            return Hookup.resolve(
                            new HookupDocument(
                                    vehicle,
                                    parts,
                                    connections,
                                    plugs,
                                    unused,
                                    settings,
                                    document.wishes(),
                                    document.name(),
                                    document.waivers()),
                            map,
                            devices,
                            List.of())
                    .with(latest);
        } catch (InvalidValueException notWellFormed) {
            return null;
        }
    }

    private static Set<String> endsOf(Map<String, Connection> connections) {
        Set<String> ends = new HashSet<>();
        connections.values().forEach(connection -> ends.addAll(connection.ends()));
        return ends;
    }

    /** Whether a lead gives something or nothing at all, so that it may hang loose; capping a lead that takes would hide a loss. */
    private boolean isGiving(String terminal) {
        Electrical facts = facts(terminal);
        return facts instanceof Electrical.Passive
                || facts instanceof Electrical.Supply
                || facts instanceof Electrical.ControlOut
                || facts instanceof Electrical.VideoOut
                || (facts instanceof Electrical.Audio audio && audio.isOutput())
                || (facts instanceof Electrical.Ground && terminal.startsWith(Names.VEHICLE + "."));
    }

    private @Nullable Electrical facts(String terminal) {
        String part = terminal.substring(0, terminal.indexOf('.'));
        String name = terminal.substring(part.length() + 1);
        Device device = devices.get(part);
        if (device != null) {
            Device.Terminal found = device.allTerminals().get(name);
            return found == null ? null : found.electrical();
        }
        Circuit circuit = before.findCircuit(name);
        return circuit == null ? null : circuit.factsWhen(!before.unplugged().contains(Names.connectorOf(name)));
    }

    private boolean mustBeAccounted(String terminal) {
        String name = terminal.substring(terminal.indexOf('.') + 1);
        boolean mated = plugs.stream()
                .anyMatch(plug ->
                        plug.contains(terminal.substring(0, terminal.indexOf('.') + 1) + Names.connectorOf(name)));
        if (mated) {
            return false;
        }
        return !terminal.startsWith(Names.VEHICLE + ".")
                || (!Vehicle.ALWAYS_THERE.containsKey(name)
                        && vehicle != null
                        && vehicle.unplugged().contains(Names.connectorOf(name)));
    }
}
