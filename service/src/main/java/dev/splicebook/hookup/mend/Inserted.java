package dev.splicebook.hookup.mend;

import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A coupling, like a channel of an isolator or a converter, put into the two leads of a pair. */
final class Inserted {

    private Inserted() {}

    /**
     * The two leads of a pair where the coupling goes in.
     *
     * @param channel of the pair, null if unknown
     * @param source terminals on the source's side: plus or signal, then minus or return
     * @param wires the connections, in the same order; null for a side that has none, which gets one
     * @param sink terminals on the sink's side, in the same order
     */
    record Pair(@Nullable Channel channel, List<String> source, List<@Nullable String> wires, List<String> sink) {}

    /** One connection of a pair, null where both ends are known and nothing joins them. */
    static @Nullable String ref(@Nullable Link link) {
        return link == null ? null : link.ref();
    }

    /** Puts a coupling of a part into a pair; the old connections stay on the source's side. */
    static void into(Edit edit, String part, Device.Couple couple, Pair pair) {
        for (int side = 0; side < 2; side++) {
            String in = part + "." + couple.from().get(side);
            String out = part + "." + couple.to().get(side);
            String source = pair.source().get(side);
            String sink = pair.sink().get(side);
            String ref = pair.wires().get(side);
            if (ref == null) {
                edit.light(source, in);
                edit.light(out, sink);
                continue;
            }
            Connection was = edit.wire(ref);
            edit.ends(ref, source, in).fuse(ref, null);
            edit.join(out, sink, was.conductor(), was.length() == null ? null : Sizing.NEAR, null);
        }
    }

    /** The coupling of a device that suits a channel best among those that are free. */
    static Optional<Device.Couple> best(Device device, List<Device.Couple> free, @Nullable Channel channel) {
        return free.stream().min(Comparator.comparing(couple -> {
            Channel own = channelOf(device, couple);
            return channel != null && own != null && own.agreesWith(channel) ? 0 : own == null ? 1 : 2;
        }));
    }

    private static @Nullable Channel channelOf(Device device, Device.Couple couple) {
        Device.Terminal terminal = device.allTerminals().get(couple.from().get(0));
        return terminal != null && terminal.electrical() instanceof Electrical.Audio audio ? audio.channel() : null;
    }

    /** Whether nothing is connected to any terminal of a coupling. */
    static boolean isFree(String part, Device.Couple couple, Defect defect) {
        return java.util.stream.Stream.concat(couple.from().stream(), couple.to().stream())
                .map(name -> defect.network().findNode(part + "." + name))
                .allMatch(node -> node != null && !defect.network().isConnected(node));
    }

    /** Whether a part only passes on, so that it needs neither power nor anything else. */
    static boolean isPassive(Device device) {
        return device.terminals().values().stream()
                .noneMatch(terminal -> terminal.electrical() instanceof Electrical.Load
                        || terminal.electrical() instanceof Electrical.ControlIn);
    }

    /** The connection at a terminal if there is just one. */
    static @Nullable Link onlyWire(Node node, Defect defect) {
        List<Link> wires = defect.wiresAt(node);
        return wires.size() == 1 ? wires.get(0) : null;
    }
}
