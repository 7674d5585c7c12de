package dev.splicebook.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import io.swagger.v3.core.util.Json;
import io.swagger.v3.oas.models.Components;
import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.examples.Example;
import io.swagger.v3.oas.models.info.Contact;
import io.swagger.v3.oas.models.info.Info;
import io.swagger.v3.oas.models.info.License;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.JsonSchema;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.parameters.Parameter;
import io.swagger.v3.oas.models.responses.ApiResponse;
import io.swagger.v3.oas.models.responses.ApiResponses;
import io.swagger.v3.oas.models.security.SecurityRequirement;
import io.swagger.v3.oas.models.security.SecurityScheme;
import io.swagger.v3.oas.models.servers.Server;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.customizers.OpenApiCustomizer;
import org.springdoc.core.customizers.OperationCustomizer;
import org.springdoc.core.utils.SpringDocUtils;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.web.method.HandlerMethod;

/** The API as written at {@code /v3/api-docs}: the same document for the same service, whatever order it starts in. */
@Configuration(proxyBeanMethods = false)
class OpenApiConfiguration {

    private static final String SCHEMAS = "#/components/schemas/";
    private static final String KEY = "key";
    private static final String JSON = org.springframework.http.MediaType.APPLICATION_JSON_VALUE;

    @Bean
    ShapeSchemas shapeSchemas() {
        SpringDocUtils.getConfig().addRequestWrapperToIgnore(PageQuery.class);
        return new ShapeSchemas();
    }

    @Bean
    OpenAPI splicebookApi() {
        return new OpenAPI()
                .info(new Info()
                        .title("Splicebook")
                        .version("1")
                        .description(
                                "What shops know of vehicle wiring, and the check of a hookup before anyone cuts a wire."
                                        + " Units stand in every numeric name, and errors are problem documents.")
                        .contact(new Contact().name("Those who run the service that you call"))
                        .license(new License().name("Apache-2.0").identifier("Apache-2.0")))
                .servers(List.of(new Server().url("/")))
                .security(List.of(new SecurityRequirement().addList(KEY)))
                .components(new Components()
                        .addSecuritySchemes(
                                KEY,
                                new SecurityScheme()
                                        .type(SecurityScheme.Type.HTTP)
                                        .scheme("bearer")
                                        .description("A key of your shop.")));
    }

    @Bean
    OperationCustomizer operationsInFull() {
        return OpenApiConfiguration::complete;
    }

    @Bean
    OpenApiCustomizer documentInFull(ObjectProvider<SchemaNote> notes) {
        return document -> {
            Components components = document.getComponents();
            components.addSchemas("Problem", problemSchema());
            components.addSchemas("Fault", faultSchema());
            components.addSchemas(ShapeSchemas.name(DryRun.class), dryRunSchema());
            closeRequests(document);
            ShapeSchemas.describe(components.getSchemas(), notes.orderedStream().toList());
            WrittenWords.complete(document);
        };
    }

    private static Operation complete(Operation operation, HandlerMethod handler) {
        addPaging(operation, handler);
        addDryRun(operation, handler.getMethodAnnotation(AnswersDryRun.class));
        addExamples(operation, handler.getMethodAnnotation(ExampleBody.class));
        for (ExampleAnswer example : handler.getMethod().getAnnotationsByType(ExampleAnswer.class)) {
            addExample(operation, example);
        }
        addProblems(operation, handler.getMethodAnnotation(MayFail.class));
        WrittenWords.complete(operation);
        return operation;
    }

    private static void addPaging(Operation operation, HandlerMethod handler) {
        boolean paged = Arrays.stream(handler.getMethodParameters())
                .anyMatch(parameter -> parameter.getParameterType() == PageQuery.class);
        if (paged) {
            Schema<Object> limit = ofType("integer");
            limit.setMinimum(BigDecimal.valueOf(PageQuery.LEAST));
            limit.setMaximum(BigDecimal.valueOf(PageQuery.MOST));
            limit.setDefault(PageQuery.DEFAULT);
            operation.addParametersItem(new Parameter()
                    .in("query")
                    .name("cursor")
                    .description("The next of the page before; leave out for the first page.")
                    .schema(ofType("string")));
            operation.addParametersItem(new Parameter()
                    .in("query")
                    .name("limit")
                    .description("How many entries at most.")
                    .schema(limit));
        }
    }

    private static void addDryRun(Operation operation, @Nullable AnswersDryRun creating) {
        if (creating == null) {
            return;
        }
        ApiResponses responses = operation.getResponses();
        ApiResponse created = responses.remove("200");
        if (created == null) {
            created = responses.get("201");
        }
        if (created == null) {
            throw new IllegalStateException(operation.getOperationId() + " has no answer of its own");
        }
        responses.addApiResponse("201", ofJson("Created.", reference(ShapeSchemas.name(creating.created()))));
        MediaType judged = reference(ShapeSchemas.name(DryRun.class))
                .addExamples("dry-run", new Example().value(json("/dev/splicebook/web/answers/dry-run.json")));
        responses.addApiResponse("200", ofJson("Judged only, as dryRun=true asks for.", judged));
    }

