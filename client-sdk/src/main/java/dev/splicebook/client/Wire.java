package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.jspecify.annotations.Nullable;

/**
 * What is known of the wire that makes a connection. What is left out is unknown to the check, which says where that
 * matters; each method gives a new wire.
 *
 * @param conductor absent if unknown
 * @param length absent if unknown
 * @param fuse in the wire; absent if there is none
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Wire(
        @Nullable Conductor conductor,
        @Nullable Length length,
        @Nullable Fuse fuse) {

    /**
     * What a wire is made of.
     *
     * @param size of the conductor
     * @param material absent for copper
     * @param insulationCelsius what the insulation bears, 60 to 250; absent for 105
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Conductor(
            ConductorSize size,
            @Nullable Material material,
            @Nullable Double insulationCelsius) {

        public Conductor {
            Require.present("size", size);
        }
    }

    /**
     * A fuse in a wire.
     *
     * @param ratingAmps above 0
     * @param fromSource how far along the wire from the source; absent if unknown
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Fuse(double ratingAmps, @Nullable Length fromSource) {

        public Fuse {
            Require.positive("ratingAmps", ratingAmps);
        }
    }

    /** A wire of a size written like {@code "18 AWG"}, {@code "1/0 AWG"} or {@code "2.5 mm2"}. */
    public static Wire of(String size) {
        return of(new ConductorSize(size));
    }

    /** A wire of a size. */
    public static Wire of(ConductorSize size) {
        return new Wire(new Conductor(size, null, null), null, null);
    }

    /** A wire of which only the length is known, like a cable that came with a part. */
    public static Wire of(Length length) {
        return new Wire(null, length, null);
    }

    /**
     * The same wire of a material.
     *
     * @throws IllegalStateException if the wire has no size
     */
    public Wire madeOf(Material material) {
        Conductor sized = sized();
        return new Wire(new Conductor(sized.size(), material, sized.insulationCelsius()), length, fuse);
    }

    /**
     * The same wire with insulation that bears this, in °C.
     *
     * @throws IllegalStateException if the wire has no size
     */
    public Wire insulated(double insulationCelsius) {
        Conductor sized = sized();
        return new Wire(new Conductor(sized.size(), sized.material(), insulationCelsius), length, fuse);
    }

    /** The same wire of a length. */
    public Wire withLength(Length length) {
        return new Wire(conductor, length, fuse);
    }

    /** The same wire with a fuse, in A, whose distance from the source is unknown. */
    public Wire fused(double ratingAmps) {
        return new Wire(conductor, length, new Fuse(ratingAmps, null));
    }

    /** The same wire with a fuse, in A, this far from the source. */
    public Wire fused(double ratingAmps, Length fromSource) {
        return new Wire(conductor, length, new Fuse(ratingAmps, fromSource));
    }

    private Conductor sized() {
        if (conductor == null) {
            throw new IllegalStateException("the wire has no size");
        }
        return conductor;
    }
}
