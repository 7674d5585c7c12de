package dev.splicebook.check.web;

import dev.splicebook.check.ThresholdBook;
import dev.splicebook.check.ThresholdBook.ThresholdList;
import dev.splicebook.hookup.Thresholds;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.ExampleBody;
import dev.splicebook.web.Sent;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.tags.Tag;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/thresholds")
@Tag(
        name = "thresholds",
        description = "The figures that rules compare with, and those that a firm sets in their place.")
class ThresholdController {

    private final ThresholdBook thresholds;

    ThresholdController(ThresholdBook thresholds) {
        this.thresholds = thresholds;
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/check/web/answers/thresholds.json")
    @Operation(
            operationId = "listThresholds",
            summary = "Lists every figure that rules compare with and a firm may set, by rule and name.")
    ResponseEntity<ThresholdList> list(
            Caller caller, @RequestHeader(name = "If-None-Match", required = false) @Nullable String ifNoneMatch) {
        ThresholdList list = thresholds.list(caller);
        return ETags.respond(ifNoneMatch, list.revision(), () -> list);
    }

    @PutMapping
    @ExampleBody("/dev/splicebook/check/web/thresholds.json")
    @ExampleAnswer("/dev/splicebook/check/web/answers/thresholds.json")
    @Operation(
            operationId = "setThresholds",
            summary = "Sets figures for the firm, in place of all that it has set before.",
            description =
                    "Every check of the firm heeds them from then on, and lists among its assumptions those that differ from"
                            + " what the rule comes with. An empty object goes back to these.")
    ResponseEntity<ThresholdList> set(
            Caller caller,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestBody Sent<Thresholds> values) {
        ThresholdList list = thresholds.set(caller, ifMatch, values);
        return ResponseEntity.ok().eTag(ETags.of(list.revision())).body(list);
    }
}
