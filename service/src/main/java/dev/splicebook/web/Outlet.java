package dev.splicebook.web;

import java.io.IOException;

/** Takes entries one by one on their way out, and may find that nobody takes them any more. */
@FunctionalInterface
public interface Outlet<T> {

    /** @throws IOException if the reader has gone */
    void take(T entry) throws IOException;
}
