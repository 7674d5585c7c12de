package dev.splicebook.function;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The vocabulary of functions: immutable, read once from the file beside this class. */
public final class Functions {

    private static final Functions VOCABULARY = new Functions(Vocabulary.rows());

    private final Map<FunctionId, Function> byId;

    private Functions(List<Vocabulary.Row> rows) {
        Map<FunctionId, Function> functions = new LinkedHashMap<>();
        for (Vocabulary.Row row : rows) {
            Function function = functionOf(row);
            functions.put(function.id(), function);
        }
        byId = functions;
    }

    /** The vocabulary that this version has. */
    public static Functions vocabulary() {
        return VOCABULARY;
    }

    /** Every function in the file's order, kind by kind; groups are not among them. */
    public List<Function> listFunctions() {
        return List.copyOf(byId.values());
    }

    /** The entry of an id; empty for a group that is no function itself. */
    public Optional<Function> findFunction(FunctionId id) {
        return Optional.ofNullable(byId.get(id));
    }

    /** True for the text of an id and of a group of ids, that is for what {@link FunctionId} takes. */
    public static boolean isKnown(String text) {
        return Vocabulary.isKnown(text);
    }

    /**
     * Whether a source of one function may feed an input of another: the same, one above or below it, or one that the
     * input's entry lists. True as well where either makes no statement: constant feeds and grounds reach anything
     * through a switch or relay, and a group says nothing.
     */
    public boolean mayFeed(FunctionId source, FunctionId sink) {
        if (source.isAtOrBelow(sink) || sink.isAtOrBelow(source)) {
            return true;
        }
        List<FunctionId> sinkFedBy = fedBy(sink);
        if (sinkFedBy == null || fedBy(source) == null) {
            return true;
        }
        return sinkFedBy.stream().anyMatch(source::isAtOrBelow);
    }

    private @Nullable List<FunctionId> fedBy(FunctionId id) {
        Function function = byId.get(id);
        return function == null ? null : function.fedBy();
    }

    private static Function functionOf(Vocabulary.Row row) {
        String colour = row.find("leadColour");
        return new Function(
                new FunctionId(row.get("id")),
                FunctionKind.of(row.get("kind")),
                row.get("what"),
                row.get("test"),
                row.find("din72552"),
                row.find("iso10487"),
                colour == null ? null : new Colour(colour),
                row.find("caution"),
                fedByOf(row.find("fedBy")));
    }

    private static @Nullable List<FunctionId> fedByOf(@Nullable String cell) {
        if (cell == null) {
            return null;
        }
        List<FunctionId> ids = new ArrayList<>();
        if (!cell.equals("-")) {
            for (String id : cell.split(",", -1)) {
                ids.add(new FunctionId(id));
            }
        }
        return ids;
    }
}
