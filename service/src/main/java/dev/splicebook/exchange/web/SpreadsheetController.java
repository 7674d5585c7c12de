package dev.splicebook.exchange.web;

import dev.splicebook.exchange.SheetColumns;
import dev.splicebook.exchange.Spreadsheets;
import dev.splicebook.exchange.VehicleHead;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.SteeringSide;
import dev.splicebook.hookup.VinPattern;
import dev.splicebook.vehicle.Book;
import dev.splicebook.vehicle.StoredMap;
import dev.splicebook.vehicle.VehicleView;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.Problems;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StrictReader;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.customizers.OperationCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.http.ContentDisposition;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

@RestController
@Tag(name = "spreadsheets", description = "Function maps as spreadsheets of circuits.")
class SpreadsheetController {

    private static final String CSV = "text/csv";
    private static final String CSV_IN_UTF_8 = "text/csv;charset=UTF-8";
    private static final String JSON = MediaType.APPLICATION_JSON_VALUE;
    private static final Set<String> OPERATIONS = Set.of("importSpreadsheet", "replaceCircuits", "exportSpreadsheet");

    private final Book book;

    SpreadsheetController(Book book) {
        this.book = book;
    }

    /**
     * What an import would have stored.
     *
     * @param dryRun always true
     * @param circuits how many
     * @param connectors how many the document lists
     */
    record SpreadsheetDryRun(
            boolean dryRun,
            int circuits,
            int connectors,
            @Schema(implementation = FunctionMap.class) JsonNode document) {

        static SpreadsheetDryRun of(Sent<FunctionMap> map) {
            return new SpreadsheetDryRun(
                    true,
                    map.value().circuits().size(),
                    map.value().connectors().size(),
                    StrictReader.parse(map.json().getBytes(StandardCharsets.UTF_8)));
        }
    }

    /** The columns are taken from the model, so their description cannot stand in an annotation. */
    @Bean
    static OperationCustomizer columnsInWords() {
        String columns = SheetColumns.describe();
        return (operation, handler) ->
                OPERATIONS.contains(operation.getOperationId()) ? operation.description(columns) : operation;
    }

    @PostMapping(path = "/v1/spreadsheets", consumes = CSV, produces = JSON)
    @ExampleBody("/dev/splicebook/exchange/web/circuits.csv")
    @ExampleAnswer(value = "/dev/splicebook/vehicle/web/answers/vehicle.json", status = 201)
    @ExampleAnswer(value = "/dev/splicebook/exchange/web/answers/spreadsheet-dry-run.json", status = 200)
    @Operation(
            operationId = "importSpreadsheet",
            summary = "Adds a vehicle to the book from a spreadsheet of its circuits.",
            requestBody =
                    @io.swagger.v3.oas.annotations.parameters.RequestBody(
                            required = true,
                            content = @Content(mediaType = CSV, schema = @Schema(type = "string"))))
    @ApiResponse(
            responseCode = "201",
            description = "The vehicle with the first revision of its map.",
            content = @Content(mediaType = JSON, schema = @Schema(implementation = VehicleView.class)))
    @ApiResponse(
            responseCode = "200",
            description = "What would have been stored, of a dry run.",
            content = @Content(mediaType = JSON, schema = @Schema(implementation = SpreadsheetDryRun.class)))
    ResponseEntity<Object> create(
            Caller caller,
            @Schema(description = "Who makes the vehicle.") @RequestParam(required = false) @Nullable String maker,
            @Schema(description = "What the vehicle is called.") @RequestParam(required = false) @Nullable String model,
            @Schema(description = "The first model year, 1950 to 2100.") @RequestParam(required = false) @Nullable
                    Integer modelYearFrom,
            @Schema(description = "The last model year, if it is another.") @RequestParam(required = false) @Nullable
                    Integer modelYearTo,
            @Schema(description = "Where this variant is sold.") @RequestParam(required = false) @Nullable
                    String market,
            @Parameter(description = "Where the driver sits, seen facing forward.")
                    @RequestParam(required = false)
                    @Nullable
                    SteeringSide steeringSide,
            @Schema(description = "What sets the variant apart; may be repeated.")
                    @RequestParam(required = false)
                    @Nullable
                    List<String> equipment,
            @Schema(description = "How the vehicles' identification numbers begin; may be repeated.")
                    @RequestParam(required = false)
                    @Nullable
                    List<VinPattern> vinPattern,
            @Schema(description = "Judges everything and stores nothing.") @RequestParam(defaultValue = "false")
                    boolean dryRun,
            HttpServletRequest request,
            @RequestBody(required = false) byte @Nullable [] sheet) {
        requireUtf8(request);
        Sent<FunctionMap> map = Spreadsheets.read(
                new VehicleHead(
                        maker,
                        model,
                        modelYearFrom,
                        modelYearTo,
                        market,
                        steeringSide,
                        equipment == null ? List.of() : equipment,
                        vinPattern == null ? List.of() : vinPattern),
                sheet);
        if (dryRun) {
            return ResponseEntity.ok(SpreadsheetDryRun.of(map));
        }
        StoredMap created = book.create(caller, map);
        return ResponseEntity.created(URI.create("/v1/vehicles/" + created.id()))
                .eTag(ETags.of(created.revision()))
                .body(VehicleView.of(created));
    }

