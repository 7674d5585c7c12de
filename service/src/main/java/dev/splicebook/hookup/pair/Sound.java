package dev.splicebook.hookup.pair;

import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.InputReturn;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.Wish;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.pair.Port.Flow;
import dev.splicebook.hookup.pair.Port.Level;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * Sound and pictures at line or speaker level, from outputs through converters, isolators and adapters to inputs. Each
 * channel of what lies between is a want at its input and a source at its output, so that one flow finds whole chains.
 */
final class Sound {

    private static final FunctionId ANY_PICTURE = new FunctionId("video.auxiliary");
    private static final FunctionId MICROPHONE = new FunctionId("audio.microphone");

    /** More than any detour to the source itself. */
    private static final double AMPLIFIED_POINTS = 60;

    /** Decides between two channels of a converter where one is wanted. */
    private static final double FOLLOWED_POINTS = 3;

    /** What it costs to leave the input of an amplifier silent; of a part that was brought to lie between; any other. */
    private static final double AMPLIFIER_LACK = 5000;

    private static final double BETWEEN_LACK = 90;
    private static final double OTHER_LACK = 10;

    private static final int MOST_SERVED = 3;

    /** What it is worth to bring something wished for to where it is wanted. */
    private static final double WISH_POINTS = 150;

    /** How much more, where the vehicle had it: enough for a part between, not for an input of its own. */
    private static final Term KEPT = new Term(-60, "", "what the vehicle plays goes before what is brought along");

    private final Bench bench;
    private final List<Wish> wishes;
    private final List<Port> ports;
    /** From an input of a part to the outputs that it reaches inside it. */
    private final Map<Port, List<Port>> within = new LinkedHashMap<>();

    /** Inputs and outputs of parts that only lie between. */
    private final Set<Port> between = new LinkedHashSet<>();

    private final Map<Want, Port> wants = new LinkedHashMap<>();
    private final Map<Want, List<Way>> ways = new LinkedHashMap<>();
    private final IdentityHashMap<Way, Port> offerOf = new IdentityHashMap<>();
    private List<Want> ordered = List.of();
    private final Map<Port, Boolean> carriesWish = new HashMap<>();
    private final Map<Port, Boolean> carriesKept = new HashMap<>();
    private final boolean anythingWished;

    Sound(Bench bench, List<Port> ports, List<Wish> wishes) {
        this.bench = bench;
        this.wishes = wishes;
        this.ports = ports;
        findWithin();
        this.anythingWished = ports.stream().anyMatch(this::isWished);
        findWays();
    }

    /** What the flow found. */
    record Found(Map<Want, List<Way>> ways, Map<Want, Way> chosen, Set<String> needs) {}

    /** For each output of a part the inputs that reach it. */
    List<Port> outputsOf(Port input) {
        return within.getOrDefault(input, List.of());
    }

    private void findWithin() {
        Map<Node, Port> byPositive = new HashMap<>();
        ports.forEach(port -> byPositive.put(port.positive(), port));
        for (Coupling coupling : bench.network().couplings()) {
            Port in = byPositive.get(coupling.from().get(0));
            Port out = byPositive.get(coupling.to().get(0));
            if (in != null && out != null && !in.equals(out)) {
                within.computeIfAbsent(in, key -> new ArrayList<>(1)).add(out);
                if (out.level() != Level.SPEAKER) {
                    between.add(in);
                    between.add(out);
                }
            }
        }
        boolean sharedInput = ports.stream().anyMatch(port -> port.shared() && port.flow() == Flow.IN);
        for (Port one : ports) {
            for (Port other : ports) {
                if (!one.equals(other)
                        && isAdapterEnd(one)
                        && isAdapterEnd(other)
                        && one.owner().equals(other.owner())
                        && one.positive().net() == other.positive().net()
                        && isInput(one, other, sharedInput)) {
                    within.computeIfAbsent(one, key -> new ArrayList<>(1)).add(other);
                    between.add(one);
                    between.add(other);
                }
            }
        }
    }

    private static boolean isAdapterEnd(Port port) {
        return port.level() == Level.WIRE && !port.positive().isVehicle();
    }

    /** Of the two ends of an adapter, the one with the common return faces an input that has one. */
    private boolean isInput(Port end, Port other, boolean sharedInput) {
        if (end.shared() != other.shared()) {
            return end.shared() != sharedInput;
        }
        return bench.order.compare(end.positive(), other.positive()) < 0;
    }

