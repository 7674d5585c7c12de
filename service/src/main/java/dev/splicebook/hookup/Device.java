package dev.splicebook.hookup;

import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.guard.Guard;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A product with its terminals and what is inside it. A name used inside and not declared is a passive terminal.
 *
 * @param code unique within its owner; needed in the catalogue, not inline
 * @param kind of product, like {@code amplifier}
 * @param terminals by name
 * @param conducts groups of two or more terminals that are one conductor
 * @param couples isolating couplings
 * @param settings by name
 * @param modes by name; a mode replaces the facts of some terminals
 * @param connectors by name; a terminal {@code C1-7} is pin 7 of connector {@code C1}
 * @param chassis of a device that goes into a panel
 * @param accessories that fit it
 */
public record Device(
        @Nullable String code,
        @Nullable String maker,
        @Nullable String name,
        @Nullable String kind,
        Map<String, Terminal> terminals,
        List<List<String>> conducts,
        List<Couple> couples,
        List<Relay> relays,
        List<Fuse> fuses,
        List<Diode> diodes,
        List<Resistor> resistors,
        Map<String, Setting> settings,
        Map<String, Mode> modes,
        Map<String, Connector> connectors,
        @Nullable PanelSize chassis,
        List<Accessory> accessories,
        @Nullable String notes) {

    private static final int MOST_TERMINALS = 1000;

    /** A terminal of a device. */
    public record Terminal(
            @Nullable FunctionId function,
            @Nullable Colour colour,
            @Nullable Electrical electrical,
            @Nullable String note) {
        public Terminal {
            new Guard().text("note", note, 2000).check();
        }
    }

    /**
     * Passes a signal without joining conductors.
     *
     * @param from its side of the source: plus or signal, then minus or return
     * @param to its side of the sink, in the same order
     * @param gain volts out for a volt in, not 0; below 0 it turns the polarity round; absent for 1
     * @param inputOhms above 0
     * @param maxVolts rms taken at most, above 0
     */
    public record Couple(
            List<String> from,
            List<String> to,
            @Nullable Double gain,
            @Nullable Double inputOhms,
            @Nullable Double maxVolts) {
        public Couple {
            pair(new Guard(), "from", from);
            pair(new Guard(), "to", to);
            new Guard()
                    .between("gain", gain, -10_000, 10_000)
                    .refuseIf(
                            gain != null && gain == 0, "gain", "out-of-range", () -> "gain is 0, so nothing would pass")
                    .positive("inputOhms", inputOhms, Electrical.MOST_OHMS)
                    .positive("maxVolts", maxVolts, Electrical.MOST_VOLTS)
                    .check();
        }
    }

    /**
     * A relay by the usual numbers.
     *
     * @param coil its two ends
     * @param coilOhms above 0
     * @param coilVolts what the coil is made for, above 0; absent where it is the usual 12 V or unknown
     * @param common closed on {@code closed} while released, on {@code open} while energised
     * @param contactAmps above 0
     * @param clamped whether a suppressor across the coil is built in that is not listed under diodes or resistors; absent
     *     for none
     */
    public record Relay(
            List<String> coil,
            @Nullable Double coilOhms,
            @Nullable Double coilVolts,
            String common,
            @Nullable String open,
            @Nullable String closed,
            @Nullable Double contactAmps,
            @Nullable Boolean clamped) {
        public Relay {
            pair(new Guard(), "coil", coil);
            new Guard()
                    .refuseIf(
                            open == null && closed == null,
                            "open",
                            "required",
                            () -> "a relay needs an open or a closed contact")
                    .refuseIf(
                            common.equals(open) || common.equals(closed) || (open != null && open.equals(closed)),
                            "common",
                            "inconsistent",
                            () -> "a relay's common, open and closed contacts are different terminals")
                    .positive("coilOhms", coilOhms, Electrical.MOST_OHMS)
                    .positive("coilVolts", coilVolts, Electrical.MOST_VOLTS)
                    .positive("contactAmps", contactAmps, Electrical.MOST_AMPS)
                    .check();
        }
    }

    /** A fuse inside a device; {@code ratingAmps} above 0. */
    public record Fuse(List<String> between, double ratingAmps) {
        public Fuse {
            pair(new Guard().positive("ratingAmps", ratingAmps, Electrical.MOST_AMPS), "between", between);
        }
    }

    /** A diode; {@code amps} above 0. */
    public record Diode(
            String anode, String cathode, @Nullable Double amps) {
        public Diode {
            new Guard()
                    .refuseIf(
                            anode.equals(cathode),
                            "cathode",
                            "inconsistent",
                            () -> "anode and cathode are both " + anode)
                    .positive("amps", amps, Electrical.MOST_AMPS)
                    .check();
        }
    }

    /** A resistor; {@code ohms} and {@code watts} above 0. */
    public record Resistor(
            List<String> between, double ohms, @Nullable Double watts) {
        public Resistor {
            pair(
                    new Guard()
                            .positive("ohms", ohms, Electrical.MOST_OHMS)
                            .positive("watts", watts, Electrical.MOST_WATTS),
                    "between",
                    between);
        }
    }

    /** Something to set before the device works; {@code choices} maps a value to what it means, empty for any value. */
    public record Setting(
            Map<String, String> choices,
            @Nullable Boolean required,
            @Nullable String what) {
        public Setting {
            choices = Collections.unmodifiableMap(new LinkedHashMap<>(choices));
            new Guard().text("what", what, 1000).check();
        }
    }

    /**
     * A way to use the device.
     *
     * @param terminals in place of those of the same name
     * @param couples in place of all that the device has, as where two outputs are bridged and the minus of one goes with the
     *     plus of the other; empty where the device's hold
     */
    public record Mode(@Nullable String what, Map<String, Terminal> terminals, List<Couple> couples) {
        public Mode {
            new Guard().text("what", what, 1000).check();
        }
    }

    /** A device that goes with this one, by its code, and what for. */
    public record Accessory(String device, @Nullable String why) {
        public Accessory {
            new Guard()
                    .matches("device", device, Names.NAME, Names.FORM)
                    .text("why", why, 500)
                    .check();
        }
    }

    public Device {
        Guard guard = new Guard()
                .matches("code", code, Names.NAME, Names.FORM)
                .text("maker", maker, 100)
                .text("name", name, 200)
                .matches("kind", kind, Names.NAME, Names.FORM)
                .text("notes", notes, 10_000);
        nameKeys(guard, "terminals", terminals.keySet());
        nameKeys(guard, "settings", settings.keySet());
        nameKeys(guard, "modes", modes.keySet());
        nameKeys(guard, "connectors", connectors.keySet());
        guard.atMost("accessories", accessories, 200);
        Connector.guardPins(guard, "terminals", terminals.keySet(), connectors);
        for (int group = 0; group < conducts.size(); group++) {
            List<String> members = conducts.get(group);
            int at = group;
            guard.refuseIf(
                    members.size() < 2 || Set.copyOf(members).size() != members.size(),
                    "conducts/" + at,
                    "bad-group",
                    () -> "a conducting group needs two or more different terminals, and has " + members);
        }
        Set<String> inside = insideNames(conducts, couples, relays, fuses, diodes, resistors);
        for (String used : inside) {
            guard.matches("", used, Names.NAME, Names.FORM);
        }
        terminals.forEach((terminal, facts) -> {
            if (facts.electrical() instanceof Electrical.ControlOut out && out.follows() != null) {
                guard.refuseIf(
                        !terminals.containsKey(out.follows()) && !inside.contains(out.follows()),
                        "terminals/" + terminal + "/electrical/follows",
                        "unknown-terminal",
                        () -> "follows names " + out.follows() + ", and the device has no such terminal");
            }
        });
        modes.forEach((mode, facts) -> facts.terminals()
                .keySet()
                .forEach(terminal -> guard.refuseIf(
                        !terminals.containsKey(terminal),
                        "modes/" + mode + "/terminals/" + terminal,
                        "unknown-terminal",
                        () -> "the mode " + mode + " changes " + terminal + ", which the device does not declare")));
        modes.forEach((mode, facts) -> {
            for (int couple = 0; couple < facts.couples().size(); couple++) {
                String at = "modes/" + mode + "/couples/" + couple;
                Stream.concat(facts.couples().get(couple).from().stream(), facts.couples().get(couple).to().stream())
                        .forEach(terminal -> guard.refuseIf(
                                !terminals.containsKey(terminal) && !inside.contains(terminal),
                                at,
                                "unknown-terminal",
                                () -> "the mode " + mode + " couples " + terminal
                                        + ", which the device does not have"));
            }
        });
        guard.refuseIf(
                terminals.size() + inside.size() > MOST_TERMINALS,
                "terminals",
                "too-many",
                () -> "a device has at most " + MOST_TERMINALS + " terminals");
        guard.check();
    }

    /**
     * Every terminal by name, those only used inside among them. One that states no facts and is joined to something
     * inside is passive: what it does is what the inside does.
     */
    public Map<String, Terminal> allTerminals() {
        Map<String, Terminal> all = new LinkedHashMap<>(terminals);
        for (String name : insideNames(conducts, couples, relays, fuses, diodes, resistors)) {
            Terminal declared = all.get(name);
            if (declared == null) {
                all.put(name, new Terminal(null, null, new Electrical.Passive(), null));
            } else if (declared.electrical() == null) {
                all.put(
                        name,
                        new Terminal(
                                declared.function(), declared.colour(), new Electrical.Passive(), declared.note()));
            }
        }
        return all;
    }

    private static Set<String> insideNames(
            List<List<String>> conducts,
            List<Couple> couples,
            List<Relay> relays,
            List<Fuse> fuses,
            List<Diode> diodes,
            List<Resistor> resistors) {
        Set<String> names = new LinkedHashSet<>();
        conducts.forEach(names::addAll);
        couples.forEach(couple -> {
            names.addAll(couple.from());
            names.addAll(couple.to());
        });
        relays.forEach(relay -> {
            names.addAll(relay.coil());
            names.add(relay.common());
            if (relay.open() != null) {
                names.add(relay.open());
            }
            if (relay.closed() != null) {
                names.add(relay.closed());
            }
        });
        fuses.forEach(fuse -> names.addAll(fuse.between()));
        diodes.forEach(diode -> {
            names.add(diode.anode());
            names.add(diode.cathode());
        });
        resistors.forEach(resistor -> names.addAll(resistor.between()));
        return names;
    }

    private static void nameKeys(Guard guard, String field, Set<String> keys) {
        keys.forEach(key -> guard.refuseIf(
                !Names.NAME.matcher(key).matches(),
                field + "/" + key.replace("~", "~0").replace("/", "~1"),
                "bad-form",
                () -> "\"" + key + "\" is not " + Names.FORM));
    }

    private static void pair(Guard guard, String field, List<String> ends) {
        guard.refuseIf(
                        ends.size() != 2 || ends.get(0).equals(ends.get(1)),
                        field,
                        "bad-pair",
                        () -> field + " names two different terminals, and has " + ends)
                .check();
    }
}
