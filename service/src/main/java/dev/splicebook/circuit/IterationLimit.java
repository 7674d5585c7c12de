package dev.splicebook.circuit;

/**
 * The iterations ended before Kirchhoff's laws held; nothing is known of the network.
 *
 * @param iterations linear solutions that were tried
 * @param residual the least that was left of Kirchhoff's laws, relative; infinite where nothing finite came out
 */
public record IterationLimit(int iterations, double residual) implements DcResult, AcResult {}
