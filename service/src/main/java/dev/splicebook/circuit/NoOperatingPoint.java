package dev.splicebook.circuit;

/**
 * Constant-power loads want more than the network can bring to them.
 *
 * @param load name of the load whose volts give way
 * @param share of their watts that all constant-power loads together can be fed, 0 to below 1
 * @param volts across that load then; with any more, they collapse
 */
public record NoOperatingPoint(String load, double share, double volts) implements DcResult {}
