package dev.splicebook.exchange;

import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Stored documents as trees whose numbers stay as they are written. */
final class Documents {

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
            .build();

    private Documents() {}

    static ObjectNode read(String document) {
        return (ObjectNode) MAPPER.readTree(document);
    }

    static String write(ObjectNode document) {
        return MAPPER.writeValueAsString(document);
    }
}
