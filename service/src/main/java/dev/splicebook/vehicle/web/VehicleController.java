package dev.splicebook.vehicle.web;

import com.fasterxml.jackson.annotation.JsonInclude;
import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.vehicle.Book;
import dev.splicebook.vehicle.CircuitFilter;
import dev.splicebook.vehicle.StoredMap;
import dev.splicebook.vehicle.VehicleFilter;
import dev.splicebook.vehicle.VehicleView;
import dev.splicebook.vehicle.Vin;
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
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.util.List;
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

@RestController
@RequestMapping("/v1/vehicles")
@Tag(name = "vehicles", description = "The book of vehicles: function maps in immutable revisions.")
class VehicleController {

    static final String MAKER = "What the maker's name starts with, whatever the case.";
    static final String MODEL = "What the model's name starts with, whatever the case.";
    static final String YEAR = "A model year of the map; one without model years is not found.";

    private final Book book;
    private final Idempotency idempotency;
    private final Rehearsal rehearsal;

    VehicleController(Book book, Idempotency idempotency, Rehearsal rehearsal) {
        this.book = book;
        this.idempotency = idempotency;
        this.rehearsal = rehearsal;
    }

    @PostMapping
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle.json")
    @Operation(
            operationId = "createVehicle",
            summary = "Adds a vehicle to the book, with the first revision of its function map.")
    @ExampleBody("/dev/splicebook/vehicle/web/small-map.json")
    @AnswersDryRun(created = VehicleView.class)
    ResponseEntity<?> create(
            Caller caller,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            @Schema(description = DryRun.PARAMETER) @RequestParam(defaultValue = "false") boolean dryRun,
            HttpServletRequest request,
            @RequestBody Sent<FunctionMap> map) {
        if (dryRun) {
            rehearsal.of(() -> book.create(caller, map));
            return DryRun.answer(map);
        }
        Idempotency.Once once = idempotency.once(caller, key, Idempotency.fingerprint(request, map.json()), () -> {
            StoredMap created = book.create(caller, map);
            return Idempotency.ref(created.id(), created.revision());
        });
        return created(caller, once, "/v1/vehicles/" + once.name());
    }

    /**
     * Vehicles, page by page; beside them what the VIN that was asked for tells.
     *
     * @param vin absent where none was asked for
     */
    record VehicleList(
            @JsonInclude(JsonInclude.Include.ALWAYS) List<Book.VehicleSummary> items,

            @JsonInclude(JsonInclude.Include.ALWAYS) @Nullable
            String next,

            @Nullable VinReading vin) {}

    /**
     * What a VIN tells by itself.
     *
     * @param region where its maker is registered; absent where the VIN does not say
     * @param modelYears that it can stand for
     */
    record VinReading(Vin vin, String wmi, @Nullable String region, List<Integer> modelYears, CheckDigit checkDigit) {

        static VinReading of(Vin vin) {
            return new VinReading(
                    vin,
                    vin.wmi(),
                    vin.region(),
                    vin.modelYears(),
                    vin.hasRightCheckDigit() ? CheckDigit.RIGHT : CheckDigit.NOT_USED);
        }
    }

