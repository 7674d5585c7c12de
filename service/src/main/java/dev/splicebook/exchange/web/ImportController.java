package dev.splicebook.exchange.web;

import dev.splicebook.exchange.ImportView;
import dev.splicebook.exchange.Imports;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.ProblemType;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.util.UUID;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/imports")
@Tag(name = "imports", description = "Vehicles and devices in bulk, all of a body or nothing of it.")
class ImportController {

    private final Imports imports;

    ImportController(Imports imports) {
        this.imports = imports;
    }

    @PutMapping(
            path = "/{id}",
            consumes = MediaType.APPLICATION_NDJSON_VALUE,
            produces = MediaType.APPLICATION_JSON_VALUE)
    @ExampleBody("/dev/splicebook/exchange/web/book.ndjson")
    @ExampleAnswer("/dev/splicebook/exchange/web/answers/import.json")
    @MayFail({ProblemType.CONFLICT, ProblemType.UNPROCESSABLE, ProblemType.TOO_MANY_REQUESTS})
    @Operation(
            operationId = "importBook",
            summary = "Imports vehicles and devices, all of a body or nothing of it.",
            description = "Each line of the body is a JSON object: {\"kind\": \"vehicle\", \"id\": …, \"revision\": …,"
                    + " \"document\": …} or {\"kind\": \"device\", \"revision\": …, \"document\": …}, with the document that a"
                    + " vehicle or a device is created from. A vehicle is known by its id, which may be absent for a new one,"
                    + " a device by its code; what exists gets a new revision, unless the latest means the same. A revision"
                    + " that is given must be the latest where the entry exists. Blank lines are passed over. After a fault"
                    + " nothing is stored, and the rest is still judged; every fault names its line. The same body under the"
                    + " same id is imported once: sent again, it is told what it came to.",
            requestBody =
                    @io.swagger.v3.oas.annotations.parameters.RequestBody(
                            required = true,
                            content =
                                    @Content(
                                            mediaType = MediaType.APPLICATION_NDJSON_VALUE,
                                            schema = @Schema(type = "string"))))
    ImportView put(
            Caller caller,
            @Parameter(description = "Of the sender's making, one for each import.") @PathVariable UUID id,
            @Schema(description = "Whether the body is only judged: nothing is stored.")
                    @RequestParam(defaultValue = "false")
                    boolean dryRun,
            HttpServletRequest request)
            throws IOException {
        return imports.run(caller, id, dryRun, request.getInputStream());
    }

    @GetMapping("/{id}")
    @ExampleAnswer("/dev/splicebook/exchange/web/answers/import.json")
    @Operation(
            operationId = "getImport",
            summary = "Reads how far an import has come, also while it runs.",
            description = "One that runs is told anew at least once a second. One that was not heard of for 30 s has"
                    + " broken off, and may be sent again under its id.")
    ImportView get(Caller caller, @PathVariable UUID id) {
        return imports.get(caller, id);
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/exchange/web/answers/imports.json")
    @Operation(operationId = "listImports", summary = "Lists the firm's imports, latest first.")
    PageOf<ImportView> list(Caller caller, PageQuery page) {
        return imports.listImports(caller, page);
    }
}
