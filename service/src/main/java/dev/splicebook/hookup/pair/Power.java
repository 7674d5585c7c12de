package dev.splicebook.hookup.pair;

import dev.splicebook.electrics.FuseSizing;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.VoltRange;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Feeds, grounds and control lines. Loads come first, those with the fewest ways and the most amperes ahead, then control
 * inputs, then grounds; what a source gives is a budget that each takes from.
 */
final class Power {

    private static final double LOAD_LACK = 20_000;
    private static final double VEHICLE_LOAD_LACK = 30;
    private static final double TURN_ON_LACK = 5000;
    private static final double CHARGE_LACK = 1000;
    private static final double CONTROL_LACK = 40;
    private static final double INTERLOCK_LACK = 5;
    private static final double GROUND_LACK = 20_000;

    /** What it is worth that a part that was brought is used. */
    private static final double BROUGHT_POINTS = 60;

    private static final Term UNCLAMPED = new Term(4, "its coil has no clamp");

    /** How the ban of a part between begins. */
    static final String THROUGH = "through ";

    private static final double RUNNING_VOLTS = 15;

    private static final FunctionId POWER = new FunctionId("power");
    private static final FunctionId BATTERY = new FunctionId("power.battery");
    private static final FunctionId OUTLET = new FunctionId("power.outlet");
    private static final FunctionId ACCESSORY = new FunctionId("power.accessory");
    private static final FunctionId IGNITION = new FunctionId("power.ignition");
    private static final FunctionId START = new FunctionId("power.start");
    private static final FunctionId ILLUMINATION = new FunctionId("power.illumination");
    private static final FunctionId CONTROL = new FunctionId("control");
    static final FunctionId TURN_ON = new FunctionId("control.amplifier-on");
    private static final FunctionId ANTENNA_ON = new FunctionId("control.antenna-on");
    private static final FunctionId PARKING_BRAKE = new FunctionId("control.parking-brake");
    private static final FunctionId GROUND_SIGNAL = new FunctionId("ground.signal");
    private static final FunctionId GROUND_BATTERY = new FunctionId("ground.battery");
    private static final FunctionId RELAY_COIL = new FunctionId("power.relay-coil");

    private final Bench bench;
    private final Sizes sizes;
    private final Set<String> bans;
    private final Set<String> soundLinks;
    private final Set<String> places;
    private final List<Node> sources;
    private final Map<String, Double> takenMost = new HashMap<>();
    private final Set<String> usedParts = new HashSet<>();
    private final Map<Want, List<Way>> ways = new LinkedHashMap<>();
    private final Map<Want, Way> chosen = new LinkedHashMap<>();
    private final Map<String, Node> groundBy = new HashMap<>();
    private final Map<String, FusePart> fusePartOf = new HashMap<>();
    private final Set<String> needs = new LinkedHashSet<>();
    private final List<Way> controls = new ArrayList<>();

    /**
     * @param soundLinks owners between which sound goes, as {@code from>to}
     * @param places where connectors are tapped for sound
     */
    Power(Bench bench, Sizes sizes, Set<String> soundLinks, Set<String> places, Set<String> bans) {
        this.places = places;
        this.bench = bench;
        this.sizes = sizes;
        this.soundLinks = soundLinks;
        this.bans = bans;
        this.sources = bench.nodes().stream()
                .filter(bench::isTouchable)
                .filter(node ->
                        node.facts() instanceof Electrical.Supply || node.facts() instanceof Electrical.ControlOut)
                .toList();
    }

    record Found(Map<Want, List<Way>> ways, Map<Want, Way> chosen, List<Way> controls, Set<String> needs) {}

    /** A part that is a fuse in a lead, with or without a ground lead. */
    private record FusePart(
            String owner,
            Node from,
            Node to,
            double ratingAmps,
            @Nullable Node groundFrom,
            @Nullable Node groundTo) {}

    /** A relay of a part that holds nothing else. */
    private record RelayPart(
            String owner,
            Node plus,
            Node minus,
            Node common,
            Node open,
            double coilAmps,
            @Nullable Double coilVolts,
            double contactAmps,
            boolean clamped) {}

    /** What a load or an input asks of a source. */
    private record Ask(Node node, @Nullable FunctionId function, double typicalAmps, double maxAmps, Need needs) {}

    Found find() {
        feedLoads();
        drive();
        ground();
        return new Found(ways, chosen, controls, needs);
    }

    // ---- loads

