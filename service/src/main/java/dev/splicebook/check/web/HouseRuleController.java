package dev.splicebook.check.web;

import dev.splicebook.check.HouseRuleBook;
import dev.splicebook.check.StoredHouseRule;
import dev.splicebook.check.house.HouseRule;
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
import dev.splicebook.web.Sent;
import dev.splicebook.web.StrictReader;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

@RestController
@RequestMapping("/v1/house-rules")
@Tag(name = "house rules", description = "A firm's own rules, as expressions over a hookup and what was found in it.")
class HouseRuleController {

    private static final String WHAT =
            "For each of the things that `each` names the rule asks `when`, an expression in CEL (the Common Expression"
                    + " Language, cel.dev) over `it` and over `connections`, `terminals`, `parts`, `nets`, `findings`,"
                    + " `wishes` and `vehicle`. A connection has ref, from and to (terminals), size, areaMm2, material,"
                    + " insulationCelsius, lengthMetres, fuseAmps, fuseFromSourceMetres and, where it carries current, power (amps,"
                    + " lossWatts and celsius at worst, typicalAmps); a terminal ref, part, name,"
                    + " function, colour, kind, unused, connected and the electrical facts of its kind, like maxAmps, and where"
                    + " it is a load that is fed, power (the fewest volts across it, the most amps); a part ref, device, maker,"
                    + " name, kind, mode, settings, terminals and groundVolts, by which its ground stands above the chassis at"
                    + " worst; a net terminals, connections, kinds and"
                    + " functions; a finding rule, severity, message, terminals, connections, measured, limit, unit and"
                    + " states; a wish function and want; the vehicle maker, model, market, equipment, unplugged and cuts."
                    + " `has(it.fuseAmps)` asks whether a fact is known; to read one that is not leaves the thing"
                    + " unchecked. `sum` adds a list of figures. The tests run before the rule is saved. A rule that fails"
                    + " or takes too long in a check is `not-checked` there, and changes nothing else.";

    private final HouseRuleBook rules;
    private final Idempotency idempotency;
    private final Rehearsal rehearsal;

    HouseRuleController(HouseRuleBook rules, Idempotency idempotency, Rehearsal rehearsal) {
        this.rules = rules;
        this.idempotency = idempotency;
        this.rehearsal = rehearsal;
    }

    /**
     * A rule of the house as it is answered.
     *
     * @param document what was sent
     */
    record HouseRuleView(
            String code,
            int revision,
            Instant createdAt,
            @Schema(implementation = HouseRule.class) JsonNode document) {

        static HouseRuleView of(StoredHouseRule rule) {
            return new HouseRuleView(
                    rule.code(),
                    rule.revision(),
                    rule.createdAt(),
                    StrictReader.parse(rule.document().getBytes(StandardCharsets.UTF_8)));
        }
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/check/web/answers/house-rules.json")
    @Operation(operationId = "listHouseRules", summary = "Lists the firm's own rules, by code.")
    PageOf<HouseRuleView> list(Caller caller, PageQuery page) {
        PageOf<StoredHouseRule> found = rules.list(caller, page);
        return new PageOf<>(found.items().stream().map(HouseRuleView::of).toList(), found.next());
    }

    @PostMapping
    @ResponseStatus(HttpStatus.CREATED)
    @ExampleBody("/dev/splicebook/check/web/house-rule.json")
    @ExampleAnswer("/dev/splicebook/check/web/answers/house-rule.json")
    @AnswersDryRun(created = HouseRuleView.class)
    @MayFail({ProblemType.UNPROCESSABLE, ProblemType.CONFLICT})
    @Operation(
            operationId = "createHouseRule",
            summary = "Adds a rule of the firm's own, which every check heeds from then on.",
            description = WHAT)
    ResponseEntity<?> create(
            Caller caller,
            @RequestHeader(name = Idempotency.HEADER, required = false) @Nullable String key,
            @Schema(description = DryRun.PARAMETER) @RequestParam(defaultValue = "false") boolean dryRun,
            HttpServletRequest request,
            @RequestBody Sent<HouseRule> rule) {
        if (dryRun) {
            rules.judgeNew(caller, rule.value());
            rehearsal.of(() -> rules.create(caller, rule));
            return DryRun.answer(rule);
        }
        Idempotency.Once once = idempotency.once(
                caller,
                key,
                Idempotency.fingerprint(request, rule.json()),
                () -> {
                    rules.judgeNew(caller, rule.value());
                    return rule;
                },
                judged -> {
                    StoredHouseRule created = rules.create(caller, judged);
                    return Idempotency.ref(created.code(), created.revision());
                });
        StoredHouseRule created = rules.get(caller, once.name(), once.revision());
        return ResponseEntity.created(URI.create("/v1/house-rules/" + created.code()))
                .eTag(ETags.of(created.revision()))
                .headers(once::mark)
                .body(HouseRuleView.of(created));
    }

    @GetMapping("/{code}")
    @ExampleAnswer("/dev/splicebook/check/web/answers/house-rule.json")
    @Operation(operationId = "getHouseRule", summary = "Reads a rule of the firm's own.")
    ResponseEntity<HouseRuleView> get(
            Caller caller,
            @PathVariable String code,
            @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        StoredHouseRule rule = rules.get(caller, code, null);
        return ETags.respond(ifNoneMatch, rule.revision(), () -> HouseRuleView.of(rule));
    }

    @PutMapping("/{code}")
    @ExampleBody("/dev/splicebook/check/web/house-rule.json")
    @ExampleAnswer("/dev/splicebook/check/web/answers/house-rule.json")
    @MayFail(ProblemType.UNPROCESSABLE)
    @Operation(
            operationId = "replaceHouseRule",
            summary = "Puts another in the place of a rule of the firm's own; If-Match names its latest revision.")
    ResponseEntity<HouseRuleView> replace(
            Caller caller,
            @PathVariable String code,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestBody Sent<HouseRule> rule) {
        StoredHouseRule replaced = rules.replace(caller, code, ifMatch, rule);
        return ResponseEntity.ok().eTag(ETags.of(replaced.revision())).body(HouseRuleView.of(replaced));
    }

    @DeleteMapping("/{code}")
    @ResponseStatus(HttpStatus.NO_CONTENT)
    @Operation(
            operationId = "withdrawHouseRule",
            summary = "Withdraws a rule of the firm's own, which no check heeds any more.")
    void withdraw(
            Caller caller,
            @PathVariable String code,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        rules.withdraw(caller, code, ifMatch);
    }
}
