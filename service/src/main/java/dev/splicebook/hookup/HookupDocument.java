package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A hookup as it is sent: vehicle and parts by reference or inline. {@link Hookup} is the same with every reference
 * resolved.
 *
 * @param vehicle absent if nothing of it is known but its battery and chassis
 * @param parts by ref; {@code CAR} is the vehicle
 * @param connections by ref
 * @param plugs pairs of connectors, mated pin by pin
 * @param unused by terminal, like {@code HU.camera-plus}
 * @param settings by part, then by setting
 * @param name what the shop calls the job, like an order number; means nothing to the check
 * @param waivers of findings that are accepted as they are
 */
public record HookupDocument(
        @Nullable VehicleUse vehicle,
        Map<String, PartUse> parts,
        Map<String, Connection> connections,
        List<List<String>> plugs,
        Map<String, Unused> unused,
        Map<String, Map<String, String>> settings,
        List<Wish> wishes,
        @Nullable String name,
        List<Waiver> waivers) {

    /** The most connections that are checked. */
    public static final int MOST_CONNECTIONS = 5000;

    /** The most waivers that one hookup has. */
    public static final int MOST_WAIVERS = 500;

    private static final int MOST_PARTS = 1000;

    /**
     * A vehicle in a hookup: {@code id} or {@code inline}.
     *
     * @param revision of the map; absent for the latest
     * @param unplugged connectors taken off the factory unit
     * @param cuts circuits that are cut
     */
    public record VehicleUse(
            @Nullable String id,
            @Nullable Integer revision,
            @Nullable FunctionMap inline,
            Set<String> unplugged,
            Set<String> cuts) {
        public VehicleUse {
            new Guard()
                    .refuseIf(
                            (id == null) == (inline == null),
                            "",
                            id == null ? "required" : "inconsistent",
                            () -> "a vehicle is given by id or inline: one of the two")
                    .refuseIf(
                            revision != null && id == null,
                            "revision",
                            "inconsistent",
                            () -> "a revision belongs to a vehicle given by id")
                    .between("revision", revision, 1, Integer.MAX_VALUE)
                    .check();
        }
    }

    /**
     * A part in a hookup: {@code device} or {@code inline}.
     *
     * @param device code of a device in the catalogue
     * @param revision of the device; absent for the latest
     * @param mode of the device; absent for its plain use
     */
    public record PartUse(
            @Nullable String device,
            @Nullable Integer revision,
            @Nullable Device inline,
            @Nullable String mode) {
        public PartUse {
            new Guard()
                    .refuseIf(
                            (device == null) == (inline == null),
                            "",
                            device == null ? "required" : "inconsistent",
                            () -> "a part is given by device or inline: one of the two")
                    .refuseIf(
                            revision != null && device == null,
                            "revision",
                            "inconsistent",
                            () -> "a revision belongs to a part given by device")
                    .between("revision", revision, 1, Integer.MAX_VALUE)
                    .check();
        }
    }

    public HookupDocument {
        Guard guard = new Guard()
                .atMost("parts", parts.keySet(), MOST_PARTS)
                .atMost("connections", connections.keySet(), MOST_CONNECTIONS)
                .atMost("plugs", plugs, MOST_PARTS)
                .atMost("wishes", wishes, 200)
                .text("name", name, 200)
                .atMost("waivers", waivers, MOST_WAIVERS);
        parts.keySet()
                .forEach(ref -> ref(guard, "parts", ref)
                        .refuseIf(
                                ref.equals(Names.VEHICLE),
                                "parts/" + ref,
                                "reserved",
                                () -> "the ref CAR is the vehicle's"));
        connections.keySet().forEach(ref -> ref(guard, "connections", ref));
        for (int at = 0; at < plugs.size(); at++) {
            List<String> plug = plugs.get(at);
            guard.refuseIf(
                    plug.size() != 2 || plug.get(0).equals(plug.get(1)),
                    "plugs/" + at,
                    "bad-pair",
                    () -> "a plug mates two different connectors, and this names " + plug);
        }
        Set<String> waived = new HashSet<>();
        for (int at = 0; at < waivers.size(); at++) {
            String fingerprint = waivers.get(at).fingerprint();
            guard.refuseIf(
                    !waived.add(fingerprint),
                    "waivers/" + at + "/fingerprint",
                    "duplicate-value",
                    () -> "the fingerprint " + fingerprint + " is waived twice");
        }
        guard.check();
    }

    /** A hookup without a name and without waivers. */
    public HookupDocument(
            @Nullable VehicleUse vehicle,
            Map<String, PartUse> parts,
            Map<String, Connection> connections,
            List<List<String>> plugs,
            Map<String, Unused> unused,
            Map<String, Map<String, String>> settings,
            List<Wish> wishes) {
        this(vehicle, parts, connections, plugs, unused, settings, wishes, null, List.of());
    }

    private static Guard ref(Guard guard, String field, String ref) {
        return guard.refuseIf(
                !Names.NAME.matcher(ref).matches(),
                field + "/" + ref.replace("~", "~0").replace("/", "~1"),
                "bad-form",
                () -> "the ref \"" + ref + "\" is not " + Names.FORM);
    }
}