    private void feedLoads() {
        List<Ask> asks = new ArrayList<>();
        for (Node node : bench.nodes()) {
            if (node.facts() instanceof Electrical.Load load
                    && (node.isVehicle() ? bench.isOff(node) : !isFed(node))
                    && bench.isTouchable(node)) {
                double most =
                        load.maxAmps() != null ? load.maxAmps() : load.typicalAmps() != null ? load.typicalAmps() : 1;
                double typical = load.typicalAmps() != null ? load.typicalAmps() : most;
                asks.add(new Ask(node, node.function(), typical, most, needs(load, node.function())));
            }
        }
        // an amplifier goes to the battery rather than another part
        asks.sort(Comparator.comparing((Ask ask) -> bench.isAmplifier(ask.node().owner()))
                .thenComparing(Comparator.comparingDouble(Ask::maxAmps).reversed())
                .thenComparing(Ask::node, bench.order));
        Map<Ask, Want> wants = new LinkedHashMap<>();
        asks.forEach(ask -> wants.put(
                ask,
                new Want(
                        List.of(ask.node()),
                        (ask.needs() == Need.SWITCHED ? "a switched feed of " : "a constant feed of ")
                                + Say.figure(ask.maxAmps()) + " A",
                        ask.node().isVehicle() ? VEHICLE_LOAD_LACK : LOAD_LACK)));
        placeFuseParts(asks);
        List<RelayPart> relays = relayParts();
        charge(relays);
        for (RelayPart relay : relays) {
            if (!bans.contains(THROUGH + relay.owner()) && !usedParts.contains(relay.owner())) {
                placeRelay(relay, asks, wants);
            }
        }
        for (Ask ask : asks) {
            Want want = Objects.requireNonNull(wants.get(ask));
            if (!chosen.containsKey(want)) {
                choose(want, feeds(want, ask));
                if (!chosen.containsKey(want)
                        && ask.needs() == Need.SWITCHED
                        && !ask.node().isVehicle()) {
                    needs.add(Lack.RELAY);
                }
            }
        }
    }

    private boolean isFed(Node load) {
        return bench.network().netOf(load).stream()
                .anyMatch(node -> node.facts() instanceof Electrical.Supply
                        && !node.owner().equals(load.owner()));
    }

    private static Need needs(Electrical.Load load, @Nullable FunctionId function) {
        if (load.needs() != null) {
            return load.needs();
        }
        return function != null && function.isAtOrBelow(BATTERY) ? Need.CONSTANT : Need.SWITCHED;
    }

    private void choose(Want want, List<Way> found) {
        found.sort(Comparator.comparingDouble(Way::points)
                .thenComparing(way -> way.sources().get(0), bench.order));
        ways.computeIfAbsent(want, key -> new ArrayList<>()).addAll(found);
        found.stream()
                .filter(way -> !bans.contains(way.key()))
                .filter(this::isWithinBudget)
                .findFirst()
                .ifPresent(this::take);
    }

    private void take(Way way) {
        chosen.put(way.want(), way);
        way.draws().forEach((budget, amps) -> takenMost.merge(budget, amps, Double::sum));
        usedParts.addAll(way.through());
    }

    private boolean isWithinBudget(Way way) {
        for (Map.Entry<String, Double> draw : way.draws().entrySet()) {
            Double most = budgets.get(draw.getKey());
            if (most != null && takenMost.getOrDefault(draw.getKey(), 0.0) + draw.getValue() > most * 1.000001) {
                return false;
            }
        }
        return true;
    }

    /** Amperes by name of the budget. */
    private final Map<String, Double> budgets = new HashMap<>();

    /** What a draw takes: from the source itself, and from the fuse that it shares, which bears less for long. */
    private Map<String, Double> draws(Node source, double typicalAmps, double maxAmps) {
        Map<String, Double> draws = new LinkedHashMap<>();
        String budget = source.ref();
        Double most = mostAmps(source);
        if (most != null) {
            budgets.put(budget, most);
            draws.put(budget, maxAmps);
        }
        if (source.facts() instanceof Electrical.Supply supply && supply.fuseAmps() != null) {
            String fuse = "fuse " + (source.source() == null ? source.ref() : source.source());
            budgets.put(fuse, supply.fuseAmps());
            draws.put(fuse, maxAmps);
            budgets.put(fuse + " for long", supply.fuseAmps() * FuseSizing.CONTINUOUS_SHARE);
            draws.put(fuse + " for long", typicalAmps);
        }
        return draws;
    }

    private static @Nullable Double mostAmps(Node source) {
        if (source.facts() instanceof Electrical.Supply supply) {
            return supply.maxAmps() != null ? supply.maxAmps() : supply.fuseAmps();
        }
        return source.facts() instanceof Electrical.ControlOut out ? out.maxAmps() : null;
    }

    private List<Way> feeds(Want want, Ask ask) {
        List<Way> found = new ArrayList<>();
        FusePart fuse = fusePartOf.get(ask.node().ref());
        for (Node source : sources) {
            List<Term> terms = terms(source, ask);
            if (terms == null) {
                continue;
            }
            List<Join> joins = new ArrayList<>();
            Node from = bench.access(source);
            Node to = bench.access(ask.node());
            boolean viaFuse = fuse != null && source.facts() instanceof Electrical.Supply && source.isVehicle();
            if (fuse != null && viaFuse) {
                joins.add(new Join(
                        from, fuse.from(), ask.typicalAmps(), ask.maxAmps(), Join.Run.POWER, fuse.ratingAmps(), true));
                joins.add(new Join(
                        fuse.to(), to, ask.typicalAmps(), ask.maxAmps(), Join.Run.POWER, fuse.ratingAmps(), true));
                terms.add(new Term(0, fuse.owner() + " brings its wires and fuse"));
            } else {
                joins.add(new Join(from, to, ask.typicalAmps(), ask.maxAmps(), Join.Run.POWER, guard(source), false));
            }
            found.add(new Way(
                    want,
                    List.of(source),
                    fuse != null && viaFuse ? List.of(fuse.owner()) : List.of(),
                    terms,
                    joins,
                    draws(source, ask.typicalAmps(), ask.maxAmps())));
        }
        return found;
    }

