package dev.splicebook.demo;

import dev.splicebook.device.Catalogue;
import dev.splicebook.device.StoredDevice;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.shop.Access;
import dev.splicebook.shop.DemoKey;
import dev.splicebook.vehicle.Book;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StrictReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.UUID;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.SmartLifecycle;
import org.springframework.core.io.Resource;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** Adds what is missing of the demo book before the first request is taken; what is there stays as its readers left it. */
@Component
class DemoBook implements SmartLifecycle {

    private final Access access;
    private final Book book;
    private final Catalogue catalogue;
    private final boolean wanted;
    private volatile boolean running;

    DemoBook(
            Access access,
            Book book,
            Catalogue catalogue,
            ObjectProvider<DemoKey> demoKey,
            @Value("${splicebook.demo-book:#{null}}") Boolean given) {
        this.access = access;
        this.book = book;
        this.catalogue = catalogue;
        this.wanted = given == null ? demoKey.getIfAvailable() != null : given;
    }

    /** A vehicle as its file has it. */
    record VehicleFile(UUID id, JsonNode document) {}

    /** Before the web server, which starts in one of the last phases. */
    @Override
    public int getPhase() {
        return 0;
    }

    @Override
    public void start() {
        running = true;
        Caller caller = wanted ? access.findFirstCaller().orElse(null) : null;
        if (caller != null) {
            try {
                load(caller);
            } catch (IOException unreadable) {
                throw new UncheckedIOException(unreadable);
            }
        }
    }

    @Override
    public void stop() {
        running = false;
    }

    @Override
    public boolean isRunning() {
        return running;
    }

    private void load(Caller caller) throws IOException {
        PathMatchingResourcePatternResolver files = new PathMatchingResourcePatternResolver();
        for (Resource file : files.getResources("classpath:demo/vehicles/*.json")) {
            VehicleFile vehicle = StrictReader.read(file.getContentAsByteArray(), VehicleFile.class);
            if (book.findMap(caller, vehicle.id(), null).isEmpty()) {
                byte[] document = vehicle.document().toString().getBytes(StandardCharsets.UTF_8);
                book.create(caller, vehicle.id(), true, StrictReader.readSent(document, FunctionMap.class));
            }
        }
        for (Resource file : files.getResources("classpath:demo/devices/*.json")) {
            Sent<Device> device = StrictReader.readSent(file.getContentAsByteArray(), Device.class);
            if (catalogue
                    .findDevice(caller, String.valueOf(device.value().code()), null)
                    .isEmpty()) {
                Resource earlier = files.getResource("classpath:demo/devices/earlier/" + file.getFilename());
                if (earlier.exists()) {
                    StoredDevice first = catalogue.create(
                            caller, true, StrictReader.readSent(earlier.getContentAsByteArray(), Device.class));
                    catalogue.addRevision(caller, first.code(), ETags.of(first.revision()), device);
                } else {
                    catalogue.create(caller, true, device);
                }
            }
        }
    }
}
