package dev.splicebook.web;

import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.headers.Header;
import io.swagger.v3.oas.models.media.JsonSchema;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.parameters.Parameter;
import io.swagger.v3.oas.models.responses.ApiResponse;
import io.swagger.v3.oas.models.tags.Tag;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** What the written API says wherever it is so, and no endpoint need say for itself: of headers, pages, paths and tags. */
final class WrittenWords {

    /** Words about a parameter, wherever one of that name is taken: what it is, and what it makes of the operation. */
    private record Words(String parameter, String operation) {}

    private static final Map<String, Words> BY_PARAMETER = byParameter();

    private WrittenWords() {}

    private static Map<String, Words> byParameter() {
        Map<String, Words> words = new LinkedHashMap<>();
        words.put(
                "cursor",
                new Words(
                        "The next of the page before; leave out for the first page.",
                        "The answer is one page: its `next` is the `cursor` of the page behind it, and null on the last."));
        words.put(
                "if-match",
                new Words(
                        "The ETag of the latest revision, like `\"3\"`.",
                        "`If-Match` names the revision that the change was made to, which must still be the latest."));
        words.put(
                "if-none-match",
                new Words(
                        "The ETag of what the caller has already, like `\"3\"`.",
                        "Who names in `If-None-Match` what would be answered gets 304 and no body."));
        words.put(
                "idempotency-key",
                new Words(
                        "A text of the caller's choice, another for each change: 1 to 100 visible ASCII characters.",
                        "Sent again with the same `Idempotency-Key`, the same request changes nothing more and gets the same"
                                + " answer; while the first still runs after 3 s, it gets 409 and may be sent again."));
        words.put(
                "dryrun",
                new Words(
                        "Whether to judge only, and store nothing.",
                        "With `dryRun=true` everything is judged as ever, and nothing is stored."));
        words.put("revision", new Words("The number of a revision, from 1.", ""));
        return words;
    }

    /** Completes an operation that has its parameters and answers. */
    static void complete(Operation operation) {
        String given = operation.getDescription();
        List<String> sentences = new ArrayList<>();
        sentences.add(given == null || given.isBlank() ? operation.getSummary() : given.strip());
        for (Parameter parameter : parameters(operation)) {
            Words words = BY_PARAMETER.get(parameter.getName().toLowerCase(Locale.ROOT));
            if (words == null) {
                continue;
            }
            if (isBlank(parameter.getDescription())) {
                parameter.setDescription(words.parameter());
            }
            if (!words.operation().isEmpty()) {
                sentences.add(words.operation());
            }
            if (parameter.getName().equalsIgnoreCase("If-Match")) {
                // its absence is a problem of its own, so that the endpoint takes it for optional
                parameter.setRequired(true);
            }
        }
        if (operation.getSecurity() != null && operation.getSecurity().isEmpty()) {
            sentences.add("Needs no key.");
        }
        operation.setDescription(String.join(" ", sentences));
        addHeaders(operation);
    }

    private static void addHeaders(Operation operation) {
        boolean conditional = parameters(operation).stream()
                .anyMatch(parameter -> parameter.getName().equalsIgnoreCase("If-None-Match"));
        if (conditional) {
            operation
                    .getResponses()
                    .addApiResponse("304", new ApiResponse().description("The caller has what would be answered."));
        }
        operation.getResponses().forEach((status, response) -> {
            if (status.equals("201")) {
                addHeader(response, "Location", "Where what was made is read.");
            }
            if (status.equals("201") || (conditional && (status.equals("200") || status.equals("304")))) {
                addHeader(response, "ETag", "The revision, in quotes, as If-Match and If-None-Match take it.");
            }
            if (status.equals("401")) {
                addHeader(response, "WWW-Authenticate", "How a key is sent.");
            }
            if (status.equals("503") || status.equals("429")) {
                addHeader(response, "Retry-After", "Seconds to wait before asking again.");
            }
        });
    }

    private static void addHeader(ApiResponse response, String name, String description) {
        if (response.getHeaders() == null || !response.getHeaders().containsKey(name)) {
            Schema<Object> text = new JsonSchema();
            text.setTypes(new LinkedHashSet<>(List.of("string")));
            response.addHeaderObject(name, new Header().description(description).schema(text));
        }
    }

    /** Completes a document that has all its operations. */
    static void complete(OpenAPI document) {
        Map<String, Tag> tags = new TreeMap<>();
        if (document.getTags() != null) {
            // endpoints of several packages may stand under one tag, of which one says what it is
            document.getTags()
                    .forEach(tag -> tags.merge(
                            tag.getName(), tag, (one, other) -> isBlank(one.getDescription()) ? other : one));
        }
        if (document.getPaths() != null) {
            document.getPaths()
                    .forEach((path, item) -> item.readOperations().forEach(operation -> {
                        if (operation.getTags() != null) {
                            operation.getTags().forEach(name -> tags.computeIfAbsent(name, new Tag()::name));
                        }
                        for (Parameter parameter : parameters(operation)) {
                            if ("path".equals(parameter.getIn()) && isBlank(parameter.getDescription())) {
                                String name = "{" + parameter.getName() + "}";
                                parameter.setDescription("The " + parameter.getName() + ", as listed at "
                                        + path.substring(0, path.indexOf(name) - 1) + ".");
                            }
                        }
                    }));
        }
        document.setTags(List.copyOf(tags.values()));
    }

    private static List<Parameter> parameters(Operation operation) {
        return operation.getParameters() == null ? List.of() : operation.getParameters();
    }

    private static boolean isBlank(@Nullable String text) {
        return text == null || text.isBlank();
    }
}
