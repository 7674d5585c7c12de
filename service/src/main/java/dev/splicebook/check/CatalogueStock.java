package dev.splicebook.check;

import dev.splicebook.device.Catalogue;
import dev.splicebook.device.DeviceFilter;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Stock;
import dev.splicebook.web.Caller;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StoredDocuments;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** The devices of the catalogue that a caller may see, each kind looked up once; for one request. */
final class CatalogueStock implements Stock {

    /** Of a kind; more would only make a search longer. */
    private static final int MOST = 20;

    /** Of a kind, of which those are passed over that nobody has said anything about. */
    private static final int MOST_LOOKED_AT = 200;

    private final Catalogue catalogue;
    private final Caller caller;
    private final Map<String, List<Item>> byKind = new HashMap<>();

    CatalogueStock(Catalogue catalogue, Caller caller) {
        this.catalogue = catalogue;
        this.caller = caller;
    }

    @Override
    public List<Item> listDevices(String kind) {
        return byKind.computeIfAbsent(kind, this::read);
    }

    private List<Item> read(String kind) {
        DeviceFilter filter = new DeviceFilter(null, null, null, kind, null, null, null, null, null);
        return catalogue.listDevices(caller, filter, new PageQuery(MOST_LOOKED_AT, List.of())).items().stream()
                .flatMap(summary -> read(summary).stream())
                .filter(item -> !item.device().terminals().isEmpty())
                .limit(MOST)
                .toList();
    }

    /** Empty for a device that is refused today. */
    private Optional<Item> read(Catalogue.DeviceSummary summary) {
        return catalogue.findDevice(caller, summary.code(), summary.revision()).stream()
                .flatMap(stored -> {
                    try {
                        return Stream.of(new Item(
                                StoredDocuments.read(stored.document(), Device.class, "device " + stored.code()),
                                stored.revision()));
                    } catch (ProblemException refused) {
                        return Stream.<Item>empty();
                    }
                })
                .findFirst();
    }
}
