package dev.splicebook.hookup.pair;

import dev.splicebook.electrics.AmplifierOutput;
import dev.splicebook.electrics.SpeakerDriver;
import dev.splicebook.electrics.SpeakerDriver.Coil;
import dev.splicebook.electrics.SpeakerLoad;
import dev.splicebook.electrics.Wiring;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Wish;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.pair.Port.Flow;
import dev.splicebook.hookup.pair.Port.Level;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Loudspeakers at the outputs that drive them, with voice coils in series and parallel so that the load is not too low. */
final class Drivers {

    /** What it costs to leave a loudspeaker that was brought silent, and one of the vehicle. */
    private static final double PART_LACK = 5000;

    private static final double VEHICLE_LACK = 60;
    /** Of a loudspeaker of the vehicle that is to be kept, or that the cut in its circuit leaves silent. */
    private static final double WISHED_LACK = 240;

    /** Amperes of a loudspeaker are worked out for the most volts, and music is far below them for long. */
    private static final double PROGRAMME_SHARE = 1.0 / 3;

    /** As much against a way as anything is. */
    private static final double TOO_MUCH_POINTS = 500;

    /** Wirings that are looked at; eight equal coils have fewer. */
    private static final int MOST_WIRINGS = 5000;

    private static final double OVERPOWERED_POINTS = 20;
    /** A loudspeaker of the vehicle at an output that gives more than it takes: better, by little, than a silent one. */
    private static final double OVERDRIVEN_POINTS = 30;
    /** More than {@link #WISHED_LACK}. */
    private static final double MUCH_TOO_MUCH_POINTS = 300;
    /** Power given over power taken, up to which a loudspeaker had better play than be silent. */
    static final double MOST_OVERPOWER = 3;

    /** More than {@link #OVERPOWERED_POINTS}: the gain of an amplifier is set to its loudspeakers. */
    private static final double UNAMPLIFIED_POINTS = 24;

    private final Bench bench;
    private final Set<String> bans;
    private final Map<String, List<Port>> drivers = new LinkedHashMap<>();
    private final List<Port> outputs = new ArrayList<>();

    Drivers(Bench bench, List<Port> ports, Set<String> bans) {
        this.bench = bench;
        this.bans = bans;
        for (Port port : ports) {
            if (port.isDriver() && port.negative() != null && port.flow() == Flow.IN) {
                // the coils of one part and channel are one loudspeaker; the vehicle has a circuit for each
                String key = port.positive().isVehicle() ? port.positive().ref() : port.owner() + " " + port.channel();
                drivers.computeIfAbsent(key, ignored -> new ArrayList<>(2)).add(port);
            } else if (port.level() == Level.SPEAKER
                    && port.flow() == Flow.OUT
                    && !port.positive().isVehicle()
                    && port.negative() != null) {
                outputs.add(port);
            }
        }
        outputs.sort(Comparator.comparing(Port::positive, bench.order));
    }

    record Found(Map<Want, List<Way>> ways, Map<Want, Way> chosen) {}

    Found find() {
        Map<Want, List<Port>> wants = new LinkedHashMap<>();
        drivers.values().stream()
                .sorted(Comparator.comparing((List<Port> coils) -> coils.get(0).positive(), bench.order))
                .forEach(coils -> wants.put(
                        new Want(
                                coils.stream()
                                        .flatMap(coil -> coil.nodes().stream())
                                        .toList(),
                                "an output for a loudspeaker",
                                lack(coils.get(0).positive())),
                        coils));
        Assignment<Port> assignment = new Assignment<>(List.copyOf(wants.keySet()));
        Map<Want, Map<Port, List<Term>>> options = new LinkedHashMap<>();
        wants.forEach((want, coils) -> {
            for (Port out : outputs) {
                List<Term> terms = terms(coils.get(0), out);
                if (terms != null && !bans.contains(plain(want, out, terms).key())) {
                    options.computeIfAbsent(want, key -> new LinkedHashMap<>()).put(out, terms);
                    List<SpeakerLoad.Assessed> alone = possible(out, List.of(want), wants);
                    if (alone.isEmpty()) {
                        // alone it is too much for the output, and in series with others perhaps not
                        terms.add(tooMuch(coils, out));
                    } else {
                        alone.get(0).single().coils().stream()
                                .filter(SpeakerLoad.CoilDrive::overloaded)
                                .map(SpeakerLoad.CoilDrive::watts)
                                .filter(Objects::nonNull)
                                .max(Comparator.naturalOrder())
                                .ifPresent(watts -> terms.add(new Term(
                                        // volts and watts tell the same
                                        overdriven(coils.get(0), out) == null ? OVERPOWERED_POINTS : 0,
                                        "a coil gets up to " + Say.figure(watts)
                                                + " W from it, more than it takes: its gain is to be set")));
                        assignment.allow(
                                want,
                                out,
                                terms.stream().mapToDouble(Term::points).sum());
                    }
                }
            }
        });
        Map<Want, Port> outputOf = new LinkedHashMap<>(assignment.solve());
        join(wants, options, outputOf);
        Map<Want, List<Way>> ways = new LinkedHashMap<>();
        Map<Want, Way> chosen = new LinkedHashMap<>();
        wants.forEach((want, coils) -> {
            List<Way> all = new ArrayList<>();
            options.getOrDefault(want, Map.of()).forEach((out, terms) -> all.add(plain(want, out, terms)));
            all.sort(Comparator.comparingDouble(Way::points));
            ways.put(want, all);
        });
        Map<Port, List<Want>> loads = new LinkedHashMap<>();
        outputOf.forEach((want, out) ->
                loads.computeIfAbsent(out, key -> new ArrayList<>()).add(want));
        loads.forEach((out, load) -> wire(out, load, wants, options, chosen));
        return new Found(ways, chosen);
    }

