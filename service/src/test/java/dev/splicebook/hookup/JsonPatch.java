package dev.splicebook.hookup;

import dev.splicebook.hookup.Remedy.Operation;
import dev.splicebook.web.JsonWriting;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Applies add, remove and replace as RFC 6902 sections 4.1 to 4.3 say, and refuses what those refuse. */
public final class JsonPatch {

    private static final JsonMapper MAPPER = JsonWriting.mapper();

    private JsonPatch() {}

    /** The document with a patch applied; the patch goes through JSON, as a client gets it. */
    public static JsonNode apply(JsonNode document, List<Operation> patch) {
        JsonNode changed = document.deepCopy();
        for (JsonNode operation : MAPPER.readTree(MAPPER.writeValueAsString(patch))) {
            applyOne(changed, operation);
        }
        return changed;
    }

    private static void applyOne(JsonNode document, JsonNode operation) {
        List<String> tokens = tokens(operation.path("path").asString());
        JsonNode parent = document;
        for (String token : tokens.subList(0, tokens.size() - 1)) {
            parent = parent instanceof ArrayNode array ? array.get(Integer.parseInt(token)) : parent.get(token);
            require(parent != null, "no parent", operation);
        }
        String last = tokens.get(tokens.size() - 1);
        String op = operation.path("op").asString();
        boolean there = parent.has(last);
        require(parent instanceof ObjectNode, "the parent is no object", operation);
        require(op.equals("add") || there, "nothing is there", operation);
        require(op.equals("remove") || operation.has("value"), "no value", operation);
        ObjectNode object = (ObjectNode) parent;
        switch (op) {
            case "add", "replace" -> object.set(last, operation.get("value"));
            case "remove" -> object.remove(last);
            default -> throw new IllegalArgumentException("no such operation: " + operation);
        }
    }

    private static List<String> tokens(String pointer) {
        List<String> tokens = new ArrayList<>();
        for (String token : pointer.substring(1).split("/", -1)) {
            tokens.add(token.replace("~1", "/").replace("~0", "~"));
        }
        return tokens;
    }

    private static void require(boolean holds, String what, JsonNode operation) {
        if (!holds) {
            throw new IllegalArgumentException(what + ": " + operation);
        }
    }
}
