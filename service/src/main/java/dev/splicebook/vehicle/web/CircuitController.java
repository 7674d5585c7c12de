package dev.splicebook.vehicle.web;

import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.vehicle.Book;
import dev.splicebook.vehicle.CircuitFilter;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ExampleAnswer;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.QueryText;
import dev.splicebook.web.SearchWords;
import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

@RestController
@RequestMapping("/v1/circuits")
@Tag(name = "circuits", description = "The circuits of every vehicle in the book.")
class CircuitController {

    private final Book book;

    CircuitController(Book book) {
        this.book = book;
    }

    @GetMapping
    @ExampleAnswer("/dev/splicebook/vehicle/web/answers/circuits.json")
    @Operation(
            operationId = "searchCircuits",
            summary =
                    "Lists circuits of the latest revision of every vehicle, vehicle by vehicle; everything given must hold.")
    PageOf<CircuitView> search(
            Caller caller,
            @Schema(description = CircuitView.FUNCTION) @RequestParam(required = false) @Nullable FunctionId function,
            @Schema(description = CircuitView.COLOUR) @RequestParam(required = false) @Nullable Colour colour,
            @Schema(description = CircuitView.CONNECTOR) @RequestParam(required = false) @Nullable QueryText connector,
            @Schema(description = CircuitView.TEXT) @RequestParam(required = false) @Nullable SearchWords text,
            @Schema(description = VehicleController.MAKER) @RequestParam(required = false) @Nullable QueryText maker,
            @Schema(description = VehicleController.MODEL) @RequestParam(required = false) @Nullable QueryText model,
            @Schema(description = VehicleController.YEAR, minimum = "1950", maximum = "2100")
                    @RequestParam(required = false)
                    @Nullable
                    Integer year,
            PageQuery page) {
        CircuitFilter filter = new CircuitFilter(
                function,
                colour,
                QueryText.of(connector),
                SearchWords.of(text),
                QueryText.of(maker),
                QueryText.of(model),
                Years.inRange(year));
        return CircuitView.of(book.listCircuits(caller, filter, page));
    }
}