    /** Whether a VIN has a check digit, which is a must in North America only. */
    enum CheckDigit {
        RIGHT,
        NOT_USED
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicles.json")
    @Operation(
            operationId = "listVehicles",
            summary = "Lists vehicles, oldest first, by the latest revision of their map; everything given must hold.")
    VehicleList list(
            Caller caller,
            @Schema(description = MAKER) @RequestParam(required = false) @Nullable QueryText maker,
            @Schema(description = MODEL) @RequestParam(required = false) @Nullable QueryText model,
            @Schema(description = YEAR, minimum = "1950", maximum = "2100") @RequestParam(required = false) @Nullable
                    Integer year,
            @Schema(description = "What must be among the equipment; may be repeated.") @RequestParam(defaultValue = "")
                    List<QueryText> equipment,
            @Schema(
                            description =
                                    "Words, each the beginning of one in maker, model, market, equipment or notes,"
                                            + " whatever the case.")
                    @RequestParam(required = false)
                    @Nullable
                    SearchWords text,
            @Schema(
                            description =
                                    "A vehicle identification number: vehicles with a pattern that it matches and with a"
                                            + " model year that it can stand for, or without any.")
                    @RequestParam(required = false)
                    @Nullable
                    Vin vin,
            PageQuery page) {
        VehicleFilter filter = new VehicleFilter(
                QueryText.of(maker),
                QueryText.of(model),
                Years.inRange(year),
                equipment.stream().map(QueryText::value).toList(),
                SearchWords.of(text),
                vin);
        PageOf<Book.VehicleSummary> found = book.listVehicles(caller, filter, page);
        return new VehicleList(found.items(), found.next(), vin == null ? null : VinReading.of(vin));
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
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle.json")
    @Operation(
            operationId = "addVehicleRevision",
            summary = "Adds a revision to a vehicle's map; If-Match names the latest one.")
    @ExampleBody("/dev/splicebook/vehicle/web/small-map.json")
    @AnswersDryRun(created = VehicleView.class)
    ResponseEntity<?> addRevision(
            Caller caller,
            @PathVariable UUID id,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            @Schema(description = DryRun.PARAMETER) @RequestParam(defaultValue = "false") boolean dryRun,
            HttpServletRequest request,
            @RequestBody Sent<FunctionMap> map) {
        if (dryRun) {
            rehearsal.of(() -> book.addRevision(caller, id, ifMatch, map));
            return DryRun.answer(map);
        }
        Idempotency.Once once = idempotency.once(caller, key, Idempotency.fingerprint(request, map.json()), () -> {
            StoredMap added = book.addRevision(caller, id, ifMatch, map);
            return Idempotency.ref(id, added.revision());
        });
        return created(caller, once, "/v1/vehicles/" + id + "/revisions/" + once.revision());
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

    @GetMapping("/{id}/circuits")
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/circuits.json")
    @Operation(
            operationId = "listVehicleCircuits",
            summary = "Lists circuits of a vehicle in the order of its map; everything given must hold.")
    PageOf<CircuitView> listCircuits(
            Caller caller,
            @PathVariable UUID id,
            @Schema(description = "Which revision of the map; the latest where it is left out.", minimum = "1")
                    @RequestParam(required = false)
                    @Nullable
                    Integer revision,
            @Schema(description = CircuitView.FUNCTION) @RequestParam(required = false) @Nullable FunctionId function,
            @Schema(description = CircuitView.COLOUR) @RequestParam(required = false) @Nullable Colour colour,
            @Schema(description = CircuitView.CONNECTOR) @RequestParam(required = false) @Nullable QueryText connector,
            @Schema(description = CircuitView.TEXT) @RequestParam(required = false) @Nullable SearchWords text,
            PageQuery page) {
        CircuitFilter filter =
                new CircuitFilter(function, colour, QueryText.of(connector), SearchWords.of(text), null, null, null);
        return CircuitView.of(book.listCircuits(caller, id, revision, filter, page));
    }

    @GetMapping("/{id}/revisions/{revision}/changes")
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle-changes.json")
    @Operation(
            operationId = "compareVehicleRevisions",
            summary = "Tells what changed in meaning from one revision of a vehicle's map to another.")
    Changes compare(
            Caller caller,
            @PathVariable UUID id,
            @PathVariable int revision,
            @Schema(
                            description = "The revision compared against: the one before where it is left out, 0 for a"
                                    + " document with nothing in it.",
                            minimum = "0")
                    @RequestParam(required = false)
                    @Nullable
                    Integer from) {
        return Changes.ofRevisions(
                from, revision, wanted -> book.getMap(caller, id, wanted).document());
    }

    @PostMapping("/{id}/revisions/{revision}/restore")
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/vehicle.json")
    @MayFail(ProblemType.UNPROCESSABLE)
    @Operation(
            operationId = "restoreVehicleRevision",
            summary = "Adds a revision with the map of an earlier one; If-Match names the latest one.")
    ResponseEntity<VehicleView> restore(
            Caller caller,
            @PathVariable UUID id,
            @PathVariable int revision,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            HttpServletRequest request) {
        Idempotency.Once once = idempotency.once(caller, key, Idempotency.fingerprint(request, ""), () -> {
            StoredMap restored = book.restore(caller, id, revision, ifMatch);
            return Idempotency.ref(id, restored.revision());
        });
        return created(caller, once, "/v1/vehicles/" + id + "/revisions/" + once.revision());
    }

    /** The answer to the request that added a revision, the same however often it is given. */
    private ResponseEntity<VehicleView> created(Caller caller, Idempotency.Once once, String location) {
        StoredMap created = book.getMap(caller, UUID.fromString(once.name()), once.revision());
        return ResponseEntity.created(URI.create(location))
                .eTag(ETags.of(created.revision()))
                .headers(once::mark)
                .body(VehicleView.of(created.asAdded()));
    }
}