    private static MediaType reference(String schema) {
        Schema<Object> reference = new JsonSchema();
        reference.set$ref(SCHEMAS + schema);
        return new MediaType().schema(reference);
    }

    private static ApiResponse ofJson(String description, MediaType content) {
        return new ApiResponse().description(description).content(new Content().addMediaType(JSON, content));
    }

    private static void addExamples(Operation operation, @Nullable ExampleBody examples) {
        if (examples == null) {
            return;
        }
        if (operation.getRequestBody() == null) {
            throw new IllegalStateException(operation.getOperationId() + " has an example but no body");
        }
        for (String resource : examples.value()) {
            addExample(operation.getOperationId(), operation.getRequestBody().getContent(), resource);
        }
    }

    private static void addExample(Operation operation, ExampleAnswer example) {
        ApiResponses responses = operation.getResponses();
        String status = Integer.toString(example.status());
        if (example.status() == 0) {
            status = responses.containsKey("201") ? "201" : "200";
        }
        ApiResponse response = responses.get(status);
        if (response == null || response.getContent() == null) {
            throw new IllegalStateException(
                    operation.getOperationId() + " has an example of an answer " + status + " that it does not give");
        }
        addExample(operation.getOperationId(), response.getContent(), example.value());
    }

    /** A JSON file shows what is JSON, any other file what is text, but for pages, which are not written for programs. */
    private static void addExample(String operationId, Content content, String resource) {
        boolean json = resource.endsWith(".json");
        List<MediaType> suited = content.entrySet().stream()
                .filter(entry -> !entry.getKey().equals(org.springframework.http.MediaType.TEXT_HTML_VALUE))
                .filter(entry -> entry.getKey().matches("application/(.*\\+)?json") == json)
                .map(Map.Entry::getValue)
                .toList();
        if (suited.isEmpty()) {
            throw new IllegalStateException(
                    operationId + " has the example " + resource + " but nothing like it: " + content.keySet());
        }
        Object value = json ? json(resource) : text(resource);
        suited.forEach(type -> type.addExamples(name(resource), new Example().value(value)));
    }

    private static String name(String resource) {
        String file = resource.substring(resource.lastIndexOf('/') + 1);
        return file.substring(0, file.lastIndexOf('.'));
    }

    /** A tree of the library that writes the document, which is not the one that the service reads bodies with. */
    private static Object json(String resource) {
        try {
            return Json.mapper().readTree(text(resource));
        } catch (JsonProcessingException malformed) {
            throw new IllegalStateException("the example " + resource + " is not JSON", malformed);
        }
    }

