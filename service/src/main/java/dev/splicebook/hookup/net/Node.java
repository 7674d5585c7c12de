package dev.splicebook.hookup.net;

import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import java.util.Comparator;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** One terminal: a circuit of the vehicle, an end of a cut circuit, or a terminal of a part. */
public final class Node {

    /** What kind of terminal it is. */
    public enum Role {
        /** Battery or chassis of the vehicle. */
        REFERENCE,
        CIRCUIT,
        CUT_END,
        /** A declared terminal of a part. */
        LEAD,
        /** A name used inside a part and not declared. */
        INSIDE
    }

    /** By {@link #factsText}. */
    public static final Comparator<Node> BY_FACTS = Node::compareFacts;

    final int index;
    private final String owner;
    private final String name;
    private final Role role;
    private final @Nullable Electrical facts;
    private final @Nullable FunctionId function;
    private final @Nullable Colour colour;
    private final @Nullable String source;

    private final String ref;
    private final boolean vehicle;
    private final boolean twelveVolts;
    private final boolean reference;
    private final boolean pullsToGround;
    private @Nullable String factsText;
    private @Nullable String customText;

    /** Whether its connector is mated with another. */
    boolean mated;

    /** The net by conduction alone: connections, plugs, conducting groups and fuses. */
    int net = -1;

    /** Place in {@link Network#sources()}, -1 if it is none. */
    int sourceIndex = -1;

    /** Index of the net by conduction. */
    public int net() {
        return net;
    }

    /** Place in {@link Network#nodes()}. */
    public int index() {
        return index;
    }

    Node(
            int index,
            String owner,
            String name,
            Role role,
            @Nullable Electrical facts,
            @Nullable FunctionId function,
            @Nullable Colour colour,
            @Nullable String source) {
        this.index = index;
        this.owner = owner;
        this.name = name;
        this.ref = owner + "." + name;
        this.role = role;
        this.facts = facts;
        this.function = function;
        this.colour = colour;
        this.source = source;
        vehicle = owner.equals(Names.VEHICLE);
        reference = vehicle && facts instanceof Electrical.Ground;
        Active active = facts instanceof Electrical.ControlOut out ? out.active() : null;
        twelveVolts = facts instanceof Electrical.Supply || active == Active.TWELVE_VOLTS;
        pullsToGround = reference || active == Active.GROUND;
    }

    /** Like {@code HU.memory}. */
    public String ref() {
        return ref;
    }

    /** The part, {@code CAR} for the vehicle. */
    public String owner() {
        return owner;
    }

    public String name() {
        return name;
    }

    public Role role() {
        return role;
    }

    public boolean isVehicle() {
        return vehicle;
    }

    /** A ground of the vehicle; a part's own ground is no reference. */
    public boolean isReference() {
        return reference;
    }

    /** A supply, or an output that gives 12 V. */
    public boolean givesTwelveVolts() {
        return twelveVolts;
    }

    /** Whether current flows into it: a ground of the vehicle, or an output that switches to ground. */
    public boolean pullsToGround() {
        return pullsToGround;
    }

    /** The electrical facts that hold in this hookup, null where unknown. */
    public @Nullable Electrical facts() {
        return facts;
    }

    public @Nullable FunctionId function() {
        return function;
    }

    public @Nullable Colour colour() {
        return colour;
    }

    /** Where the map says that the circuit comes from. */
    public @Nullable String source() {
        return source;
    }

    /** True if the function is known and stands at or below another. */
    public boolean isFor(FunctionId other) {
        return function != null && function.isAtOrBelow(other);
    }

    /** The audio facts, null if it is no audio terminal. */
    public Electrical.@Nullable Audio audio() {
        return facts instanceof Electrical.Audio audio ? audio : null;
    }

    /** Whether sound, a picture, data or a broadcast passes here. */
    boolean isForSignal() {
        return facts instanceof Electrical.Audio
                || facts instanceof Electrical.Video
                || facts instanceof Electrical.Data
                || facts instanceof Electrical.Antenna;
    }

    /** Its connector, like {@code CAR.C1}; of an end of a cut circuit the circuit's. */
    String connector() {
        int dash = Names.circuitOf(name).lastIndexOf('-');
        return ref.substring(0, owner.length() + 1 + Math.max(dash, 0));
    }

    /** All that is known of it but its name, and but the names of other terminals. */
    public String factsText() {
        if (factsText == null) {
            factsText = workOutFactsText();
        }
        return factsText;
    }

    /** Role and kind of facts, with which the text begins, tell most nodes apart, and the text takes time to write. */
    private static int compareFacts(Node one, Node other) {
        if (one == other) {
            return 0;
        }
        int order = one.role.name().compareTo(other.role.name());
        if (order == 0) {
            // "part" comes before "vehicle"
            order = Boolean.compare(one.vehicle, other.vehicle);
        }
        if (order == 0) {
            order = FactsText.kind(one.facts).compareTo(FactsText.kind(other.facts));
        }
        if (order != 0) {
            return order;
        }
        return Objects.equals(one.facts, other.facts)
                ? one.customText().compareTo(other.customText())
                : one.factsText().compareTo(other.factsText());
    }

    private String customText() {
        if (customText == null) {
            customText = function + "|" + colour;
        }
        return customText;
    }

    private String workOutFactsText() {
        return role + "|" + (isVehicle() ? "vehicle" : "part") + "|" + FactsText.of(facts) + "|" + customText();
    }

    /** Its place, so that sets and maps of nodes are quick, and are gone through in one order. */
    @Override
    public int hashCode() {
        return index;
    }

    @Override
    public String toString() {
        return ref();
    }
}
