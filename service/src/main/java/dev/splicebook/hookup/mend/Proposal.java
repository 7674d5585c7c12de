package dev.splicebook.hookup.mend;

/**
 * A change that might mend a finding.
 *
 * @param what is changed, in one sentence
 * @param cost in trouble and parts: 1 for a word in the document, 2 for moving a lead, 10 for a relay
 */
public record Proposal(String what, double cost, Edit edit) {}
