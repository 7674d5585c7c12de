package dev.splicebook.job.web;

import dev.splicebook.check.CheckReport;
import dev.splicebook.check.Checks;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.Report.Verdict;
import dev.splicebook.job.HookupFilter;
import dev.splicebook.job.HookupSummary;
import dev.splicebook.job.Jobs;
import dev.splicebook.job.StoredHookup;
import dev.splicebook.web.AnswersDryRun;
import dev.splicebook.web.Caller;
import dev.splicebook.web.DryRun;
import dev.splicebook.web.ETags;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.Idempotency;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.Rehearsal;
import dev.splicebook.web.SearchWords;
import dev.splicebook.web.Sent;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
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
@RequestMapping("/v1/hookups")
@Tag(
        name = "hookups",
        description = "Hookups of a firm's own, in immutable revisions, each with its report and its waivers.")
class HookupController {

    private static final String FRESH =
            "Whether to check anew, by the rules, the vehicle and the devices of today, in place of the report that was made"
                    + " when the revision was added. Only a report that is made anew has remedies.";

    private static final String FIX =
            "Looks for the least costly changes that make the hookup ready, too; it is checked anew then. What is waived"
                    + " needs no change.";

    private final Jobs jobs;
    private final Idempotency idempotency;
    private final Rehearsal rehearsal;

    HookupController(Jobs jobs, Idempotency idempotency, Rehearsal rehearsal) {
        this.jobs = jobs;
        this.idempotency = idempotency;
        this.rehearsal = rehearsal;
    }

