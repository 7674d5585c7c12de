package dev.splicebook.hookup;

import dev.splicebook.electrics.Length;
import dev.splicebook.guard.Guard;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a pairing starts from: a vehicle, parts and wishes, as in a hookup, and nothing joined.
 *
 * @param vehicle its {@code unplugged} and {@code cuts} are kept where they are given; without {@code unplugged}, what to
 *     unplug is proposed
 * @param parts by ref; further ones may be added from the catalogue
 * @param settings that are decided already, by part, then by setting
 */
public record PairingQuestion(
        HookupDocument.VehicleUse vehicle,
        Map<String, HookupDocument.PartUse> parts,
        List<Wish> wishes,
        Map<String, Map<String, String>> settings,
        @Nullable Preferences preferences) {

    /** The most parts that a pairing is made of. */
    public static final int MOST_PARTS = 40;

    /**
     * What the shop likes to use. What is absent is listed under the proposal's assumptions.
     *
     * @param leastConductor the thinnest that is proposed for power, control lines and loudspeakers; absent for 18 AWG copper
     * @param spliceLength behind a panel, from lead to lead; absent for 25 cm
     * @param tapLength to a connector elsewhere; absent for 1.5 m
     * @param powerRunLength from the battery; absent for 5 m
     * @param alternatives how many are looked for, 0 to 5; absent for 3
     */
    public record Preferences(
            Connection.@Nullable Conductor leastConductor,
            @Nullable Length spliceLength,
            @Nullable Length tapLength,
            @Nullable Length powerRunLength,
            @Nullable Integer alternatives) {

        public Preferences {
            new Guard().between("alternatives", alternatives, 0, 5).check();
        }

        /** Nothing preferred. */
        public static Preferences none() {
            return new Preferences(null, null, null, null, null);
        }
    }

    public PairingQuestion {
        new Guard().atMost("parts", parts.keySet(), MOST_PARTS).check();
        // guards refs, wishes and the rest
        document(vehicle, parts, settings, wishes);
    }

    /** The same as a hookup in which nothing is joined. */
    public HookupDocument document() {
        return document(vehicle, parts, settings, wishes);
    }

    private static HookupDocument document(
            HookupDocument.VehicleUse vehicle,
            Map<String, HookupDocument.PartUse> parts,
            Map<String, Map<String, String>> settings,
            List<Wish> wishes) {
        return new HookupDocument(vehicle, parts, Map.of(), List.of(), Map.of(), settings, wishes);
    }
}
