package dev.splicebook.hookup.net;

import java.util.BitSet;
import java.util.Map;
import java.util.Set;

/** What holds once relays and part-fed outputs have come to rest. */
final class Solution {

    private final Partition partition;
    private final BitSet energised;
    private final Scenario.Sure[] live;
    private final Map<String, Integer> partOf;
    private final Scenario.Sure[] fed;
    private final Set<String> restless;

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

    Scenario.Sure live(Node source) {
        return live[source.index];
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