    @PostMapping
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleAnswer("/dev/splicebook/job/web/answers/hookup.json")
    @Operation(
            operationId = "createHookup",
            summary = "Stores a hookup with its first revision, and checks it.",
            description =
                    "The body is what a check takes. A hookup with mistakes is stored too; its report tells them.")
    @ExampleBody("/dev/splicebook/check/web/head-unit.json")
    @AnswersDryRun(created = HookupView.class)
    @MayFail(ProblemType.UNPROCESSABLE)
    ResponseEntity<?> create(
            Caller caller,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            @Schema(description = DryRun.PARAMETER) @RequestParam(defaultValue = "false") boolean dryRun,
            HttpServletRequest request,
            @RequestBody Sent<HookupDocument> hookup) {
        if (dryRun) {
            Checks.Checked checked = jobs.check(caller, hookup);
            rehearsal.of(() -> jobs.create(caller, hookup, checked));
            return DryRun.answer(hookup);
        }
        Idempotency.Once once = idempotency.once(
                caller,
                key,
                Idempotency.fingerprint(request, hookup.json()),
                () -> jobs.check(caller, hookup),
                checked -> {
                    StoredHookup created = jobs.create(caller, hookup, checked);
                    return Idempotency.ref(created.id(), created.revision());
                });
        return created(caller, once, "/v1/hookups/" + once.name());
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/job/web/answers/hookups.json")
    @Operation(
            operationId = "listHookups",
            summary = "Lists stored hookups, oldest first, by their latest revision; everything given must hold.")
    PageOf<HookupSummary> list(
            Caller caller,
            @Schema(description = "The vehicle of the book that the hookup names.")
                    @RequestParam(required = false)
                    @Nullable
                    UUID vehicle,
            @Schema(
                            description =
                                    "What follows from the findings of the report made when the revision was added, but for"
                                            + " those that are waived today.")
                    @RequestParam(required = false)
                    @Nullable
                    Verdict verdict,
            @Schema(description = "Words, each the beginning of one in the name, whatever the case.")
                    @RequestParam(required = false)
                    @Nullable
                    SearchWords text,
            PageQuery page) {
        return jobs.list(caller, new HookupFilter(vehicle, verdict, SearchWords.of(text)), page);
    }

    @GetMapping("/{id}")
    @ExampleAnswer("/dev/splicebook/job/web/answers/hookup.json")
    @Operation(operationId = "getHookup", summary = "Reads the latest revision of a stored hookup.")
    ResponseEntity<HookupView> get(
            Caller caller,
            @PathVariable UUID id,
            @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        StoredHookup hookup = jobs.get(caller, id, null);
        return ETags.respond(ifNoneMatch, hookup.revision(), () -> HookupView.of(hookup));
    }

    @GetMapping("/{id}/revisions")
    @ExampleAnswer("/dev/splicebook/job/web/answers/hookups.json")
    @Operation(operationId = "listHookupRevisions", summary = "Lists the revisions of a stored hookup, latest first.")
    PageOf<HookupSummary> listRevisions(Caller caller, @PathVariable UUID id, PageQuery page) {
        return jobs.listRevisions(caller, id, page);
    }

    @PostMapping("/{id}/revisions")
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleAnswer("/dev/splicebook/job/web/answers/hookup.json")
    @Operation(
            operationId = "addHookupRevision",
            summary = "Adds a revision to a stored hookup, and checks it; If-Match names the latest one.")
    @ExampleBody("/dev/splicebook/check/web/head-unit.json")
    @AnswersDryRun(created = HookupView.class)
    @MayFail(ProblemType.UNPROCESSABLE)
    ResponseEntity<?> addRevision(
            Caller caller,
            @PathVariable UUID id,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            @Schema(description = DryRun.PARAMETER) @RequestParam(defaultValue = "false") boolean dryRun,
            HttpServletRequest request,
            @RequestBody Sent<HookupDocument> hookup) {
        if (dryRun) {
            Checks.Checked checked = jobs.check(caller, id, ifMatch, hookup);
            rehearsal.of(() -> jobs.addRevision(caller, id, ifMatch, hookup, checked));
            return DryRun.answer(hookup);
        }
        Idempotency.Once once = idempotency.once(
                caller,
                key,
                Idempotency.fingerprint(request, hookup.json()),
                () -> jobs.check(caller, id, ifMatch, hookup),
                checked -> Idempotency.ref(
                        id,
                        jobs.addRevision(caller, id, ifMatch, hookup, checked).revision()));
        return created(caller, once, "/v1/hookups/" + id + "/revisions/" + once.revision());
    }

    @GetMapping("/{id}/revisions/{revision}")
    @ExampleAnswer("/dev/splicebook/job/web/answers/hookup.json")
    @Operation(operationId = "getHookupRevision", summary = "Reads one revision of a stored hookup.")
    ResponseEntity<HookupView> getRevision(
            Caller caller,
            @PathVariable UUID id,
            @PathVariable int revision,
            @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        StoredHookup hookup = jobs.get(caller, id, revision);
        return ETags.respond(ifNoneMatch, hookup.revision(), () -> HookupView.of(hookup));
    }

    @GetMapping("/{id}/report")
    @ExampleAnswer("/dev/splicebook/job/web/answers/hookup-report.json")
    @ApiResponse(
            responseCode = "200",
            description = "The report",
            content =
                    @Content(
                            mediaType = MediaType.APPLICATION_JSON_VALUE,
                            schema = @Schema(implementation = CheckReport.class)))
    @MayFail(ProblemType.UNPROCESSABLE)
    @Operation(
            operationId = "getHookupReport",
            summary = "Reads the report of a stored hookup's latest revision, with the waivers in force today.",
            description =
                    "A report is made when its revision is added and kept; waivers are applied to it when it is read."
                            + " With `fresh=true` the hookup is checked anew, and its findings have remedies. With `fix=true`"
                            + " it is checked anew, and the answer has in fix the least costly set of changes found that"
                            + " makes it ready; what is waived needs none.")
    JsonNode getReport(
            Caller caller,
            @PathVariable UUID id,
            @Schema(description = FRESH) @RequestParam(defaultValue = "false") boolean fresh,
            @Schema(description = FIX) @RequestParam(defaultValue = "false") boolean fix) {
        return jobs.getReport(caller, id, null, fresh, fix);
    }

    @GetMapping("/{id}/revisions/{revision}/report")
    @ExampleAnswer("/dev/splicebook/job/web/answers/hookup-report.json")
    @ApiResponse(
            responseCode = "200",
            description = "The report",
            content =
                    @Content(
                            mediaType = MediaType.APPLICATION_JSON_VALUE,
                            schema = @Schema(implementation = CheckReport.class)))
    @MayFail(ProblemType.UNPROCESSABLE)
    @Operation(
            operationId = "getHookupRevisionReport",
            summary = "Reads the report of one revision of a stored hookup, with the waivers in force today.")
    JsonNode getRevisionReport(
            Caller caller,
            @PathVariable UUID id,
            @PathVariable int revision,
            @Schema(description = FRESH) @RequestParam(defaultValue = "false") boolean fresh,
            @Schema(description = FIX) @RequestParam(defaultValue = "false") boolean fix) {
        return jobs.getReport(caller, id, revision, fresh, fix);
    }

    @GetMapping("/{id}/revisions/{revision}/findings-changes")
    @ExampleAnswer("/dev/splicebook/job/web/answers/findings-changes.json")
    @MayFail(ProblemType.UNPROCESSABLE)
    @Operation(
            operationId = "compareHookupFindings",
            summary = "Tells what became of the findings from one revision of a stored hookup to another.",
            description =
                    "Findings are the same where their fingerprints are: one of which a fact has changed is gone, and another"
                            + " has appeared. Waived ones count as others do.")
    Jobs.Comparison compareFindings(
            Caller caller,
            @PathVariable UUID id,
            @PathVariable int revision,
            @Schema(
                            description = "The revision compared against: the one before where it is left out, 0 for no"
                                    + " findings.",
                            minimum = "0")
                    @RequestParam(required = false)
                    @Nullable
                    Integer from,
            @Schema(
                            description = "Whether to check both anew, so that only what changed in the hookup makes a"
                                    + " difference.")
                    @RequestParam(defaultValue = "false")
                    boolean fresh) {
        return jobs.compareFindings(caller, id, from, revision, fresh);
    }

    /** The answer to the request that added a revision, the same however often it is given. */
    private ResponseEntity<HookupView> created(Caller caller, Idempotency.Once once, String location) {
        StoredHookup created = jobs.get(caller, UUID.fromString(once.name()), once.revision());
        return ResponseEntity.created(URI.create(location))
                .eTag(ETags.of(created.revision()))
                .headers(once::mark)
                .body(HookupView.of(created.asAdded()));
    }
}
