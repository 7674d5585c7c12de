package dev.splicebook.hookup;

import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.function.FunctionId;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * A reading of a hookup that owes nothing to the rules nor to what they stand on: its own joining of conductors, its own
 * relays and diodes in every state, its own solution of loudspeakers and of feeds, from the facts alone. Slow and plain.
 * It says what goes wrong electrically, so that a test can tell whether a breakage matters. What is unknown counts as
 * harmless.
 */
final class Oracle {

    /** What can go wrong. */
    enum Kind {
        SHORTED,
        RESTLESS,
        TIED,
        BACK_FED,
        UNFED,
        STAYS_ON,
        UNGROUNDED,
        CONTROL,
        SILENT,
        /** A coil that is wired and gets nothing. */
        IDLE,
        HALF,
        REVERSED,
        REVERSED_PICTURE,
        SWAPPED,
        TOO_LOUD,
        TOO_FAINT,
        BELOW_RATING,
        MUTED,
        OVERPOWERED,
        GROUNDED,
        RETURNS,
        BUS,
        EXPOSED,
        FUSE_OPENS,
        OVERHEATED,
        OVERLOADED,
        COMPONENT,
        DROP,
        UNDERVOLTAGE,
        OVERVOLTAGE,
        UNACCOUNTED;

        /** False for what is a matter of keeping books. */
        boolean isElectrical() {
            return this != UNACCOUNTED;
        }
    }

    /** One thing that goes wrong, and where. */
    record Fault(Kind kind, String place) {}

    /** 33 CFR 183.425 table 5, 105 °C and 60 °C columns, by AWG. */
    private static final Map<String, double[]> TABLE_AMPS = Map.ofEntries(
            Map.entry("18", new double[] {20, 10}),
            Map.entry("16", new double[] {25, 15}),
            Map.entry("14", new double[] {35, 20}),
            Map.entry("12", new double[] {45, 25}),
            Map.entry("10", new double[] {60, 40}),
            Map.entry("8", new double[] {80, 55}),
            Map.entry("6", new double[] {120, 80}),
            Map.entry("4", new double[] {160, 105}),
            Map.entry("2", new double[] {210, 140}),
            Map.entry("1/0", new double[] {285, 195}));

    /** A drop that no installer would leave, whatever share of the volts a shop allows. */
    private static final double PLAIN_DROP_SHARE = 0.1;

    private static final double RUNNING_VOLTS = 14.2;
    private static final double RESTARTING_VOLTS = 9.5;
    private static final double MOST_BATTERY_VOLTS = 16;
    private static final double UNFUSED_AMPS = 1e9;

    private final Hookup hookup;
    private final Map<String, Electrical> facts = new TreeMap<>();
    private final Map<String, FunctionId> functions = new HashMap<>();
    private final List<String> names = new ArrayList<>();
    private final Map<String, Integer> indexOf = new HashMap<>();
    private final List<int[]> solid = new ArrayList<>();
    private final List<Contact> contacts = new ArrayList<>();
    private final List<int[]> coils = new ArrayList<>();
    private final List<Double> coilOhms = new ArrayList<>();
    private final List<Ratings> diodes = new ArrayList<>();
    private final List<Ratings> resistors = new ArrayList<>();
    private final Map<String, List<String>> loadsOf = new TreeMap<>();
    private final Map<String, List<String>> groundsOf = new TreeMap<>();
    private final Set<String> connected = new HashSet<>();
    private final Set<Fault> faults = new LinkedHashSet<>();

    private record Contact(
            int from,
            int to,
            boolean open,
            int relay,
            @Nullable Double amps) {}

    /** A diode from anode to cathode with its amps, or a resistor with its ohms. */
    private record Ratings(
            int from, int to, double value, @Nullable Double most) {}

    /** A state with no condition, one, or all at once. */
    private record Moment(State state, Set<Condition> conditions) {}

    /** How all stands in one moment, once relays are at rest. */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Rest(
            Moment moment, int[] root, BitSet live, BitSet plus, BitSet ground, BitSet energised, boolean restless) {
        boolean isPlus(int terminal) {
            return plus.get(root[terminal]);
        }

        boolean isGround(int terminal) {
            return ground.get(root[terminal]);
        }
    }

    /** The two sides of an audio or video terminal pair, the positive first. */
    private record Pair(String plus, String minus) {}

    /** What arrives: the channel it was made for, its polarity and its volts. */
    private record Arrival(@Nullable Channel channel, int sign, double volts) {}

    private Oracle(Hookup hookup) {
        this.hookup = hookup;
    }

    /** All that goes wrong. How a control input behaves is told for each, so that a change of it shows. */
    static Set<Fault> faults(Hookup hookup) {
        Oracle oracle = new Oracle(hookup);
        oracle.read();
        oracle.judge();
        return oracle.faults;
    }

    /** Allowable amperes at 30 °C; below 18 AWG by area. */
    static double ampacity(Connection.Conductor conductor) {
        String size = conductor.size().value().replace(" AWG", "");
        boolean warm = conductor.insulationCelsius() == null || conductor.insulationCelsius() >= 105;
        double[] row = TABLE_AMPS.get(size);
        double share = Math.sqrt(conductivity(conductor));
        return share * (row != null ? row[warm ? 0 : 1] : (warm ? 20 : 10) * areaMm2(conductor) / 0.823);
    }

    /** By the law of the gauge (ASTM B258). */
    private static double areaMm2(Connection.Conductor conductor) {
        String size = conductor.size().value();
        if (size.endsWith("mm2")) {
            return Double.parseDouble(size.replace(" mm2", ""));
        }
        String gauge = size.replace(" AWG", "");
        int number = gauge.endsWith("/0") ? 1 - Integer.parseInt(gauge.replace("/0", "")) : Integer.parseInt(gauge);
        return Math.PI / 4 * Math.pow(0.127 * Math.pow(92, (36 - number) / 39.0), 2);
    }

    /** Against copper: copper-clad aluminium after ASTM B566, from memory. */
    private static double conductivity(Connection.Conductor conductor) {
        return conductor.material() == ConductorMaterial.CCA_10
                ? 0.629
                : conductor.material() == ConductorMaterial.CCA_15 ? 0.644 : 1;
    }

    private static @Nullable Double ohms(Connection connection) {
        if (connection.conductor() == null || connection.length() == null) {
            return null;
        }
        return 0.017241
                * connection.length().metres()
                / areaMm2(connection.conductor())
                / conductivity(connection.conductor());
    }

    // ---- reading