    /** What protects where a source begins: infinite for nothing, NaN where unknown, 0 for electronics. */
    private static double guard(Node source) {
        if (source.facts() instanceof Electrical.Supply supply) {
            if (supply.fuseAmps() != null) {
                return supply.fuseAmps();
            }
            if (Boolean.TRUE.equals(supply.limited())) {
                return supply.maxAmps() == null ? Double.NaN : supply.maxAmps();
            }
            return source.role() == Node.Role.REFERENCE ? Double.POSITIVE_INFINITY : Double.NaN;
        }
        return 0;
    }

    /** What speaks for and against a source, null if it cannot serve. */
    private @Nullable List<Term> terms(Node source, Ask ask) {
        if (source.owner().equals(ask.node().owner())
                || bench.areJoined(source, ask.node())
                || Electrical.isTooMuch(source.facts(), ask.node().facts())) {
            return null;
        }
        boolean out = source.facts() instanceof Electrical.ControlOut;
        List<State> live;
        List<Condition> when;
        if (source.facts() instanceof Electrical.Supply supply) {
            live = supply.live();
            when = supply.when();
        } else if (source.facts() instanceof Electrical.ControlOut control) {
            if (control.active() != Active.TWELVE_VOLTS || control.maxAmps() == null) {
                return null;
            }
            live = control.live();
            when = control.when();
        } else {
            return null;
        }
        FunctionId giver = source.function();
        FunctionId taker = ask.function();
        boolean forControl = taker != null && taker.isAtOrBelow(CONTROL);
        boolean related = forControl && taker != null && giver != null && isRelated(giver, taker);
        if (out && !related) {
            return null;
        }
        if (live == null && !(source.role() == Node.Role.REFERENCE) && !out) {
            return null;
        }
        if (live != null && !suits(live, when, ask.needs(), related)) {
            return null;
        }
        List<Term> terms = new ArrayList<>();
        Term function = functionTerm(source, giver, taker, forControl);
        if (function == null) {
            return null;
        }
        terms.add(function);
        if (!source.isVehicle() && bench.network().isBattery(source) && isUncharged(source)) {
            terms.add(new Term(60, "nothing charges it"));
        }
        if (out
                && giver != null
                && !giver.equals(taker)
                && (giver.isAtOrBelow(TURN_ON) || giver.isAtOrBelow(ANTENNA_ON))) {
            terms.add(new Term(40, "it turns things on and feeds none"));
        }
        Double most = mostAmps(source);
        if (most != null && most < ask.maxAmps()) {
            return null;
        }
        boolean heavy = ask.maxAmps() >= Sizes.HEAVY_AMPS;
        if (source.role() == Node.Role.REFERENCE) {
            terms.add(
                    heavy
                            ? new Term(2, Say.figure(ask.maxAmps()) + " A belong straight on the battery")
                            : bench.reach(source, places));
        } else {
            terms.add(bench.reach(source, places));
            if (heavy && source.isVehicle()) {
                terms.add(new Term(25, "a tap is no place for " + Say.figure(ask.maxAmps()) + " A"));
            } else if (source.isVehicle()
                    && ask.needs() == Need.CONSTANT
                    && bench.isAmplifier(ask.node().owner())) {
                terms.add(new Term(4, "", "an amplifier belongs on the battery"));
            }
        }
        if (most != null) {
            double share = ask.maxAmps() / most;
            terms.add(new Term(
                    10 * share * share,
                    "it gives " + Say.figure(most) + " A",
                    "it gives no more than " + Say.figure(most) + " A"));
        }
        return terms;
    }

    private static boolean suits(List<State> live, List<Condition> when, Need needs, boolean conditional) {
        Set<State> states = live.isEmpty() ? EnumSet.noneOf(State.class) : EnumSet.copyOf(live);
        if (!when.isEmpty() && !conditional) {
            return false;
        }
        return switch (needs) {
            case CONSTANT -> states.size() == State.values().length;
            case SWITCHED -> states.contains(State.RUNNING) && (!states.contains(State.ASLEEP) || !when.isEmpty());
            case EITHER -> states.contains(State.RUNNING);
        };
    }

    /** Stricter than what may feed what: a constant feed makes no statement, and neither does a group. */
    private static boolean isRelated(FunctionId giver, FunctionId taker) {
        return giver.isAtOrBelow(taker)
                || (!taker.isAtOrBelow(giver)
                        && !giver.isAtOrBelow(BATTERY)
                        && Functions.vocabulary().mayFeed(giver, taker));
    }

