package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Works out every scenario. Relays start released and outputs of parts dead; each round works out which outputs are live
 * and which coils pull, until nothing changes. A round that was there before is an oscillation.
 */
final class Scenarios {

    /** Rounds in which most hookups come to rest; only then positions are remembered. */
    private static final int USUAL_ROUNDS = 4;

    /** Rounds after which relays that neither rest nor repeat are given up: a long counter made of relays. */
    private static final int MOST_ROUNDS = 1000;

    /** Rounds in which relays that start pulled may drop or pull one after another. */
    private static final int MOST_DROPS = 100;

    private static final int NONE = -1;

    private final Network network;
    private final Map<BitSet, Partition> partitions = new HashMap<>();
    private @Nullable Partition first;
    private final Map<Allowance, Solution> solutions = new HashMap<>();
    /** Parts that have loads in use, or were left without a feed, with their places in {@link #parts}. */
    private final Map<String, Integer> partOf = new HashMap<>();

    private final List<Part> parts = new ArrayList<>();
    /** Place of the part of each node, by its index; {@link #NONE} of a vehicle's and of parts without loads. */
    private final int[] partAt;
    /** The terminal that each source follows, by place; null where it follows none, or none that there is. */
    private final @Nullable Node[] followed;

    private int @Nullable [] returns;

    private Scenarios(Network network) {
        this.network = network;
        partAt = new int[network.nodes().size()];
        Arrays.fill(partAt, NONE);
        followed = new Node[network.sources().size()];
        for (int source = 0; source < followed.length; source++) {
            Node node = network.sources().get(source);
            if (node.facts() instanceof Electrical.ControlOut out && out.follows() != null) {
                followed[source] = network.findNode(node.owner() + "." + out.follows());
            }
        }
        network.byOwner().forEach((owner, nodes) -> {
            if (nodes.isEmpty() || nodes.get(0).isVehicle()) {
                return;
            }
            List<Node> loads = new ArrayList<>();
            List<Node> grounds = new ArrayList<>();
            for (Node node : nodes) {
                if (node.facts() instanceof Electrical.Load && !network.isUnused(node)) {
                    loads.add(node);
                } else if (node.facts() instanceof Electrical.Ground) {
                    grounds.add(node);
                }
            }
            if (!loads.isEmpty() || network.isLeftUnfed(owner)) {
                nodes.forEach(node -> partAt[node.index] = parts.size());
                partOf.put(owner, parts.size());
                parts.add(new Part(loads, grounds));
            }
        });
    }

    private record Part(List<Node> loads, List<Node> grounds) {}

    /**
     * What each source may do by the state and condition alone, and whether the factory unit plays.
     *
     * @param sources by place, the letter of each
     */
    private record Allowance(String sources, boolean playing) {

        Sure of(int source) {
            return switch (sources.charAt(source)) {
                case 'y' -> Sure.YES;
                case 'n' -> Sure.NO;
                default -> Sure.UNKNOWN;
            };
        }
    }

    static void solve(Network network, List<Scenario> into) {
        Scenarios scenarios = new Scenarios(network);
        Set<Condition> all = Collections.unmodifiableSet(network.conditions());
        List<Set<Condition>> singles = new ArrayList<>(all.size());
        for (Condition condition : all) {
            singles.add(Collections.unmodifiableSet(EnumSet.of(condition)));
        }
        @Nullable Solution before = null;
        for (State state : State.values()) {
            List<Solution> told = new ArrayList<>(singles.size() + 1);
            Solution released = scenarios.solution(state, Set.of());
            Solution plain = state == State.ASLEEP
                    ? scenarios.afterUse(released, singles)
                    : before == null ? released : scenarios.follow(state, before, released);
            before = state == State.ASLEEP ? null : plain;
            @Nullable Solution held = plain == released ? null : plain;
            told.add(plain);
            into.add(new Scenario(state, Set.of(), plain));
            for (Set<Condition> single : singles) {
                Solution solution = scenarios.solution(state, single, held);
                if (solution != plain) {
                    told.add(solution);
                    into.add(new Scenario(state, single, solution));
                }
            }
            if (told.size() > 2) {
                Solution together = scenarios.solution(state, all, held);
                if (together.showsMoreThan(told) || scenarios.meetsUnderSeveral(together)) {
                    into.add(new Scenario(state, all, together));
                }
            }
        }
    }

