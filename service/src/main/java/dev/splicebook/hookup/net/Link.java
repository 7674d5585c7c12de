package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Connection;
import org.jspecify.annotations.Nullable;

/** A way for current between two nodes. */
public final class Link {

    private final Kind kind;
    private final Node from;
    private final Node to;
    private final @Nullable String ref;
    private final @Nullable Connection connection;
    private final double fuseAmps;
    private final int relay;
    private final @Nullable Record component;

    /**
     * @param ref of the connection, null for anything else
     * @param connection the connection itself, null for anything else
     * @param fuseAmps rating of the fuse in it, NaN if there is none
     * @param relay index of the relay whose contact it is, else -1
     * @param component what the device says of it: a relay, a diode or a resistor, else null
     */
    Link(
            Kind kind,
            Node from,
            Node to,
            @Nullable String ref,
            @Nullable Connection connection,
            double fuseAmps,
            int relay,
            @Nullable Record component) {
        this.kind = kind;
        this.from = from;
        this.to = to;
        this.ref = ref;
        this.connection = connection;
        this.fuseAmps = fuseAmps;
        this.relay = relay;
        this.component = component;
    }

    /** A way inside a part. */
    public static Link inside(Node from, Node to) {
        return new Link(Kind.CONDUCTION, from, to, null, null, Double.NaN, -1, null);
    }

    public Kind kind() {
        return kind;
    }

    /** For a diode its anode. */
    public Node from() {
        return from;
    }

    public Node to() {
        return to;
    }

    /** Ref of the connection, null for anything else. */
    public @Nullable String ref() {
        return ref;
    }

    /** The connection, null for anything else. */
    public @Nullable Connection connection() {
        return connection;
    }

    /** Rating of the fuse in it, NaN if there is none. */
    public double fuseAmps() {
        return fuseAmps;
    }

    /** The relay whose contact it is, as in {@link Coil#relay}, -1 for anything else. */
    public int relay() {
        return relay;
    }

    /** What the device says of it: the relay of a contact, a diode or a resistor; null for anything else. */
    public @Nullable Record component() {
        return component;
    }

    /** What conducts. */
    public enum Kind {
        CONNECTION,
        PLUG,
        CONDUCTION,
        FUSE,
        /** Closed while its relay is energised. */
        OPEN_CONTACT,
        /** Closed while its relay is released. */
        CLOSED_CONTACT,
        /** Conducts from {@code from}, the anode, to {@code to}, the cathode. */
        DIODE,
        RESISTOR;

        /** Always one conductor. */
        public boolean isSolid() {
            return switch (this) {
                case CONNECTION, PLUG, CONDUCTION, FUSE -> true;
                case OPEN_CONTACT, CLOSED_CONTACT, DIODE, RESISTOR -> false;
            };
        }

        public boolean isContact() {
            return this == OPEN_CONTACT || this == CLOSED_CONTACT;
        }
    }

    /** The other end. */
    public Node across(Node end) {
        return end == from ? to : from;
    }

    public boolean hasFuse() {
        return !Double.isNaN(fuseAmps);
    }

    /** Whether current can leave {@code end} through it when its contact, if it is one, is closed. */
    public boolean passesFrom(Node end) {
        return kind != Kind.DIODE || end == from;
    }
}