    private static @Nullable Term functionTerm(
            Node source, @Nullable FunctionId giver, @Nullable FunctionId taker, boolean forControl) {
        if (source.role() == Node.Role.REFERENCE) {
            return forControl ? null : new Term(0, "the battery");
        }
        if (giver == null) {
            return new Term(15, "what it is for is not known");
        }
        if (giver.equals(taker)) {
            return new Term(0, "both are " + giver);
        }
        if (forControl) {
            return taker != null && isRelated(giver, taker) ? Term.inPlaceOf(8, giver, taker) : null;
        }
        if (!giver.isAtOrBelow(POWER) || giver.isAtOrBelow(START) || giver.isAtOrBelow(ILLUMINATION)) {
            return null;
        }
        if (giver.isAtOrBelow(BATTERY)) {
            return new Term(0, "it is " + giver);
        }
        boolean usual = giver.isAtOrBelow(OUTLET) || giver.isAtOrBelow(ACCESSORY) || giver.isAtOrBelow(IGNITION);
        if (!usual && taker != null && !Functions.vocabulary().mayFeed(giver, taker)) {
            return null;
        }
        return Term.inPlaceOf(usual ? 5 : 45, giver, taker);
    }

    // ---- parts between

    private void placeFuseParts(List<Ask> asks) {
        List<FusePart> parts = new ArrayList<>();
        for (String owner : bench.owners()) {
            FusePart part = fusePart(owner);
            if (part != null && !bans.contains(THROUGH + owner)) {
                parts.add(part);
            }
        }
        parts.sort(
                Comparator.comparingDouble(FusePart::ratingAmps).reversed().thenComparing(FusePart::from, bench.order));
        for (FusePart part : parts) {
            asks.stream()
                    .filter(ask -> !ask.node().isVehicle()
                            && !fusePartOf.containsKey(ask.node().ref()))
                    .filter(ask -> ask.maxAmps() <= part.ratingAmps()
                            && ask.typicalAmps() <= part.ratingAmps() * FuseSizing.CONTINUOUS_SHARE
                            && ask.needs() != Need.SWITCHED)
                    .max(Comparator.comparingDouble(Ask::maxAmps))
                    .ifPresent(ask -> fusePartOf.put(ask.node().ref(), part));
        }
    }

    private @Nullable FusePart fusePart(String owner) {
        Device device = bench.device(owner);
        if (device == null
                || device.fuses().size() != 1
                || !device.relays().isEmpty()
                || !device.couples().isEmpty()
                || !bench.network().nodesOf(owner).stream()
                        .allMatch(node -> node.facts() instanceof Electrical.Passive)) {
            return null;
        }
        Device.Fuse fuse = device.fuses().get(0);
        Node from = bench.network().findNode(owner + "." + fuse.between().get(0));
        Node to = bench.network().findNode(owner + "." + fuse.between().get(1));
        if (from == null || to == null) {
            return null;
        }
        Node groundFrom = null;
        Node groundTo = null;
        for (List<String> group : device.conducts()) {
            List<Node> nodes = group.stream()
                    .map(name -> bench.network().findNode(owner + "." + name))
                    .filter(Objects::nonNull)
                    .map(Node.class::cast)
                    .toList();
            boolean ground = nodes.size() == 2
                    && nodes.stream()
                            .allMatch(node -> node.function() != null
                                    && node.function().value().startsWith("ground."));
            if (ground) {
                groundFrom = nodes.get(1);
                groundTo = nodes.get(0);
            }
        }
        return new FusePart(owner, from, to, fuse.ratingAmps(), groundFrom, groundTo);
    }

    private List<RelayPart> relayParts() {
        List<RelayPart> parts = new ArrayList<>();
        for (String owner : bench.owners()) {
            Device device = bench.device(owner);
            if (device == null
                    || device.relays().size() != 1
                    || !device.couples().isEmpty()) {
                continue;
            }
            Device.Relay relay = device.relays().get(0);
            boolean turned = device.diodes().stream()
                    .anyMatch(diode -> diode.cathode().equals(relay.coil().get(0)));
            boolean clamped = device.diodes().stream()
                    .anyMatch(diode ->
                            relay.coil().contains(diode.anode()) && relay.coil().contains(diode.cathode()));
            Node minus = bench.network().findNode(owner + "." + relay.coil().get(turned ? 1 : 0));
            Node plus = bench.network().findNode(owner + "." + relay.coil().get(turned ? 0 : 1));
            Node common = bench.network().findNode(owner + "." + relay.common());
            Node open = relay.open() == null ? null : bench.network().findNode(owner + "." + relay.open());
            if (plus == null || minus == null || common == null || open == null || !bench.isBlank(common)) {
                continue;
            }
            if (plus.function() != null
                    && minus.function() != null
                    && !turned
                    && device.diodes().isEmpty()
                    && minus.function().isAtOrBelow(RELAY_COIL)) {
                Node swap = plus;
                plus = minus;
                minus = swap;
            }
            double coilAmps = relay.coilOhms() == null ? 0.2 : RUNNING_VOLTS / relay.coilOhms();
            double contactAmps = relay.contactAmps() == null ? Sizes.HEAVY_AMPS : relay.contactAmps();
            parts.add(
                    new RelayPart(owner, plus, minus, common, open, coilAmps, relay.coilVolts(), contactAmps, clamped));
        }
        parts.sort(Comparator.comparing(RelayPart::common, bench.order));
        return parts;
    }

