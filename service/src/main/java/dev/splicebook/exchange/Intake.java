package dev.splicebook.exchange;

import dev.splicebook.device.CatalogueTransfer;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.vehicle.BookTransfer;
import dev.splicebook.web.Caller;
import dev.splicebook.web.Fault;
import dev.splicebook.web.Placing;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StrictReader;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Takes the lines of one import, a few of them together, and from the first fault on only judges them. */
final class Intake {

    private static final int MOST_TOGETHER = 100;
    private static final int MOST_BYTES_TOGETHER = 1_000_000;

    private final Caller caller;
    private final BookTransfer book;
    private final CatalogueTransfer catalogue;
    private final ImportProgress progress;
    private final Map<UUID, Integer> firstLines = new HashMap<>();
    private final List<Entry<BookTransfer.Incoming>> vehicles = new ArrayList<>();
    private final List<Entry<CatalogueTransfer.Incoming>> devices = new ArrayList<>();
    private final List<Fault> faults = new ArrayList<>();
    private boolean write;
    private int faultCount;
    private int bytesTogether;

    /** @param write false to judge only */
    Intake(Caller caller, BookTransfer book, CatalogueTransfer catalogue, ImportProgress progress, boolean write) {
        this.caller = caller;
        this.book = book;
        this.catalogue = catalogue;
        this.progress = progress;
        this.write = write;
    }

    private record Entry<T>(int line, T incoming) {}

    /** Judges a line; it is written with those around it, at the latest by {@link #end}. */
    void take(int line, byte[] bytes) {
        try {
            Sent<ImportLine> sent = StrictReader.readLine(bytes, line, ImportLine.class);
            String document = StrictReader.member(sent.json(), "document");
            if (sent.value() instanceof ImportLine.OfVehicle vehicle) {
                takeVehicle(line, vehicle, document);
            } else if (sent.value() instanceof ImportLine.OfDevice device) {
                takeDevice(line, device, document);
            }
        } catch (ProblemException refused) {
            if (refused.type() != ProblemType.BAD_BODY) {
                throw refused;
            }
            refused.errors().forEach(fault -> refuse(line, fault));
            faultCount += refused.faultCount() - refused.errors().size();
        }
        bytesTogether += bytes.length;
        if (vehicles.size() + devices.size() + faults.size() >= MOST_TOGETHER || bytesTogether > MOST_BYTES_TOGETHER) {
            end();
        }
    }

    /** Refuses a line for what it is as a whole. */
    void refuse(int line, Fault fault) {
        faultCount++;
        faults.add(fault.inLine(line));
    }

    /** Writes, or only judges, what was taken and waits. */
    void end() {
        write &= faultCount == 0 && progress.counts().faults() == 0;
        List<Placing> placedVehicles =
                book.place(caller, vehicles.stream().map(Entry::incoming).toList(), write);
        for (int at = 0; at < vehicles.size(); at++) {
            Entry<BookTransfer.Incoming> entry = vehicles.get(at);
            if (isPlaced(entry.line(), placedVehicles.get(at))) {
                progress.vehicle(entry.incoming().map().value().circuits().size());
            }
        }
        List<Placing> placedDevices =
                catalogue.place(caller, devices.stream().map(Entry::incoming).toList(), write);
        for (int at = 0; at < devices.size(); at++) {
            if (isPlaced(devices.get(at).line(), placedDevices.get(at))) {
                progress.device();
            }
        }
        progress.refused(faults, faultCount);
        vehicles.clear();
        devices.clear();
        faults.clear();
        faultCount = 0;
        bytesTogether = 0;
    }

    private void takeVehicle(int line, ImportLine.OfVehicle vehicle, String document) {
        Integer first = vehicle.id() == null ? null : firstLines.putIfAbsent(vehicle.id(), line);
        if (first != null) {
            refuse(
                    line,
                    Fault.at(
                            "/id", "duplicate-id", "the id " + vehicle.id() + " stands in line " + first + " already"));
            return;
        }
        Sent<FunctionMap> map = new Sent<>(vehicle.document(), document);
        vehicles.add(new Entry<>(line, new BookTransfer.Incoming(vehicle.id(), vehicle.revision(), map)));
    }

    private void takeDevice(int line, ImportLine.OfDevice device, String document) {
        String code = device.document().code();
        if (code == null) {
            refuse(line, Fault.at("/document/code", "required", "code is missing, by which hookups name the device"));
            return;
        }
        Integer first = firstLines.putIfAbsent(keyOf(code), line);
        if (first != null) {
            refuse(
                    line,
                    Fault.at(
                            "/document/code",
                            "duplicate-code",
                            "the code " + code + " stands in line " + first + " already"));
            return;
        }
        Sent<Device> sent = new Sent<>(device.document(), document);
        devices.add(new Entry<>(line, new CatalogueTransfer.Incoming(code, device.revision(), sent)));
    }

    private boolean isPlaced(int line, Placing placing) {
        @Nullable Fault fault = placing.fault();
        if (fault != null) {
            refuse(line, fault);
            return false;
        }
        if (placing.unchanged()) {
            progress.unchanged();
            return false;
        }
        return true;
    }

    /** As small as an id, whatever the code: what was met before must be remembered for every line. */
    private static UUID keyOf(String code) {
        try {
            byte[] hash = MessageDigest.getInstance("SHA-256").digest(code.getBytes(StandardCharsets.UTF_8));
            ByteBuffer halves = ByteBuffer.wrap(hash);
            return new UUID(halves.getLong(), halves.getLong());
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException(impossible);
        }
    }
}