    private void read() {
        hookup.map().circuits().forEach((name, circuit) -> {
            if (!hookup.cuts().contains(name)) {
                add("CAR." + name, circuit.factsWhen(!isOff(name)), circuit.function());
            }
        });
        hookup.cuts().forEach(cut -> {
            Circuit circuit = hookup.map().circuits().get(cut);
            if (circuit != null) {
                add("CAR." + cut + "/unit", null, circuit.function());
                add("CAR." + cut + "/harness", circuit.factsWhen(false), circuit.function());
            }
        });
        Vehicle.ALWAYS_THERE.forEach((name, circuit) -> {
            if (facts.get("CAR." + name) == null) {
                add("CAR." + name, circuit.electrical(), null);
            }
        });
        hookup.devices()
                .keySet()
                .forEach(part -> hookup.terminalsOf(part)
                        .forEach((name, terminal) ->
                                add(part + "." + name, terminal.electrical(), terminal.function())));
        hookup.document().connections().values().forEach(connection -> {
            joinEnds(connection.ends().get(0), connection.ends().get(1));
            connected.addAll(connection.ends());
        });
        hookup.document()
                .plugs()
                .forEach(plug -> List.copyOf(names).forEach(one -> {
                    if (one.startsWith(plug.get(0) + "-")) {
                        String other = plug.get(1) + one.substring(plug.get(0).length());
                        if (indexOf.containsKey(other)) {
                            joinEnds(one, other);
                            connected.add(one);
                            connected.add(other);
                        }
                    }
                }));
        hookup.devices().forEach(this::readInside);
        facts.forEach((name, known) -> {
            if (isVehicle(name) || hookup.document().unused().containsKey(name)) {
                return;
            }
            if (known instanceof Electrical.Load) {
                loadsOf.computeIfAbsent(owner(name), key -> new ArrayList<>()).add(name);
            }
            if (known instanceof Electrical.Ground) {
                groundsOf.computeIfAbsent(owner(name), key -> new ArrayList<>()).add(name);
            }
        });
    }

    private void readInside(String part, Device device) {
        device.conducts()
                .forEach(group -> group.forEach(name -> joinEnds(part + "." + group.get(0), part + "." + name)));
        device.fuses()
                .forEach(fuse -> joinEnds(
                        part + "." + fuse.between().get(0),
                        part + "." + fuse.between().get(1)));
        device.diodes()
                .forEach(diode -> diodes.add(new Ratings(
                        at(part + "." + diode.anode()), at(part + "." + diode.cathode()), 0, diode.amps())));
        device.resistors()
                .forEach(resistor -> resistors.add(new Ratings(
                        at(part + "." + resistor.between().get(0)),
                        at(part + "." + resistor.between().get(1)),
                        resistor.ohms(),
                        resistor.watts())));
        device.relays().forEach(relay -> {
            int number = coils.size();
            coils.add(new int[] {
                at(part + "." + relay.coil().get(0)),
                at(part + "." + relay.coil().get(1))
            });
            coilOhms.add(relay.coilOhms() == null ? 0.0 : relay.coilOhms());
            int common = at(part + "." + relay.common());
            if (relay.open() != null) {
                contacts.add(new Contact(common, at(part + "." + relay.open()), true, number, relay.contactAmps()));
            }
            if (relay.closed() != null) {
                contacts.add(new Contact(common, at(part + "." + relay.closed()), false, number, relay.contactAmps()));
            }
        });
    }

    private boolean isOff(String circuit) {
        return hookup.unplugged().contains(Names.connectorOf(circuit));
    }

    private void add(String name, @Nullable Electrical known, @Nullable FunctionId function) {
        indexOf.computeIfAbsent(name, key -> {
            names.add(key);
            return names.size() - 1;
        });
        if (known != null) {
            facts.put(name, known);
        }
        if (function != null) {
            functions.put(name, function);
        }
    }

    private void joinEnds(String one, String other) {
        if (!one.equals(other)) {
            solid.add(new int[] {at(one), at(other)});
        }
    }

    private int at(String name) {
        Integer index = indexOf.get(name);
        if (index == null) {
            throw new IllegalArgumentException(name);
        }
        return index;
    }

    private static String owner(String name) {
        return name.substring(0, name.indexOf('.'));
    }

    private static boolean isVehicle(String name) {
        return name.startsWith("CAR.");
    }

    private boolean isReference(String name) {
        return isVehicle(name) && facts.get(name) instanceof Electrical.Ground;
    }

    private static boolean givesTwelveVolts(@Nullable Electrical known) {
        return known instanceof Electrical.Supply
                || (known instanceof Electrical.ControlOut out && out.active() == Active.TWELVE_VOLTS);
    }

    // ---- moments

    private List<Moment> moments() {
        Set<Condition> conditions = EnumSet.noneOf(Condition.class);
        facts.values().forEach(known -> {
            if (known instanceof Electrical.Supply supply) {
                conditions.addAll(supply.when());
            } else if (known instanceof Electrical.ControlOut out) {
                conditions.addAll(out.when());
            }
        });
        List<Moment> moments = new ArrayList<>();
        for (State state : State.values()) {
            moments.add(new Moment(state, Set.of()));
            conditions.forEach(condition -> moments.add(new Moment(state, Set.of(condition))));
            if (conditions.size() > 1) {
                moments.add(new Moment(state, conditions));
            }
        }
        return moments;
    }

    private int[] roots(BitSet energised, boolean withContacts) {
        int[] parents = new int[names.size()];
        Arrays.setAll(parents, index -> index);
        solid.forEach(edge -> join(parents, edge[0], edge[1]));
        if (withContacts) {
            contacts.forEach(contact -> {
                if (energised.get(contact.relay()) == contact.open()) {
                    join(parents, contact.from(), contact.to());
                }
            });
        }
        int[] root = new int[parents.length];
        Arrays.setAll(root, index -> find(parents, index));
        return root;
    }

    private static void join(int[] parents, int one, int other) {
        parents[find(parents, one)] = find(parents, other);
    }

    private static int find(int[] parents, int at) {
        int root = at;
        while (parents[root] != root) {
            root = parents[root];
        }
        return root;
    }

    private Rest rest(Moment moment) {
        BitSet energised = new BitSet();
        BitSet live = new BitSet();
        Set<List<BitSet>> seen = new HashSet<>();
        while (true) {
            int[] root = roots(energised, true);
            BitSet plus = spread(root, live, true);
            BitSet ground = spread(root, live, false);
            BitSet nextLive = new BitSet();
            facts.forEach((name, known) -> {
                if (isLive(name, known, moment, root, plus, ground)) {
                    nextLive.set(at(name));
                }
            });
            BitSet nextEnergised = new BitSet();
            for (int coil = 0; coil < coils.size(); coil++) {
                int one = root[coils.get(coil)[0]];
                int other = root[coils.get(coil)[1]];
                nextEnergised.set(
                        coil,
                        one != other && ((plus.get(one) && ground.get(other)) || (plus.get(other) && ground.get(one))));
            }
            boolean settled = nextLive.equals(live) && nextEnergised.equals(energised);
            boolean circling =
                    !settled && !seen.add(List.of((BitSet) nextLive.clone(), (BitSet) nextEnergised.clone()));
            if (settled || circling) {
                return new Rest(moment, root, live, plus, ground, energised, circling);
            }
            live.clear();
            live.or(nextLive);
            energised = nextEnergised;
        }
    }