    /** Puts a relay where it saves most, or does least harm; a relay that was brought is there to be used. */
    private void placeRelay(RelayPart relay, List<Ask> asks, Map<Ask, Want> wants) {
        Way best = null;
        double bestGain = -BROUGHT_POINTS;
        for (Ask ask : asks) {
            Want want = Objects.requireNonNull(wants.get(ask));
            if (ask.needs() != Need.SWITCHED
                    || ask.node().isVehicle()
                    || ask.maxAmps() > relay.contactAmps()
                    || chosen.containsKey(want)) {
                continue;
            }
            Way through = relayWay(want, ask, relay);
            if (through == null) {
                continue;
            }
            ways.computeIfAbsent(want, key -> new ArrayList<>()).add(through);
            double direct = feeds(want, ask).stream()
                    .filter(way -> !bans.contains(way.key()))
                    .mapToDouble(Way::points)
                    .min()
                    .orElse(LOAD_LACK);
            double gain = direct - through.points() + ask.maxAmps();
            if (!bans.contains(through.key()) && (best == null ? gain >= bestGain : gain > bestGain)) {
                best = through;
                bestGain = gain;
            }
        }
        if (best != null) {
            Want want = best.want();
            asks.stream()
                    .filter(ask -> want.equals(wants.get(ask)))
                    .forEach(ask ->
                            ways.computeIfAbsent(want, key -> new ArrayList<>()).addAll(feeds(want, ask)));
            take(best);
            groundBy.put(relay.owner(), relay.minus());
            clamp(relay, best);
        }
    }

    /** A battery of a part is charged by the vehicle's through the strongest relay, which parts the two while it rests. */
    private void charge(List<RelayPart> relays) {
        // what is switched by nothing else comes first
        long needed = bench.nodes().stream()
                .filter(node -> !node.isVehicle()
                        && node.facts() instanceof Electrical.Load load
                        && needs(load, node.function()) == Need.SWITCHED
                        && hasNoFeed(node, load))
                .count();
        for (Node battery : bench.nodes()) {
            if (battery.isVehicle() || !bench.network().isBattery(battery) || !isApart(battery)) {
                continue;
            }
            Want want = new Want(List.of(battery), "a charge from the vehicle's battery", CHARGE_LACK);
            List<Way> found = new ArrayList<>();
            List<RelayPart> free = relays.stream()
                    .filter(relay -> !bans.contains(THROUGH + relay.owner()) && !usedParts.contains(relay.owner()))
                    .sorted(Comparator.comparingDouble(RelayPart::contactAmps).reversed())
                    .toList();
            RelayPart strongest = free.size() > needed ? free.get(0) : null;
            Way way = strongest == null ? null : chargeWay(want, battery, strongest);
            if (way != null) {
                found.add(way);
            }
            choose(want, found);
            if (strongest != null && chosen.containsKey(want)) {
                groundBy.put(strongest.owner(), strongest.minus());
                clamp(strongest, Objects.requireNonNull(chosen.get(want)));
            } else if (free.size() <= needed) {
                needs.add(Lack.RELAY);
            }
        }
    }

    /** Each battery pushes as much as the other can, so each conductor begins, and is fused, at its own. */
    private @Nullable Way chargeWay(Want want, Node battery, RelayPart relay) {
        double amps = FuseSizing.CONTINUOUS_SHARE * relay.contactAmps();
        Way feed = cheapest(want, new Ask(battery, BATTERY, amps, amps, Need.CONSTANT));
        // the least that is live while the engine stands, so that the batteries part, and nothing while it is cranked
        Way trigger =
                feeds(want, new Ask(relay.plus(), ACCESSORY, relay.coilAmps(), relay.coilAmps(), Need.SWITCHED))
                        .stream()
                        .filter(way -> !bans.contains(way.key()) && isWithinBudget(way))
                        .filter(way -> !live(way.sources().get(0)).contains(State.CRANKING))
                        .min(Comparator.comparingInt(
                                        (Way way) -> live(way.sources().get(0)).size())
                                .thenComparingDouble(Way::points)
                                .thenComparing(way -> way.sources().get(0), bench.order))
                        .orElse(null);
        if (feed == null || trigger == null || isUnlike(battery, relay)) {
            return null;
        }
        Node source = feed.sources().get(0);
        Node switched = trigger.sources().get(0);
        List<Term> terms = new ArrayList<>(feed.terms());
        if (live(switched).contains(State.ACCESSORY) || live(switched).contains(State.IGNITION)) {
            terms.add(new Term(5, "", "both batteries feed what is on while the engine stands"));
        }
        terms.addAll(trigger.terms());
        terms.add(new Term(3, relay.owner() + " parts the two batteries while " + switched.ref() + " is dead"));
        if (!relay.clamped()) {
            terms.add(UNCLAMPED);
        }
        Map<String, Double> draws = new LinkedHashMap<>(feed.draws());
        trigger.draws().forEach((budget, taken) -> draws.merge(budget, taken, Double::sum));
        return new Way(
                want,
                List.of(source, switched),
                List.of(relay.owner()),
                terms,
                List.of(
                        new Join(
                                bench.access(source), relay.common(), amps, amps, Join.Run.POWER, guard(source), false),
                        new Join(battery, relay.open(), amps, amps, Join.Run.POWER, Double.POSITIVE_INFINITY, false),
                        coilJoin(switched, relay)),
                draws);
    }

    private Join coilJoin(Node switched, RelayPart relay) {
        return new Join(
                bench.access(switched),
                relay.plus(),
                relay.coilAmps(),
                relay.coilAmps(),
                Join.Run.CONTROL,
                guard(switched),
                false);
    }