    private void findWays() {
        List<Port> offers = new ArrayList<>();
        for (Port port : ports) {
            boolean end = isAdapterEnd(port);
            if (!port.positive().isVehicle()
                    && !port.isDriver()
                    && (end ? within.containsKey(port) : port.flow() == Flow.IN)) {
                wants.put(want(port), port);
            }
            if (end ? between.contains(port) && !within.containsKey(port) : port.flow() != Flow.IN) {
                offers.add(port);
            }
        }
        ordered = wants.keySet().stream()
                .sorted(Comparator.comparing((Want want) -> want.nodes().get(0), bench.order))
                .toList();
        offers.sort(Comparator.comparing(Port::positive, bench.order));
        for (Want want : ordered) {
            Port in = Objects.requireNonNull(wants.get(want));
            List<Way> found = new ArrayList<>();
            for (Port out : offers) {
                Way way = way(want, in, out);
                if (way != null) {
                    found.add(way);
                    offerOf.put(way, out);
                }
            }
            found.sort(Comparator.comparingDouble(Way::points));
            ways.put(want, found);
        }
    }

    /** @param bans keys of ways that are forbidden */
    Found find(Set<String> bans) {
        Set<String> needs = new LinkedHashSet<>();
        Map<Want, Way> chosen = solve(bans, needs);
        return new Found(ways, chosen, needs);
    }

    private Map<Want, Way> solve(Set<String> bans, Set<String> needs) {
        Set<Way> refused = new HashSet<>();
        while (true) {
            Assignment<Port> assignment = new Assignment<>(ordered);
            Map<List<Object>, Way> wayOf = new HashMap<>();
            for (Want want : ordered) {
                for (Way way : ways.getOrDefault(want, List.of())) {
                    Port out = offerOf.get(way);
                    if (out != null && !refused.contains(way) && !bans.contains(way.key()) && need(way) == null) {
                        assignment.allow(want, out, way.points());
                        // what lies between and what is looked at is for one; a loudspeaker's wires may be tapped again
                        boolean again = !between.contains(out)
                                && out.level() != Level.VIDEO
                                && want.lackPoints() >= BETWEEN_LACK;
                        assignment.serve(out, again ? MOST_SERVED : 1);
                        wayOf.put(List.of(want, out), way);
                    }
                }
            }
            Map<Want, Way> chosen = new LinkedHashMap<>();
            assignment.solve().forEach((want, out) -> {
                Way way = wayOf.get(List.of(want, out));
                if (way != null) {
                    chosen.put(want, way);
                }
            });
            Set<Way> idle = idle(chosen);
            if (idle.isEmpty() || !refused.addAll(idle)) {
                findNeeds(chosen, bans, needs);
                return chosen;
            }
        }
    }

    private static @Nullable String need(Way way) {
        return way.terms().stream()
                .map(Term::why)
                .filter(Lack::isLack)
                .findFirst()
                .orElse(null);
    }

    /** What would let an input be served that must be, or a wished source be used. */
    private void findNeeds(Map<Want, Way> chosen, Set<String> bans, Set<String> needs) {
        Set<Port> used = new HashSet<>();
        chosen.values().forEach(way -> used.add(offerOf.get(way)));
        ways.forEach((want, all) -> {
            for (Way way : all) {
                Port out = offerOf.get(way);
                String need = need(way);
                boolean wanted = (!chosen.containsKey(want) && want.lackPoints() >= AMPLIFIER_LACK)
                        || (out != null && isWished(out) && !used.contains(out));
                if (need != null && wanted && !bans.contains(way.key())) {
                    needs.add(need);
                }
            }
        });
    }

    /** Ways out of something that gets nothing, or gets its own signal; and ways into what lies between and goes nowhere. */
    private Set<Way> idle(Map<Want, Way> chosen) {
        Map<Port, Port> sourceOf = new HashMap<>();
        Set<Port> used = new HashSet<>();
        chosen.forEach((want, way) -> {
            Port out = offerOf.get(way);
            Port in = wants.get(want);
            if (out != null && in != null) {
                sourceOf.put(in, out);
                used.add(out);
            }
        });
        Set<Way> idle = new LinkedHashSet<>();
        chosen.forEach((want, way) -> {
            Port out = offerOf.get(way);
            Port in = wants.get(want);
            boolean loose =
                    in != null && between.contains(in) && outputsOf(in).stream().noneMatch(used::contains);
            boolean circling = in != null && out != null && !between.contains(in) && isOf(in.owner(), out, sourceOf);
            if (loose || circling || (out != null && !isAlive(out, sourceOf, new HashSet<>()))) {
                idle.add(way);
            }
        });
        return idle;
    }

