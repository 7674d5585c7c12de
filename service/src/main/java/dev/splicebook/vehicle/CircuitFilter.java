package dev.splicebook.vehicle;

import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import org.jspecify.annotations.Nullable;

/**
 * Which circuits are wanted; everything given must hold.
 *
 * @param function this one or one below it
 * @param connector its ref, exactly
 * @param text each of its words must be the beginning of one in the connector's name and location or the circuit's source,
 *     load end, test, note and what it carries
 * @param maker what the name of the vehicle's maker starts with, whatever the case
 * @param model what the name of the vehicle's model starts with, whatever the case
 * @param year one of the vehicle's model years
 */
public record CircuitFilter(
        @Nullable FunctionId function,
        @Nullable Colour colour,
        @Nullable String connector,
        @Nullable String text,
        @Nullable String maker,
        @Nullable String model,
        @Nullable Integer year) {}