    @PutMapping(path = "/v1/vehicles/{id}/spreadsheet", consumes = CSV, produces = JSON)
    @ExampleBody("/dev/splicebook/exchange/web/circuits.csv")
    @ExampleAnswer(value = "/dev/splicebook/vehicle/web/answers/vehicle.json", status = 201)
    @ExampleAnswer(value = "/dev/splicebook/exchange/web/answers/spreadsheet-dry-run.json", status = 200)
    @Operation(
            operationId = "replaceCircuits",
            summary = "Adds a revision to a vehicle's map, with the circuits of a spreadsheet in place of its own and"
                    + " everything else kept; If-Match names the latest one.",
            requestBody =
                    @io.swagger.v3.oas.annotations.parameters.RequestBody(
                            required = true,
                            content = @Content(mediaType = CSV, schema = @Schema(type = "string"))))
    @ApiResponse(
            responseCode = "201",
            description = "The new revision.",
            content = @Content(mediaType = JSON, schema = @Schema(implementation = VehicleView.class)))
    @ApiResponse(
            responseCode = "200",
            description = "What would have been stored, of a dry run.",
            content = @Content(mediaType = JSON, schema = @Schema(implementation = SpreadsheetDryRun.class)))
    ResponseEntity<Object> replace(
            Caller caller,
            @PathVariable UUID id,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @Schema(description = "Judges everything and stores nothing.") @RequestParam(defaultValue = "false")
                    boolean dryRun,
            HttpServletRequest request,
            @RequestBody(required = false) byte @Nullable [] sheet) {
        requireUtf8(request);
        Sent<FunctionMap> map = Spreadsheets.read(book.getForChange(caller, id, ifMatch), sheet);
        if (dryRun) {
            return ResponseEntity.ok(SpreadsheetDryRun.of(map));
        }
        StoredMap added = book.addRevision(caller, id, ifMatch, map);
        return ResponseEntity.created(URI.create("/v1/vehicles/" + id + "/revisions/" + added.revision()))
                .eTag(ETags.of(added.revision()))
                .body(VehicleView.of(added));
    }

    @GetMapping(path = "/v1/vehicles/{id}/spreadsheet", produces = CSV)
    @ExampleAnswer("/dev/splicebook/exchange/web/circuits.csv")
    @Operation(
            operationId = "exportSpreadsheet",
            summary = "Reads the circuits of a vehicle's function map as a spreadsheet.")
    ResponseEntity<String> export(
            Caller caller,
            @PathVariable UUID id,
            @Schema(description = "Which revision; leave out for the latest.") @RequestParam(required = false) @Nullable
                    Integer revision,
            @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        StoredMap map = book.getMap(caller, id, revision);
        ResponseEntity<String> answer = ETags.respond(ifNoneMatch, map.revision(), () -> Spreadsheets.write(map));
        if (!answer.hasBody()) {
            return answer;
        }
        String file = "vehicle-" + id + "-" + map.revision() + ".csv";
        return ResponseEntity.status(answer.getStatusCode())
                .headers(answer.getHeaders())
                .headers(headers -> {
                    headers.setContentType(MediaType.parseMediaType(CSV_IN_UTF_8));
                    headers.setContentDisposition(
                            ContentDisposition.attachment().filename(file).build());
                })
                .body(answer.getBody());
    }

    private static void requireUtf8(HttpServletRequest request) {
        String type = String.valueOf(request.getContentType());
        Charset charset = MediaType.parseMediaType(type).getCharset();
        if (charset != null && !charset.equals(StandardCharsets.UTF_8)) {
            throw Problems.unsupportedMediaType(CSV + " in " + charset.name(), CSV_IN_UTF_8);
        }
    }
}
