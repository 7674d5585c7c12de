package dev.splicebook.hookup.net;

/**
 * A source as it reaches a net.
 *
 * @param source a supply, a control output or a ground of the vehicle
 * @param hard whether conductors, closed contacts and diodes alone lead there; else a resistor stands between
 */
public record Reach(Node source, boolean hard) {}
