package dev.splicebook.device;

import dev.splicebook.function.FunctionId;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Which devices are wanted, by their latest revision; everything given must hold.
 *
 * @param code what the code starts with, whatever the case
 * @param maker what the maker's name starts with, whatever the case
 * @param name what the name starts with, whatever the case
 * @param kind exactly
 * @param function one of the terminals has it or one below it
 * @param text each of its words must be the beginning of one in code, maker, name, kind or notes
 * @param mates one of the connectors mates by a housing of this name
 * @param fits a vehicle: one of the device's connectors mates by a housing that one of the vehicle's does
 * @param accessoryOf code of a device that lists it among its accessories
 */
public record DeviceFilter(
        @Nullable String code,
        @Nullable String maker,
        @Nullable String name,
        @Nullable String kind,
        @Nullable FunctionId function,
        @Nullable String text,
        @Nullable String mates,
        @Nullable UUID fits,
        @Nullable String accessoryOf) {}