    /** The nets that live 12 V reaches forward through diodes, or from which current finds ground. */
    private BitSet spread(int[] root, BitSet live, boolean plus) {
        BitSet reached = new BitSet();
        facts.forEach((name, known) -> {
            boolean starts = plus
                    ? live.get(at(name)) && givesTwelveVolts(known)
                    : isReference(name)
                            || (live.get(at(name))
                                    && known instanceof Electrical.ControlOut out
                                    && out.active() == Active.GROUND);
            if (starts) {
                reached.set(root[at(name)]);
            }
        });
        for (boolean grown = true; grown; ) {
            grown = false;
            for (Ratings diode : diodes) {
                int from = root[plus ? diode.from() : diode.to()];
                int to = root[plus ? diode.to() : diode.from()];
                if (reached.get(from) && !reached.get(to)) {
                    reached.set(to);
                    grown = true;
                }
            }
        }
        return reached;
    }

    private boolean isLive(String name, Electrical known, Moment moment, int[] root, BitSet plus, BitSet ground) {
        List<State> states;
        List<Condition> when;
        if (known instanceof Electrical.Supply supply) {
            states = supply.live();
            when = supply.when();
        } else if (known instanceof Electrical.ControlOut out) {
            states = out.live();
            when = out.when();
        } else {
            return false;
        }
        boolean allowed = (states == null || states.contains(moment.state()))
                && (when.isEmpty() || when.stream().anyMatch(moment.conditions()::contains));
        boolean fed = isVehicle(name) || isFed(owner(name), root, plus, ground);
        boolean follows = !(known instanceof Electrical.ControlOut out)
                || out.follows() == null
                || plays(owner(name) + "." + out.follows(), moment, root, plus, ground);
        return allowed && fed && follows;
    }

    private boolean isFed(String part, int[] root, BitSet plus, BitSet ground) {
        List<String> grounds = groundsOf.getOrDefault(part, List.of());
        boolean grounded = grounds.isEmpty() || grounds.stream().anyMatch(name -> ground.get(root[at(name)]));
        return !loadsOf.containsKey(part)
                || (grounded
                        && loadsOf.getOrDefault(part, List.of()).stream().allMatch(name -> plus.get(root[at(name)])));
    }

    /** Whether an output that plays in the moment arrives at a terminal. */
    private boolean plays(String name, Moment moment, int[] root, BitSet plus, BitSet ground) {
        boolean awake = moment.state() != State.ASLEEP && moment.state() != State.CRANKING;
        return facts.entrySet().stream()
                .anyMatch(entry -> entry.getValue() instanceof Electrical.Audio audio
                        && audio.isOutput()
                        && root[at(entry.getKey())] == root[at(name)]
                        && (isVehicle(entry.getKey()) ? awake : isFed(owner(entry.getKey()), root, plus, ground)));
    }

    // ---- judging

    private void judge() {
        List<Rest> rests = moments().stream().map(this::rest).toList();
        rests.forEach(this::judgeNets);
        judgeFeeds(rests);
        judgeControls(rests);
        Rest running = rests.stream()
                .filter(rest -> rest.moment().equals(new Moment(State.RUNNING, Set.of())))
                .findFirst()
                .orElseThrow();
        judgeAudio(running.root());
        judgeData(running.root());
        judgeProtection();
        if (faults.stream().noneMatch(fault -> fault.kind() == Kind.SHORTED || fault.kind() == Kind.TIED)) {
            rests.forEach(rest -> {
                if (rest.moment().state() == State.RUNNING) {
                    judgeCurrents(rest, RUNNING_VOLTS);
                } else if (rest.moment().state() == State.RESTARTING) {
                    judgeCurrents(rest, RESTARTING_VOLTS);
                }
            });
        }
        hookup.devices()
                .forEach((part, device) -> device.terminals().keySet().forEach(name -> {
                    String terminal = part + "." + name;
                    if (!connected.contains(terminal)
                            && !hookup.document().unused().containsKey(terminal)
                            && hookup.document().plugs().stream()
                                    .noneMatch(plug -> plug.contains(part + "." + Names.connectorOf(name)))) {
                        tell(Kind.UNACCOUNTED, terminal);
                    }
                }));
    }

    private void tell(Kind kind, String place) {
        faults.add(new Fault(kind, place));
    }

    private void judgeNets(Rest rest) {
        if (rest.restless()) {
            tell(Kind.RESTLESS, "a relay");
        }
        int[] plain = roots(rest.energised(), false);
        Map<Integer, List<String>> drivers = new TreeMap<>();
        facts.forEach((name, known) -> {
            int net = rest.root()[at(name)];
            if (givesTwelveVolts(known)) {
                drivers.computeIfAbsent(net, key -> new ArrayList<>()).add(name);
                boolean own = rest.live().get(at(name));
                if (!own && known instanceof Electrical.Supply && rest.plus().get(net)) {
                    tell(Kind.BACK_FED, name);
                }
            } else if (isDriven(known)) {
                drivers.computeIfAbsent(net, key -> new ArrayList<>()).add(name);
            }
            if (isReference(name) && rest.plus().get(net)) {
                tell(Kind.SHORTED, "a supply");
            }
        });
        drivers.values().forEach(all -> {
            Set<String> sources = new TreeSet<>();
            all.forEach(name -> sources.add(sourceOf(name)));
            boolean batteries = all.stream().allMatch(this::isBattery)
                    && all.stream().map(name -> plain[at(name)]).distinct().count() == all.size()
                    && rest.moment().state() != State.ASLEEP;
            if (sources.size() > 1 && !batteries) {
                tell(Kind.TIED, String.join(" ", sources));
            }
        });
        for (String name : facts.keySet()) {
            if (facts.get(name) instanceof Electrical.ControlOut out
                    && out.active() == Active.GROUND
                    && rest.live().get(at(name))
                    && rest.isPlus(at(name))) {
                tell(Kind.SHORTED, name);
            }
        }
    }

    /** An output that may meet no other: it drives its net whatever else does. */
    private static boolean isDriven(Electrical known) {
        return (known instanceof Electrical.SpeakerOut out
                        && (out.side() == Side.PLUS || out.drive() == Drive.FLOATING))
                || (known instanceof Electrical.LineOut line && line.side() == Side.SIGNAL)
                || (known instanceof Electrical.VideoOut video && video.side() == Side.SIGNAL);
    }

