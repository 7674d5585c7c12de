package dev.splicebook.exchange.web;

import dev.splicebook.exchange.ExportOf;
import dev.splicebook.exchange.Exports;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.ProblemType;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/export")
@Tag(name = "exports", description = "The book and the catalogue as lines that an import takes.")
class ExportController {

    private final Exports exports;

    ExportController(Exports exports) {
        this.exports = exports;
    }

    @GetMapping(produces = MediaType.APPLICATION_NDJSON_VALUE)
    @ExampleAnswer("/dev/splicebook/exchange/web/book.ndjson")
    @MayFail(ProblemType.TOO_MANY_REQUESTS)
    @Operation(
            operationId = "exportBook",
            summary = "Exports the latest revisions, one JSON object a line.",
            description = "The lines are those that an import takes, as they are at one moment: devices by code, then"
                    + " vehicles, oldest first. What other firms share comes without id and revision, so that an import"
                    + " makes a copy of one's own. An answer that breaks off is not whole.")
    @ApiResponse(
            responseCode = "200",
            description = "The lines.",
            content = @Content(mediaType = MediaType.APPLICATION_NDJSON_VALUE, schema = @Schema(type = "string")))
    void export(
            Caller caller,
            @Schema(description = "What to export.") @RequestParam(defaultValue = "all") ExportOf what,
            @Schema(description = "Whether to leave out what other firms share.") @RequestParam(defaultValue = "true")
                    boolean mine,
            HttpServletResponse response)
            throws IOException {
        response.setContentType(MediaType.APPLICATION_NDJSON_VALUE);
        exports.write(caller, what, mine, response.getOutputStream());
    }
}