    private boolean isApart(Node battery) {
        return bench.network().netOf(battery).stream()
                .allMatch(node -> node.owner().equals(battery.owner()));
    }

    private boolean isUncharged(Node battery) {
        return isApart(battery)
                && chosen.keySet().stream().noneMatch(want -> want.nodes().contains(battery));
    }

    private boolean hasNoFeed(Node node, Electrical.Load load) {
        double most = load.maxAmps() != null ? load.maxAmps() : load.typicalAmps() != null ? load.typicalAmps() : 1;
        Ask ask = new Ask(node, node.function(), most, most, Need.SWITCHED);
        return !isFed(node) && sources.stream().allMatch(source -> terms(source, ask) == null);
    }

    private static List<State> live(Node source) {
        List<State> live = source.facts() instanceof Electrical.Supply supply
                ? supply.live()
                : source.facts() instanceof Electrical.ControlOut out ? out.live() : null;
        return live == null ? List.of() : live;
    }

    /** Whether a battery or a coil is for 12 V where the vehicle has 24, or the reverse; 12 where they do not say. */
    private boolean isUnlike(Node battery, RelayPart relay) {
        VoltRange running = bench.network().hookup().map().runningVolts();
        boolean of24 = running != null && running.isOf24Volts();
        Double volts = battery.facts() instanceof Electrical.Supply supply ? supply.volts() : null;
        return isOf24(volts) != of24 || isOf24(relay.coilVolts()) != of24;
    }

    private static boolean isOf24(@Nullable Double volts) {
        return volts != null && new VoltRange(volts, volts).isOf24Volts();
    }

    /** A diode lead among the parts belongs across a coil that has no clamp of its own. */
    private void clamp(RelayPart relay, Way way) {
        if (relay.clamped()) {
            return;
        }
        for (String owner : bench.owners()) {
            Device device = bench.device(owner);
            if (device != null
                    && device.diodes().size() == 1
                    && device.relays().isEmpty()
                    && device.couples().isEmpty()
                    && usedParts.add(owner)) {
                Node anode = bench.network()
                        .findNode(owner + "." + device.diodes().get(0).anode());
                Node cathode = bench.network()
                        .findNode(owner + "." + device.diodes().get(0).cathode());
                if (anode != null && cathode != null) {
                    List<Join> joins = new ArrayList<>(way.joins());
                    joins.add(Join.of(relay.plus(), cathode, Join.Run.CONTROL));
                    joins.add(Join.of(anode, relay.minus(), Join.Run.CONTROL));
                    List<String> through = new ArrayList<>(way.through());
                    through.add(owner);
                    List<Term> terms = new ArrayList<>(way.terms());
                    terms.remove(UNCLAMPED);
                    Way clamped = new Way(way.want(), way.sources(), through, terms, joins, way.draws());
                    ways.getOrDefault(way.want(), new ArrayList<>())
                            .replaceAll(each -> each.equals(way) ? clamped : each);
                    chosen.put(way.want(), clamped);
                    return;
                }
            }
        }
    }

    private @Nullable Way relayWay(Want want, Ask ask, RelayPart relay) {
        Ask contact = new Ask(ask.node(), BATTERY, ask.typicalAmps(), ask.maxAmps(), Need.CONSTANT);
        Ask coil = new Ask(
                relay.plus(),
                ask.function() == null || !ask.function().isAtOrBelow(CONTROL) ? ACCESSORY : ask.function(),
                relay.coilAmps(),
                relay.coilAmps(),
                Need.SWITCHED);
        Way feed = cheapest(want, contact);
        Way trigger = cheapest(want, coil);
        if (feed == null || trigger == null) {
            return null;
        }
        Node source = feed.sources().get(0);
        Node switched = trigger.sources().get(0);
        List<Term> terms = new ArrayList<>(feed.terms());
        terms.addAll(trigger.terms());
        terms.add(new Term(3, relay.owner() + " carries the current, and " + switched.ref() + " only its coil"));
        if (!relay.clamped()) {
            terms.add(UNCLAMPED);
        }
        Map<String, Double> draws = new LinkedHashMap<>(feed.draws());
        trigger.draws().forEach((budget, amps) -> draws.merge(budget, amps, Double::sum));
        return new Way(
                want,
                List.of(source, switched),
                List.of(relay.owner()),
                terms,
                List.of(
                        new Join(
                                bench.access(source),
                                relay.common(),
                                ask.typicalAmps(),
                                ask.maxAmps(),
                                Join.Run.POWER,
                                guard(source),
                                false),
                        new Join(
                                relay.open(),
                                bench.access(ask.node()),
                                ask.typicalAmps(),
                                ask.maxAmps(),
                                Join.Run.POWER,
                                sizes.behindAmps(guard(source), ask.typicalAmps(), ask.maxAmps()),
                                true),
                        coilJoin(switched, relay)),
                draws);
    }

    private @Nullable Way cheapest(Want want, Ask ask) {
        return feeds(want, ask).stream()
                .filter(way -> !bans.contains(way.key()))
                .filter(way -> way.through().isEmpty())
                .filter(this::isWithinBudget)
                .min(Comparator.comparingDouble(Way::points)
                        .thenComparing(way -> way.sources().get(0), bench.order))
                .orElse(null);
    }