    private String sourceOf(String name) {
        Circuit circuit = hookup.map().circuits().get(name.substring(name.indexOf('.') + 1));
        return isVehicle(name) && circuit != null && circuit.source() != null ? circuit.source() : name;
    }

    /** A supply that gives what is asked, in every state, with nothing that limits it. */
    private boolean isBattery(String name) {
        return facts.get(name) instanceof Electrical.Supply supply
                && supply.maxAmps() == null
                && supply.fuseAmps() == null
                && !Boolean.TRUE.equals(supply.limited())
                && supply.when().isEmpty()
                && supply.live() != null
                && supply.live().size() == State.values().length;
    }

    private void judgeFeeds(List<Rest> rests) {
        loadsOf.forEach((part, loads) -> {
            for (String name : loads) {
                Need need = ((Electrical.Load) known(name)).needs();
                boolean always = rests.stream()
                        .filter(rest -> rest.moment().conditions().isEmpty())
                        .allMatch(rest -> rest.isPlus(at(name)));
                boolean once = rests.stream()
                        .anyMatch(rest -> rest.moment().state() == State.RUNNING && rest.isPlus(at(name)));
                boolean asleep = rests.stream()
                        .anyMatch(rest ->
                                rest.moment().equals(new Moment(State.ASLEEP, Set.of())) && rest.isPlus(at(name)));
                if (!once || (need == Need.CONSTANT && !always)) {
                    tell(Kind.UNFED, name);
                }
                if (need == Need.SWITCHED && asleep) {
                    tell(Kind.STAYS_ON, name);
                }
            }
            boolean grounded = groundsOf.getOrDefault(part, List.of()).stream()
                    .anyMatch(name -> rests.stream()
                            .anyMatch(rest -> rest.moment().state() == State.RUNNING && rest.isGround(at(name))));
            if (groundsOf.containsKey(part) && !grounded) {
                tell(Kind.UNGROUNDED, part);
            }
        });
    }

    private Electrical known(String name) {
        Electrical known = facts.get(name);
        if (known == null) {
            throw new IllegalArgumentException(name);
        }
        return known;
    }

    /** When each control input is active, and by what kind of source, told as a fault that differs if that does. */
    private void judgeControls(List<Rest> rests) {
        facts.forEach((name, known) -> {
            if (!(known instanceof Electrical.ControlIn in)
                    || hookup.document().unused().containsKey(name)
                    || isVehicle(name)) {
                return;
            }
            List<String> active = new ArrayList<>();
            Set<String> by = new TreeSet<>();
            for (Rest rest : rests) {
                boolean on = in.active() == Active.TWELVE_VOLTS
                        ? rest.isPlus(at(name))
                        : in.active() == Active.GROUND
                                ? rest.isGround(at(name))
                                : facts.entrySet().stream()
                                        .anyMatch(entry -> entry.getValue() instanceof Electrical.ControlOut out
                                                && out.active() == in.active()
                                                && rest.live().get(at(entry.getKey()))
                                                && rest.root()[at(entry.getKey())] == rest.root()[at(name)]);
                if (on) {
                    active.add(rest.moment().toString());
                }
                facts.forEach((other, driver) -> {
                    boolean speaksOtherwise = driver instanceof Electrical.Data
                            || (driver instanceof Electrical.ControlOut out && out.active() != in.active());
                    if (speaksOtherwise && rest.root()[at(other)] == rest.root()[at(name)]) {
                        by.add(driver instanceof Electrical.ControlOut out ? String.valueOf(out.active()) : "data");
                    }
                });
            }
            tell(Kind.CONTROL, name + " " + active + by);
        });
    }

    // ---- sound and pictures

    private void judgeAudio(int[] root) {
        List<Pair> outputs = new ArrayList<>();
        facts.forEach((name, known) -> {
            if (isOutput(known) && isPositive(known)) {
                String minus = partner(name);
                if (minus != null) {
                    outputs.add(new Pair(name, minus));
                }
            }
        });
        outputs.forEach(output -> judgeOutput(output, outputs, root));
        Map<String, List<Pair>> drivenBy = new TreeMap<>();
        outputs.forEach(output -> judgeLoad(output, root, drivenBy));
        facts.forEach((name, known) -> {
            boolean takes = known instanceof Electrical.VideoIn
                    || (known instanceof Electrical.Audio audio && !audio.isOutput());
            boolean counts =
                    !hookup.document().unused().containsKey(name) && (!isVehicle(name) || connected.contains(name));
            if (takes && counts && isPositive(known)) {
                if (known instanceof Electrical.SpeakerIn in && in.ohms() != null) {
                    judgeLoudspeaker(name, in, drivenBy.getOrDefault(name, List.of()), outputs, root);
                } else {
                    judgeInput(name, known, outputs, root);
                }
            }
        });
    }

    private static boolean isOutput(Electrical known) {
        return known instanceof Electrical.VideoOut || (known instanceof Electrical.Audio audio && audio.isOutput());
    }

    private static boolean isPositive(Electrical known) {
        Side side = side(known);
        return side != null && side.isPositive();
    }

    private static @Nullable Side side(Electrical known) {
        return known instanceof Electrical.Audio audio
                ? audio.side()
                : known instanceof Electrical.VideoOut out
                        ? out.side()
                        : known instanceof Electrical.VideoIn in ? in.side() : null;
    }

    private static @Nullable Channel channel(Electrical known) {
        return known instanceof Electrical.Audio audio ? audio.channel() : null;
    }

    /** The negative side that belongs to a positive one: same kind and channel, the most alike in name. */
    private @Nullable String partner(String plus) {
        Electrical known = known(plus);
        String best = null;
        int bestLength = -1;
        for (Map.Entry<String, Electrical> entry : facts.entrySet()) {
            Electrical other = entry.getValue();
            boolean fits = owner(entry.getKey()).equals(owner(plus))
                    && other.getClass() == known.getClass()
                    && side(other) != null
                    && !isPositive(other)
                    && (channel(other) == null || channel(other) == channel(known));
            int length = commonLength(plus, entry.getKey());
            if (fits && length > bestLength) {
                best = entry.getKey();
                bestLength = length;
            }
        }
        return best;
    }

    private static int commonLength(String one, String other) {
        int length = 0;
        while (length < Math.min(one.length(), other.length()) && one.charAt(length) == other.charAt(length)) {
            length++;
        }
        return length;
    }

    private void judgeOutput(Pair output, List<Pair> outputs, int[] root) {
        Electrical known = known(output.plus());
        boolean floating = known instanceof Electrical.SpeakerOut out && out.drive() == Drive.FLOATING;
        boolean driven =
                known(output.minus()) instanceof Electrical.LineOut line && line.returns() == OutputReturn.DRIVEN;
        for (String side : floating
                ? List.of(output.plus(), output.minus())
                : driven ? List.of(output.minus()) : List.<String>of()) {
            for (int other = 0; other < names.size(); other++) {
                if (root[other] == root[at(side)] && isGround(names.get(other))) {
                    tell(floating ? Kind.GROUNDED : Kind.RETURNS, side);
                }
            }
        }
        if (driven) {
            outputs.stream()
                    .filter(other -> !other.minus().equals(output.minus())
                            && root[at(other.minus())] == root[at(output.minus())])
                    .forEach(other -> tell(Kind.RETURNS, output.minus()));
        }
    }