    /** Whether an output gives what comes from a part, by whatever lies between: no part takes its own sound or picture. */
    private boolean isOf(String part, Port out, Map<Port, Port> sourceOf) {
        Set<Port> seen = new HashSet<>(Set.of(out));
        ArrayDeque<Port> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Port at = queue.remove();
            if (at.owner().equals(part)) {
                return true;
            }
            within.forEach((in, outputs) -> {
                Port before = outputs.contains(at) ? sourceOf.get(in) : null;
                if (before != null && seen.add(before)) {
                    queue.add(before);
                }
            });
        }
        return false;
    }

    /** Whether an output gives something that is not its own signal again. */
    private boolean isAlive(Port out, Map<Port, Port> sourceOf, Set<Port> path) {
        List<Port> inputs = within.entrySet().stream()
                .filter(entry -> entry.getValue().contains(out))
                .map(Map.Entry::getKey)
                .toList();
        if (inputs.isEmpty()) {
            return true;
        }
        if (!path.add(out)) {
            return false;
        }
        boolean fed = false;
        for (Port input : inputs) {
            Port source = sourceOf.get(input);
            if (source != null) {
                if (!isAlive(source, sourceOf, path)) {
                    return false;
                }
                fed = true;
            }
        }
        path.remove(out);
        return fed || !between.contains(out);
    }

    private Want want(Port port) {
        boolean lies = between.contains(port);
        boolean amplifier = !lies && isAmplified(port);
        return new Want(port.nodes(), describe(port), lies ? BETWEEN_LACK : amplifier ? AMPLIFIER_LACK : OTHER_LACK);
    }

    /** Whether a part makes something of an input: by what it couples, or as an amplifier of which no inside is told. */
    private boolean isAmplified(Port in) {
        return within.containsKey(in)
                || (in.flow() == Flow.IN
                        && in.level() != Level.VIDEO
                        && within.keySet().stream()
                                .noneMatch(other -> other.owner().equals(in.owner()))
                        && bench.network().nodesOf(in.owner()).stream()
                                .anyMatch(node ->
                                        node.facts() instanceof Electrical.ControlIn && node.isFor(Power.TURN_ON)));
    }

    private static String describe(Port port) {
        String channel = port.channel() == null ? "" : port.channel() + " ";
        return switch (port.level()) {
            case VIDEO -> "a picture";
            case SPEAKER -> "a " + channel + "signal at speaker level";
            case LINE, WIRE -> "a " + channel + "signal at line level";
        };
    }

    /** Whether a wish is for what an output gives; one of a part that drives loudspeakers is wished for at these. */
    private boolean isWished(Port out) {
        FunctionId function = out.function();
        return function != null
                && out.flow() != Flow.IN
                && (out.positive().isVehicle() || out.level() != Level.SPEAKER)
                && wishes.stream().anyMatch(wish -> function.isAtOrBelow(wish.function()));
    }

    /** A socket for whatever is brought along is the wish that something else serves most easily. */
    private static double wishPoints(Port out) {
        return isSocket(out) ? -WISH_POINTS / 2 : -WISH_POINTS;
    }

    /** Whether an output is one of the vehicle that is to be kept; a socket for whatever is brought along is the first to go. */
    private boolean isKept(Port out) {
        FunctionId function = out.function();
        return function != null
                && out.positive().isVehicle()
                && !isSocket(out)
                && wishes.stream()
                        .anyMatch(wish -> wish.want() == Wish.Want.KEEP && function.isAtOrBelow(wish.function()));
    }

    private static boolean isSocket(Port out) {
        FunctionId function = out.function();
        return out.positive().isVehicle() && function != null && function.isAtOrBelow(Solution.AUXILIARY);
    }

    /** Whether something wished for can come out of an output, directly or through what lies between. */
    private boolean mayCarryWish(Port out) {
        return carriesWish.computeIfAbsent(out, port -> mayCarry(port, this::isWished, new HashSet<>()));
    }

    private boolean mayCarryKept(Port out) {
        return carriesKept.computeIfAbsent(out, port -> mayCarry(port, this::isKept, new HashSet<>()));
    }

    private boolean mayCarry(Port out, Predicate<Port> is, Set<Port> seen) {
        if (!between.contains(out)) {
            return is.test(out);
        }
        return seen.add(out)
                && within.entrySet().stream()
                        .filter(entry -> entry.getValue().contains(out))
                        .map(Map.Entry::getKey)
                        .anyMatch(in -> ports.stream()
                                .anyMatch(source -> source.flow() != Flow.IN
                                        && !source.equals(out)
                                        && !source.owner().equals(in.owner())
                                        && (in.channel() == null
                                                || source.channel() == null
                                                || in.channel().agreesWith(source.channel()))
                                        && !within.containsKey(source)
                                        && mayCarry(source, is, seen)));
    }

    /** How an output serves an input, null if it cannot. */
    private @Nullable Way way(Want want, Port in, Port out) {
        if (in.owner().equals(out.owner()) || bench.areJoined(in.positive(), out.positive())) {
            return null;
        }
        FunctionId giver = out.function();
        FunctionId taker = in.function();
        boolean same =
                giver != null && taker != null && Ports.stem(out.positive()).equals(Ports.stem(in.positive()));
        boolean lies = between.contains(in) || between.contains(out);
        List<Term> terms = new ArrayList<>();
        if (!agree(in, out, same, lies, terms)) {
            return null;
        }
        if (giver != null && taker != null) {
            if (giver.isAtOrBelow(MICROPHONE) != taker.isAtOrBelow(MICROPHONE)
                    || !Functions.vocabulary().mayFeed(giver, taker)) {
                return null;
            }
        }
        boolean wished = isWished(out);
        if (out.positive().isVehicle()
                && isAmplified(in)
                && (in.level() == Level.SPEAKER || !between.contains(in))
                && !isMainSound(out)) {
            return null;
        }
        if (out.level() == Level.SPEAKER && within.values().stream().anyMatch(outs -> outs.contains(out))) {
            terms.add(new Term(AMPLIFIED_POINTS, "it has been amplified already"));
        }
        Term reach = bench.reach(out.positive());
        if (out.positive().isVehicle() && !isAmplified(in) && !same && !wished && !bench.isOff(out.positive())) {
            // what the factory unit still takes is not brought elsewhere for want of something better
            return null;
        }
        if (reach.points() > 0) {
            terms.add(reach);
        }
        boolean last = !between.contains(in);
        if (last && mayCarryWish(out)) {
            terms.add(new Term(wishPoints(out), (wished ? giver + " is" : "what it passes on is") + " wished for"));
        } else if (wished) {
            terms.add(new Term(isSocket(out) ? 20 : 0, giver + " is wished for"));
        } else if (!last && out.positive().isVehicle() && anythingWished) {
            terms.add(new Term(10, "nobody wished for it"));
        }
        if (mayCarryKept(out)) {
            terms.add(KEPT);
        }
        if (same) {
            terms.add(new Term(0, "both are " + Ports.stem(out.positive())));
        } else if (!lies) {
            terms.add(Term.inPlaceOf(6, giver, taker));
        }
        if (tiesReturn(in) && floats(out)) {
            terms.add(new Term(0, "its return floats, so that it may meet others"));
        }
        if (terms.isEmpty()) {
            terms.add(new Term(0, "channel and level fit"));
        }
        List<Join> joins = new ArrayList<>();
        Join.Run run = in.level() == Level.SPEAKER ? Join.Run.SPEAKER : Join.Run.SIGNAL;
        joins.add(Join.of(bench.access(out.positive()), bench.access(in.positive()), run));
        if (in.negative() != null && out.negative() != null) {
            joins.add(Join.of(bench.access(out.negative()), bench.access(in.negative()), run));
        } else if (in.negative() != null) {
            terms.add(new Term(20, "it has no return of its own"));
        }
        return new Way(want, out.nodes(), List.of(), terms, joins, Map.of());
    }

    /** What an amplifier is for: the channels of the vehicle, and no prompt, chime or film. */
    private static boolean isMainSound(Port out) {
        FunctionId function = out.function();
        Channel channel = out.channel();
        return channel != null
                && (function == null
                        || Ports.stem(out.positive()).equals("audio.speaker." + channel)
                        || Ports.stem(out.positive()).equals("audio.line." + channel));
    }

    /** The input that a turn-on of a part follows, null if it is the one behind this output. */
    private @Nullable String followedInstead(Port output) {
        for (Node node : bench.network().nodesOf(output.owner())) {
            Node followed = node.facts() instanceof Electrical.ControlOut control && control.follows() != null
                    ? bench.network().findNode(node.owner() + "." + control.follows())
                    : null;
            if (followed != null && followed.audio() != null) {
                boolean behind = bench.network().couplings().stream()
                        .anyMatch(coupling -> coupling.to().contains(output.positive())
                                && coupling.from().contains(followed));
                return behind || !between.contains(output) ? null : followed.ref();
            }
        }
        return null;
    }

    private boolean agree(Port in, Port out, boolean same, boolean lies, List<Term> terms) {
        if ((in.level() == Level.VIDEO) != (out.level() == Level.VIDEO)
                && in.level() != Level.WIRE
                && out.level() != Level.WIRE) {
            return false;
        }
        if (in.level() == Level.VIDEO || out.level() == Level.VIDEO) {
            return agreeOnPicture(in, out, terms);
        }
        if (out.level() == Level.WIRE && !isAdapterEnd(out) && !same && !lies) {
            return false;
        }
        if (in.level() == Level.SPEAKER && out.level() == Level.LINE) {
            return false;
        }
        if (out.level() == Level.SPEAKER && in.level() != Level.SPEAKER) {
            terms.add(new Term(200, Lack.CONVERTER));
        }
        if (!agreeOnChannel(in, out, terms)) {
            return false;
        }
        if (isDriven(out) && tiesReturn(in)) {
            terms.add(new Term(in.shared() || isAdapterEnd(in) ? 400 : 300, Lack.ISOLATOR));
        }
        if (out.shared() != in.shared() && isAdapterEnd(out)) {
            terms.add(new Term(
                    4, out.shared() ? "its two sides share one return" : "each of its sides has a return of its own"));
        }
        String followed = followedInstead(out);
        if (followed != null) {
            terms.add(new Term(FOLLOWED_POINTS, "", "the turn-on of " + out.owner() + " follows " + followed));
        }
        Double gives = out.maxVolts();
        if (in.positive().facts() instanceof Electrical.LineIn line && gives != null && out.level() != Level.SPEAKER) {
            if (line.maxVolts() != null && gives > line.maxVolts() * 1.0001 && !isWeakened(out)) {
                terms.add(new Term(
                        12,
                        "it gives up to " + Say.figure(gives) + " V, and the input takes " + Say.figure(line.maxVolts())
                                + " V"));
            }
            if (line.minVolts() != null && gives < line.minVolts()) {
                terms.add(new Term(12, "it gives no more than " + Say.figure(gives) + " V"));
            }
        }
        if (out.level() == Level.SPEAKER && gives != null) {
            terms.add(new Term(20 / (1 + gives / 4), "it gives up to " + Say.figure(gives) + " V"));
        }
        return true;
    }

    /** What lies between states the most it can give, which need not be what it gives. */
    private boolean isWeakened(Port out) {
        return between.contains(out);
    }

    private static boolean agreeOnPicture(Port in, Port out, List<Term> terms) {
        String gives = out.positive().facts() instanceof Electrical.VideoOut video ? video.format() : null;
        String takes = in.positive().facts() instanceof Electrical.VideoIn video ? video.format() : null;
        if (gives != null && takes != null && !gives.equals(takes)) {
            return false;
        }
        FunctionId taker = in.function();
        if (taker != null
                && !taker.isAtOrBelow(ANY_PICTURE)
                && !Ports.stem(out.positive()).equals(Ports.stem(in.positive()))) {
            return false;
        }
        if (taker == null || taker.isAtOrBelow(ANY_PICTURE)) {
            terms.add(new Term(8, "it is an input for any picture"));
        }
        return true;
    }

    private boolean agreeOnChannel(Port in, Port out, List<Term> terms) {
        Channel gives = out.channel();
        Channel takes = in.channel();
        if (gives == null || takes == null) {
            if (gives != takes) {
                terms.add(new Term(8, "one of the two names no channel"));
            }
            return true;
        }
        if (!gives.agreesWith(takes)) {
            return false;
        }
        boolean middle = gives == Channel.SUBWOOFER || gives == Channel.CENTRE;
        boolean reachesSame = outputsOf(in).stream().anyMatch(output -> output.channel() == gives);
        if (gives != takes && !reachesSame) {
            boolean rear = gives == Channel.REAR_LEFT || gives == Channel.REAR_RIGHT;
            terms.add(new Term(middle || takes == Channel.SUBWOOFER ? 30 : rear ? 6 : 3, "its channel is " + gives));
        }
        return true;
    }

    private static boolean isDriven(Port out) {
        return out.negative() != null
                && out.negative().facts() instanceof Electrical.LineOut line
                && line.side() == Side.RETURN
                && line.returns() == OutputReturn.DRIVEN;
    }

    private static boolean floats(Port out) {
        return out.negative() != null
                && out.negative().facts() instanceof Electrical.LineOut line
                && line.returns() == OutputReturn.ISOLATED;
    }

    /** Whether an input ties its return to the chassis, or to the return of another. */
    private boolean tiesReturn(Port in) {
        Node negative = in.negative();
        if (negative == null) {
            return true;
        }
        if (in.shared()
                || (negative.facts() instanceof Electrical.LineIn line && line.returns() == InputReturn.CHASSIS)) {
            return true;
        }
        return isAdapterEnd(in)
                && bench.network().netOf(negative).stream()
                                .filter(node -> node.owner().equals(in.owner()))
                                .count()
                        > 2;
    }
}
