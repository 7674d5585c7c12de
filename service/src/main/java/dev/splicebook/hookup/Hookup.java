package dev.splicebook.hookup;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** A proposed installation with every reference resolved and every name known. */
public final class Hookup {

    /** Terminals of all parts together. */
    private static final int MOST_TERMINALS = 20_000;

    private static final String UNIT = "/unit";
    private static final String HARNESS = "/harness";

    private final HookupDocument document;
    private final FunctionMap map;
    private final Map<String, Device> devices;
    private final LatestRevisions latest;
    private final Set<String> unplugged;
    private final Map<String, Map<String, Device.Terminal>> terminals = new HashMap<>();

    private Hookup(HookupDocument document, FunctionMap map, Map<String, Device> devices, LatestRevisions latest) {
        this.document = document;
        this.map = map;
        this.latest = latest;
        this.devices = Collections.unmodifiableMap(new LinkedHashMap<>(devices));
        devices.forEach((part, device) ->
                terminals.put(part, terminalsOf(device, document.parts().get(part))));
        this.unplugged = new LinkedHashSet<>(unpluggedAsSent(document));
        for (List<String> plug : document.plugs()) {
            for (String connector : plug) {
                if (connector.startsWith(Names.VEHICLE + ".")) {
                    unplugged.add(connector.substring(Names.VEHICLE.length() + 1));
                }
            }
        }
    }

    /**
     * Resolves a hookup.
     *
     * @param map of the vehicle; null if it could not be found, which leaves references to it unjudged
     * @param devices by part; a part that is missing here leaves references to it unjudged
     * @param before faults already found by whoever looked up the vehicle and the devices
     * @throws InvalidValueException with every fault, those before among them
     */
    public static Hookup resolve(
            HookupDocument document, @Nullable FunctionMap map, Map<String, Device> devices, List<Invalid> before) {
        List<Invalid> faults = new ArrayList<>(before);
        long terminals = devices.values().stream()
                .mapToLong(device -> device.terminals().size())
                .sum();
        if (terminals > MOST_TERMINALS) {
            faults.add(new Invalid(
                    "/parts", "too-many", "parts have " + terminals + " terminals together, above " + MOST_TERMINALS));
        }
        References references = new References(document, map, devices, faults);
        references.read();
        if (!references.invalids.isEmpty()) {
            throw new InvalidValueException(references.invalids);
        }
        if (map == null) {
            throw new IllegalArgumentException("a hookup without faults has a map");
        }
        return new Hookup(document, map, devices, LatestRevisions.UNKNOWN);
    }

    /** Resolves a hookup that is wholly inline. */
    public static Hookup resolve(HookupDocument document) {
        Map<String, Device> devices = new LinkedHashMap<>();
        List<Invalid> before = new ArrayList<>();
        document.parts().forEach((ref, part) -> {
            if (part.inline() != null) {
                devices.put(ref, part.inline());
            } else {
                before.add(new Invalid(
                        "/parts/" + ref + "/device",
                        "unknown-device",
                        "no catalogue to look " + part.device() + " up in"));
            }
        });
        HookupDocument.VehicleUse vehicle = document.vehicle();
        FunctionMap map = vehicle == null ? FunctionMap.of(Map.of()) : vehicle.inline();
        if (map == null) {
            before.add(new Invalid("/vehicle/id", "unknown-vehicle", "no book to look the vehicle up in"));
        }
        return resolve(document, map, devices, before);
    }

    /** The same, told what is latest today of what it names by revision. */
    public Hookup with(LatestRevisions known) {
        return new Hookup(document, map, devices, known);
    }

    /** What is latest today of what the hookup names by revision. */
    public LatestRevisions latest() {
        return latest;
    }

    public HookupDocument document() {
        return document;
    }

    public FunctionMap map() {
        return map;
    }

    /** Devices by part. */
    public Map<String, Device> devices() {
        return devices;
    }

    /** Connectors that are off the factory unit: those listed, and those mated with something else. */
    public Set<String> unplugged() {
        return unplugged;
    }

    /** Circuits that are cut. */
    public Set<String> cuts() {
        return cutsAsSent(document);
    }

    /** The circuit of that name, the ones that every vehicle has among them; null if there is none. */
    public @Nullable Circuit findCircuit(String name) {
        return findCircuit(map, name);
    }

    /** The terminals of a part, with the chosen mode's in place of the plain ones. */
    public Map<String, Device.Terminal> terminalsOf(String part) {
        Map<String, Device.Terminal> found = terminals.get(part);
        if (found == null) {
            throw new IllegalArgumentException("no part " + part);
        }
        return found;
    }

    /** The couplings inside a part, the chosen mode's in place of the device's if it has any. */
    public List<Device.Couple> couplesOf(String part) {
        Device device = devices.get(part);
        if (device == null) {
            throw new IllegalArgumentException("no part " + part);
        }
        Device.Mode mode = mode(device, document.parts().get(part));
        return mode == null || mode.couples().isEmpty() ? device.couples() : mode.couples();
    }

