package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Electrical;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Which audio outputs arrive at a node, directly and through couplings. */
public final class Signals {

    private static final int MOST_STAGES = 12;

    private final Partition partition;
    private final Map<Integer, List<Arrival>> memo = new HashMap<>();
    private final Map<Node, List<Feed>> couplingsTo = new HashMap<>();

    private record Feed(Coupling coupling, int end) {}

    /**
     * One output as it arrives.
     *
     * @param origin the output's terminal
     * @param gain volts here for a volt at the origin, below 0 if turned round
     * @param volts rms at most here, null if the origin's is unknown
     * @param entry what brings it onto this net: the origin itself, or a coupling
     */
    public record Arrival(
            Node origin, double gain, @Nullable Double volts, Object entry) {
        public boolean isCoupled() {
            return entry instanceof Coupling;
        }

        /** True if the origin's plus or signal arrives, or its minus turned round. */
        public boolean isPositive() {
            Electrical.Audio audio = origin.audio();
            boolean positive =
                    audio != null && audio.side() != null && audio.side().isPositive();
            return positive == gain > 0;
        }
    }

    Signals(Network network, Partition partition) {
        this.partition = partition;
        for (Coupling coupling : network.couplings()) {
            for (int end = 0; end < 2; end++) {
                couplingsTo
                        .computeIfAbsent(coupling.to().get(end), node -> new ArrayList<>(1))
                        .add(new Feed(coupling, end));
            }
        }
    }

    /** Signals by the nets of a scenario. */
    public static Signals in(Network network, Scenario scenario) {
        return new Signals(network, (Partition) scenario.partition());
    }

    /** What arrives at a node, once for each origin and entry. */
    public List<Arrival> arrivals(Node node) {
        return arrivals(partition.netOf(node), new HashSet<>());
    }

    private List<Arrival> arrivals(int net, Set<Integer> under) {
        List<Arrival> known = memo.get(net);
        if (known != null) {
            return known;
        }
        if (under.size() >= MOST_STAGES || !under.add(net)) {
            return List.of();
        }
        List<Arrival> arrivals = new ArrayList<>();
        for (Node member : partition.members(net)) {
            Electrical.Audio audio = member.audio();
            boolean output = audio != null && audio.isOutput();
            boolean driven = false;
            for (Feed feed : couplingsTo.getOrDefault(member, List.of())) {
                Coupling coupling = feed.coupling();
                for (Arrival before : arrivals(partition.netOf(coupling.from().get(feed.end())), under)) {
                    driven = true;
                    Double volts = before.volts() == null ? null : before.volts() * Math.abs(coupling.gain());
                    Double most = output ? maxVolts(audio) : null;
                    if (volts != null && most != null) {
                        volts = Math.min(volts, most);
                    }
                    arrivals.add(new Arrival(before.origin(), before.gain() * coupling.gain(), volts, coupling));
                }
            }
            if (output && !driven) {
                arrivals.add(new Arrival(member, 1, maxVolts(audio), member));
            }
        }
        under.remove(net);
        if (under.isEmpty()) {
            memo.put(net, arrivals);
        }
        return arrivals;
    }

    /** The coupling whose {@code to} end an output is, so that it passes on what arrives there; null if there is none. */
    public @Nullable Coupling couplingInto(Node output) {
        List<Feed> feeds = couplingsTo.getOrDefault(output, List.of());
        return feeds.isEmpty() ? null : feeds.get(0).coupling();
    }

    private static @Nullable Double maxVolts(Electrical.@Nullable Audio audio) {
        if (audio instanceof Electrical.SpeakerOut out) {
            return out.maxVolts();
        }
        return audio instanceof Electrical.LineOut out ? out.maxVolts() : null;
    }
}
