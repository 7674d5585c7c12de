package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * All that is known of one vehicle's circuits.
 *
 * @param equipment what sets the variant apart, like {@code rear-entertainment}
 * @param vinPatterns how the identification numbers (VIN) of these vehicles begin
 * @param radioOpening what the panel leaves for a head unit
 * @param runningVolts what the charging system gives; absent for the default of 14.2 V
 * @param batterySensor whether a sensor that counts the battery's current sits at its negative terminal; absent if unknown
 * @param automaticRestart whether the engine stops and restarts by itself, so that volts dip while a customer listens; absent
 *     is taken as true
 * @param connectors by name
 * @param circuits by connector and pin, like {@code C1-7}; {@code battery-plus}, {@code battery-minus} and {@code chassis}
 *     exist without being listed and may be listed to say more of them
 */
public record FunctionMap(
        @Nullable String maker,
        @Nullable String model,
        @Nullable ModelYears modelYears,
        @Nullable String market,
        @Nullable SteeringSide steeringSide,
        Set<String> equipment,
        Set<VinPattern> vinPatterns,
        @Nullable PanelSize radioOpening,
        @Nullable VoltRange runningVolts,
        @Nullable Boolean batterySensor,
        @Nullable Boolean automaticRestart,
        Map<String, Connector> connectors,
        Map<String, Circuit> circuits,
        @Nullable String notes) {

    private static final int MOST_CIRCUITS = 5000;

    public FunctionMap {
        Guard guard = new Guard()
                .text("maker", maker, 100)
                .text("model", model, 100)
                .text("market", market, 100)
                .text("notes", notes, 10_000)
                .atMost("equipment", equipment, 100)
                .atMost("vinPatterns", vinPatterns, 100)
                .atMost("connectors", connectors.keySet(), 500)
                .atMost("circuits", circuits.keySet(), MOST_CIRCUITS);
        equipment.forEach(entry -> guard.matches("equipment", entry, Names.NAME, Names.FORM));
        connectors
                .keySet()
                .forEach(name -> guard.matches("connectors/" + name, name, Names.NAME, Names.FORM)
                        .refuseIf(
                                name.equals("battery"),
                                "connectors/" + name,
                                "reserved",
                                () -> "the connector name battery would hide CAR.battery-plus and CAR.battery-minus"));
        circuits.keySet()
                .forEach(name -> guard.refuseIf(
                        !name.equals(Vehicle.CHASSIS)
                                && !Names.CIRCUIT.matcher(name).matches(),
                        "circuits/" + name.replace("~", "~0").replace("/", "~1"),
                        "bad-form",
                        () -> "the circuit \"" + name + "\" is not " + Names.CIRCUIT_FORM));
        Connector.guardPins(guard, "circuits", circuits.keySet(), connectors);
        guard.check();
    }

    /** A map of which only circuits are known. */
    public static FunctionMap of(Map<String, Circuit> circuits) {
        return new FunctionMap(
                null, null, null, null, null, Set.of(), Set.of(), null, null, null, null, Map.of(), circuits, null);
    }
}
