package dev.splicebook.hookup.net;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * An isolating coupling: what stands between the two {@code from} nodes appears between the two {@code to} nodes.
 *
 * @param from plus or signal, then minus or return
 * @param to in the same order
 * @param gain volts out for a volt in, below 0 if it turns the polarity round
 * @param inputOhms between the {@code from} nodes, null if unknown
 * @param maxVolts rms taken at most, null if unknown
 */
public record Coupling(
        String part,
        List<Node> from,
        List<Node> to,
        double gain,
        @Nullable Double inputOhms,
        @Nullable Double maxVolts) {}
