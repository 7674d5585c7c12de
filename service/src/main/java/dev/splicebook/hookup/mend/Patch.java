package dev.splicebook.hookup.mend;

import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.HookupDocument.VehicleUse;
import dev.splicebook.hookup.Remedy.Added;
import dev.splicebook.hookup.Remedy.Operation;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * What leads from one hookup document to another, by RFC 6902. A member that may be absent from the document as it was
 * sent, because it is empty, is added whole.
 */
public final class Patch {

    private final List<Operation> operations = new ArrayList<>();

    private Patch() {}

    /** The operations, in an order in which they can be applied. */
    public static List<Operation> between(HookupDocument before, HookupDocument after) {
        Patch patch = new Patch();
        patch.map("/parts", before.parts(), after.parts());
        patch.connections(before.connections(), after.connections());
        if (!before.plugs().equals(after.plugs())) {
            patch.set("/plugs", after.plugs());
        }
        patch.vehicle(before.vehicle(), after.vehicle());
        patch.map("/unused", before.unused(), after.unused());
        patch.map("/settings", before.settings(), after.settings());
        return List.copyOf(patch.operations);
    }

    /** What the second hookup has that the first lacks: parts, and fuses in connections. */
    public static List<Added> added(Hookup before, Hookup after) {
        List<Added> added = new ArrayList<>();
        new TreeMap<>(after.document().parts()).forEach((ref, part) -> {
            if (!before.document().parts().containsKey(ref)) {
                added.add(new Added(
                        ref, null, part.device(), nameOf(after.devices().get(ref), part)));
            }
        });
        new TreeMap<>(after.document().connections()).forEach((ref, connection) -> {
            Connection was = before.document().connections().get(ref);
            Connection.WireFuse fuse = connection.fuse();
            if (fuse != null && (was == null || was.fuse() == null || was.fuse().ratingAmps() != fuse.ratingAmps())) {
                added.add(new Added(null, ref, null, Sizing.rating(fuse.ratingAmps()) + " fuse"));
            }
        });
        return added;
    }

    private static String nameOf(@Nullable Device device, PartUse part) {
        if (device != null && device.name() != null) {
            return device.name();
        }
        return part.device() == null ? "plain component" : part.device();
    }

    private <T> void map(String path, Map<String, T> before, Map<String, T> after) {
        if (before.equals(after)) {
            return;
        }
        if (before.isEmpty()) {
            set(path, after);
            return;
        }
        before.keySet().forEach(key -> {
            if (!after.containsKey(key)) {
                operations.add(new Operation("remove", path + "/" + escape(key), null));
            }
        });
        after.forEach((key, value) -> {
            T was = before.get(key);
            if (!value.equals(was)) {
                operations.add(new Operation(was == null ? "add" : "replace", path + "/" + escape(key), value));
            }
        });
    }

    private void connections(Map<String, Connection> before, Map<String, Connection> after) {
        if (before.isEmpty()) {
            map("/connections", before, after);
            return;
        }
        before.keySet().stream()
                .filter(ref -> !after.containsKey(ref))
                .forEach(ref -> operations.add(new Operation("remove", "/connections/" + ref, null)));
        after.forEach((ref, connection) -> {
            String path = "/connections/" + ref;
            Connection was = before.get(ref);
            if (was == null) {
                operations.add(new Operation("add", path, connection));
            } else {
                member(path + "/ends", was.ends(), connection.ends());
                member(path + "/conductor", was.conductor(), connection.conductor());
                member(path + "/length", was.length(), connection.length());
                member(path + "/fuse", was.fuse(), connection.fuse());
            }
        });
    }

    private void vehicle(@Nullable VehicleUse before, @Nullable VehicleUse after) {
        if (before != null && after != null) {
            member("/vehicle/revision", before.revision(), after.revision());
            if (!before.unplugged().equals(after.unplugged())) {
                set("/vehicle/unplugged", after.unplugged());
            }
            if (!before.cuts().equals(after.cuts())) {
                set("/vehicle/cuts", after.cuts());
            }
        }
    }

    private void member(String path, @Nullable Object before, @Nullable Object after) {
        if (!Objects.equals(before, after)) {
            operations.add(new Operation(before == null ? "add" : after == null ? "remove" : "replace", path, after));
        }
    }

    /** By RFC 6902 an addition replaces what is there. */
    private void set(String path, Object value) {
        operations.add(new Operation("add", path, value));
    }

    private static String escape(String key) {
        return key.replace("~", "~0").replace("/", "~1");
    }
}
