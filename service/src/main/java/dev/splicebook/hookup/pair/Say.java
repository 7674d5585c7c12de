package dev.splicebook.hookup.pair;

import java.util.Locale;

/** Words and figures for people. */
final class Say {

    private Say() {}

    /** At most three digits that count. */
    static String figure(double value) {
        String text = String.format(Locale.ROOT, value >= 100 ? "%.0f" : value >= 10 ? "%.1f" : "%.2f", value);
        return text.contains(".") ? text.replaceFirst("\\.?0+$", "") : text;
    }
}
