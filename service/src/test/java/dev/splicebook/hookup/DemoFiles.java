package dev.splicebook.hookup;

import dev.splicebook.web.StrictReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;

/** The demo book and the example hookups as they lie on disk, for tests that want no database. */
public final class DemoFiles {

    private static final Path ROOT = root();
    private static final Path BOOK = ROOT.resolve("service/src/main/resources/demo");
    private static final Map<String, FunctionMap> VEHICLES = readVehicles();
    private static final Map<String, Device> DEVICES = readDevices("devices");
    private static final Map<String, Device> EARLIER = readDevices("devices/earlier");

    private DemoFiles() {}

    private record VehicleFile(String id, JsonNode document) {}

    /** Function maps by id. */
    public static Map<String, FunctionMap> vehicles() {
        return VEHICLES;
    }

    /** Devices by code. */
    public static Map<String, Device> devices() {
        return DEVICES;
    }

    /** The folder of the examples. */
    public static Path examples() {
        return ROOT.resolve("api-examples");
    }

    /** An example hookup with its references resolved, like {@code rear-entertainment/check-3-ready}. */
    public static Hookup example(String name) {
        return resolve(StrictReader.read(bytes(examples().resolve(name + ".json")), HookupDocument.class));
    }

    /** A hookup of vehicles and devices of the demo book. */
    public static Hookup resolve(HookupDocument document) {
        HookupDocument.VehicleUse vehicle = document.vehicle();
        FunctionMap map = vehicle == null
                ? FunctionMap.of(Map.of())
                : vehicle.inline() != null
                        ? vehicle.inline()
                        : Objects.requireNonNull(VEHICLES.get(String.valueOf(vehicle.id())), "no demo vehicle");
        Map<String, Device> devices = new LinkedHashMap<>();
        document.parts().forEach((ref, part) -> {
            Device inline = part.inline();
            Map<String, Device> revision =
                    Integer.valueOf(1).equals(part.revision()) && EARLIER.containsKey(String.valueOf(part.device()))
                            ? EARLIER
                            : DEVICES;
            devices.put(
                    ref,
                    inline != null
                            ? inline
                            : Objects.requireNonNull(revision.get(String.valueOf(part.device())), "no demo device"));
        });
        Map<String, Integer> latest = new TreeMap<>();
        document.parts().forEach((ref, part) -> {
            if (part.device() != null) {
                latest.put(ref, EARLIER.containsKey(part.device()) ? 2 : 1);
            }
        });
        return Hookup.resolve(document, map, devices, List.of())
                .with(new LatestRevisions(vehicle == null || vehicle.id() == null ? null : 1, latest));
    }

    private static Map<String, FunctionMap> readVehicles() {
        return files("vehicles").stream()
                .map(file -> StrictReader.read(bytes(file), VehicleFile.class))
                .collect(Collectors.toMap(
                        VehicleFile::id,
                        file -> StrictReader.shape(file.document(), FunctionMap.class),
                        (one, other) -> one,
                        TreeMap::new));
    }

    private static Map<String, Device> readDevices(String folder) {
        return files(folder).stream()
                .map(file -> StrictReader.read(bytes(file), Device.class))
                .collect(Collectors.toMap(
                        device -> String.valueOf(device.code()), device -> device, (one, other) -> one, TreeMap::new));
    }

    private static List<Path> files(String folder) {
        try (Stream<Path> files = Files.list(BOOK.resolve(folder))) {
            return files.filter(Files::isRegularFile).sorted().toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static byte[] bytes(Path file) {
        try {
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The folder that the examples lie in, whichever module or folder the tests are started from. */
    private static Path root() {
        Path at = Path.of("").toAbsolutePath();
        for (Path folder = at; folder != null; folder = folder.getParent()) {
            if (Files.isDirectory(folder.resolve("api-examples"))) {
                return folder;
            }
        }
        throw new IllegalStateException("no api-examples above " + at);
    }
}
