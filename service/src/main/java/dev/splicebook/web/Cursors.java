package dev.splicebook.web;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Positions in a list as text that callers pass on unread. */
final class Cursors {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();
    private static final int LONGEST = 2000;

    private Cursors() {}

    static String encode(List<String> position) {
        return Base64.getUrlEncoder().withoutPadding().encodeToString(MAPPER.writeValueAsBytes(position));
    }

    /** @throws ProblemException 400 naming the parameter, for anything that {@link #encode} did not write */
    static List<String> decode(String cursor) {
        if (cursor.length() > LONGEST) {
            throw broken();
        }
        try {
            byte[] json = Base64.getUrlDecoder().decode(cursor.getBytes(StandardCharsets.UTF_8));
            JsonNode node = MAPPER.readTree(json);
            if (!node.isArray() || node.isEmpty()) {
                throw broken();
            }
            List<String> position = new ArrayList<>(node.size());
            for (JsonNode part : node) {
                if (!part.isString() || part.stringValue().indexOf('\0') >= 0) {
                    throw broken();
                }
                position.add(part.stringValue());
            }
            return position;
        } catch (IllegalArgumentException | JacksonException unreadable) {
            throw broken();
        }
    }

    static ProblemException broken() {
        return Problems.badParameter("cursor", "bad-cursor", "the cursor is not one that this list gave out");
    }
}
