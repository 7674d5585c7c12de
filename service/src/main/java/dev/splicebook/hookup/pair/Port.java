package dev.splicebook.hookup.pair;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Node;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The two terminals of one signal.
 *
 * @param negative null where it has none of its own
 * @param shared whether other signals return by the same terminal
 */
record Port(
        Level level,
        Flow flow,
        @Nullable Channel channel,
        Node positive,
        @Nullable Node negative,
        boolean shared) {

    enum Level {
        SPEAKER,
        LINE,
        VIDEO,
        /** A wire of which only the function is known. */
        WIRE
    }

    enum Flow {
        IN,
        OUT,
        EITHER
    }

    String owner() {
        return positive.owner();
    }

    List<Node> nodes() {
        return negative == null ? List.of(positive) : List.of(positive, negative);
    }

    @Nullable
    FunctionId function() {
        return positive.function();
    }

    /** Whether it is a loudspeaker, or the side of one, and no input that only listens. */
    boolean isDriver() {
        return positive.facts() instanceof Electrical.SpeakerIn in && in.ohms() != null;
    }

    @Nullable
    Double maxVolts() {
        Electrical facts = positive.facts();
        if (facts instanceof Electrical.SpeakerOut out) {
            return out.maxVolts();
        }
        if (facts instanceof Electrical.LineOut out) {
            return out.maxVolts();
        }
        if (facts instanceof Electrical.SpeakerIn in) {
            return in.maxVolts();
        }
        return facts instanceof Electrical.LineIn in ? in.maxVolts() : null;
    }
}
