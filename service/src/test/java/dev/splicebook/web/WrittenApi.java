package dev.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** What must be true of the written API of any service built on this package. */
public final class WrittenApi {

    private static final Set<String> METHODS = Set.of("get", "put", "post", "delete", "patch", "head", "options");

    private WrittenApi() {}

    /**
     * Every operation has an id of its own, a summary, a description, a tag, its problems, words for its parameters, and an
     * example of its body; every reference leads somewhere.
     */
    public static void assertInFull(JsonNode document) {
        List<String> lacking = new ArrayList<>();
        Set<String> ids = new HashSet<>();
        for (Map.Entry<String, JsonNode> path : document.path("paths").properties()) {
            for (Map.Entry<String, JsonNode> method : path.getValue().properties()) {
                if (METHODS.contains(method.getKey())) {
                    String subject = method.getKey() + " " + path.getKey();
                    judge(subject, method.getValue(), ids, lacking);
                    if (path.getKey().contains("{")
                            && !method.getValue().at("/responses").has("404")) {
                        lacking.add(subject + " takes a name in its path and does not say 404");
                    }
                }
            }
        }
        for (JsonNode tag : document.path("tags")) {
            if (tag.path("description").asString("").isBlank()) {
                lacking.add("the tag " + tag.path("name") + " has no description; see @Tag");
            }
        }
        judgeReferences(document, document, lacking);
        assertThat(ids).isNotEmpty();
        assertThat(lacking)
                .as("what the written API lacks; see @Operation, @ExampleBody and @MayFail")
                .isEmpty();
    }

    private static void judge(String subject, JsonNode operation, Set<String> ids, List<String> lacking) {
        String id = operation.path("operationId").asString("");
        if (id.isEmpty() || id.contains("_") || !ids.add(id)) {
            lacking.add(subject + " has no operationId of its own: " + id);
        }
        if (operation.path("summary").asString("").isBlank()) {
            lacking.add(subject + " has no summary");
        }
        if (operation.path("description").asString("").isBlank()) {
            lacking.add(subject + " has no description");
        }
        if (operation.path("tags").size() != 1) {
            lacking.add(subject + " stands under " + operation.path("tags").size() + " tags, not one");
        }
        JsonNode responses = operation.path("responses");
        boolean open = operation.path("security").isArray()
                && operation.path("security").isEmpty();
        List<String> wanted = new ArrayList<>(List.of("400"));
        if (!open) {
            wanted.addAll(List.of("401", "503"));
        }
        if (operation.has("requestBody")) {
            wanted.addAll(List.of("413", "415"));
            operation.at("/requestBody/content").properties().forEach(type -> {
                if (!type.getValue().has("example")
                        && type.getValue().path("examples").isEmpty()) {
                    lacking.add(subject + " has no example of its body as " + type.getKey());
                }
            });
        }
        for (JsonNode parameter : operation.path("parameters")) {
            if (parameter.path("description").asString("").isBlank()) {
                lacking.add(subject + " does not say what " + parameter.path("name") + " is");
            }
            if (parameter.path("name").asString("").equals("If-Match")) {
                wanted.addAll(List.of("412", "428"));
            }
        }
        for (String status : wanted) {
            String reference = responses
                    .path(status)
                    .at("/content/application~1problem+json/schema/$ref")
                    .asString("");
            if (!reference.equals("#/components/schemas/Problem")) {
                lacking.add(subject + " does not say its " + status);
            }
        }
    }

    private static void judgeReferences(JsonNode document, JsonNode node, List<String> lacking) {
        String reference = node.path("$ref").asString("");
        if (!reference.isEmpty() && document.at(reference.substring(1)).isMissingNode()) {
            lacking.add("nothing stands at " + reference);
        }
        for (JsonNode below : node) {
            judgeReferences(document, below, lacking);
        }
    }
}
