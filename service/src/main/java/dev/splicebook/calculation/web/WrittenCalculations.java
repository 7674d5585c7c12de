package dev.splicebook.calculation.web;

import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.CalculationPage;
import dev.splicebook.calculation.Calculations;
import dev.splicebook.web.JsonWriting;
import io.swagger.v3.core.converter.AnnotatedType;
import io.swagger.v3.core.converter.ModelConverters;
import io.swagger.v3.core.converter.ResolvedSchema;
import io.swagger.v3.core.util.Json;
import io.swagger.v3.oas.models.Components;
import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.PathItem;
import io.swagger.v3.oas.models.examples.Example;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.parameters.RequestBody;
import io.swagger.v3.oas.models.responses.ApiResponse;
import io.swagger.v3.oas.models.responses.ApiResponses;
import org.springdoc.core.customizers.OpenApiCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Writes the one endpoint that calculates down as one operation for each calculation, with the types of its question and
 * answer, and an example of both: the answer is the one that the example gets.
 */
@Configuration(proxyBeanMethods = false)
class WrittenCalculations {

    static final String ANY = "calculate";

    private static final String PATH = "/v1/calculations/";
    private static final String JSON = org.springframework.http.MediaType.APPLICATION_JSON_VALUE;
    private static final JsonMapper MAPPER = JsonWriting.mapper();

    @Bean
    @Order(Ordered.HIGHEST_PRECEDENCE)
    OpenApiCustomizer eachCalculation(Calculations calculations) {
        return document -> {
            PathItem any = document.getPaths().get(PATH + "{name}");
            Operation model = any == null ? null : any.getPost();
            if (any == null || model == null) {
                return;
            }
            any.setPost(null);
            for (CalculationPage page : calculations.listPages()) {
                Calculation calculation =
                        calculations.findCalculation(page.name()).orElseThrow();
                JsonNode question = calculations.example(page.name());
                document.path(
                        PATH + page.name(),
                        new PathItem().post(operation(document, model, page, calculation, question, calculations)));
            }
        };
    }

    private static Operation operation(
            OpenAPI document,
            Operation model,
            CalculationPage page,
            Calculation calculation,
            JsonNode question,
            Calculations calculations) {
        JsonNode answer = MAPPER.valueToTree(calculations.answer(page.name(), question));
        ApiResponses responses = new ApiResponses();
        model.getResponses().forEach((status, response) -> {
            if (!status.equals("404") && !status.equals("200")) {
                responses.addApiResponse(status, response);
            }
        });
        responses.addApiResponse(
                "200",
                new ApiResponse()
                        .description("The answer")
                        .content(content(document.getComponents(), calculation.answer(), answer)));
        return new Operation()
                .tags(model.getTags())
                .operationId(operationId(page.name()))
                .summary(page.purpose())
                .description(page.method())
                .requestBody(new RequestBody()
                        .required(true)
                        .content(content(document.getComponents(), calculation.question(), question)))
                .responses(responses);
    }

    private static Content content(Components components, Class<?> type, JsonNode example) {
        ResolvedSchema resolved =
                ModelConverters.getInstance(true).resolveAsResolvedSchema(new AnnotatedType(type).resolveAsRef(true));
        resolved.referencedSchemas.forEach((name, schema) -> {
            if (components.getSchemas() == null || !components.getSchemas().containsKey(name)) {
                components.addSchemas(name, schema);
            }
        });
        return new Content()
                .addMediaType(
                        JSON,
                        new MediaType()
                                .schema(resolved.schema)
                                .addExamples("example", new Example().value(written(example))));
    }

    /** A tree of the library that writes the document. */
    private static Object written(JsonNode tree) {
        try {
            return Json.mapper().readTree(tree.toString());
        } catch (com.fasterxml.jackson.core.JsonProcessingException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    private static String operationId(String name) {
        StringBuilder id = new StringBuilder(ANY);
        for (String word : name.split("-", -1)) {
            id.append(Character.toUpperCase(word.charAt(0))).append(word, 1, word.length());
        }
        return id.toString();
    }
}