    private static String text(String resource) {
        try (InputStream in = OpenApiConfiguration.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalStateException("no example at " + resource + " on the class path");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    private static void addProblems(Operation operation, @Nullable MayFail further) {
        Set<ProblemType> types = EnumSet.of(ProblemType.BAD_REQUEST, ProblemType.NOT_ACCEPTABLE);
        boolean open =
                operation.getSecurity() != null && operation.getSecurity().isEmpty();
        if (!open) {
            types.add(ProblemType.UNAUTHORIZED);
            types.add(ProblemType.DATABASE_AWAY);
        }
        if (operation.getRequestBody() != null) {
            types.addAll(Set.of(ProblemType.BAD_BODY, ProblemType.BODY_TOO_LARGE, ProblemType.UNSUPPORTED_MEDIA_TYPE));
        }
        List<Parameter> parameters = operation.getParameters() == null ? List.of() : operation.getParameters();
        for (Parameter parameter : parameters) {
            types.add(ProblemType.BAD_PARAMETER);
            if ("path".equals(parameter.getIn())) {
                types.add(ProblemType.NOT_FOUND);
            }
            if (Idempotency.HEADER.equalsIgnoreCase(parameter.getName())) {
                types.add(ProblemType.IDEMPOTENCY_KEY_REUSED);
            }
            if ("If-Match".equalsIgnoreCase(parameter.getName())) {
                types.add(ProblemType.PRECONDITION_FAILED);
                types.add(ProblemType.PRECONDITION_REQUIRED);
            }
        }
        if (further != null) {
            types.addAll(List.of(further.value()));
        }
        Map<Integer, List<ProblemType>> byStatus =
                types.stream().collect(Collectors.groupingBy(ProblemType::status, TreeMap::new, Collectors.toList()));
        ApiResponses responses = operation.getResponses();
        byStatus.forEach((status, ofStatus) -> responses.addApiResponse(status.toString(), response(ofStatus)));
    }

    private static ApiResponse response(List<ProblemType> types) {
        String description = types.stream()
                .map(type -> type.code() + ": " + type.title() + ".")
                .collect(Collectors.joining(" "));
        Schema<Object> reference = new JsonSchema();
        reference.set$ref(SCHEMAS + "Problem");
        return new ApiResponse()
                .description(description)
                .content(new Content().addMediaType(ProblemWriter.MEDIA_TYPE, new MediaType().schema(reference)));
    }

    private static Schema<?> problemSchema() {
        Schema<Object> errors = ofType("array");
        Schema<Object> reference = new JsonSchema();
        reference.set$ref(SCHEMAS + "Fault");
        errors.setItems(reference);
        Schema<Object> type = ofType("string");
        type.setDescription("The address of the page about this kind of problem; permanent.");
        type.addExtension(
                "x-extensible-enum",
                Arrays.stream(ProblemType.values())
                        .map(each -> "/problems/" + each.code())
                        .toList());
        Schema<Object> problem = ofType("object");
        problem.setDescription("A problem as in RFC 9457.");
        problem.addProperty("type", type);
        problem.addProperty("title", ofType("string"));
        problem.addProperty("status", ofType("integer"));
        problem.addProperty("detail", ofType("string"));
        problem.addProperty("instance", ofType("string"));
        problem.addProperty("errors", errors);
        problem.addProperty("requestId", ofType("string"));
        problem.setRequired(List.of("type", "title", "status", "detail", "errors", "requestId"));
        return problem;
    }

    private static Schema<?> faultSchema() {
        Schema<Object> pointer = ofType("string");
        pointer.setDescription("Where in the body, as a JSON pointer.");
        Schema<Object> parameter = ofType("string");
        parameter.setDescription("The parameter or header at fault, where it is not the body.");
        Schema<Object> line = ofType("integer");
        line.setDescription("The line of a body that is read line by line, from 1.");
        Schema<Object> column = ofType("integer");
        column.setDescription("The cell of that line in a table, from 1.");
        Schema<Object> columnName = ofType("string");
        columnName.setDescription("What the header of the table calls that column.");
        Schema<Object> fault = ofType("object");
        fault.addProperty("pointer", pointer);
        fault.addProperty("parameter", parameter);
        fault.addProperty("line", line);
        fault.addProperty("column", column);
        fault.addProperty("columnName", columnName);
        fault.addProperty("code", ofType("string"));
        fault.addProperty("detail", ofType("string"));
        fault.setRequired(List.of("code", "detail"));
        return fault;
    }

    private static Schema<?> dryRunSchema() {
        Schema<Object> always = ofType("boolean");
        always.setEnum(List.of(true));
        Schema<Object> document = new JsonSchema();
        document.setDescription("As it would be stored.");
        Schema<Object> dryRun = ofType("object");
        dryRun.setDescription("The change would be made as it stands, and nothing is stored.");
        dryRun.addProperty("dryRun", always);
        dryRun.addProperty("document", document);
        dryRun.setRequired(List.of("dryRun", "document"));
        return dryRun;
    }

    /** Unknown fields are refused in bodies, and only there: readers of answers must tolerate further ones. */
    private static void closeRequests(OpenAPI document) {
        Components components = document.getComponents();
        Set<String> seen = new HashSet<>();
        List<Schema<?>> open = new ArrayList<>();
        if (document.getPaths() != null) {
            document.getPaths().values().stream()
                    .flatMap(path -> path.readOperations().stream())
                    .filter(operation -> operation.getRequestBody() != null)
                    .flatMap(operation -> operation.getRequestBody().getContent().values().stream())
                    .forEach(type -> open.add(type.getSchema()));
        }
        while (!open.isEmpty()) {
            Schema<?> schema = open.remove(open.size() - 1);
            if (schema == null) {
                continue;
            }
            String reference = schema.get$ref();
            if (reference != null) {
                String name = reference.substring(SCHEMAS.length());
                Schema<?> target = components.getSchemas().get(name);
                if (target != null && seen.add(name)) {
                    boolean plainObject = target.getProperties() != null && target.getAdditionalProperties() == null;
                    if (plainObject) {
                        target.setAdditionalProperties(false);
                    }
                    open.add(target);
                }
                continue;
            }
            if (schema.getProperties() != null) {
                schema.getProperties().values().forEach(property -> open.add((Schema<?>) property));
            }
            if (schema.getItems() != null) {
                open.add(schema.getItems());
            }
            if (schema.getAdditionalProperties() instanceof Schema<?> values) {
                open.add(values);
            }
            if (schema.getOneOf() != null) {
                schema.getOneOf().forEach(each -> open.add((Schema<?>) each));
            }
            if (schema.getAnyOf() != null) {
                schema.getAnyOf().forEach(each -> open.add((Schema<?>) each));
            }
        }
    }

    private static Schema<Object> ofType(String type) {
        Schema<Object> schema = new JsonSchema();
        schema.setTypes(new LinkedHashSet<>(List.of(type)));
        return schema;
    }
}
