package dev.splicebook.job.web;

import dev.splicebook.guard.Guard;
import dev.splicebook.hookup.Waiver;
import dev.splicebook.job.Jobs;
import dev.splicebook.job.StoredWaiver;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.Problems;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/hookups/{id}/waivers")
@Tag(name = "hookups")
class WaiverController {

    private final Jobs jobs;

    WaiverController(Jobs jobs) {
        this.jobs = jobs;
    }

    /**
     * Who accepts a finding as it is, and why.
     *
     * @param expiresOn the last day, in UTC, on which the waiver holds; absent if it holds for good
     */
    record WaiverRequest(
            String author, String reason, @Nullable LocalDate expiresOn) {
        WaiverRequest {
            new Guard()
                    .text("author", author, 200)
                    .text("reason", reason, 1000)
                    .refuseIf(!Waiver.isDay(expiresOn), "expiresOn", "out-of-range", () -> Waiver.told(expiresOn))
                    .check();
        }
    }

    /**
     * A waiver of a stored hookup.
     *
     * @param rule of what was found when it was given
     * @param message of what was found when it was given
     */
    record WaiverView(
            String fingerprint,
            String author,
            String reason,
            @Nullable LocalDate expiresOn,
            String rule,
            String message,
            Instant createdAt) {

        static WaiverView of(StoredWaiver given) {
            Waiver waiver = given.waiver();
            return new WaiverView(
                    waiver.fingerprint(),
                    waiver.author(),
                    waiver.reason(),
                    waiver.expiresOn(),
                    given.rule(),
                    given.message(),
                    given.createdAt());
        }
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/job/web/answers/waivers.json")
    @Operation(
            operationId = "listWaivers",
            summary = "Lists the waivers of a stored hookup, oldest first; the report says which hold.",
            description =
                    "All waivers on one page, those that have lapsed too, and none that was withdrawn. Those that the document of a"
                            + " revision has are listed by its report, and go with a revision without them.")
    PageOf<WaiverView> list(Caller caller, @PathVariable UUID id) {
        return new PageOf<>(
                jobs.listWaivers(caller, id).stream().map(WaiverView::of).toList(), null);
    }

    @PutMapping("/{fingerprint}")
    @ExampleBody("/dev/splicebook/job/web/waiver.json")
    @ExampleAnswer("/dev/splicebook/job/web/answers/waiver.json")
    @MayFail({ProblemType.UNPROCESSABLE, ProblemType.CONFLICT})
    @Operation(
            operationId = "waiveFinding",
            summary = "Waives the findings of a fingerprint in the latest revision of a stored hookup.",
            description =
                    "The findings are accepted as they are, and the verdict goes by the others. As a fingerprint is of the"
                            + " rule and the facts, a waiver lapses by itself when one of these changes. A danger is never waived.")
    WaiverView waive(
            Caller caller,
            @PathVariable UUID id,
            @PathVariable String fingerprint,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestBody WaiverRequest waiver) {
        requireFingerprint(id, fingerprint);
        return WaiverView.of(jobs.waive(
                caller, id, ifMatch, new Waiver(fingerprint, waiver.author(), waiver.reason(), waiver.expiresOn())));
    }

    @DeleteMapping("/{fingerprint}")
    @ResponseStatus(HttpStatus.NO_CONTENT)
    @MayFail({ProblemType.UNPROCESSABLE, ProblemType.CONFLICT})
    @Operation(operationId = "withdrawWaiver", summary = "Withdraws a waiver of a stored hookup.")
    void withdraw(
            Caller caller,
            @PathVariable UUID id,
            @PathVariable String fingerprint,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        requireFingerprint(id, fingerprint);
        jobs.withdraw(caller, id, ifMatch, fingerprint);
    }

    private static void requireFingerprint(UUID id, String fingerprint) {
        if (!Waiver.FINGERPRINT.matcher(fingerprint).matches()) {
            throw Problems.notFound("finding with such a fingerprint in hookup " + id);
        }
    }
}
