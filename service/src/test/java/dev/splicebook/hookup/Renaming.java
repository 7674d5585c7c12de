package dev.splicebook.hookup;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Gives every part, connector, pin, terminal, connection and code another name, and shuffles what has no order. */
public final class Renaming {

    private static final String LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

    private final Random random;
    private final Map<String, String> names = new HashMap<>();
    private final Set<String> taken = new HashSet<>(Set.of("CAR", "battery", "plus", "minus", "chassis"));

    public Renaming(long seed) {
        random = new Random(seed);
    }

    public Hookup apply(Hookup hookup) {
        HookupDocument document = hookup.document();
        Map<String, Device> devices = map(hookup.devices(), this::part, this::device);
        Map<String, HookupDocument.PartUse> parts = new LinkedHashMap<>();
        for (String ref : shuffled(document.parts().keySet())) {
            HookupDocument.PartUse use = document.parts().get(ref);
            Device device = devices.get(part(ref));
            parts.put(
                    part(ref),
                    new HookupDocument.PartUse(
                            use == null || use.revision() == null ? null : use.device(),
                            use == null ? null : use.revision(),
                            use == null || use.revision() == null ? device : null,
                            use == null ? null : use.mode()));
        }
        HookupDocument.VehicleUse vehicle = document.vehicle();
        FunctionMap map = functionMap(hookup.map());
        HookupDocument renamed = new HookupDocument(
                vehicle == null
                        ? null
                        : new HookupDocument.VehicleUse(
                                null,
                                null,
                                map,
                                set(vehicle.unplugged(), name -> connector("CAR", name)),
                                set(vehicle.cuts(), this::circuit)),
                parts,
                map(document.connections(), this::connection, this::connection),
                shuffledList(document.plugs(), plug -> shuffledList(plug, this::plugEnd)),
                map(document.unused(), this::terminal, unused -> unused),
                map(document.settings(), this::part, values -> map(values, name -> name, value -> value)),
                shuffledList(document.wishes(), wish -> wish));
        Map<String, Integer> latest = new TreeMap<>();
        hookup.latest().parts().forEach((ref, revision) -> latest.put(part(ref), revision));
        return Hookup.resolve(renamed, map, devices, List.of())
                .with(new LatestRevisions(hookup.latest().vehicle(), latest));
    }

    String connection(String ref) {
        return fresh("connection " + ref);
    }

    String part(String ref) {
        return ref.equals("CAR") ? ref : fresh("part " + ref);
    }

    /** The new name of a terminal like {@code HU.memory} or {@code CAR.C2-4/unit}. */
    String terminal(String terminal) {
        int dot = terminal.indexOf('.');
        if (dot < 0) {
            return part(terminal);
        }
        String owner = terminal.substring(0, dot);
        String name = terminal.substring(dot + 1);
        if (!owner.equals("CAR")) {
            return part(owner) + "." + inside(owner, name);
        }
        int slash = name.indexOf('/');
        return "CAR." + (slash < 0 ? circuit(name) : circuit(name.substring(0, slash)) + name.substring(slash));
    }

    private String plugEnd(String end) {
        int dot = end.indexOf('.');
        String owner = end.substring(0, dot);
        return part(owner) + "." + connector(owner, end.substring(dot + 1));
    }

    private String circuit(String name) {
        return Vehicle.ALWAYS_THERE.containsKey(name) ? name : inside("CAR", name);
    }

    private String inside(String owner, String name) {
        String connector = Names.connectorOf(name);
        return connector.isEmpty()
                ? fresh("terminal " + owner + " " + name)
                : connector(owner, connector) + "-" + fresh("pin " + Names.pinOf(name));
    }

    private String connector(String owner, String name) {
        return fresh("connector " + owner + " " + name);
    }

    private String fresh(String of) {
        return names.computeIfAbsent(of, key -> {
            while (true) {
                StringBuilder name = new StringBuilder();
                for (int at = 0; at < 6; at++) {
                    name.append(LETTERS.charAt(random.nextInt(LETTERS.length())));
                }
                if (taken.add(name.toString())) {
                    return name.toString();
                }
            }
        });
    }

    private Connection connection(Connection connection) {
        return new Connection(
                shuffledList(connection.ends(), this::terminal),
                connection.conductor(),
                connection.length(),
                connection.fuse());
    }

