package dev.splicebook.web;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.security.SecurityRequirements;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

/** The pages that the type of a problem leads to. */
@SecurityRequirements
@RestController
@Tag(name = "problems", description = "What the type of a problem leads to: its cause, and how it is mended.")
class ProblemPages {

    private static final String EXAMPLE_REQUEST_ID = "7b0c2d1e-3f7a-4c55-8a55-0d1c5f0f3a10";

    @Schema(name = "ProblemPage")
    record Page(String code, String type, String title, int status, String cause, String mend, JsonNode example) {

        static Page of(ProblemType type) {
            return new Page(
                    type.code(),
                    "/problems/" + type.code(),
                    type.title(),
                    type.status(),
                    type.cause(),
                    type.mend(),
                    ProblemWriter.document(
                            new ProblemException(type, type.exampleDetail()), "/v1/vehicles", EXAMPLE_REQUEST_ID));
        }

        String html() {
            return new HtmlPage(title)
                    .paragraph("Status " + status + ", type " + type)
                    .heading("Cause")
                    .paragraph(cause)
                    .heading("Mend")
                    .paragraph(mend)
                    .heading("Example")
                    .code(example.toPrettyString())
                    .link("/problems", "All problems", "")
                    .toString();
        }
    }

    @Schema(name = "ProblemPages")
    record Pages(List<Page> items) {}

    @ExampleAnswer("/dev/splicebook/web/answers/problems.json")
    @Operation(
            operationId = "listProblems",
            summary = "Lists every kind of problem, with cause and mend.",
            description = "Every kind of problem that an answer may tell, as JSON or as a page for a browser.")
    @GetMapping(
            value = "/problems",
            produces = {MediaType.APPLICATION_JSON_VALUE, MediaType.TEXT_HTML_VALUE})
    @ApiResponse(
            responseCode = "200",
            description = "All problems",
            content =
                    @Content(
                            mediaType = MediaType.APPLICATION_JSON_VALUE,
                            schema = @Schema(implementation = Pages.class)))
    ResponseEntity<?> listProblems(
            @Parameter(hidden = true) @RequestHeader(name = HttpHeaders.ACCEPT, required = false) @Nullable
                    String accept) {
        List<Page> pages = Arrays.stream(ProblemType.values()).map(Page::of).toList();
        if (!HtmlPage.isWanted(accept)) {
            return ResponseEntity.ok().contentType(MediaType.APPLICATION_JSON).body(new Pages(pages));
        }
        HtmlPage html = new HtmlPage("Problems");
        pages.forEach(page -> html.link(page.type(), page.code(), page.status() + ": " + page.title()));
        return html(html.toString());
    }

    @ExampleAnswer("/dev/splicebook/web/answers/problem.json")
    @Operation(
            operationId = "getProblem",
            summary = "Reads one kind of problem: status, cause, mend and an example.",
            description = "What the `type` of a problem leads to, as JSON or as a page for a browser.")
    @GetMapping(
            value = "/problems/{code}",
            produces = {MediaType.APPLICATION_JSON_VALUE, MediaType.TEXT_HTML_VALUE})
    @ApiResponse(
            responseCode = "200",
            description = "The problem",
            content =
                    @Content(
                            mediaType = MediaType.APPLICATION_JSON_VALUE,
                            schema = @Schema(implementation = Page.class)))
    ResponseEntity<?> getProblem(
            @PathVariable("code") String code,
            @Parameter(hidden = true) @RequestHeader(name = HttpHeaders.ACCEPT, required = false) @Nullable
                    String accept) {
        Page page = Page.of(
                ProblemType.findByCode(code).orElseThrow(() -> Problems.notFound("problem " + Words.shortened(code))));
        return HtmlPage.isWanted(accept)
                ? html(page.html())
                : ResponseEntity.ok().contentType(MediaType.APPLICATION_JSON).body(page);
    }

    private static ResponseEntity<String> html(String page) {
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType("text/html;charset=UTF-8"))
                .body(page);
    }
}
