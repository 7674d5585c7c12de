package dev.splicebook.vehicle.web;

import dev.splicebook.function.Function;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.Problems;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.tags.Tag;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/functions")
@Tag(name = "functions", description = "The vocabulary: what a wire can be for.")
class FunctionController {

    @GetMapping
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/functions.json")
    @Operation(
            operationId = "listFunctions",
            summary = "Lists every function of the vocabulary, kind by kind.",
            description =
                    "All functions on one page. Ids are dotted, and where one is asked for, it stands for itself and all"
                            + " below it.")
    PageOf<Function> list() {
        return new PageOf<>(Functions.vocabulary().listFunctions(), null);
    }

    @GetMapping("/{id}")
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/function.json")
    @Operation(
            operationId = "getFunction",
            summary = "Reads one function of the vocabulary.",
            description = "What a wire of this function is for, by its id.")
    Function get(@PathVariable String id) {
        if (!Functions.isKnown(id)) {
            throw Problems.notFound("function " + id);
        }
        return Functions.vocabulary()
                .findFunction(new FunctionId(id))
                .orElseThrow(() -> Problems.notFound("function " + id));
    }
}
