package dev.splicebook.hookup.pair;

import java.util.List;
import java.util.Locale;

/** Words and figures for people. */
final class Say {

    private Say() {}

    /** At most three digits that count. */
    static String figure(double value) {
        String text = String.format(Locale.ROOT, value >= 100 ? "%.0f" : value >= 10 ? "%.1f" : "%.2f", value);
        return text.contains(".") ? text.replaceFirst("\\.?0+$", "") : text;
    }

    /** Like {@code A, B and C}. */
    static String list(List<String> items) {
        if (items.size() < 2) {
            return String.join("", items);
        }
        return String.join(", ", items.subList(0, items.size() - 1)) + " and " + items.get(items.size() - 1);
    }
}
