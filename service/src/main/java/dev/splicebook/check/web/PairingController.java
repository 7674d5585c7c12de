package dev.splicebook.check.web;

import dev.splicebook.check.CheckReport;
import dev.splicebook.check.Checks;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.PairingQuestion;
import dev.splicebook.hookup.Proposal;
import dev.splicebook.hookup.Report;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.ProblemType;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.util.List;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/pairings")
@Tag(name = "pairings", description = "How should these parts be wired?")
class PairingController {

    private final Checks checks;

    PairingController(Checks checks) {
        this.checks = checks;
    }

    /**
     * A proposed hookup.
     *
     * @param hookup can be sent to the check as it is
     * @param report what its check found, as the check itself answers
     * @param cost in points: what work, parts and quality it takes; only to compare proposals of one question
     * @param choices why each terminal goes where it goes
     * @param settingsToMake settings that are still to be made or to be decided
     * @param gaveUp wishes that it does not meet
     * @param added refs of the parts that it adds
     * @param alternatives that differ in substance, best first
     * @param assumptions lengths and sizes that were used for want of better ones
     */
    record Pairing(
            HookupDocument hookup,
            CheckReport report,
            double cost,
            List<Proposal.Choice> choices,
            List<Proposal.SettingToMake> settingsToMake,
            List<Proposal.GivenUp> gaveUp,
            List<String> added,
            List<Proposal.Alternative> alternatives,
            List<Report.Assumption> assumptions) {}

    @PostMapping
    @ExampleAnswer("/dev/splicebook/check/web/answers/pairing.json")
    @Operation(
            operationId = "proposeHookup",
            summary =
                    "Proposes a whole hookup for a vehicle, parts and wishes; each stands inline or is named from the book.",
            description =
                    "The answer has the hookup with its report: what each terminal goes to and why, which plugs are mated,"
                            + " what becomes of leads that stay free, sizes and fuses, settings. Terminals meet by electrical facts"
                            + " and function, never by colour; a relay, isolator or converter that is lacking is added from the"
                            + " catalogue. Wishes that no input is left for are given up, with what would serve. Without unplugged,"
                            + " what to unplug is proposed too. Airbag and high-voltage circuits are left alone, and a parking-brake"
                            + " input gets the parking brake's own circuit or nothing. Lengths are assumed: measure them. Nothing is"
                            + " stored.")
    @ExampleBody("/dev/splicebook/check/web/pairing.json")
    @MayFail(ProblemType.UNPROCESSABLE)
    Pairing propose(Caller caller, @RequestBody PairingQuestion question) {
        Checks.Proposed proposed = checks.propose(caller, question);
        Proposal proposal = proposed.proposal();
        return new Pairing(
                proposal.hookup(),
                CheckReport.of(proposed.checked(), List.of(), Checks.today(), null),
                proposal.cost(),
                proposal.choices(),
                proposal.settingsToMake(),
                proposal.gaveUp(),
                proposal.added(),
                proposal.alternatives(),
                proposal.assumptions());
    }
}
