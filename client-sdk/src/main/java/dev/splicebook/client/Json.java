package dev.splicebook.client;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Reads answers leniently, for a service that is newer than this client, and documents exactly. */
final class Json {

    static final JsonMapper MAPPER = JsonMapper.builder()
            // or the first of two connections of one ref would be lost without a word
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            // a figure in a document goes back as it came, 12.60 as 12.60
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
            .build();

    private Json() {}

    static ObjectNode emptyObject() {
        return MAPPER.createObjectNode();
    }

    static ObjectNode object(String what, JsonNode json) {
        if (json instanceof ObjectNode object) {
            return object.deepCopy();
        }
        throw new IllegalArgumentException(what + " is a JSON object, and this is "
                + json.getNodeType().name().toLowerCase(Locale.ROOT));
    }

    /** A value as the tree that its JSON is read into, so that figures are kept alike in all trees. */
    static JsonNode tree(Object value) {
        return MAPPER.readTree(MAPPER.writeValueAsBytes(value));
    }

    static ObjectNode parseObject(String what, String text) {
        JsonNode json;
        try {
            json = MAPPER.readTree(text);
        } catch (JacksonException e) {
            throw new IllegalArgumentException(what + " is not JSON: " + e.getOriginalMessage(), e);
        }
        return object(what, json);
    }

    static ObjectNode readObject(String what, Path file) throws IOException {
        return parseObject(what + " in " + file, Files.readString(file));
    }

    /** What a tree says: two are equal if they say the same, whatever the order of fields and the zeros of a figure. */
    static Object meaning(JsonNode json) {
        if (json.isObject()) {
            Map<String, Object> fields = new HashMap<>();
            json.properties().forEach(field -> fields.put(field.getKey(), meaning(field.getValue())));
            return fields;
        }
        if (json.isArray()) {
            return json.valueStream().map(Json::meaning).toList();
        }
        return json.isNumber() ? json.decimalValue().stripTrailingZeros() : json;
    }
}