    /** Vehicle ground, or a return that is vehicle ground inside its part. */
    private boolean isGround(String name) {
        Electrical known = facts.get(name);
        return isReference(name)
                || (known instanceof Electrical.LineIn in
                        && in.side() == Side.RETURN
                        && in.returns() == InputReturn.CHASSIS);
    }

    /** The loudspeakers and resistors across an output, solved for one volt. */
    private void judgeLoad(Pair output, int[] root, Map<String, List<Pair>> drivenBy) {
        if (!(known(output.plus()) instanceof Electrical.SpeakerOut out)) {
            return;
        }
        int plus = root[at(output.plus())];
        int minus = root[at(output.minus())];
        if (plus == minus) {
            tell(Kind.BELOW_RATING, output.plus());
            return;
        }
        Grid grid = new Grid();
        Map<String, String> coilsHere = new TreeMap<>();
        facts.forEach((name, known) -> {
            if (known instanceof Electrical.SpeakerIn in && in.ohms() != null && isPositive(known)) {
                String partner = partner(name);
                if (partner != null && root[at(name)] != root[at(partner)]) {
                    grid.resistor(root[at(name)], root[at(partner)], in.ohms());
                    coilsHere.put(name, partner);
                }
            }
        });
        resistors.forEach(resistor -> grid.resistor(root[resistor.from()], root[resistor.to()], resistor.value()));
        grid.fix(plus, 1);
        grid.fix(minus, 0);
        Map<Integer, Double> volts = grid.solve();
        double amps = grid.ampsOutOf(plus, volts);
        double ohms = amps < 1e-9 ? Double.POSITIVE_INFINITY : 1 / amps;
        if (out.minOhms() != null && ohms < out.minOhms() * 0.999) {
            tell(Kind.BELOW_RATING, output.plus());
        }
        boolean touched =
                connected.contains(output.plus()) && !hookup.document().unused().containsKey(output.plus());
        if (touched && out.maxDetectOhms() != null && ohms > out.maxDetectOhms()) {
            tell(Kind.MUTED, output.plus());
        }
        coilsHere.forEach((name, partner) -> {
            Double high = volts.get(root[at(name)]);
            Double low = volts.get(root[at(partner)]);
            if (high != null && low != null && Math.abs(high - low) > 1e-6) {
                boolean forward = high > low;
                drivenBy.computeIfAbsent(name, key -> new ArrayList<>())
                        .add(forward ? output : new Pair(/* plus= */ output.minus(), /* minus= */ output.plus()));
                Electrical.SpeakerIn in = (Electrical.SpeakerIn) known(name);
                if (out.maxVolts() != null && in.maxWatts() != null && in.ohms() != null) {
                    double watts = Math.pow((high - low) * out.maxVolts(), 2) / in.ohms();
                    if (watts > in.maxWatts() * 1.001) {
                        tell(Kind.OVERPOWERED, name);
                    }
                }
            }
        });
    }

    private void judgeLoudspeaker(String name, Electrical.SpeakerIn in, List<Pair> by, List<Pair> outputs, int[] root) {
        if (by.isEmpty()) {
            String minus = partner(name);
            boolean wired = connected.contains(name) && minus != null && connected.contains(minus);
            tell(wired ? Kind.IDLE : Kind.SILENT, name);
        } else if (by.size() > 1) {
            tell(Kind.TIED, name);
        } else {
            boolean forward = isPositive(known(by.get(0).plus()));
            Pair output = forward
                    ? by.get(0)
                    : new Pair(
                            /* plus= */ by.get(0).minus(),
                            /* minus= */ by.get(0).plus());
            List<Arrival> arrivals = arrivals(output, forward ? 1 : -1, outputs, root, 0);
            if (arrivals.isEmpty()) {
                tell(Kind.SILENT, name);
            }
            judgeArrivals(name, in.channel(), arrivals, true);
        }
    }

    private void judgeArrivals(String name, @Nullable Channel channel, List<Arrival> arrivals, boolean polarity) {
        for (Arrival arrival : arrivals) {
            if (polarity && arrival.sign() < 0) {
                tell(isPictures(name) ? Kind.REVERSED_PICTURE : Kind.REVERSED, name);
            }
        }
        if (channel != null
                && !arrivals.isEmpty()
                && arrivals.stream()
                        .noneMatch(arrival ->
                                arrival.channel() == null || arrival.channel().agreesWith(channel))) {
            tell(Kind.SWAPPED, name);
        }
    }

    private void judgeInput(String name, Electrical known, List<Pair> outputs, int[] root) {
        String minus = partner(name);
        if (minus == null) {
            return;
        }
        List<Arrival> arrivals = arriving(new Pair(name, minus), outputs, root, 0);
        if (arrivals.isEmpty()) {
            boolean half = outputs.stream()
                    .anyMatch(output -> List.of(root[at(output.plus())], root[at(output.minus())]).stream()
                            .anyMatch(net -> net == root[at(name)] || net == root[at(minus)]));
            tell(half ? Kind.HALF : Kind.SILENT, name);
            return;
        }
        Device device = hookup.devices().get(owner(name));
        boolean passesOn = device != null
                && device.couples().stream()
                        .anyMatch(couple -> couple.from().contains(name.substring(name.indexOf('.') + 1)));
        judgeArrivals(name, channel(known), arrivals, !passesOn);
        Double least = known instanceof Electrical.LineIn line ? line.minVolts() : null;
        Double most = known instanceof Electrical.LineIn line
                ? line.maxVolts()
                : known instanceof Electrical.SpeakerIn speaker ? speaker.maxVolts() : null;
        for (Arrival arrival : arrivals) {
            if (most != null && arrival.volts() > most * 1.001) {
                tell(Kind.TOO_LOUD, name);
            }
            if (least != null && arrival.volts() < least * 0.999) {
                tell(Kind.TOO_FAINT, name);
            }
        }
    }

    /** What arrives at an input, from every output both of whose sides meet it. */
    private List<Arrival> arriving(Pair input, List<Pair> outputs, int[] root, int depth) {
        List<Arrival> all = new ArrayList<>();
        for (Pair output : outputs) {
            if (isPictures(output.plus()) != isPictures(input.plus())) {
                continue;
            }
            int plus = root[at(output.plus())];
            int minus = root[at(output.minus())];
            if (plus != minus && plus == root[at(input.plus())] && minus == root[at(input.minus())]) {
                all.addAll(arrivals(output, 1, outputs, root, depth));
            } else if (plus != minus && minus == root[at(input.plus())] && plus == root[at(input.minus())]) {
                all.addAll(arrivals(output, -1, outputs, root, depth));
            }
        }
        return all;
    }

