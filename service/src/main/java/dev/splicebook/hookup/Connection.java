package dev.splicebook.hookup;

import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.guard.Guard;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One conductor between two terminals.
 *
 * @param ends two different terminals, like {@code CAR.C1-7} and {@code HU.memory}
 * @param conductor its size and kind
 * @param length of the conductor
 * @param fuse in it, if there is one
 */
public record Connection(
        List<String> ends,
        @Nullable Conductor conductor,
        @Nullable Length length,
        @Nullable WireFuse fuse) {

    /**
     * What a conductor is made of.
     *
     * @param material absent for copper
     * @param insulationCelsius 60 to 250; absent for 105
     */
    public record Conductor(
            ConductorSize size,
            @Nullable ConductorMaterial material,
            @Nullable Double insulationCelsius) {
        public Conductor {
            new Guard().between("insulationCelsius", insulationCelsius, 60, 250).check();
        }
    }

    /**
     * A fuse in a conductor.
     *
     * @param ratingAmps above 0
     * @param fromSource how far from the source it sits
     */
    public record WireFuse(double ratingAmps, @Nullable Length fromSource) {
        public WireFuse {
            new Guard().positive("ratingAmps", ratingAmps, Electrical.MOST_AMPS).check();
        }
    }

    public Connection {
        ends = List.copyOf(ends);
        List<String> given = ends;
        new Guard()
                .refuseIf(
                        given.size() != 2,
                        "ends",
                        "bad-pair",
                        () -> "a connection has two ends, and this has " + given.size())
                .refuseIf(
                        given.size() == 2 && given.get(0).equals(given.get(1)),
                        "ends",
                        "same-ends",
                        () -> "both ends are " + given.get(0))
                .refuseIf(
                        fuse != null
                                && fuse.fromSource() != null
                                && length != null
                                && fuse.fromSource().metres() > length.metres() * 1.000001,
                        "fuse/fromSource",
                        "inconsistent",
                        () -> "the fuse sits further from the source than the conductor is long")
                .check();
    }
}
