package dev.splicebook.web;

import java.math.BigDecimal;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/** Sentence parts for the details of faults. */
public final class Words {

    private static final int LONGEST = 60;
    private static final int MOST_LISTED = 12;
    private static final int MOST_NEAREST = 3;

    private Words() {}

    /** At most 60 characters of a text, so that a detail stays a sentence. */
    public static String shortened(String text) {
        return text.length() > LONGEST ? text.substring(0, LONGEST) + "…" : text;
    }

    /** What a node is, as the object of a sentence. */
    static String describe(JsonNode node) {
        return switch (node.getNodeType()) {
            case STRING -> "the text \"" + shortened(node.stringValue()) + "\"";
            case NUMBER -> "the number " + shortened(node.asString());
            case BOOLEAN, NULL -> node.asString().isEmpty() ? "null" : node.asString();
            case OBJECT -> "an object";
            case ARRAY -> "a list";
            default -> "nothing";
        };
    }

    /** A number as a person writes it: whole where it is whole, and without powers of ten unless it is far out. */
    static String figure(double value) {
        double size = Math.abs(value);
        return value == 0 || (size >= 1e-9 && size < 1e15)
                ? BigDecimal.valueOf(value).stripTrailingZeros().toPlainString()
                : Double.toString(value);
    }

    /** All names in order, or as many as a sentence carries. */
    static String listed(Collection<String> names) {
        String listed = names.stream().limit(MOST_LISTED).collect(Collectors.joining(", "));
        return names.size() > MOST_LISTED ? listed + " and " + (names.size() - MOST_LISTED) + " more" : listed;
    }

    /** The known names that are nearest to a name, nearest first, at most three. */
    public static List<String> nearest(String name, Collection<String> known) {
        String wanted = shortened(name);
        Map<String, Integer> distances = new HashMap<>();
        known.forEach(candidate -> distances.put(candidate, distance(wanted, candidate)));
        return known.stream()
                .sorted(Comparator.comparingInt((String candidate) -> distances.getOrDefault(candidate, 0))
                        .thenComparing(Comparator.naturalOrder()))
                .limit(MOST_NEAREST)
                .toList();
    }

    /** Levenshtein's distance, letter case apart. */
    static int distance(String one, String other) {
        int[] previous = new int[other.length() + 1];
        for (int j = 0; j <= other.length(); j++) {
            previous[j] = j;
        }
        for (int i = 1; i <= one.length(); i++) {
            int[] current = new int[other.length() + 1];
            current[0] = i;
            for (int j = 1; j <= other.length(); j++) {
                boolean same = Character.toLowerCase(one.charAt(i - 1)) == Character.toLowerCase(other.charAt(j - 1));
                current[j] = Math.min(Math.min(current[j - 1], previous[j]) + 1, previous[j - 1] + (same ? 0 : 1));
            }
            previous = current;
        }
        return previous[other.length()];
    }
}