    // ---- control lines

    private void drive() {
        List<Want> wants = new ArrayList<>();
        Map<Want, List<Way>> all = new LinkedHashMap<>();
        for (Node node : bench.nodes()) {
            if (node.facts() instanceof Electrical.ControlIn in
                    && (node.isVehicle() ? bench.isOff(node) && bench.isTouchable(node) : !isDriven(node))) {
                FunctionId function = node.function();
                double lack = function == null
                        ? INTERLOCK_LACK
                        : function.isAtOrBelow(TURN_ON)
                                ? TURN_ON_LACK
                                : function.isAtOrBelow(PARKING_BRAKE) ? INTERLOCK_LACK : CONTROL_LACK;
                Want want = new Want(
                        List.of(node),
                        (in.active() == null ? "a signal" : in.active() + "") + " for "
                                + (function == null ? "a purpose that is not known" : function),
                        node.isVehicle() ? INTERLOCK_LACK : lack);
                wants.add(want);
                List<Way> found = new ArrayList<>();
                for (Node source : sources) {
                    Way way = controlWay(want, node, in, source);
                    if (way != null) {
                        found.add(way);
                    }
                }
                all.put(want, found);
            }
        }
        wants.sort(Comparator.comparingInt(
                want -> all.getOrDefault(want, List.of()).size()));
        for (Want want : wants) {
            choose(want, all.getOrDefault(want, new ArrayList<>()));
            Way way = chosen.get(want);
            if (way != null) {
                controls.add(way);
            }
        }
    }

    private boolean isDriven(Node input) {
        return bench.network().netOf(input).stream()
                .anyMatch(node -> !node.owner().equals(input.owner())
                        && (node.facts() instanceof Electrical.ControlOut
                                || node.facts() instanceof Electrical.Supply));
    }

    private @Nullable Way controlWay(Want want, Node input, Electrical.ControlIn in, Node source) {
        FunctionId taker = input.function();
        FunctionId giver = source.function();
        if (taker == null || giver == null || source.owner().equals(input.owner()) || !isRelated(giver, taker)) {
            return null;
        }
        Active gives = source.facts() instanceof Electrical.ControlOut out ? out.active() : Active.TWELVE_VOLTS;
        if (in.active() != gives && in.active() != null) {
            return null;
        }
        List<State> live = source.facts() instanceof Electrical.Supply supply
                ? supply.live()
                : source.facts() instanceof Electrical.ControlOut out ? out.live() : null;
        List<Condition> when = source.facts() instanceof Electrical.Supply supply
                ? supply.when()
                : source.facts() instanceof Electrical.ControlOut out ? out.when() : List.of();
        if (live != null && live.isEmpty()) {
            return null;
        }
        if (taker.isAtOrBelow(PARKING_BRAKE)
                && !(source.isVehicle()
                        && giver.isAtOrBelow(PARKING_BRAKE)
                        && when.contains(Condition.PARKING_BRAKE))) {
            return null;
        }
        List<Term> terms = new ArrayList<>();
        if (giver.equals(taker)) {
            terms.add(new Term(0, "both are " + giver));
        } else {
            terms.add(Term.inPlaceOf(8, giver, taker));
        }
        terms.add(bench.reach(source, places));
        if (source.isVehicle() && !bench.isOff(source) && source.facts() instanceof Electrical.ControlOut) {
            terms.add(new Term(3, "the factory unit hangs on it too"));
        }
        if (live != null && live.contains(State.ASLEEP) && when.isEmpty() && gives == Active.TWELVE_VOLTS) {
            if (taker.isAtOrBelow(TURN_ON) || taker.isAtOrBelow(ANTENNA_ON) || taker.isAtOrBelow(POWER)) {
                return null;
            }
            terms.add(new Term(20, "it is live asleep too"));
        }
        if (taker.isAtOrBelow(TURN_ON)
                && !source.isVehicle()
                && !soundLinks.contains(source.owner() + ">" + input.owner())) {
            terms.add(new Term(2, "the sound comes from elsewhere"));
        }
        double amps = in.amps() == null ? 0 : in.amps();
        Double most = mostAmps(source);
        if (most != null && most < amps) {
            return null;
        }
        return new Way(
                want,
                List.of(source),
                List.of(),
                terms,
                List.of(new Join(
                        bench.access(source), bench.access(input), amps, amps, Join.Run.CONTROL, guard(source), false)),
                draws(source, amps, amps));
    }

    // ---- grounds