    private double lack(Node positive) {
        if (!positive.isVehicle()) {
            return PART_LACK;
        }
        boolean wished = bench.hookup().document().wishes().stream()
                .anyMatch(wish -> wish.want() == Wish.Want.KEEP && positive.isFor(wish.function()));
        boolean silent = positive.role() == Node.Role.CUT_END;
        return wished || silent ? WISHED_LACK : VEHICLE_LACK;
    }

    /** Loudspeakers that found no output of their own go with others of their kind, where the load allows it. */
    private void join(Map<Want, List<Port>> wants, Map<Want, Map<Port, List<Term>>> options, Map<Want, Port> outputOf) {
        for (Map.Entry<Want, List<Port>> entry : wants.entrySet()) {
            Want want = entry.getKey();
            if (outputOf.containsKey(want) || want.lackPoints() < PART_LACK) {
                continue;
            }
            options.getOrDefault(want, Map.of()).entrySet().stream()
                    .sorted(Comparator.comparingDouble(option ->
                            option.getValue().stream().mapToDouble(Term::points).sum()))
                    .map(Map.Entry::getKey)
                    .filter(out -> {
                        List<Want> load = new ArrayList<>(outputOf.keySet().stream()
                                .filter(other -> out.equals(outputOf.get(other)))
                                .toList());
                        load.add(want);
                        boolean parts = load.stream().allMatch(each -> each.lackPoints() >= PART_LACK);
                        return parts && !possible(out, load, wants).isEmpty();
                    })
                    .findFirst()
                    .ifPresent(out -> outputOf.put(want, out));
        }
    }

    private @Nullable List<Term> terms(Port driver, Port out) {
        if (driver.owner().equals(out.owner())) {
            return null;
        }
        List<Term> terms = new ArrayList<>();
        Channel ours = out.channel();
        Channel theirs = driver.channel();
        if (ours != null && theirs != null) {
            if (!ours.agreesWith(theirs)) {
                return null;
            }
            boolean middle = ours == Channel.SUBWOOFER
                    || ours == Channel.CENTRE
                    || theirs == Channel.SUBWOOFER
                    || theirs == Channel.CENTRE;
            if (ours != theirs && middle && outputs.stream().anyMatch(other -> other.channel() == theirs)) {
                return null;
            }
            if (ours != theirs) {
                boolean rear = ours == Channel.REAR_LEFT || ours == Channel.REAR_RIGHT;
                terms.add(new Term(middle ? 40 : rear ? 8 : 3, "its channel is " + ours));
            } else {
                terms.add(new Term(0, "both are " + ours));
            }
        }
        if (!bench.isAmplifier(out.owner()) && outputs.stream().anyMatch(other -> bench.isAmplifier(other.owner()))) {
            terms.add(new Term(UNAMPLIFIED_POINTS, "an amplifier is there to drive loudspeakers"));
        }
        Term overdriven = overdriven(driver, out);
        if (overdriven != null) {
            terms.add(overdriven);
        }
        if (driver.positive().isVehicle()) {
            terms.add(bench.reach(driver.positive()));
        }
        return terms;
    }