    private boolean isPictures(String name) {
        return facts.get(name) instanceof Electrical.VideoOut || facts.get(name) instanceof Electrical.VideoIn;
    }

    /** What an output gives: its own, or what its part's couplings hand to it. */
    private List<Arrival> arrivals(Pair output, int sign, List<Pair> outputs, int[] root, int depth) {
        Electrical known = known(output.plus());
        double volts = known instanceof Electrical.SpeakerOut speaker && speaker.maxVolts() != null
                ? speaker.maxVolts()
                : known instanceof Electrical.LineOut line && line.maxVolts() != null ? line.maxVolts() : 1;
        String part = owner(output.plus());
        Device device = hookup.devices().get(part);
        List<Device.Couple> couples = device == null
                ? List.of()
                : device.couples().stream()
                        .filter(couple -> couple.to().contains(output.plus().substring(part.length() + 1)))
                        .toList();
        if (couples.isEmpty()) {
            return List.of(new Arrival(channel(known), sign, volts));
        }
        List<Arrival> all = new ArrayList<>();
        for (Device.Couple couple : depth > 6 ? List.<Device.Couple>of() : couples) {
            double gain = couple.gain() == null ? 1 : couple.gain();
            int turn = couple.to().get(0).equals(output.plus().substring(part.length() + 1)) ? 1 : -1;
            Pair input = new Pair(
                    part + "." + couple.from().get(0),
                    part + "." + couple.from().get(1));
            arriving(input, outputs, root, depth + 1)
                    .forEach(arrival -> all.add(new Arrival(
                            arrival.channel(),
                            sign * turn * arrival.sign() * (gain < 0 ? -1 : 1),
                            Math.min(volts, Math.abs(gain) * arrival.volts()))));
        }
        return all;
    }

    private void judgeData(int[] root) {
        facts.forEach((name, known) -> {
            if (!(known instanceof Electrical.Data data)) {
                return;
            }
            boolean met = false;
            for (Map.Entry<String, Electrical> other : facts.entrySet()) {
                if (!other.getKey().equals(name) && root[at(other.getKey())] == root[at(name)]) {
                    met |= other.getValue().equals(data);
                    if (!other.getValue().equals(data) && !(other.getValue() instanceof Electrical.Passive)) {
                        tell(Kind.BUS, name);
                    }
                }
            }
            if (!met && connected.contains(name)) {
                tell(Kind.BUS, name);
            }
        });
    }

    // ---- power

    /** Conductors that take less than what stands before them lets pass. */
    private void judgeProtection() {
        double[] passes = new double[names.size()];
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        facts.forEach((name, known) -> {
            if (known instanceof Electrical.Supply supply) {
                passes[at(name)] = pushes(supply);
                queue.add(at(name));
            }
        });
        while (!queue.isEmpty()) {
            int here = queue.remove();
            if (isReference(names.get(here))) {
                continue;
            }
            ahead(here).forEach((next, own) -> {
                double amps = Math.min(passes[here], own);
                if (amps > passes[next]) {
                    passes[next] = amps;
                    queue.add(next);
                }
            });
        }
        hookup.document().connections().forEach((ref, connection) -> {
            if (connection.conductor() == null) {
                return;
            }
            // current enters by the end that more can reach; a ground passes nothing on
            double before = connection.ends().stream()
                    .filter(end -> !isReference(end))
                    .mapToDouble(end -> passes[at(end)])
                    .max()
                    .orElse(0);
            double own =
                    connection.fuse() == null ? UNFUSED_AMPS : connection.fuse().ratingAmps();
            if (before >= UNFUSED_AMPS && connection.fuse() == null) {
                own = connection.ends().stream()
                        .filter(end -> hookup.document().connections().values().stream()
                                        .filter(other -> other.ends().contains(end))
                                        .count()
                                == 1)
                        .flatMapToDouble(end -> fusesAt(end).stream().mapToDouble(amps -> amps))
                        .sum();
                own = own == 0 ? UNFUSED_AMPS : own;
            }
            boolean toGround = connection.ends().stream().anyMatch(this::isReference);
            if (!toGround && Math.min(before, own) > ampacity(connection.conductor()) * 1.001) {
                tell(Kind.EXPOSED, ref);
            } else if (!toGround && connection.fuse() == null && before < UNFUSED_AMPS) {
                for (int end = 0; end < 2; end++) {
                    int near = at(connection.ends().get(end));
                    int far = at(connection.ends().get(1 - end));
                    if (flow(near, far) > ampacity(connection.conductor()) * 1.001) {
                        tell(Kind.EXPOSED, ref);
                    }
                }
            }
        });
    }

    /** The most that a supply lets out, by the fuse upstream or by itself. */
    private static double pushes(Electrical.Supply supply) {
        Double amps = supply.fuseAmps() != null
                ? supply.fuseAmps()
                : Boolean.TRUE.equals(supply.limited()) ? supply.maxAmps() : null;
        return amps == null ? UNFUSED_AMPS : amps;
    }

    /** Whether a source keeps its own volts, being far from those of a battery for 12 V or regulated. */
    private static boolean isSteady(Electrical known, double volts) {
        return volts < RESTARTING_VOLTS
                || volts > MOST_BATTERY_VOLTS
                || (known instanceof Electrical.Supply supply && Boolean.TRUE.equals(supply.regulated()));
    }

    /** What all supplies push to a place together, not by way of another: Ford and Fulkerson's augmenting paths. */
    private double flow(int near, int far) {
        Map<List<Integer>, Double> spare = new HashMap<>();
        for (int here = 0; here < names.size(); here++) {
            if (!isReference(names.get(here))) {
                for (Map.Entry<Integer, Double> next : ahead(here).entrySet()) {
                    spare.put(List.of(here, next.getKey()), next.getValue());
                }
            }
        }
        spare.remove(List.of(far, near));
        spare.remove(List.of(near, far));
        int source = -1;
        facts.forEach((name, known) -> {
            if (known instanceof Electrical.Supply supply) {
                spare.put(List.of(source, at(name)), pushes(supply));
            }
        });
        double flow = 0;
        for (List<Integer> path = path(source, near, spare); !path.isEmpty(); path = path(source, near, spare)) {
            double least = UNFUSED_AMPS;
            for (int step = 1; step < path.size(); step++) {
                least = Math.min(least, spare.getOrDefault(path.subList(step - 1, step + 1), 0.0));
            }
            for (int step = 1; step < path.size(); step++) {
                spare.merge(List.copyOf(path.subList(step - 1, step + 1)), -least, Double::sum);
                spare.merge(List.of(path.get(step), path.get(step - 1)), least, Double::sum);
            }
            flow += least;
        }
        return flow;
    }

