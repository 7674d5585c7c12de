package dev.splicebook.hookup.pair;

/**
 * One thing that speaks for or against a way.
 *
 * @param points 0 for what costs nothing
 * @param why in words that follow a colon
 */
record Term(double points, String why) {}