    /**
     * Whether sources that wait for different conditions give to one net, or to parts that share a lead to ground, where
     * what they are asked for adds up.
     */
    private boolean meetsUnderSeveral(Solution solution) {
        Map<Integer, List<List<Condition>>> returning = new HashMap<>();
        for (int net = 0; net < solution.partition().netCount(); net++) {
            List<List<Condition>> others = new ArrayList<>();
            for (Reach reach : solution.partition().reaches(net)) {
                List<Condition> when = Network.whenOf(reach.source());
                if (!when.isEmpty()
                        && solution.live(reach.source()) != Sure.NO
                        && (isJoinedByAnother(when, others) || sharesReturn(when, net, solution, returning))) {
                    return true;
                }
            }
        }
        return false;
    }

    private static boolean isJoinedByAnother(List<Condition> when, List<List<Condition>> others) {
        if (others.stream().anyMatch(other -> Collections.disjoint(other, when))) {
            return true;
        }
        others.add(when);
        return false;
    }

    /**
     * Whether what is fed on a net returns by a lead by which also what is fed under another condition does.
     *
     * @param returning the conditions under which something returns by each of {@link #returns}, as far as known
     */
    private boolean sharesReturn(
            List<Condition> when, int net, Solution solution, Map<Integer, List<List<Condition>>> returning) {
        int[] leads = returns();
        for (Node taker : solution.partition().members(net)) {
            if (taker.isVehicle() || !takesCurrent(taker)) {
                continue;
            }
            for (Node ground : network.nodesOf(taker.owner())) {
                if (ground.facts() instanceof Electrical.Ground
                        && network.isConnected(ground)
                        && isJoinedByAnother(
                                when, returning.computeIfAbsent(leads[ground.index], lead -> new ArrayList<>(2)))) {
                    return true;
                }
            }
        }
        return false;
    }

    private static boolean takesCurrent(Node node) {
        return node.facts() instanceof Electrical.Load || node.facts() instanceof Electrical.ControlIn;
    }

    /** By node, the same number where conductor joins two without passing a ground of the vehicle. */
    private int[] returns() {
        if (returns == null) {
            returns = new int[network.nodes().size()];
            Arrays.setAll(returns, node -> node);
            for (Link link : network.links()) {
                if (link.kind().isSolid()
                        && !link.from().isReference()
                        && !link.to().isReference()) {
                    Network.union(returns, link.from().index, link.to().index);
                }
            }
            int[] parents = returns;
            Arrays.setAll(returns, node -> Network.find(parents, node));
        }
        return returns;
    }

    /**
     * A vehicle falls asleep after it ran, and after doors and gears have had their turn, so that a relay which holds itself
     * by its own contact is pulled still, whatever had pulled it.
     */
    private Solution afterUse(Solution released, List<Set<Condition>> singles) {
        // mostly none would stay pulled even if all gave that may give asleep
        Sure[] most = new Sure[network.sources().size()];
        Arrays.setAll(most, allowance(State.ASLEEP, Set.of())::of);
        Solution after = after(State.CRANKING, Set.of(), most, released);
        after = after(State.RUNNING, Set.of(), most, after);
        for (Set<Condition> single : singles) {
            after = after(State.RUNNING, single, most, after);
            after = after(State.ASLEEP, single, most, after);
        }
        return after;
    }

    /**
     * How all stands asleep once a condition has come and gone in a state.
     *
     * @param most what may give asleep at most
     * @param before how all stood asleep before it
     * @return that same where no relay stays pulled by it, or another lets go
     */
    private Solution after(State state, Set<Condition> conditions, Sure[] most, Solution before) {
        Solution during = solution(state, conditions);
        if (!mayStayPulled(during, most, before)) {
            return before;
        }
        @Nullable Solution at = before;
        if (state != State.ASLEEP) {
            at = then(at, state, Set.of());
        }
        at = then(at, state, conditions);
        if (state != State.ASLEEP) {
            at = then(at, state, Set.of());
            at = then(at, State.ACCESSORY, Set.of());
        }
        at = then(at, State.ASLEEP, Set.of());
        return more(at, before);
    }

    /** Whether a relay that pulls in a solution may stay pulled where sources give what they may give at most. */
    private boolean mayStayPulled(Solution during, Sure[] most, Solution before) {
        BitSet kept = pulled(partition(during.energised()), most);
        kept.and(during.energised());
        kept.andNot(before.energised());
        return !kept.isEmpty() && during.restless().isEmpty();
    }

