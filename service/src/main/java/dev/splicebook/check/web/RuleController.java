package dev.splicebook.check.web;

import dev.splicebook.check.Checks;
import dev.splicebook.hookup.RulePage;
import dev.splicebook.hookup.Severity;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.HtmlPage;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.Problems;
import dev.splicebook.web.StrictReader;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

@RestController
@RequestMapping("/v1/rules")
@Tag(name = "rules", description = "What is checked, why it matters, and how it is mended.")
class RuleController {

    private final Checks checks;

    RuleController(Checks checks) {
        this.checks = checks;
    }

    /** A rule in the list. */
    record RuleSummary(String code, Severity severity, String since, String condition) {}

    /**
     * A rule's page.
     *
     * @param fails a hookup that it reports
     * @param passes the same hookup mended
     */
    record RuleView(
            String code,
            Severity severity,
            String since,
            String condition,
            String checks,
            String why,
            String mend,
            String source,
            List<RulePage.Parameter> parameters,
            JsonNode fails,
            JsonNode passes) {}

    @GetMapping
    @ExampleAnswer("/dev/splicebook/check/web/answers/rules.json")
    @Operation(
            operationId = "listRules",
            summary = "Lists every rule of the running version, by code.",
            description = "All rules on one page. A code names what is bad and never changes; further ones may come.")
    PageOf<RuleSummary> list() {
        return new PageOf<>(
                checks.listRules().stream()
                        .map(page -> new RuleSummary(page.code(), page.severity(), page.since(), page.condition()))
                        .toList(),
                null);
    }

    @GetMapping(
            path = "/{code}",
            produces = {MediaType.APPLICATION_JSON_VALUE, MediaType.TEXT_HTML_VALUE})
    @ExampleAnswer("/dev/splicebook/check/web/answers/rule.json")
    @ApiResponse(
            responseCode = "200",
            description = "The rule",
            content =
                    @Content(
                            mediaType = MediaType.APPLICATION_JSON_VALUE,
                            schema = @Schema(implementation = RuleView.class)))
    @Operation(
            operationId = "getRule",
            summary = "Reads a rule's page, as JSON or as HTML for a browser.",
            description =
                    "What the rule checks, why it matters, how it is mended, its thresholds with their reasons, and two"
                            + " hookups that can be sent as they are: one that it reports, and the same mended.")
    ResponseEntity<?> get(
            @PathVariable String code,
            @Parameter(hidden = true) @RequestHeader(name = HttpHeaders.ACCEPT, required = false) @Nullable
                    String accept) {
        RulePage page = checks.findRule(code).orElseThrow(() -> Problems.notFound("rule " + code));
        return HtmlPage.isWanted(accept)
                ? ResponseEntity.ok()
                        .contentType(new MediaType(MediaType.TEXT_HTML, StandardCharsets.UTF_8))
                        .body(html(page))
                : ResponseEntity.ok().contentType(MediaType.APPLICATION_JSON).body(view(page));
    }

    private static RuleView view(RulePage page) {
        return new RuleView(
                page.code(),
                page.severity(),
                page.since(),
                page.condition(),
                page.checks(),
                page.why(),
                page.mend(),
                page.source(),
                page.parameters(),
                StrictReader.parse(page.fails().getBytes(StandardCharsets.UTF_8)),
                StrictReader.parse(page.passes().getBytes(StandardCharsets.UTF_8)));
    }

    private static String html(RulePage page) {
        HtmlPage html = new HtmlPage(page.code())
                .paragraph("Severity " + page.severity() + ", since version " + page.since() + ".")
                .paragraph(page.condition())
                .heading("What it checks")
                .paragraph(page.checks())
                .heading("Why it matters")
                .paragraph(page.why())
                .heading("Mend")
                .paragraph(page.mend());
        if (!page.parameters().isEmpty()) {
            html.heading("Figures");
            html.items(page.parameters().stream()
                    .map(parameter -> parameter.name() + " = " + parameter.value()
                            + (parameter.unit().isEmpty() ? "" : " " + parameter.unit()) + ": " + parameter.reason()
                            + "; a shop may set " + parameter.least() + " to " + parameter.most())
                    .toList());
        }
        return html.heading("Source")
                .paragraph(page.source())
                .heading("A hookup that it reports")
                .code(page.fails())
                .heading("The same, mended")
                .code(page.passes())
                .toString();
    }
}