    /** What speaks against an output that gives more volts than a loudspeaker takes; null where it does not. */
    private static @Nullable Term overdriven(Port driver, Port out) {
        Double gives = out.maxVolts();
        Double takes = driver.maxVolts();
        if (gives == null || takes == null || gives <= takes * 1.0001) {
            return null;
        }
        double points = !driver.positive().isVehicle()
                ? OVERPOWERED_POINTS
                : gives * gives > MOST_OVERPOWER * takes * takes ? MUCH_TOO_MUCH_POINTS : OVERDRIVEN_POINTS;
        return new Term(
                points, "it gives up to " + Say.figure(gives) + " V, and the loudspeaker takes " + Say.figure(takes));
    }

    private static Term tooMuch(List<Port> coils, Port out) {
        String load = coils.stream()
                .map(coil -> coil.positive().facts() instanceof Electrical.SpeakerIn in && in.ohms() != null
                        ? Say.figure(in.ohms()) + (in.ohms() == 1 ? " ohm" : " ohms")
                        : "a coil of unknown ohms")
                .distinct()
                .collect(Collectors.joining(" and "));
        return new Term(TOO_MUCH_POINTS, "its coils of " + load + " are no load for it" + minimum(out));
    }

    private static Way plain(Want want, Port out, List<Term> terms) {
        return new Way(want, out.nodes(), List.of(), terms, List.of(), Map.of());
    }

    private void wire(
            Port out,
            List<Want> load,
            Map<Want, List<Port>> wants,
            Map<Want, Map<Port, List<Term>>> options,
            Map<Want, Way> chosen) {
        Map<String, Port> coilOf = new HashMap<>();
        List<SpeakerDriver> named = drivers(load, wants, coilOf);
        List<SpeakerLoad.Assessed> possible = possible(out, load, wants);
        if (possible.isEmpty()) {
            return;
        }
        Wiring wiring = possible.get(0).wiring();
        List<Node[]> joints = new ArrayList<>();
        Node minus = out.negative() == null ? out.positive() : out.negative();
        connect(wiring, bench.access(out.positive()), bench.access(minus), coilOf, joints);
        double amps = out.maxVolts() == null ? 0 : out.maxVolts() / wiring.ohms();
        for (Want want : load) {
            List<Node> ours = want.nodes().stream().map(bench::access).toList();
            List<Join> joins = joints.stream()
                    .filter(joint -> ours.contains(joint[1]))
                    .map(joint ->
                            new Join(joint[0], joint[1], amps * PROGRAMME_SHARE, amps, Join.Run.SPEAKER, 0, false))
                    .toList();
            List<Term> terms =
                    new ArrayList<>(options.getOrDefault(want, Map.of()).getOrDefault(out, List.of()));
            if (named.size() > 1 || named.get(0).coils().size() > 1) {
                terms.add(new Term(
                        0,
                        "wired as " + text(wiring, load) + ", a load of " + Say.figure(wiring.ohms()) + " ohms"
                                + minimum(out) + avoided(possible)));
            }
            chosen.put(want, new Way(want, out.nodes(), List.of(), terms, joins, Map.of()));
        }
    }

    private static String text(Wiring wiring, List<Want> load) {
        return Pattern.compile("D([0-9]+)(?:[.]([0-9]+))?")
                .matcher(wiring.text())
                .replaceAll(match -> Matcher.quoteReplacement(load.get(Integer.parseInt(match.group(1)) - 1)
                                .nodes()
                                .get(0)
                                .owner()
                        + (match.group(2) == null ? "" : " coil " + match.group(2))))
                .replace(" + ", " in series with ")
                .replace(" | ", " side by side with ");
    }

    private static String minimum(Port out) {
        return out.positive().facts() instanceof Electrical.SpeakerOut facts && facts.minOhms() != null
                ? ", and the output bears " + Say.figure(facts.minOhms())
                : "";
    }

    private List<SpeakerDriver> drivers(List<Want> load, Map<Want, List<Port>> wants, Map<String, Port> coilOf) {
        List<SpeakerDriver> named = new ArrayList<>();
        for (Want want : load) {
            List<Port> coils = wants.getOrDefault(want, List.of());
            if (coils.isEmpty() || coils.size() > 2) {
                return List.of();
            }
            // refs of parts may be longer than names of loudspeakers
            String name = "D" + (named.size() + 1);
            List<Coil> facts = new ArrayList<>();
            for (Port coil : coils) {
                if (!(coil.positive().facts() instanceof Electrical.SpeakerIn in) || in.ohms() == null) {
                    return List.of();
                }
                facts.add(new Coil(in.ohms(), in.maxWatts()));
                coilOf.put(coils.size() == 1 ? name : name + "." + facts.size(), coil);
            }
            named.add(new SpeakerDriver(name, facts));
        }
        return named;
    }

