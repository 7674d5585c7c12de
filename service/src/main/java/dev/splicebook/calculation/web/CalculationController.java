package dev.splicebook.calculation.web;

import dev.splicebook.calculation.CalculationPage;
import dev.splicebook.calculation.Calculations;
import dev.splicebook.calculation.FieldPage;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.Fact;
import dev.splicebook.web.MayFail;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.Problems;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.util.List;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

@RestController
@RequestMapping("/v1/calculations")
@Tag(name = "calculations", description = "The arithmetic of the trade; each answer shows its working.")
class CalculationController {

    private final Calculations calculations;

    CalculationController(Calculations calculations) {
        this.calculations = calculations;
    }

    /** A calculation's page in the catalogue, with a question to try it with. */
    record CalculationView(
            @Fact("name, which is the last part of its address; never changes")
            String name,

            @Fact("what it is for") String purpose,

            @Fact("how it goes about it, and what it leaves out")
            String method,

            @Fact("what a question holds") List<FieldPage> inputs,

            @Fact("what an answer holds beside assumptions, working, sources and cautions")
            List<FieldPage> results,

            @Fact("where formulas and tables come from") List<String> sources,

            @Fact("what to mind before acting on the figures")
            List<String> cautions,

            @Fact("a question that can be sent as it is") JsonNode example) {}

    @GetMapping
    @ExampleAnswer("/dev/splicebook/calculation/web/answers/calculations.json")
    @Operation(
            operationId = "listCalculations",
            summary = "Lists every calculation of the running version, by name.",
            description =
                    "All calculations on one page, each with what it is for, its inputs with units and ranges, its"
                            + " results and its sources.")
    PageOf<CalculationPage> list() {
        return new PageOf<>(calculations.listPages(), null);
    }

    @GetMapping("/{name}")
    @ExampleAnswer("/dev/splicebook/calculation/web/answers/calculation.json")
    @Operation(
            operationId = "getCalculation",
            summary = "Reads a calculation's page in the catalogue.",
            description =
                    "What it is for, its inputs with units and ranges, its results, its sources, and a question that"
                            + " can be sent as it is.")
    CalculationView get(@PathVariable String name) {
        CalculationPage page = calculations.findPage(name).orElseThrow(() -> Problems.notFound("calculation " + name));
        return new CalculationView(
                page.name(),
                page.purpose(),
                page.method(),
                page.inputs(),
                page.results(),
                page.sources(),
                page.cautions(),
                calculations.example(name));
    }

    /** Written down once for each calculation, by {@link WrittenCalculations}. */
    @PostMapping("/{name}")
    @MayFail(ProblemType.UNPROCESSABLE)
    @Operation(operationId = WrittenCalculations.ANY, summary = "Calculates.")
    Object calculate(@PathVariable String name, @RequestBody JsonNode question) {
        return calculations.answer(name, question);
    }
}