    private static Device.@Nullable Mode mode(Device device, HookupDocument.@Nullable PartUse use) {
        return use == null || use.mode() == null ? null : device.modes().get(use.mode());
    }

    private static Map<String, Device.Terminal> terminalsOf(Device device, HookupDocument.@Nullable PartUse use) {
        Map<String, Device.Terminal> terminals = device.allTerminals();
        Device.Mode mode = mode(device, use);
        if (mode != null) {
            terminals.putAll(mode.terminals());
        }
        return Collections.unmodifiableMap(terminals);
    }

    private static @Nullable Circuit findCircuit(FunctionMap map, String name) {
        Circuit circuit = map.circuits().get(name);
        return circuit != null ? circuit : Vehicle.ALWAYS_THERE.get(name);
    }

    private static Set<String> unpluggedAsSent(HookupDocument document) {
        return document.vehicle() == null ? Set.of() : document.vehicle().unplugged();
    }

    private static Set<String> cutsAsSent(HookupDocument document) {
        return document.vehicle() == null ? Set.of() : document.vehicle().cuts();
    }

    /** Reads every reference of a document against what it refers to, and collects the faults. */
    private static final class References {

        private final HookupDocument document;
        private final @Nullable FunctionMap map;
        private final Map<String, Device> devices;
        private final List<Invalid> invalids;
        private final Map<String, Set<String>> terminals = new LinkedHashMap<>();

        References(
                HookupDocument document,
                @Nullable FunctionMap map,
                Map<String, Device> devices,
                List<Invalid> invalids) {
            this.document = document;
            this.map = map;
            this.devices = devices;
            this.invalids = invalids;
            devices.forEach(
                    (ref, device) -> terminals.put(ref, device.allTerminals().keySet()));
        }

        void read() {
            if (map != null) {
                readVehicle(map);
            }
            document.parts().forEach(this::readPart);
            document.connections().forEach((ref, connection) -> {
                for (int end = 0; end < 2; end++) {
                    readTerminal(connection.ends().get(end), "/connections/" + ref + "/ends/" + end);
                }
            });
            Set<String> mated = new HashSet<>();
            for (int at = 0; at < document.plugs().size(); at++) {
                for (int end = 0; end < 2; end++) {
                    String connector = document.plugs().get(at).get(end);
                    String pointer = "/plugs/" + at + "/" + end;
                    readConnector(connector, pointer);
                    if (!mated.add(connector)) {
                        invalids.add(new Invalid(pointer, "mated-twice", connector + " is mated twice"));
                    }
                }
            }
            document.unused().keySet().forEach(terminal -> readTerminal(terminal, "/unused/" + escape(terminal)));
            document.settings().forEach(this::readSettings);
        }

        private void readVehicle(FunctionMap map) {
            int at = 0;
            for (String connector : unpluggedAsSent(document)) {
                if (!hasConnector(map, connector)) {
                    invalids.add(new Invalid(
                            "/vehicle/unplugged/" + at,
                            "unknown-connector",
                            "the map has no connector \"" + shortened(connector) + "\""
                                    + known(connectorsOf(
                                            map.circuits().keySet(),
                                            map.connectors().keySet()))));
                }
                at++;
            }
            at = 0;
            for (String cut : cutsAsSent(document)) {
                if (map.circuits().get(cut) == null || Vehicle.ALWAYS_THERE.containsKey(cut)) {
                    invalids.add(new Invalid(
                            "/vehicle/cuts/" + at,
                            "unknown-circuit",
                            "the map has no circuit \"" + shortened(cut) + "\" to cut"));
                }
                at++;
            }
        }

        private void readPart(String ref, HookupDocument.PartUse part) {
            Device device = devices.get(ref);
            if (device != null && part.mode() != null && !device.modes().containsKey(part.mode())) {
                invalids.add(new Invalid(
                        "/parts/" + ref + "/mode",
                        "unknown-mode",
                        ref + " has no mode \"" + shortened(part.mode()) + "\""
                                + known(device.modes().keySet())));
            }
        }

        private void readTerminal(String terminal, String pointer) {
            int dot = terminal.indexOf('.');
            if (dot < 0) {
                invalids.add(new Invalid(
                        pointer,
                        "bad-form",
                        "\"" + shortened(terminal)
                                + "\" is not a terminal; a terminal is a part, a dot and a name, like HU.memory"));
                return;
            }
            String part = terminal.substring(0, dot);
            String name = terminal.substring(dot + 1);
            if (part.equals(Names.VEHICLE)) {
                readCircuit(name, pointer);
                return;
            }
            if (!document.parts().containsKey(part)) {
                invalids.add(new Invalid(
                        pointer,
                        "unknown-part",
                        "there is no part \"" + shortened(part) + "\""
                                + known(document.parts().keySet())));
                return;
            }
            Set<String> names = terminals.get(part);
            if (names != null && !names.contains(name)) {
                invalids.add(new Invalid(
                        pointer,
                        "unknown-terminal",
                        part + " has no terminal \"" + shortened(name) + "\"" + known(names)));
            }
        }

