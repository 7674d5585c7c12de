package dev.splicebook.exchange;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.ModelYears;
import dev.splicebook.hookup.SteeringSide;
import dev.splicebook.hookup.VinPattern;
import dev.splicebook.web.Fault;
import dev.splicebook.web.JsonWriting;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.ProblemType;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a map says of its vehicle beside circuits and connectors, as it comes in the query.
 *
 * @param modelYearFrom 1950 to 2100
 * @param modelYearTo 1950 to 2100, not before {@code modelYearFrom}, and only beside it
 */
public record VehicleHead(
        @Nullable String maker,
        @Nullable String model,
        @Nullable Integer modelYearFrom,
        @Nullable Integer modelYearTo,
        @Nullable String market,
        @Nullable SteeringSide steeringSide,
        List<String> equipment,
        List<VinPattern> vinPatterns) {

    private static final Map<String, String> PARAMETER_BY_POINTER =
            Map.of("/from", "modelYearFrom", "/to", "modelYearTo", "/vinPatterns", "vinPattern");

    public VehicleHead {
        equipment = List.copyOf(equipment);
        vinPatterns = List.copyOf(vinPatterns);
    }

    /**
     * A document that says this much.
     *
     * @throws ProblemException 400 with every parameter at fault
     */
    ObjectNode document() {
        List<Fault> faults = new ArrayList<>();
        refuseControls(faults, "maker", maker);
        refuseControls(faults, "model", model);
        refuseControls(faults, "market", market);
        ModelYears years = years(faults);
        try {
            FunctionMap map = new FunctionMap(
                    maker,
                    model,
                    years,
                    market,
                    steeringSide,
                    new LinkedHashSet<>(equipment),
                    new LinkedHashSet<>(vinPatterns),
                    null,
                    null,
                    null,
                    null,
                    Map.of(),
                    Map.of(),
                    null);
            ObjectNode document = JsonWriting.mapper().valueToTree(map);
            document.removeIf(value -> value.isContainer() && value.isEmpty());
            if (faults.isEmpty()) {
                return document;
            }
        } catch (InvalidValueException invalid) {
            invalid.invalids().forEach(each -> faults.add(fault(each)));
        }
        String detail = faults.stream().map(Fault::detail).collect(Collectors.joining("; "));
        throw new ProblemException(ProblemType.BAD_PARAMETER, detail, faults, Map.of());
    }

    private static void refuseControls(List<Fault> faults, String parameter, @Nullable String value) {
        if (value != null) {
            value.chars()
                    .filter(Character::isISOControl)
                    .findFirst()
                    .ifPresent(control -> faults.add(Fault.ofParameter(
                            parameter,
                            "bad-character",
                            String.format("%s holds the control character U+%04X", parameter, control))));
        }
    }

    private @Nullable ModelYears years(List<Fault> faults) {
        if (modelYearFrom == null) {
            if (modelYearTo != null) {
                faults.add(Fault.ofParameter(
                        "modelYearTo",
                        "inconsistent",
                        "modelYearTo is " + modelYearTo + ", and modelYearFrom is missing"));
            }
            return null;
        }
        try {
            return new ModelYears(modelYearFrom, modelYearTo);
        } catch (InvalidValueException invalid) {
            invalid.invalids().forEach(each -> faults.add(fault(each)));
            return null;
        }
    }

    private static Fault fault(Invalid invalid) {
        String parameter = PARAMETER_BY_POINTER.getOrDefault(
                invalid.pointer(), invalid.pointer().substring(1));
        return Fault.ofParameter(parameter, invalid.code(), invalid.detail());
    }
}
