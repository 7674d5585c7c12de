package dev.splicebook.web;

import com.networknt.schema.Error;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialect;
import com.networknt.schema.dialect.Dialects;
import com.networknt.schema.keyword.NonValidationKeyword;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Judges the examples in a written API by the schemas beside them. */
public final class WrittenExamples {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    /** JSON Schema, and the words of a written API in it that judge nothing. */
    private static final Dialect DIALECT = Dialect.builder(Dialects.getDraft202012())
            .keywords(Stream.of("components", "discriminator", "example", "x-extensible-enum")
                    .map(NonValidationKeyword::new)
                    .toList())
            .build();

    private final SchemaRegistry registry = SchemaRegistry.withDefaultDialect(DIALECT);
    private final List<String> faults = new ArrayList<>();
    private final JsonNode components;
    private final JsonNode closedComponents;
    private int judged;

    private WrittenExamples(JsonNode document) {
        components = document.path("components");
        closedComponents = components.deepCopy();
        close(closedComponents);
    }

    /**
     * What is wrong with the examples of a document: a body, answer, parameter or header that its schema refuses, a field of
     * an answer that its schema does not name, and a body or answer without any example.
     *
     * @throws IllegalStateException if there is not a single example
     */
    public static List<String> faults(JsonNode document) {
        WrittenExamples examples = new WrittenExamples(document);
        for (Map.Entry<String, JsonNode> path : document.path("paths").properties()) {
            for (JsonNode operation : path.getValue()) {
                examples.judge(operation.path("operationId").asString(""), operation);
            }
        }
        examples.judgeSchemas("components", examples.components);
        if (examples.judged == 0) {
            throw new IllegalStateException("the document has no example");
        }
        return examples.faults;
    }

    private void judge(String id, JsonNode operation) {
        for (JsonNode parameter : operation.path("parameters")) {
            judgeExamples(id + " " + parameter.path("name").asString(""), parameter, components);
        }
        judgeContent(id + " body", operation.path("requestBody").path("content"), true, components);
        for (Map.Entry<String, JsonNode> answer : operation.path("responses").properties()) {
            String subject = id + " " + answer.getKey();
            boolean wellDone = answer.getKey().startsWith("2");
            judgeContent(subject, answer.getValue().path("content"), wellDone, closedComponents);
            for (Map.Entry<String, JsonNode> header :
                    answer.getValue().path("headers").properties()) {
                judgeExamples(subject + " " + header.getKey(), header.getValue(), components);
            }
        }
    }

    private void judgeContent(String subject, JsonNode content, boolean wanted, JsonNode schemas) {
        for (Map.Entry<String, JsonNode> type : content.properties()) {
            String of = subject + " " + type.getKey();
            int shown = judgeExamples(of, type.getValue(), schemas);
            if (wanted && shown == 0 && !type.getKey().equals("text/html")) {
                faults.add(of + " shows no example; see @ExampleBody and @ExampleAnswer");
            }
        }
    }

    /** What stands beside a schema, as {@code example} or {@code examples}. */
    private int judgeExamples(String subject, JsonNode described, JsonNode schemas) {
        JsonNode schema = described.path("schema");
        int shown = 0;
        if (described.has("example")) {
            judge(subject, schema, described.path("example"), schemas);
            shown++;
        }
        for (Map.Entry<String, JsonNode> example : described.path("examples").properties()) {
            judge(subject + " " + example.getKey(), schema, example.getValue().path("value"), schemas);
            shown++;
        }
        judgeSchemas(subject, schema);
        return shown;
    }

    /** The examples and defaults that schemas themselves carry, at whatever depth. */
    private void judgeSchemas(String subject, JsonNode schema) {
        boolean describes =
                schema.path("type").isString() || schema.path("type").isArray();
        for (String word : List.of("example", "default")) {
            if (describes && schema.has(word)) {
                judge(subject + " " + word, schema, schema.path(word), components);
            }
        }
        for (Map.Entry<String, JsonNode> below : schema.properties()) {
            judgeSchemas(subject + "/" + below.getKey(), below.getValue());
        }
    }

    private void judge(String subject, JsonNode schema, JsonNode value, JsonNode schemas) {
        judged++;
        ObjectNode standing = MAPPER.createObjectNode();
        schema.properties().forEach(keyword -> standing.set(keyword.getKey(), keyword.getValue()));
        standing.set("components", schemas);
        List<Error> errors = registry.getSchema(standing)
                .validate(
                        value,
                        context ->
                                context.executionConfig(configuration -> configuration.formatAssertionsEnabled(true)));
        errors.forEach(error -> faults.add(subject + " at " + error.getInstanceLocation() + ": " + error.getMessage()));
    }

    /** Readers tolerate further fields, but an example that shows one shows what no longer is. */
    private static void close(JsonNode node) {
        if (node instanceof ObjectNode schema
                && schema.path("properties").isObject()
                && schema.path("type").asString("").equals("object")
                && !schema.has("additionalProperties")) {
            schema.put("additionalProperties", false);
        }
        node.forEach(WrittenExamples::close);
    }
}