    /** The first where a relay pulls in it that does not in the other, and none the other way round; else the other. */
    private static Solution more(@Nullable Solution one, Solution other) {
        return one != null && one.pullsMoreThan(other) && !other.pullsMoreThan(one) ? one : other;
    }

    /**
     * How all stands in a state that follows another as the key is turned on, so that a relay which holds itself is pulled
     * still that was pulled before, as by the feed of the starter.
     *
     * @param released how all stands where no relay was pulled before
     */
    private Solution follow(State state, Solution before, Solution released) {
        if (before.energised().isEmpty() || before == released) {
            return released;
        }
        Allowance allowance = allowance(state, Set.of());
        Sure[] most = new Sure[network.sources().size()];
        Arrays.setAll(most, allowance::of);
        @Nullable Solution after = mayStayPulled(before, most, released) ? held(allowance, before.energised()) : null;
        return more(after, released);
    }

    private @Nullable Solution then(@Nullable Solution before, State state, Set<Condition> conditions) {
        return before == null ? null : held(allowance(state, conditions), before.energised());
    }

    private Solution solution(State state, Set<Condition> conditions) {
        return solution(allowance(state, conditions), state, conditions);
    }

    private Solution solution(Allowance allowance, State state, Set<Condition> conditions) {
        Solution known = solutions.get(allowance);
        if (known == null) {
            known = solve(allowance);
            if (!known.restless().isEmpty()) {
                Solution settled = race(allowance, before(state, conditions));
                known = settled == null ? known : settled;
            }
            solutions.put(allowance, known);
        }
        return known;
    }

    /** The relays that are pulled before a condition comes, or before the key is turned to a state. */
    private BitSet before(State state, Set<Condition> conditions) {
        if (!conditions.isEmpty()) {
            return solution(state, Set.of()).energised();
        }
        State before = switch (state) {
            case ASLEEP -> null;
            case ACCESSORY -> State.ASLEEP;
            case IGNITION -> State.ACCESSORY;
            case CRANKING, RUNNING -> State.IGNITION;
            case RESTARTING -> State.RUNNING;
        };
        return before == null ? new BitSet() : solution(before, Set.of()).energised();
    }

    /** @param plain without a condition, where relays are pulled that hold themselves; else null */
    private Solution solution(State state, Set<Condition> conditions, @Nullable Solution plain) {
        Allowance allowance = allowance(state, conditions);
        if (plain == null) {
            return solution(allowance, state, conditions);
        }
        Solution held = allowance.equals(allowance(state, Set.of())) ? plain : held(allowance, plain.energised());
        return held == null ? plain : held;
    }

    private Allowance allowance(State state, Set<Condition> conditions) {
        StringBuilder allowed = new StringBuilder(network.sources().size());
        for (Node source : network.sources()) {
            allowed.append(allowed(source, state, conditions).letter);
        }
        // that a factory unit plays whenever it is awake is an assumption that the checker lists
        boolean playing = state != State.ASLEEP && state != State.CRANKING;
        return new Allowance(allowed.toString(), playing);
    }

    private Sure allowed(Node source, State state, Set<Condition> conditions) {
        List<Condition> when = Network.whenOf(source);
        if (!when.isEmpty() && Collections.disjoint(when, conditions)) {
            return Sure.NO;
        }
        List<State> live = Network.liveOf(source);
        if (live == null) {
            return partAt[source.index] == NONE ? Sure.UNKNOWN : Sure.YES;
        }
        return live.contains(state) ? Sure.YES : Sure.NO;
    }

    private Solution solve(Allowance allowance) {
        Sure[] live = none(network.sources().size());
        BitSet energised = new BitSet();
        Sure[] fed = none(parts.size());
        Set<List<Object>> seen = new HashSet<>();
        Set<String> restless = new TreeSet<>();
        @Nullable List<Object> repeated = null;
        for (int round = 0; ; round++) {
            BitSet now = energised;
            Partition partition = partition(energised);
            Sure[] next = live(allowance, partition, fed, live);
            Sure[] feeds = fed(partition, next);
            BitSet pulled = pulled(partition, next);
            boolean settled = Arrays.equals(next, live) && pulled.equals(now) && Arrays.equals(feeds, fed);
            live = next;
            energised = pulled;
            fed = feeds;
            if (settled) {
                break;
            }
            if (round < USUAL_ROUNDS) {
                continue;
            }
            List<Object> position = List.of(pulled, Arrays.asList(next), Arrays.asList(feeds));
            boolean circling = repeated != null;
            if (circling || round > MOST_ROUNDS) {
                addChanging(now, pulled, restless);
            }
            if (position.equals(repeated) || round > 2 * MOST_ROUNDS || (round > MOST_ROUNDS && !circling)) {
                break;
            }
            if (!circling && !seen.add(position)) {
                // once more round, so that every relay that takes part is found
                repeated = position;
            }
        }
        Partition partition = partition(energised);
        return new Solution(partition, energised, live, partOf, fed, restless);
    }

