package dev.splicebook.web;

/** Tries a change out: everything about it is judged, by the database too, and nothing of it stays. */
public interface Rehearsal {

    /** @throws ProblemException what the change itself would end with */
    void of(Runnable change);
}
