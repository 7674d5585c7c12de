package dev.splicebook.web;

import java.nio.charset.StandardCharsets;
import org.springframework.http.ResponseEntity;
import tools.jackson.databind.JsonNode;

/**
 * The answer to a change that was only judged, and would be made as it stands.
 *
 * @param dryRun always true
 * @param document as it would be stored
 */
public record DryRun(boolean dryRun, JsonNode document) {

    /** What the parameter {@code dryRun} does. */
    public static final String PARAMETER = "Whether the change is only judged: nothing is stored.";

    /** 200 with the document of a body. */
    public static ResponseEntity<DryRun> answer(Sent<?> sent) {
        return ResponseEntity.ok(new DryRun(true, StrictReader.parse(sent.json().getBytes(StandardCharsets.UTF_8))));
    }
}
