package dev.splicebook.hookup.net;

import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
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

    final int index;
    private final String owner;
    private final String name;
    private final Role role;
    private final @Nullable Electrical facts;
    private final @Nullable FunctionId function;
    private final @Nullable Colour colour;
    private final @Nullable String source;

    private final String ref;
    private @Nullable String factsText;

    /** The net by conduction alone: connections, plugs, conducting groups and fuses. */
    int net = -1;

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
        return owner.equals(Names.VEHICLE);
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

    /** All that is known of it but its name, and but the names of other terminals. */
    public String factsText() {
        if (factsText == null) {
            factsText = workOutFactsText();
        }
        return factsText;
    }

    private String workOutFactsText() {
        Object known = facts;
        if (facts instanceof Electrical.ControlOut out && out.follows() != null) {
            known = new Electrical.ControlOut(out.active(), out.maxAmps(), out.live(), out.when(), null) + " follows";
        } else if (facts instanceof Electrical.SpeakerIn in) {
            // the coils of a loudspeaker are alike but for their names
            known = new Electrical.SpeakerIn(
                    in.channel(),
                    in.side(),
                    in.ohms(),
                    in.maxVolts(),
                    in.maxWatts(),
                    in.coil() == null ? null : "coil");
        }
        return role + "|" + (isVehicle() ? "vehicle" : "part") + "|" + known + "|" + function + "|" + colour;
    }

    @Override
    public String toString() {
        return ref();
    }
}
