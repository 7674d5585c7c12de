package dev.splicebook.function;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * The vocabulary's file as text. It stands apart from {@link Functions} because a {@link FunctionId} must be able to ask
 * for known names before the first entry, which holds ids itself, can be made.
 */
final class Vocabulary {

    private static final String FILE = "functions.tsv";

    /** Below this share of common letter pairs two ids have nothing to do with each other. */
    private static final double NEAR = 0.4;

    private static final int MOST_NEAREST = 3;

    /** No id is nearly as long, so a longer text is near none. */
    private static final int LONGEST_COMPARED = 100;

    private static final List<Row> ROWS = readRows();
    private static final Set<String> NAMES = namesOf(ROWS);
    private static final List<String> NAME_LIST = List.copyOf(NAMES);
    private static final Map<String, int[]> NAMES_BY_LETTER_PAIR = namesByLetterPair(NAME_LIST);

    private Vocabulary() {}

    static List<Row> rows() {
        return ROWS;
    }

    /** True for an id and for a group of ids. */
    static boolean isKnown(String name) {
        return NAMES.contains(name);
    }

    /** The known names most like {@code text} by their common letter pairs, best first, at most three. */
    static List<String> nearestTo(String text) {
        if (text.length() > LONGEST_COMPARED) {
            return List.of();
        }
        int[] common = new int[NAME_LIST.size()];
        Set<String> pairs = letterPairs(text);
        for (String pair : pairs) {
            for (int name : NAMES_BY_LETTER_PAIR.getOrDefault(pair, new int[0])) {
                common[name]++;
            }
        }
        double[] likeness = new double[common.length];
        for (int name = 0; name < common.length; name++) {
            if (common[name] > 0) {
                likeness[name] = 2.0
                        * common[name]
                        / (pairs.size() + letterPairs(NAME_LIST.get(name)).size());
            }
        }
        return IntStream.range(0, common.length)
                .filter(name -> likeness[name] >= NEAR)
                .boxed()
                .sorted(Comparator.comparingDouble((Integer name) -> -likeness[name]))
                .limit(MOST_NEAREST)
                .map(NAME_LIST::get)
                .toList();
    }

    private static List<Row> readRows() {
        try (InputStream in = Vocabulary.class.getResourceAsStream(FILE)) {
            if (in == null) {
                throw new IllegalStateException(FILE + " is missing beside " + Vocabulary.class.getName());
            }
            List<String> lines = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.isBlank() && !line.startsWith("#"))
                    .toList();
            List<String> columns = Arrays.asList(lines.get(0).split("\t", -1));
            return lines.stream()
                    .skip(1)
                    .map(line -> Row.of(columns, line.split("\t", -1)))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Set<String> namesOf(List<Row> rows) {
        Set<String> names = new LinkedHashSet<>();
        for (Row row : rows) {
            String name = row.get("id");
            for (int dot = name.indexOf('.'); dot >= 0; dot = name.indexOf('.', dot + 1)) {
                names.add(name.substring(0, dot));
            }
            names.add(name);
        }
        return Collections.unmodifiableSet(names);
    }

    private static Map<String, int[]> namesByLetterPair(List<String> names) {
        Map<String, List<Integer>> byPair = new HashMap<>();
        for (int name = 0; name < names.size(); name++) {
            for (String pair : letterPairs(names.get(name))) {
                byPair.computeIfAbsent(pair, absent -> new ArrayList<>()).add(name);
            }
        }
        Map<String, int[]> result = new HashMap<>();
        byPair.forEach((pair, list) ->
                result.put(pair, list.stream().mapToInt(Integer::intValue).toArray()));
        return result;
    }

    private static Set<String> letterPairs(String text) {
        Set<String> pairs = new LinkedHashSet<>();
        for (int i = 0; i + 2 <= text.length(); i++) {
            pairs.add(text.substring(i, i + 2));
        }
        return pairs;
    }

    /** One line of the file by column name; an empty cell is absent. */
    record Row(Map<String, String> cells) {

        static Row of(List<String> columns, String[] line) {
            if (line.length != columns.size()) {
                throw new IllegalStateException(
                        FILE + ": \"" + line[0] + "\" has " + line.length + " cells, not " + columns.size());
            }
            Map<String, String> cells = new HashMap<>();
            for (int i = 0; i < line.length; i++) {
                if (!line[i].isEmpty()) {
                    cells.put(columns.get(i), line[i]);
                }
            }
            return new Row(cells);
        }

        String get(String column) {
            String cell = cells.get(column);
            if (cell == null) {
                throw new IllegalStateException(FILE + ": " + cells.get("id") + " has no " + column);
            }
            return cell;
        }

        @Nullable
        String find(String column) {
            return cells.get(column);
        }
    }
}
