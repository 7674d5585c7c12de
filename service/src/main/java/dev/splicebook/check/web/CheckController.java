package dev.splicebook.check.web;

import dev.splicebook.check.CheckReport;
import dev.splicebook.check.Checks;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.ProblemType;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/checks")
@Tag(name = "checks", description = "Is this hookup right?")
class CheckController {

    private final Checks checks;

    CheckController(Checks checks) {
        this.checks = checks;
    }

    @PostMapping
    @ExampleAnswer("/dev/splicebook/check/web/answers/report.json")
    @Operation(
            operationId = "checkHookup",
            summary = "Checks a hookup by every rule; vehicle and parts stand inline or are named from the book.",
            description =
                    "The answer names every mistake by the terminals and connections it sits on, says of every rule how"
                            + " it ended, with the facts it lacked where it could not judge, and lists the connections in the order"
                            + " in which to make them. Each finding carries up to three remedies, as a JSON Patch (RFC 6902) of the"
                            + " hookup with the parts it adds; each has been applied and checked again. With fix=true the"
                            + " answer has in fix the least costly set of changes found that makes the hookup ready, or the"
                            + " nearest the search came. Lengths of wires that are added are guesses, to be measured. A"
                            + " hookup with mistakes is a good question: the answer is 200. Nothing is stored.")
    @ExampleBody("/dev/splicebook/check/web/head-unit.json")
    @MayFail(ProblemType.UNPROCESSABLE)
    CheckReport check(
            Caller caller,
            @Schema(description = "Looks for remedies of each finding.") @RequestParam(defaultValue = "true")
                    boolean remedies,
            @Schema(description = "Looks for the least costly changes that make the hookup ready.")
                    @RequestParam(defaultValue = "false")
                    boolean fix,
            @RequestBody HookupDocument hookup) {
        return CheckReport.of(
                checks.check(caller, hookup, new Checks.Wanted(remedies, fix), hookup.waivers()),
                hookup.waivers(),
                Checks.today(),
                null);
    }
}