        private void readCircuit(String name, String pointer) {
            if (map == null) {
                return;
            }
            Set<String> cuts = cutsAsSent(document);
            String circuit = name;
            boolean end = false;
            for (String suffix : List.of(UNIT, HARNESS)) {
                if (name.endsWith(suffix)) {
                    circuit = name.substring(0, name.length() - suffix.length());
                    end = true;
                }
            }
            if (findCircuit(map, circuit) == null) {
                invalids.add(new Invalid(
                        pointer, "unknown-terminal", "the map has no circuit \"" + shortened(circuit) + "\""));
            } else if (end && !cuts.contains(circuit)) {
                invalids.add(new Invalid(
                        pointer,
                        "not-cut",
                        "CAR." + name + " is an end of a cut circuit, and " + circuit + " is not among the cuts"));
            } else if (!end && cuts.contains(circuit)) {
                invalids.add(new Invalid(
                        pointer,
                        "cut",
                        "CAR." + name + " is cut, so it has the two ends CAR." + name + "/unit and CAR." + name
                                + "/harness"));
            }
        }

        private void readConnector(String connector, String pointer) {
            int dot = connector.indexOf('.');
            String part = dot < 0 ? connector : connector.substring(0, dot);
            String name = dot < 0 ? "" : connector.substring(dot + 1);
            if (part.equals(Names.VEHICLE)) {
                if (map != null && !hasConnector(map, name)) {
                    invalids.add(new Invalid(
                            pointer,
                            "unknown-connector",
                            "the map has no connector \"" + shortened(name) + "\""
                                    + known(connectorsOf(
                                            map.circuits().keySet(),
                                            map.connectors().keySet()))));
                }
            } else if (!document.parts().containsKey(part)) {
                invalids.add(new Invalid(
                        pointer,
                        "unknown-part",
                        "there is no part \"" + shortened(part) + "\""
                                + known(document.parts().keySet())));
            } else {
                Set<String> names = terminals.get(part);
                Device device = devices.get(part);
                if (names != null && device != null) {
                    Set<String> connectors =
                            connectorsOf(names, device.connectors().keySet());
                    if (!connectors.contains(name)) {
                        invalids.add(new Invalid(
                                pointer,
                                "unknown-connector",
                                part + " has no connector \"" + shortened(name) + "\"" + known(connectors)));
                    }
                }
            }
        }

        private void readSettings(String part, Map<String, String> values) {
            if (!document.parts().containsKey(part)) {
                invalids.add(new Invalid(
                        "/settings/" + escape(part),
                        "unknown-part",
                        "there is no part \"" + shortened(part) + "\""
                                + known(document.parts().keySet())));
                return;
            }
            Device device = devices.get(part);
            if (device == null) {
                return;
            }
            values.forEach((name, value) -> {
                Device.Setting setting = device.settings().get(name);
                String pointer = "/settings/" + escape(part) + "/" + escape(name);
                if (setting == null) {
                    invalids.add(new Invalid(
                            pointer,
                            "unknown-setting",
                            part + " has no setting \"" + shortened(name) + "\""
                                    + known(device.settings().keySet())));
                } else if (!setting.choices().isEmpty() && !setting.choices().containsKey(value)) {
                    invalids.add(new Invalid(
                            pointer,
                            "unknown-choice",
                            "\"" + shortened(value) + "\" is no choice of " + part + "." + name
                                    + known(setting.choices().keySet())));
                }
            });
        }

        private static boolean hasConnector(FunctionMap map, String connector) {
            return connectorsOf(map.circuits().keySet(), map.connectors().keySet())
                    .contains(connector);
        }

        private static Set<String> connectorsOf(Set<String> names, Set<String> declared) {
            Set<String> connectors = new TreeSet<>(declared);
            for (String name : names) {
                String connector = Names.connectorOf(name);
                if (!connector.isEmpty() && !Vehicle.ALWAYS_THERE.containsKey(name)) {
                    connectors.add(connector);
                }
            }
            return connectors;
        }

        private static String known(Set<String> names) {
            if (names.isEmpty()) {
                return "; there are none at all";
            }
            List<String> sorted = names.stream().sorted().limit(12).toList();
            return "; known are " + String.join(", ", sorted) + (names.size() > 12 ? ", …" : "");
        }

        private static String shortened(String text) {
            return text.length() > 60 ? text.substring(0, 60) + "…" : text;
        }

        private static String escape(String key) {
            return key.replace("~", "~0").replace("/", "~1");
        }
    }
}