    /** A way with capacity to spare, from a place to another; empty if there is none. */
    private static List<Integer> path(int from, int to, Map<List<Integer>, Double> spare) {
        Map<Integer, List<Integer>> next = new HashMap<>();
        spare.forEach((edge, amps) -> {
            if (amps > 1e-9) {
                next.computeIfAbsent(edge.get(0), key -> new ArrayList<>()).add(edge.get(1));
            }
        });
        Map<Integer, Integer> before = new HashMap<>(Map.of(from, from));
        ArrayDeque<Integer> queue = new ArrayDeque<>(List.of(from));
        while (!queue.isEmpty() && !before.containsKey(to)) {
            int at = queue.remove();
            for (int other : next.getOrDefault(at, List.of())) {
                if (before.putIfAbsent(other, at) == null) {
                    queue.add(other);
                }
            }
        }
        List<Integer> path = new ArrayList<>();
        for (Integer at = before.containsKey(to) ? Integer.valueOf(to) : null;
                at != null;
                at = at == from ? null : before.get(at)) {
            path.add(0, at);
        }
        return path;
    }

    private List<Double> fusesAt(String terminal) {
        Device device = hookup.devices().get(owner(terminal));
        String name = terminal.substring(terminal.indexOf('.') + 1);
        return device == null
                ? List.of()
                : device.fuses().stream()
                        .filter(fuse -> fuse.between().contains(name))
                        .map(Device.Fuse::ratingAmps)
                        .toList();
    }

    /** Where current can get to from a terminal, and what fuse lets it; contacts count as closed. */
    private Map<Integer, Double> ahead(int here) {
        Map<Integer, Double> next = new LinkedHashMap<>();
        Map<List<Integer>, Double> fused = new HashMap<>();
        hookup.document().connections().values().forEach(connection -> {
            if (connection.fuse() != null) {
                fused.put(
                        sorted(
                                at(connection.ends().get(0)),
                                at(connection.ends().get(1))),
                        connection.fuse().ratingAmps());
            }
        });
        hookup.devices()
                .forEach((part, device) -> device.fuses()
                        .forEach(fuse -> fused.put(
                                sorted(
                                        at(part + "." + fuse.between().get(0)),
                                        at(part + "." + fuse.between().get(1))),
                                fuse.ratingAmps())));
        for (int[] edge : solid) {
            if (edge[0] == here || edge[1] == here) {
                int other = edge[0] == here ? edge[1] : edge[0];
                next.merge(other, fused.getOrDefault(sorted(here, other), UNFUSED_AMPS), Math::max);
            }
        }
        for (Contact contact : contacts) {
            if (contact.from() == here || contact.to() == here) {
                next.put(contact.from() == here ? contact.to() : contact.from(), UNFUSED_AMPS);
            }
        }
        for (Ratings diode : diodes) {
            if (diode.from() == here) {
                next.put(diode.to(), UNFUSED_AMPS);
            }
        }
        return next;
    }

    private static List<Integer> sorted(int one, int other) {
        return List.of(Math.min(one, other), Math.max(one, other));
    }

    /** Feeds at full draw: every conductor its ohms, loads of constant current. */
    private void judgeCurrents(Rest rest, double batteryVolts) {
        int[] parents = new int[names.size()];
        Arrays.setAll(parents, index -> index);
        Map<String, Connection> measured = new TreeMap<>();
        Set<List<Integer>> resisting = new HashSet<>();
        hookup.document().connections().forEach((ref, connection) -> {
            if (ohms(connection) != null) {
                measured.put(ref, connection);
                resisting.add(sorted(
                        at(connection.ends().get(0)), at(connection.ends().get(1))));
            }
        });
        solid.forEach(edge -> {
            if (!resisting.contains(sorted(edge[0], edge[1]))) {
                join(parents, edge[0], edge[1]);
            }
        });
        groundsOf.values().forEach(grounds -> grounds.forEach(name -> join(parents, at(grounds.get(0)), at(name))));
        Grid grid = new Grid();
        measured.values().forEach(connection -> {
            Double ohms = ohms(connection);
            grid.resistor(
                    find(parents, at(connection.ends().get(0))),
                    find(parents, at(connection.ends().get(1))),
                    Math.max(1e-7, ohms == null ? 0 : ohms));
        });
        contacts.forEach(contact -> {
            if (rest.energised().get(contact.relay()) == contact.open()) {
                grid.resistor(find(parents, contact.from()), find(parents, contact.to()), 1e-4);
            }
        });
        diodes.forEach(diode -> {
            if (rest.isPlus(diode.from()) && !rest.isGround(diode.to())) {
                grid.resistor(find(parents, diode.from()), find(parents, diode.to()), 1e-3);
            }
        });
        for (int coil = 0; coil < coils.size(); coil++) {
            if (coilOhms.get(coil) > 0) {
                grid.resistor(find(parents, coils.get(coil)[0]), find(parents, coils.get(coil)[1]), coilOhms.get(coil));
            }
        }
        Map<String, Integer> sources = new TreeMap<>();
        facts.forEach((name, known) -> {
            int node = find(parents, at(name));
            if (isReference(name)) {
                grid.fix(node, 0);
            } else if (rest.live().get(at(name)) && givesTwelveVolts(known)) {
                Double own = known instanceof Electrical.Supply supply ? supply.volts() : null;
                grid.fix(node, own != null && isSteady(known, own) ? own : batteryVolts);
                sources.put(name, node);
            } else if (rest.live().get(at(name))
                    && known instanceof Electrical.ControlOut out
                    && out.active() == Active.GROUND) {
                grid.fix(node, 0);
            }
        });
        Map<String, Integer> returns = new HashMap<>();
        groundsOf.forEach((part, grounds) -> returns.put(part, find(parents, at(grounds.get(0)))));
        facts.forEach((name, known) -> {
            Integer back = returns.get(owner(name));
            Double amps = known instanceof Electrical.Load load
                    ? load.maxAmps()
                    : known instanceof Electrical.ControlIn in && in.active() == Active.TWELVE_VOLTS ? in.amps() : null;
            if (back != null && amps != null && rest.isPlus(at(name)) && rest.isGround(at(groundOf(name)))) {
                grid.draw(find(parents, at(name)), back, amps);
            }
        });
        Map<Integer, Double> volts = grid.solve();
        measured.forEach((ref, connection) -> {
            Double one = volts.get(find(parents, at(connection.ends().get(0))));
            Double other = volts.get(find(parents, at(connection.ends().get(1))));
            Double ohms = ohms(connection);
            if (one == null || other == null || ohms == null || connection.conductor() == null) {
                return;
            }
            double amps = Math.abs(one - other) / Math.max(1e-7, ohms);
            if (amps > ampacity(connection.conductor()) * 1.01) {
                tell(Kind.OVERHEATED, ref);
            }
            if (connection.fuse() != null && amps > connection.fuse().ratingAmps() * 1.01) {
                tell(Kind.FUSE_OPENS, ref);
            }
        });
        judgeParts(
                contacts.stream()
                        .map(contact -> new Ratings(contact.from(), contact.to(), 1e-4, contact.amps()))
                        .toList(),
                parents,
                volts);
        judgeParts(
                diodes.stream()
                        .map(diode -> new Ratings(diode.from(), diode.to(), 1e-3, diode.most()))
                        .toList(),
                parents,
                volts);
        sources.forEach((name, node) -> {
            Double most = known(name) instanceof Electrical.Supply supply
                    ? supply.maxAmps()
                    : ((Electrical.ControlOut) known(name)).maxAmps();
            if (most != null && grid.ampsOutOf(node, volts) > most * 1.01) {
                tell(Kind.OVERLOADED, name);
            }
        });
        facts.forEach((name, known) -> {
            Integer back = returns.get(owner(name));
            Double high = volts.get(find(parents, at(name)));
            Double low = back == null ? null : volts.get(back);
            if (known instanceof Electrical.Load load
                    && !isVehicle(name)
                    && high != null
                    && low != null
                    && rest.isPlus(at(name))) {
                if (load.minVolts() != null && high - low < load.minVolts()) {
                    tell(Kind.UNDERVOLTAGE, name);
                }
                if (load.maxVolts() != null && high - low > load.maxVolts()) {
                    tell(Kind.OVERVOLTAGE, name);
                }
                if (rest.moment().state() == State.RUNNING && high - low < batteryVolts * (1 - PLAIN_DROP_SHARE)) {
                    tell(Kind.DROP, name);
                }
            }
        });
    }