    /**
     * How relays come to rest that pull or drop one after the other and not at once, as no two are equally quick: of two that
     * lock each other out one wins, the one that pulled before, else the first by name.
     *
     * @param start the relays that were pulled before
     * @return null where they come to no rest so either
     */
    private @Nullable Solution race(Allowance allowance, BitSet start) {
        BitSet energised = (BitSet) start.clone();
        int most = 2 * network.coils().size();
        for (int round = 0; round <= most; round++) {
            Partition partition = partition(energised);
            Sure[] live = none(network.sources().size());
            Sure[] fed = none(parts.size());
            settle(allowance, partition, live, fed);
            BitSet pulled = pulled(partition, live);
            if (pulled.equals(energised)) {
                return new Solution(partition, energised, live, partOf, fed, Set.of());
            }
            BitSet changing = (BitSet) pulled.clone();
            changing.xor(energised);
            energised = (BitSet) energised.clone();
            energised.flip(first(changing));
        }
        return null;
    }

    private int first(BitSet relays) {
        return network.coils().stream()
                .filter(coil -> relays.get(coil.relay()))
                .min(Comparator.comparing(Coil::part)
                        .thenComparing(coil -> coil.one().name()))
                .orElseThrow()
                .relay();
    }

    /** Works out from nothing what is live and fed while contacts stand as they do, so that no part feeds itself. */
    private void settle(Allowance allowance, Partition partition, Sure[] live, Sure[] fed) {
        for (boolean settled = false; !settled; ) {
            Sure[] next = live(allowance, partition, fed, live);
            Sure[] feeds = fed(partition, next);
            settled = Arrays.equals(next, live) && Arrays.equals(feeds, fed);
            System.arraycopy(next, 0, live, 0, live.length);
            System.arraycopy(feeds, 0, fed, 0, fed.length);
        }
    }

    /**
     * How all stands where relays start pulled. What is live and fed is worked out from nothing each time a relay drops, so
     * that no part feeds itself.
     *
     * @return null where relays come to no rest
     */
    private @Nullable Solution held(Allowance allowance, BitSet start) {
        BitSet energised = start;
        for (int round = 0; round < MOST_DROPS; round++) {
            Partition partition = partition(energised);
            Sure[] live = none(network.sources().size());
            Sure[] fed = none(parts.size());
            settle(allowance, partition, live, fed);
            BitSet pulled = pulled(partition, live);
            if (pulled.equals(energised)) {
                return new Solution(partition, energised, live, partOf, fed, Set.of());
            }
            energised = pulled;
        }
        return null;
    }

    private static Sure[] none(int count) {
        Sure[] none = new Sure[count];
        Arrays.fill(none, Sure.NO);
        return none;
    }

    private Sure[] live(Allowance allowance, Partition partition, Sure[] fed, Sure[] live) {
        Sure[] next = new Sure[live.length];
        for (int source = 0; source < next.length; source++) {
            Sure allowed = allowance.of(source);
            next[source] = allowed == Sure.NO
                    ? Sure.NO
                    : allowed.and(
                            powered(network.sources().get(source), followed[source], partition, fed, live, allowance));
        }
        return next;
    }

    private Sure[] fed(Partition partition, Sure[] live) {
        Sure[] fed = new Sure[parts.size()];
        for (int part = 0; part < fed.length; part++) {
            fed[part] = fed(parts.get(part), partition, live);
        }
        return fed;
    }

    private Partition partition(BitSet energised) {
        Partition known = partitions.get(energised);
        if (known == null) {
            known = new Partition(network, energised, network.mayContactsMoveSignals() ? null : first);
            partitions.put(energised, known);
            first = first == null ? known : first;
        }
        return known;
    }

    private void addChanging(BitSet before, BitSet after, Set<String> restless) {
        for (Coil coil : network.coils()) {
            if (before.get(coil.relay()) != after.get(coil.relay())) {
                restless.add(coil.part());
            }
        }
    }

