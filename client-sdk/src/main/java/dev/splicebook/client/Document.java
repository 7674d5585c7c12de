package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The function map of a vehicle or a device, as the JSON object that it is sent and stored as. It goes back as it came,
 * with figures as they were written and with fields that this version of the client knows nothing of.
 */
public final class Document {

    private final ObjectNode json;

    private Document(ObjectNode json) {
        this.json = json;
    }

    /**
     * A document from JSON text.
     *
     * @throws IllegalArgumentException if it is not a JSON object
     */
    public static Document parse(String json) {
        return new Document(Json.parseObject("a document", json));
    }

    /**
     * A document from a JSON file in UTF-8.
     *
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if it does not hold a JSON object
     */
    public static Document read(Path file) throws IOException {
        return new Document(Json.readObject("the document", file));
    }

    /**
     * A document from a copy of a tree.
     *
     * @throws IllegalArgumentException if it is not a JSON object
     */
    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public static Document of(JsonNode json) {
        return new Document(Json.object("a document", json));
    }

    /** A copy of the tree, to read from or to make the next revision of. */
    @JsonValue
    public ObjectNode json() {
        return json.deepCopy();
    }

    /** The text of a field at the top; empty if there is none, or it is no text. */
    Optional<String> findText(String field) {
        JsonNode value = json.get(field);
        return value != null && value.isString() ? Optional.of(value.stringValue()) : Optional.empty();
    }

    /** Equal if both say the same, whatever the order of their fields; 12.6 and 12.60 are the same. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Document document && Json.meaning(json).equals(Json.meaning(document.json));
    }

    @Override
    public int hashCode() {
        return Json.meaning(json).hashCode();
    }

    /** The document as JSON. */
    @Override
    public String toString() {
        return json.toString();
    }
}