    private String groundOf(String name) {
        List<String> grounds = groundsOf.getOrDefault(owner(name), List.of());
        return grounds.get(0);
    }

    private void judgeParts(Collection<Ratings> parts, int[] parents, Map<Integer, Double> volts) {
        parts.forEach(part -> {
            Double one = volts.get(find(parents, part.from()));
            Double other = volts.get(find(parents, part.to()));
            if (one != null
                    && other != null
                    && part.most() != null
                    && Math.abs(one - other) / part.value() > part.most() * 1.01
                    && Math.abs(one - other) < 1) {
                tell(Kind.COMPONENT, names.get(part.from()));
            }
        });
    }

    /** Resistors, fixed volts and drawn currents between numbered nodes, solved by elimination. */
    private static final class Grid {
        private final List<double[]> resistors = new ArrayList<>();
        private final List<double[]> draws = new ArrayList<>();
        private final Map<Integer, Double> fixed = new TreeMap<>();

        void resistor(int one, int other, double ohms) {
            if (one != other) {
                resistors.add(new double[] {one, other, ohms});
            }
        }

        void draw(int from, int to, double amps) {
            draws.add(new double[] {from, to, amps});
        }

        void fix(int node, double volts) {
            fixed.putIfAbsent(node, volts);
        }

        /** Volts of every node that a resistor path joins to a fixed one. */
        Map<Integer, Double> solve() {
            Set<Integer> reached = new TreeSet<>(fixed.keySet());
            for (boolean grown = true; grown; ) {
                grown = false;
                for (double[] resistor : resistors) {
                    int one = (int) resistor[0];
                    int other = (int) resistor[1];
                    if (reached.contains(one) != reached.contains(other)) {
                        reached.add(one);
                        reached.add(other);
                        grown = true;
                    }
                }
            }
            List<Integer> free =
                    reached.stream().filter(node -> !fixed.containsKey(node)).toList();
            Map<Integer, Integer> row = new HashMap<>();
            free.forEach(node -> row.put(node, row.size()));
            int size = free.size();
            double[][] matrix = new double[size][size + 1];
            for (double[] resistor : resistors) {
                stamp(matrix, row, (int) resistor[0], (int) resistor[1], 1 / resistor[2]);
                stamp(matrix, row, (int) resistor[1], (int) resistor[0], 1 / resistor[2]);
            }
            for (double[] draw : draws) {
                Integer from = row.get((int) draw[0]);
                Integer to = row.get((int) draw[1]);
                if (from != null) {
                    matrix[from][size] -= draw[2];
                }
                if (to != null) {
                    matrix[to][size] += draw[2];
                }
            }
            double[] solution = eliminate(matrix, size);
            Map<Integer, Double> volts = new TreeMap<>(fixed);
            free.forEach(node -> volts.put(node, solution[row.getOrDefault(node, 0)]));
            return volts;
        }

        private void stamp(double[][] matrix, Map<Integer, Integer> row, int here, int there, double siemens) {
            Integer at = row.get(here);
            if (at == null) {
                return;
            }
            matrix[at][at] += siemens;
            Integer other = row.get(there);
            if (other != null) {
                matrix[at][other] -= siemens;
            } else {
                matrix[at][matrix.length] += siemens * fixed.getOrDefault(there, 0.0);
            }
        }

        private static double[] eliminate(double[][] matrix, int size) {
            for (int pivot = 0; pivot < size; pivot++) {
                int best = pivot;
                for (int line = pivot + 1; line < size; line++) {
                    if (Math.abs(matrix[line][pivot]) > Math.abs(matrix[best][pivot])) {
                        best = line;
                    }
                }
                double[] swapped = matrix[pivot];
                matrix[pivot] = matrix[best];
                matrix[best] = swapped;
                for (int line = pivot + 1; line < size; line++) {
                    double factor = matrix[line][pivot] / matrix[pivot][pivot];
                    for (int column = pivot; factor != 0 && column <= size; column++) {
                        matrix[line][column] -= factor * matrix[pivot][column];
                    }
                }
            }
            double[] solution = new double[size];
            for (int line = size - 1; line >= 0; line--) {
                double sum = matrix[line][size];
                for (int column = line + 1; column < size; column++) {
                    sum -= matrix[line][column] * solution[column];
                }
                solution[line] = sum / matrix[line][line];
            }
            return solution;
        }

        /** What leaves a node by its resistors and draws. */
        double ampsOutOf(int node, Map<Integer, Double> volts) {
            double amps = 0;
            for (double[] resistor : resistors) {
                int one = (int) resistor[0];
                int other = (int) resistor[1];
                Double high = volts.get(node);
                Double low = volts.get(one == node ? other : one);
                if ((one == node || other == node) && high != null && low != null) {
                    amps += (high - low) / resistor[2];
                }
            }
            for (double[] draw : draws) {
                amps += draw[0] == node ? draw[2] : 0;
            }
            return amps;
        }
    }
}