    private FunctionMap functionMap(FunctionMap map) {
        return new FunctionMap(
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
                map(map.connectors(), name -> connector("CAR", name), Renaming::withoutFace),
                map(map.circuits(), this::circuit, circuit -> circuit),
                map.notes());
    }

    private Device device(String part, Device device) {
        Function<String, String> name = inner -> inside(part, inner);
        return new Device(
                device.code() == null ? null : fresh("code " + device.code()),
                device.maker(),
                device.name(),
                device.kind(),
                map(device.terminals(), name, terminal -> terminal(part, terminal)),
                shuffledList(device.conducts(), group -> shuffledList(group, name)),
                shuffledList(device.couples(), couple -> couple(couple, name)),
                shuffledList(
                        device.relays(),
                        relay -> new Device.Relay(
                                shuffledList(relay.coil(), name),
                                relay.coilOhms(),
                                relay.coilVolts(),
                                name.apply(relay.common()),
                                maybe(relay.open(), name),
                                maybe(relay.closed(), name),
                                relay.contactAmps(),
                                relay.clamped())),
                shuffledList(
                        device.fuses(), fuse -> new Device.Fuse(shuffledList(fuse.between(), name), fuse.ratingAmps())),
                shuffledList(
                        device.diodes(),
                        diode ->
                                new Device.Diode(name.apply(diode.anode()), name.apply(diode.cathode()), diode.amps())),
                shuffledList(
                        device.resistors(),
                        resistor -> new Device.Resistor(
                                shuffledList(resistor.between(), name), resistor.ohms(), resistor.watts())),
                device.settings(),
                map(
                        device.modes(),
                        mode -> mode,
                        mode -> new Device.Mode(
                                mode.what(),
                                map(mode.terminals(), name, terminal -> terminal(part, terminal)),
                                shuffledList(mode.couples(), couple -> couple(couple, name)))),
                map(device.connectors(), connector -> connector(part, connector), Renaming::withoutFace),
                device.chassis(),
                device.accessories(),
                device.notes());
    }

    private static Device.Couple couple(Device.Couple couple, Function<String, String> name) {
        return new Device.Couple(
                couple.from().stream().map(name).toList(),
                couple.to().stream().map(name).toList(),
                couple.gain(),
                couple.inputOhms(),
                couple.maxVolts());
    }

    /** Its face and pin count name pins by their numbers, which are names here. */
    private static Connector withoutFace(Connector connector) {
        return new Connector(
                connector.name(),
                connector.colour(),
                null,
                connector.location(),
                connector.access(),
                null,
                connector.mates());
    }

    private Device.Terminal terminal(String part, Device.Terminal terminal) {
        Electrical facts = terminal.electrical();
        if (facts instanceof Electrical.ControlOut out && out.follows() != null) {
            facts = new Electrical.ControlOut(
                    out.active(), out.maxAmps(), out.live(), out.when(), inside(part, out.follows()));
        }
        return new Device.Terminal(terminal.function(), terminal.colour(), facts, terminal.note());
    }

    private static @Nullable String maybe(@Nullable String name, Function<String, String> rename) {
        return name == null ? null : rename.apply(name);
    }

    private <T> Map<String, T> map(Map<String, T> map, Function<String, String> key, Function<T, T> value) {
        return map(map, key, (ignored, entry) -> value.apply(entry));
    }

    private <T> Map<String, T> map(
            Map<String, T> map, Function<String, String> key, java.util.function.BiFunction<String, T, T> value) {
        Map<String, T> renamed = new LinkedHashMap<>();
        List<Map.Entry<String, T>> entries = new ArrayList<>(map.entrySet());
        Collections.shuffle(entries, random);
        entries.forEach(entry -> renamed.put(key.apply(entry.getKey()), value.apply(entry.getKey(), entry.getValue())));
        return renamed;
    }

    private Set<String> set(Set<String> set, Function<String, String> rename) {
        return shuffled(set).stream().map(rename).collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private <T> List<T> shuffledList(List<T> list, Function<T, T> rename) {
        return shuffled(list).stream().map(rename).toList();
    }

    private <T> List<T> shuffled(Collection<T> all) {
        List<T> shuffled = new ArrayList<>(all);
        Collections.shuffle(shuffled, random);
        return shuffled;
    }
}
