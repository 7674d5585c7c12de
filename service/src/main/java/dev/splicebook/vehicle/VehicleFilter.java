package dev.splicebook.vehicle;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Which vehicles are wanted, by the latest revision of their map; everything given must hold.
 *
 * @param maker what the maker's name starts with, whatever the case
 * @param model what the model's name starts with, whatever the case
 * @param year one of the map's model years
 * @param equipment all of it must be there
 * @param text each of its words must be the beginning of one in maker, model, market, equipment or notes
 * @param vin one of the map's patterns must match, and its model years, if it has any, those of the VIN
 */
public record VehicleFilter(
        @Nullable String maker,
        @Nullable String model,
        @Nullable Integer year,
        List<String> equipment,
        @Nullable String text,
        @Nullable Vin vin) {

    public VehicleFilter {
        equipment = List.copyOf(equipment);
    }
}
