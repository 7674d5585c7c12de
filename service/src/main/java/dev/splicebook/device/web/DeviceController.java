package dev.splicebook.device.web;

import dev.splicebook.device.Catalogue;
import dev.splicebook.device.StoredDevice;
import dev.splicebook.hookup.Device;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StrictReader;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

@RestController
@RequestMapping("/v1/devices")
@Tag(name = "devices", description = "The catalogue: devices with their terminals, in immutable revisions.")
class DeviceController {

    private final Catalogue catalogue;

    DeviceController(Catalogue catalogue) {
        this.catalogue = catalogue;
    }

    /** A revision of a device; {@code document} is what was sent. */
    record DeviceView(
            String code,
            int revision,
            int latestRevision,
            boolean shared,
            Instant createdAt,
            @Schema(implementation = Device.class) JsonNode document) {

        static DeviceView of(StoredDevice device) {
            return new DeviceView(
                    device.code(),
                    device.revision(),
                    device.latestRevision(),
                    device.shared(),
                    device.createdAt(),
                    StrictReader.parse(device.document().getBytes(StandardCharsets.UTF_8)));
        }
    }

    @PostMapping
    @ExampleAnswer("/dev/splicebook/device/web/answers/device.json")
    @Operation(operationId = "createDevice", summary = "Adds a device to the catalogue, with its first revision.")
    @ExampleBody("/dev/splicebook/device/web/relay.json")
    ResponseEntity<DeviceView> create(Caller caller, @RequestBody Sent<Device> device) {
        StoredDevice created = catalogue.create(caller, device);
        return ResponseEntity.created(URI.create("/v1/devices/" + created.code()))
                .eTag(ETags.of(created.revision()))
                .body(DeviceView.of(created));
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/device/web/answers/devices.json")
    @Operation(operationId = "listDevices", summary = "Lists devices, by code.")
    PageOf<Catalogue.DeviceSummary> list(
            Caller caller,
            @Schema(description = "The kind of product, like amplifier.") @RequestParam(required = false) @Nullable
                    String kind,
            @Schema(description = "What the maker's name starts with, whatever the case.")
                    @RequestParam(required = false)
                    @Nullable
                    String maker,
            PageQuery page) {
        return catalogue.listDevices(caller, kind, maker, page);
    }

    @GetMapping("/{code}")
    @ExampleAnswer("/dev/splicebook/device/web/answers/device.json")
    @Operation(operationId = "getDevice", summary = "Reads the latest revision of a device.")
    ResponseEntity<DeviceView> get(
            Caller caller,
            @PathVariable String code,
            @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        StoredDevice device = catalogue.getDevice(caller, code, null);
        return ETags.respond(ifNoneMatch, device.revision(), () -> DeviceView.of(device));
    }

    @GetMapping("/{code}/revisions")
    @ExampleAnswer("/dev/splicebook/device/web/answers/device-revisions.json")
    @Operation(operationId = "listDeviceRevisions", summary = "Lists the revisions of a device, latest first.")
    PageOf<Catalogue.DeviceSummary> listRevisions(Caller caller, @PathVariable String code, PageQuery page) {
        return catalogue.listRevisions(caller, code, page);
    }

    @PostMapping("/{code}/revisions")
    @ExampleAnswer("/dev/splicebook/device/web/answers/device.json")
    @Operation(
            operationId = "addDeviceRevision",
            summary = "Adds a revision to a device; If-Match names the latest one.")
    @ExampleBody("/dev/splicebook/device/web/relay.json")
    ResponseEntity<DeviceView> addRevision(
            Caller caller,
            @PathVariable String code,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestBody Sent<Device> device) {
        StoredDevice added = catalogue.addRevision(caller, code, ifMatch, device);
        return ResponseEntity.created(URI.create("/v1/devices/" + code + "/revisions/" + added.revision()))
                .eTag(ETags.of(added.revision()))
                .body(DeviceView.of(added));
    }

    @GetMapping("/{code}/revisions/{revision}")
    @ExampleAnswer("/dev/splicebook/device/web/answers/device.json")
    @Operation(operationId = "getDeviceRevision", summary = "Reads one revision of a device.")
    ResponseEntity<DeviceView> getRevision(
            Caller caller,
            @PathVariable String code,
            @PathVariable int revision,
            @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        StoredDevice device = catalogue.getDevice(caller, code, revision);
        return ETags.respond(ifNoneMatch, device.revision(), () -> DeviceView.of(device));
    }
}
