package dev.splicebook.vehicle.web;

import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.vehicle.Book;
import dev.splicebook.vehicle.StoredMap;
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
import java.util.UUID;
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
@RequestMapping("/v1/vehicles")
@Tag(name = "vehicles", description = "The book of vehicles: function maps in immutable revisions.")
class VehicleController {

    private final Book book;

    VehicleController(Book book) {
        this.book = book;
    }

    /** A revision of a vehicle's map; {@code document} is what was sent. */
    record VehicleView(
            UUID id,
            int revision,
            int latestRevision,
            boolean shared,
            Instant createdAt,
            @Schema(implementation = FunctionMap.class) JsonNode document) {

        static VehicleView of(StoredMap map) {
            return new VehicleView(
                    map.id(),
                    map.revision(),
                    map.latestRevision(),
                    map.shared(),
                    map.createdAt(),
                    StrictReader.parse(map.document().getBytes(StandardCharsets.UTF_8)));
        }
    }

    @PostMapping
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle.json")
    @Operation(
            operationId = "createVehicle",
            summary = "Adds a vehicle to the book, with the first revision of its function map.")
    @ExampleBody("/dev/splicebook/vehicle/web/small-map.json")
    ResponseEntity<VehicleView> create(Caller caller, @RequestBody Sent<FunctionMap> map) {
        StoredMap created = book.create(caller, map);
        return ResponseEntity.created(URI.create("/v1/vehicles/" + created.id()))
                .eTag(ETags.of(created.revision()))
                .body(VehicleView.of(created));
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicles.json")
    @Operation(operationId = "listVehicles", summary = "Lists vehicles, oldest first.")
    PageOf<Book.VehicleSummary> list(
            Caller caller,
            @Schema(description = "What the maker's name starts with, whatever the case.")
                    @RequestParam(required = false)
                    @Nullable
                    String maker,
            @Schema(description = "What the model's name starts with, whatever the case.")
                    @RequestParam(required = false)
                    @Nullable
                    String model,
            PageQuery page) {
        return book.listVehicles(caller, maker, model, page);
    }

    @GetMapping("/{id}")
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle.json")
    @Operation(operationId = "getVehicle", summary = "Reads the latest revision of a vehicle's function map.")
    ResponseEntity<VehicleView> get(
            Caller caller,
            @PathVariable UUID id,
            @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        StoredMap map = book.getMap(caller, id, null);
        return ETags.respond(ifNoneMatch, map.revision(), () -> VehicleView.of(map));
    }

    @GetMapping("/{id}/revisions")
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle-revisions.json")
    @Operation(operationId = "listVehicleRevisions", summary = "Lists the revisions of a vehicle's map, latest first.")
    PageOf<Book.VehicleSummary> listRevisions(Caller caller, @PathVariable UUID id, PageQuery page) {
        return book.listRevisions(caller, id, page);
    }

    @PostMapping("/{id}/revisions")
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle.json")
    @Operation(
            operationId = "addVehicleRevision",
            summary = "Adds a revision to a vehicle's map; If-Match names the latest one.")
    @ExampleBody("/dev/splicebook/vehicle/web/small-map.json")
    ResponseEntity<VehicleView> addRevision(
            Caller caller,
            @PathVariable UUID id,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestBody Sent<FunctionMap> map) {
        StoredMap added = book.addRevision(caller, id, ifMatch, map);
        return ResponseEntity.created(URI.create("/v1/vehicles/" + id + "/revisions/" + added.revision()))
                .eTag(ETags.of(added.revision()))
                .body(VehicleView.of(added));
    }

    @GetMapping("/{id}/revisions/{revision}")
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle.json")
    @Operation(operationId = "getVehicleRevision", summary = "Reads one revision of a vehicle's function map.")
    ResponseEntity<VehicleView> getRevision(
            Caller caller,
            @PathVariable UUID id,
            @PathVariable int revision,
            @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        StoredMap map = book.getMap(caller, id, revision);
        return ETags.respond(ifNoneMatch, map.revision(), () -> VehicleView.of(map));
    }
}