    private void ground() {
        List<Node> references = bench.nodes().stream()
                .filter(node -> node.isVehicle()
                        && node.facts() instanceof Electrical.Ground
                        && !node.name().equals(Vehicle.BATTERY_MINUS)
                        && bench.isTouchable(node)
                        && !(node.function() != null && node.function().isAtOrBelow(GROUND_SIGNAL)))
                .toList();
        Set<Integer> done = new HashSet<>();
        List<Node> wanting = new ArrayList<>();
        for (Node node : bench.nodes()) {
            boolean coil = groundBy.containsValue(node);
            if (((!node.isVehicle() && node.facts() instanceof Electrical.Ground) || coil)
                    && bench.network().netOf(node).stream()
                            .noneMatch(other -> other.isVehicle() && other.facts() instanceof Electrical.Ground)
                    && done.add(node.net())) {
                wanting.add(node);
            }
        }
        wanting.sort(Comparator.comparingDouble((Node node) -> -ampsOf(node)).thenComparing(bench.order));
        for (Node node : wanting) {
            double amps = ampsOf(node);
            Want want = new Want(List.of(node), "a ground", GROUND_LACK);
            FusePart kit = kitOf(node.owner());
            List<Way> found = new ArrayList<>();
            for (Node reference : references) {
                found.add(groundWay(want, node, reference, amps, kit));
            }
            choose(want, found);
        }
    }

    private boolean isOnBattery(String owner) {
        return chosen.values().stream()
                .filter(way -> way.want().nodes().get(0).owner().equals(owner))
                .flatMap(way -> way.sources().stream())
                .anyMatch(source -> source.isVehicle()
                        && source.role() == Node.Role.REFERENCE
                        && source.facts() instanceof Electrical.Supply);
    }

    private Way groundWay(Want want, Node node, Node reference, double amps, @Nullable FusePart kit) {
        List<Term> terms = new ArrayList<>();
        terms.add(bench.reach(reference, places));
        boolean heavy = amps >= Sizes.HEAVY_AMPS;
        if (heavy && reference.role() != Node.Role.REFERENCE) {
            terms.add(new Term(25, "a factory ground wire is no place for " + Say.figure(amps) + " A"));
        } else if (reference.role() != Node.Role.REFERENCE && isOnBattery(node.owner())) {
            terms.add(new Term(25, "what the battery feeds returns by the body"));
        }
        if (reference.function() != null && reference.function().isAtOrBelow(GROUND_BATTERY)) {
            terms.add(new Term(10, "it is close to the battery's sensor"));
        }
        boolean near = chosen.values().stream()
                .filter(way -> way.want().nodes().get(0).owner().equals(node.owner()))
                .flatMap(way -> way.sources().stream())
                .anyMatch(source -> source.isVehicle()
                        && source.role() == Node.Role.CIRCUIT
                        && Names.connectorOf(source.name()).equals(Names.connectorOf(reference.name())));
        if (near && reference.role() == Node.Role.CIRCUIT) {
            terms.add(new Term(-11, "it is in the connector that the feed comes from"));
        }
        Map<String, Double> draws = new LinkedHashMap<>();
        if (reference.facts() instanceof Electrical.Ground ground && ground.maxAmps() != null) {
            budgets.put(reference.ref(), ground.maxAmps());
            draws.put(reference.ref(), amps);
        }
        List<Join> joins = new ArrayList<>();
        Node to = bench.access(reference);
        double feed = feedAmps(node.owner());
        if (kit != null && kit.groundFrom() != null && kit.groundTo() != null) {
            joins.add(new Join(bench.access(node), kit.groundFrom(), amps, amps, Join.Run.GROUND, feed, true));
            joins.add(new Join(kit.groundTo(), to, amps, amps, Join.Run.GROUND, feed, true));
        } else {
            joins.add(new Join(bench.access(node), to, amps, amps, Join.Run.GROUND, feed, true));
        }
        return new Way(
                want,
                List.of(reference),
                kit != null && kit.groundFrom() != null ? List.of(kit.owner()) : List.of(),
                terms,
                joins,
                draws);
    }

    /** What the strongest feed of a part bears: a short inside the part comes back through its ground. */
    private double feedAmps(String owner) {
        double most = 0;
        for (Way way : chosen.values()) {
            Node fed = way.want().nodes().get(0);
            if (fed.owner().equals(owner)
                    && (fed.facts() instanceof Electrical.Load || fed.facts() instanceof Electrical.Supply)) {
                most = Math.max(
                        most,
                        way.joins().stream()
                                .filter(join -> join.run() == Join.Run.POWER)
                                .mapToDouble(sizes::bearsAmps)
                                .filter(bears -> bears > 0)
                                .min()
                                .orElse(0));
            }
        }
        return most;
    }

    private @Nullable FusePart kitOf(String owner) {
        return chosen.values().stream()
                .filter(way -> way.want().nodes().get(0).owner().equals(owner))
                .map(way -> fusePartOf.get(way.want().nodes().get(0).ref()))
                .filter(Objects::nonNull)
                .filter(part -> part.groundFrom() != null)
                .findFirst()
                .orElse(null);
    }

    private double ampsOf(Node ground) {
        double amps = bench.network().nodesOf(ground.owner()).stream()
                .filter(node -> node.facts() instanceof Electrical.Load)
                .map(node -> (Electrical.Load) node.facts())
                .mapToDouble(load -> load == null || load.maxAmps() == null ? 0 : load.maxAmps())
                .sum();
        double charge = chosen.values().stream()
                .filter(way -> way.want().nodes().get(0).owner().equals(ground.owner())
                        && way.want().nodes().get(0).facts() instanceof Electrical.Supply)
                .flatMap(way -> way.joins().stream())
                .mapToDouble(Join::maxAmps)
                .max()
                .orElse(0);
        return Math.max(amps, charge) > 0 ? Math.max(amps, charge) : 0.2;
    }
}
