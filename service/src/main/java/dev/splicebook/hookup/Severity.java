package dev.splicebook.hookup;

import java.util.Locale;

/** How bad a finding is, worst first. */
public enum Severity {
    DANGER,
    ERROR,
    WARNING,
    NOTE;

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT);
    }
}