    /** Whether a source has what it needs beside the state: a vehicle's always, a part's while its part is fed. */
    private Sure powered(
            Node source, @Nullable Node followed, Partition partition, Sure[] fed, Sure[] live, Allowance allowance) {
        int part = partAt[source.index];
        Sure powered = part == NONE ? Sure.YES : fed[part];
        if (source.facts() instanceof Electrical.ControlOut out && out.follows() != null) {
            powered = powered.and(
                    followed == null
                            ? Sure.UNKNOWN
                            : followed.facts() instanceof Electrical.ControlIn in
                                    ? isActive(followed, in.active(), partition, live)
                                    : followed.facts() instanceof Electrical.Load
                                            ? isActive(followed, Active.TWELVE_VOLTS, partition, live)
                                            : hasSignal(followed, partition, fed, allowance));
        }
        return powered;
    }

    /** Whether what a control input listens for is there. */
    private static Sure isActive(Node input, @Nullable Active active, Partition partition, Sure[] live) {
        int net = partition.netOf(input);
        Sure heard = active == null || partition.isUnknown(net) ? Sure.UNKNOWN : Sure.NO;
        for (Reach reach : partition.reaches(net)) {
            Node source = reach.source();
            boolean speaks = active == Active.TWELVE_VOLTS
                    ? source.givesTwelveVolts()
                    : active == Active.GROUND
                            ? source.pullsToGround()
                            : source.facts() instanceof Electrical.ControlOut out && out.active() == active;
            if (speaks) {
                heard = heard.or(Solution.live(source, live));
            }
        }
        return heard;
    }

    private Sure hasSignal(Node followed, Partition partition, Sure[] fed, Allowance allowance) {
        Sure signal = Sure.NO;
        for (Signals.Arrival arrival : partition.signals().arrivals(followed)) {
            Node origin = arrival.origin();
            int part = partAt[origin.index];
            signal = signal.or(
                    origin.isVehicle()
                            ? (allowance.playing() ? Sure.YES : Sure.NO)
                            : part == NONE ? Sure.YES : fed[part]);
        }
        return signal;
    }

    private static Sure fed(Part part, Partition partition, Sure[] live) {
        Sure fed = part.loads().isEmpty() ? Sure.NO : Sure.YES;
        for (Node load : part.loads()) {
            Sure feed = partition.isUnknown(partition.netOf(load)) ? Sure.UNKNOWN : Sure.NO;
            for (Reach reach : partition.reaches(partition.netOf(load))) {
                if (reach.source().givesTwelveVolts()) {
                    feed = feed.or(Solution.live(reach.source(), live));
                }
            }
            fed = fed.and(feed);
        }
        if (!part.grounds().isEmpty()) {
            Sure grounded = Sure.NO;
            for (Node ground : part.grounds()) {
                grounded = grounded.or(partition.isUnknown(partition.netOf(ground)) ? Sure.UNKNOWN : Sure.NO)
                        .or(grounded(ground, partition, live));
            }
            fed = fed.and(grounded);
        }
        return fed;
    }

    private static Sure grounded(Node node, Partition partition, Sure[] live) {
        Sure grounded = Sure.NO;
        for (Reach reach : partition.reaches(partition.netOf(node))) {
            if (reach.source().pullsToGround()) {
                grounded = grounded.or(Solution.live(reach.source(), live));
            }
        }
        return grounded;
    }

    private BitSet pulled(Partition partition, Sure[] live) {
        BitSet pulled = new BitSet();
        for (Coil coil : network.coils()) {
            // with both ends on one net, as while its own contact shorts its feed, no current flows
            if (partition.netOf(coil.one()) == partition.netOf(coil.other())) {
                continue;
            }
            if ((fedSurely(coil.one(), partition, live) && grounded(coil.other(), partition, live) == Sure.YES)
                    || (fedSurely(coil.other(), partition, live)
                            && grounded(coil.one(), partition, live) == Sure.YES)) {
                pulled.set(coil.relay());
            }
        }
        return pulled;
    }

    private static boolean fedSurely(Node node, Partition partition, Sure[] live) {
        for (Reach reach : partition.reaches(partition.netOf(node))) {
            if (reach.source().givesTwelveVolts()
                    && !partition.isShorted(reach.source())
                    && Solution.live(reach.source(), live) == Sure.YES) {
                return true;
            }
        }
        return false;
    }
}
