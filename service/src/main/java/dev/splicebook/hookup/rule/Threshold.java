package dev.splicebook.hookup.rule;

/**
 * A figure that a rule compares with.
 *
 * @param unit empty for a ratio
 * @param reason why this figure, with its source
 */
public record Threshold(String name, double value, String unit, String reason) {}