    /** Why a lower load, which would take more power, was left. */
    private static String avoided(List<SpeakerLoad.Assessed> possible) {
        double ohms = possible.get(0).ohms();
        return possible.stream()
                .mapToDouble(SpeakerLoad.Assessed::ohms)
                .filter(lower -> lower < ohms * 0.999)
                .min()
                .stream()
                .mapToObj(lower -> "; at " + Say.figure(lower) + " ohms a coil would get more than it takes")
                .findFirst()
                .orElse("");
    }

    /**
     * The wirings that serve all alike, with no load below the output's least: first the one with the most power that no
     * coil suffers from.
     */
    private List<SpeakerLoad.Assessed> possible(Port out, List<Want> load, Map<Want, List<Port>> wants) {
        List<SpeakerDriver> named = drivers(load, wants, new HashMap<>());
        int coils = named.stream().mapToInt(driver -> driver.coils().size()).sum();
        if (named.isEmpty() || coils > SpeakerDriver.MOST_COILS) {
            return List.of();
        }
        Electrical.SpeakerOut facts = (Electrical.SpeakerOut) out.positive().facts();
        double minOhms = facts == null || facts.minOhms() == null ? 0.1 : facts.minOhms();
        Double volts = out.maxVolts();
        List<AmplifierOutput.LoadWatts> watts = volts == null || volts * volts / minOhms > AmplifierOutput.MOST_WATTS
                ? List.of()
                : List.of(new AmplifierOutput.LoadWatts(minOhms, volts * volts / minOhms));
        SpeakerLoad.Found found = SpeakerLoad.wirings(named, new AmplifierOutput(minOhms, watts), null, MOST_WIRINGS);
        return found.listed().stream()
                .filter(each -> each.ohms() >= minOhms * 0.999)
                .filter(each -> each.unbalancedDrivers().isEmpty()
                        && each.unevenDrivers().isEmpty())
                .sorted(Comparator.comparing((SpeakerLoad.Assessed each) ->
                                each.single().coils().stream().anyMatch(SpeakerLoad.CoilDrive::overloaded))
                        .thenComparingDouble(SpeakerLoad.Assessed::ohms)
                        .thenComparing(each -> each.wiring().text()))
                .toList();
    }

    /** The conductors of a wiring, from its plus to its minus. */
    private void connect(Wiring wiring, Node from, Node to, Map<String, Port> coilOf, List<Node[]> joints) {
        if (wiring instanceof Wiring.Parallel parallel) {
            parallel.parts().forEach(part -> connect(part, from, to, coilOf, joints));
        } else if (wiring instanceof Wiring.Series series) {
            Node at = from;
            List<Wiring> parts = series.parts();
            for (int place = 0; place < parts.size(); place++) {
                Wiring part = parts.get(place);
                if (place == parts.size() - 1) {
                    connect(part, at, to, coilOf, joints);
                } else {
                    // the minus of the first coil of this part is where the next begins
                    Node end = end(part, coilOf);
                    connect(part, at, end, coilOf, joints);
                    at = end;
                }
            }
        } else if (wiring instanceof Wiring.One one) {
            Port coil = coilOf.get(one.coil());
            if (coil == null || coil.negative() == null) {
                throw new IllegalStateException("no coil " + one.coil());
            }
            Node plus = bench.access(one.reversed() ? coil.negative() : coil.positive());
            Node minus = bench.access(one.reversed() ? coil.positive() : coil.negative());
            if (plus != from) {
                joints.add(new Node[] {from, plus});
            }
            if (minus != to) {
                joints.add(new Node[] {to, minus});
            }
        }
    }

    private Node end(Wiring part, Map<String, Port> coilOf) {
        Wiring.One last = part.coils().get(part.coils().size() - 1);
        Port coil = coilOf.get(last.coil());
        if (coil == null || coil.negative() == null) {
            throw new IllegalStateException("no coil " + last.coil());
        }
        return bench.access(last.reversed() ? coil.positive() : coil.negative());
    }
}
