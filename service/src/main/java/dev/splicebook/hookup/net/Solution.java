package dev.splicebook.hookup.net;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** What holds once relays and part-fed outputs have come to rest. */
final class Solution {

    private final Partition partition;
    private final BitSet energised;
    /** By {@link Node#sourceIndex}. */
    private final Scenario.Sure[] live;

    private final Map<String, Integer> partOf;
    private final Scenario.Sure[] fed;
    private final Set<String> restless;
    /** By net, worked out when first asked for. */
    private Scenario.Sure @Nullable [] feeds;

    private Scenario.Sure @Nullable [] grounds;

    Solution(
            Partition partition,
            BitSet energised,
            Scenario.Sure[] live,
            Map<String, Integer> partOf,
            Scenario.Sure[] fed,
            Set<String> restless) {
        this.partition = partition;
        this.energised = energised;
        this.live = live;
        this.partOf = partOf;
        this.fed = fed;
        this.restless = restless;
    }

    Partition partition() {
        return partition;
    }

    /** Whether anything is live or fed that is so in none of some others in which contacts stand as they do here. */
    boolean showsMoreThan(List<Solution> others) {
        List<Solution> alike = new ArrayList<>(others.size());
        for (Solution other : others) {
            if (other.partition == partition) {
                alike.add(other);
            }
        }
        return alike.isEmpty() || isMore(live, alike, other -> other.live) || isMore(fed, alike, other -> other.fed);
    }

    private static boolean isMore(
            Scenario.Sure[] these, List<Solution> others, Function<Solution, Scenario.Sure[]> those) {
        Scenario.Sure[] most = new Scenario.Sure[these.length];
        Arrays.fill(most, Scenario.Sure.NO);
        for (Solution other : others) {
            Scenario.Sure[] there = those.apply(other);
            for (int at = 0; at < most.length; at++) {
                most[at] = most[at].or(there[at]);
            }
        }
        for (int at = 0; at < these.length; at++) {
            if (most[at].compareTo(these[at]) < 0) {
                return true;
            }
        }
        return false;
    }

    BitSet energised() {
        return energised;
    }

    /** Whether a relay pulls that does not in another, and all have come to rest. */
    boolean pullsMoreThan(Solution other) {
        BitSet more = (BitSet) energised.clone();
        more.andNot(other.energised);
        return restless.isEmpty() && !more.isEmpty();
    }

    Scenario.Sure live(Node source) {
        return live(source, live);
    }

    /** Whether a source is live, by the places of sources; a ground of the vehicle always is. */
    static Scenario.Sure live(Node source, Scenario.Sure[] live) {
        if (source.sourceIndex >= 0) {
            return live[source.sourceIndex];
        }
        return source.isReference() ? Scenario.Sure.YES : Scenario.Sure.NO;
    }

    /** Whether 12 V stands on a net. */
    Scenario.Sure feedAt(int net) {
        if (feeds == null) {
            feeds = at(Node::givesTwelveVolts);
        }
        return feeds[net];
    }

    /** Whether ground stands on a net. */
    Scenario.Sure groundAt(int net) {
        if (grounds == null) {
            grounds = at(Node::pullsToGround);
        }
        return grounds[net];
    }

    private Scenario.Sure[] at(Predicate<Node> gives) {
        Scenario.Sure[] all = new Scenario.Sure[partition.netCount()];
        for (int net = 0; net < all.length; net++) {
            Scenario.Sure sure = Scenario.Sure.NO;
            List<Reach> reaches = partition.reaches(net);
            for (int at = 0; at < reaches.size(); at++) {
                Node source = reaches.get(at).source();
                if (gives.test(source)) {
                    sure = sure.or(live(source));
                }
            }
            all[net] = sure;
        }
        return all;
    }

    Scenario.Sure fed(String part) {
        Integer place = partOf.get(part);
        return place == null ? Scenario.Sure.YES : fed[place];
    }

    boolean isEnergised(Coil coil) {
        return energised.get(coil.relay());
    }

    Set<String> restless() {
        return restless;
    }
}
