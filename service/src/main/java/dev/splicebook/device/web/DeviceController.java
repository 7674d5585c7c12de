package dev.splicebook.device.web;

import dev.splicebook.device.Catalogue;
import dev.splicebook.device.DeviceFilter;
import dev.splicebook.device.StoredDevice;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Device;
import dev.splicebook.web.AnswersDryRun;
import dev.splicebook.web.Caller;
import dev.splicebook.web.Changes;
import dev.splicebook.web.DryRun;
import dev.splicebook.web.ETags;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.Idempotency;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.QueryText;
import dev.splicebook.web.Rehearsal;
import dev.splicebook.web.SearchWords;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StrictReader;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

@RestController
@RequestMapping("/v1/devices")
@Tag(name = "devices", description = "The catalogue: devices with their terminals, in immutable revisions.")
class DeviceController {

    private final Catalogue catalogue;
    private final Idempotency idempotency;
    private final Rehearsal rehearsal;

    DeviceController(Catalogue catalogue, Idempotency idempotency, Rehearsal rehearsal) {
        this.catalogue = catalogue;
        this.idempotency = idempotency;
        this.rehearsal = rehearsal;
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
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleAnswer("/dev/splicebook/device/web/answers/device.json")
    @Operation(operationId = "createDevice", summary = "Adds a device to the catalogue, with its first revision.")
    @ExampleBody("/dev/splicebook/device/web/relay.json")
    @AnswersDryRun(created = DeviceView.class)
    @MayFail(ProblemType.CONFLICT)
    ResponseEntity<?> create(
            Caller caller,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            @Schema(description = DryRun.PARAMETER) @RequestParam(defaultValue = "false") boolean dryRun,
            HttpServletRequest request,
            @RequestBody Sent<Device> device) {
        if (dryRun) {
            rehearsal.of(() -> catalogue.create(caller, device));
            return DryRun.answer(device);
        }
        Idempotency.Once once = idempotency.once(caller, key, Idempotency.fingerprint(request, device.json()), () -> {
            StoredDevice created = catalogue.create(caller, device);
            return Idempotency.ref(created.code(), created.revision());
        });
        return created(caller, once, "/v1/devices/" + once.name());
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/device/web/answers/devices.json")
    @MayFail(ProblemType.NOT_FOUND)
    @Operation(
            operationId = "listDevices",
            summary = "Lists devices, by code, as their latest revision is; everything given must hold.")
    PageOf<Catalogue.DeviceSummary> list(
            Caller caller,
            @Schema(description = "What the code starts with, whatever the case.")
                    @RequestParam(required = false)
                    @Nullable
                    QueryText code,
            @Schema(description = "What the maker's name starts with, whatever the case.")
                    @RequestParam(required = false)
                    @Nullable
                    QueryText maker,
            @Schema(description = "What the name starts with, whatever the case.")
                    @RequestParam(required = false)
                    @Nullable
                    QueryText name,
            @Schema(description = "The kind of product, like amplifier.") @RequestParam(required = false) @Nullable
                    QueryText kind,
            @Schema(description = "The function of a terminal, or one above it.")
                    @RequestParam(required = false)
                    @Nullable
                    FunctionId function,
            @Schema(
                            description =
                                    "Words, each the beginning of one in code, maker, name, kind or notes, whatever the"
                                            + " case.")
                    @RequestParam(required = false)
                    @Nullable
                    SearchWords text,
            @Schema(description = "A housing that one of the connectors mates by.")
                    @RequestParam(required = false)
                    @Nullable
                    QueryText mates,
            @Schema(description = "A vehicle, with a connector of which one of the device's mates.")
                    @RequestParam(required = false)
                    @Nullable
                    UUID fits,
            @Schema(description = "The code of a device that lists it among its accessories.")
                    @RequestParam(required = false)
                    @Nullable
                    QueryText accessoryOf,
            PageQuery page) {
        DeviceFilter filter = new DeviceFilter(
                QueryText.of(code),
                QueryText.of(maker),
                QueryText.of(name),
                QueryText.of(kind),
                function,
                SearchWords.of(text),
                QueryText.of(mates),
                fits,
                QueryText.of(accessoryOf));
        return catalogue.listDevices(caller, filter, page);
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
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleAnswer("/dev/splicebook/device/web/answers/device.json")
    @Operation(
            operationId = "addDeviceRevision",
            summary = "Adds a revision to a device; If-Match names the latest one.")
    @ExampleBody("/dev/splicebook/device/web/relay.json")
    @AnswersDryRun(created = DeviceView.class)
    ResponseEntity<?> addRevision(
            Caller caller,
            @PathVariable String code,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            @Schema(description = DryRun.PARAMETER) @RequestParam(defaultValue = "false") boolean dryRun,
            HttpServletRequest request,
            @RequestBody Sent<Device> device) {
        if (dryRun) {
            rehearsal.of(() -> catalogue.addRevision(caller, code, ifMatch, device));
            return DryRun.answer(device);
        }
        Idempotency.Once once = idempotency.once(caller, key, Idempotency.fingerprint(request, device.json()), () -> {
            StoredDevice added = catalogue.addRevision(caller, code, ifMatch, device);
            return Idempotency.ref(code, added.revision());
        });
        return created(caller, once, "/v1/devices/" + code + "/revisions/" + once.revision());
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

    @GetMapping("/{code}/revisions/{revision}/changes")
    @ExampleAnswer("/dev/splicebook/device/web/answers/device-changes.json")
    @Operation(
            operationId = "compareDeviceRevisions",
            summary = "Tells what changed in meaning from one revision of a device to another.")
    Changes compare(
            Caller caller,
            @PathVariable String code,
            @PathVariable int revision,
            @Schema(
                            description = "The revision compared against: the one before where it is left out, 0 for a"
                                    + " document with nothing in it.",
                            minimum = "0")
                    @RequestParam(required = false)
                    @Nullable
                    Integer from) {
        return Changes.ofRevisions(
                from,
                revision,
                wanted -> catalogue.getDevice(caller, code, wanted).document());
    }

    @PostMapping("/{code}/revisions/{revision}/restore")
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleAnswer("/dev/splicebook/device/web/answers/device.json")
    @MayFail(ProblemType.UNPROCESSABLE)
    @Operation(
            operationId = "restoreDeviceRevision",
            summary = "Adds a revision with the document of an earlier one; If-Match names the latest one.")
    ResponseEntity<DeviceView> restore(
            Caller caller,
            @PathVariable String code,
            @PathVariable int revision,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            HttpServletRequest request) {
        Idempotency.Once once = idempotency.once(caller, key, Idempotency.fingerprint(request, ""), () -> {
            StoredDevice restored = catalogue.restore(caller, code, revision, ifMatch);
            return Idempotency.ref(code, restored.revision());
        });
        return created(caller, once, "/v1/devices/" + code + "/revisions/" + once.revision());
    }

    /** The answer to the request that added a revision, the same however often it is given. */
    private ResponseEntity<DeviceView> created(Caller caller, Idempotency.Once once, String location) {
        StoredDevice created = catalogue.getDevice(caller, once.name(), once.revision());
        return ResponseEntity.created(URI.create(location))
                .eTag(ETags.of(created.revision()))
                .headers(once::mark)
                .body(DeviceView.of(created.asAdded()));
    }
}
