package dev.splicebook.check;

import dev.splicebook.device.Catalogue;
import dev.splicebook.device.DeviceFilter;
import dev.splicebook.device.StoredDevice;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.Stock;
import dev.splicebook.vehicle.StoredMap;
import dev.splicebook.web.Caller;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StoredDocuments;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** The devices of the catalogue that a caller may see, each kind looked up once; for one request. */
final class CatalogueStock implements Stock {

    /** Of a kind; more would only make a search longer. */
    private static final int MOST = 20;

    /** Of a kind, of which those are passed over that nobody has said anything about. */
    private static final int MOST_LOOKED_AT = 200;

    private final Catalogue catalogue;
    private final Caller caller;
    private final Function<String, Optional<StoredMap>> maps;
    private final Map<String, List<Item>> byKind = new HashMap<>();

    /** @param maps the latest of a vehicle, by its id */
    CatalogueStock(Catalogue catalogue, Caller caller, Function<String, Optional<StoredMap>> maps) {
        this.catalogue = catalogue;
        this.caller = caller;
        this.maps = maps;
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

    @Override
    public List<Listed> listDevices(FunctionId function) {
        DeviceFilter filter = new DeviceFilter(null, null, null, null, function, null, null, null, null);
        return catalogue.listDevices(caller, filter, new PageQuery(MOST, List.of())).items().stream()
                .map(summary -> new Listed(summary.code(), summary.kind()))
                .sorted(Comparator.comparing(Listed::code))
                .toList();
    }

    private Optional<Item> read(Catalogue.DeviceSummary summary) {
        return catalogue.findDevice(caller, summary.code(), summary.revision()).flatMap(CatalogueStock::read);
    }

    /** Empty for a device that is refused today. */
    private static Optional<Item> read(StoredDevice stored) {
        try {
            return Optional.of(new Item(
                    StoredDocuments.read(stored.document(), Device.class, "device " + stored.code()),
                    stored.revision()));
        } catch (ProblemException refused) {
            return Optional.empty();
        }
    }

    @Override
    public @Nullable Item findDevice(String code) {
        return catalogue
                .findDevice(caller, code, null)
                .flatMap(CatalogueStock::read)
                .orElse(null);
    }

    @Override
    public @Nullable StockedMap findMap(String vehicle) {
        StoredMap stored = maps.apply(vehicle).orElse(null);
        try {
            return stored == null
                    ? null
                    : new StockedMap(
                            StoredDocuments.read(stored.document(), FunctionMap.class, "vehicle " + vehicle),
                            stored.revision());
        } catch (ProblemException refused) {
            return null;
        }
    }
}
