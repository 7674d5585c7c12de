package dev.splicebook.check.web;

import dev.splicebook.check.Checks;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.Report;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.ProblemType;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/checks")
@Tag(name = "checks", description = "Is this hookup right?")
class CheckController {

    private final Checks checks;

    CheckController(Checks checks) {
        this.checks = checks;
    }

    /** What the check of a hookup found, and the revisions that it was made from. */
    record CheckReport(
            Report.Verdict verdict,
            List<Finding> findings,
            List<Report.Outcome> outcomes,
            List<Report.Metering> meterFirst,
            List<Report.Step> order,
            List<Report.Assumption> assumptions,
            List<String> cautions,
            Revisions revisions) {

        static CheckReport of(Report report, Revisions revisions) {
            return new CheckReport(
                    report.verdict(),
                    report.findings(),
                    report.outcomes(),
                    report.meterFirst(),
                    report.order(),
                    report.assumptions(),
                    report.cautions(),
                    revisions);
        }
    }

    /** Vehicle and devices as they were used; what was inline is absent. */
    record Revisions(Checks.@Nullable UsedRevision vehicle, Map<String, Checks.UsedRevision> devices) {}

    @PostMapping
    @ExampleAnswer("/dev/splicebook/check/web/answers/report.json")
    @Operation(
            operationId = "checkHookup",
            summary = "Checks a hookup by every rule; vehicle and parts stand inline or are named from the book.",
            description =
                    "The answer names every mistake by the terminals and connections it sits on, says of every rule how"
                            + " it ended, with the facts it lacked where it could not judge, and lists the connections in the order"
                            + " in which to make them. A hookup with mistakes is a good question: the answer is 200. Nothing is"
                            + " stored.")
    @ExampleBody("/dev/splicebook/check/web/head-unit.json")
    @MayFail(ProblemType.UNPROCESSABLE)
    CheckReport check(Caller caller, @RequestBody HookupDocument hookup) {
        Checks.Checked checked = checks.check(caller, hookup);
        return CheckReport.of(checked.report(), new Revisions(checked.vehicle(), checked.devices()));
    }
}
