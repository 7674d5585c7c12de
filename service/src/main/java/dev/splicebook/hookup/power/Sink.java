package dev.splicebook.hookup.power;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import org.jspecify.annotations.Nullable;

/** What takes current: a load, a control input for 12 V, or the coil of a relay. */
public final class Sink {

    private final Node node;
    private final @Nullable Coil coil;
    final int index;
    /** Joint that current enters at, and the one that it leaves at. */
    final int from;

    final int to;

    Sink(int index, Node node, @Nullable Coil coil, int from, int to) {
        this.index = index;
        this.node = node;
        this.coil = coil;
        this.from = from;
        this.to = to;
    }

    /** Its terminal; of a coil one end. */
    public Node node() {
        return node;
    }

    /** Null for anything else. */
    public @Nullable Coil coil() {
        return coil;
    }

    public boolean isCoil() {
        return coil != null;
    }

    /** The load's facts, null for anything else. */
    public Electrical.@Nullable Load load() {
        return node.facts() instanceof Electrical.Load load && coil == null ? load : null;
    }

    /** Of a coil, NaN where unknown; infinite for anything else. */
    double ohms() {
        if (coil == null) {
            return Double.POSITIVE_INFINITY;
        }
        return coil.ohms() == null ? Double.NaN : coil.ohms();
    }

    /** Amps that its facts state, null where they do not; of a coil unread. */
    @Nullable
    Double statedAmps(Level level, Extent extent) {
        if (node.facts() instanceof Electrical.ControlIn in) {
            return in.amps();
        }
        if (!(node.facts() instanceof Electrical.Load load)) {
            return 0.0;
        }
        // what should have been switched off is still on
        boolean on = level != Level.ASLEEP || (load.needs() == Need.SWITCHED && load.sleepAmps() == null);
        return !on ? load.sleepAmps() : extent == Extent.TYPICAL ? load.typicalAmps() : load.maxAmps();
    }

    /** The fact that {@link #statedAmps} or {@link #ohms} lacks. */
    String lackedFact(Level level, Extent extent) {
        if (coil != null) {
            return "coilOhms";
        }
        if (node.facts() instanceof Electrical.ControlIn) {
            return "amps";
        }
        boolean asleep = level == Level.ASLEEP
                && !(node.facts() instanceof Electrical.Load load && load.needs() == Need.SWITCHED);
        return asleep ? "sleepAmps" : extent == Extent.TYPICAL ? "typicalAmps" : "maxAmps";
    }
}
