package dev.splicebook.web;

import com.fasterxml.jackson.databind.JavaType;
import io.swagger.v3.core.converter.AnnotatedType;
import io.swagger.v3.core.converter.ModelConverter;
import io.swagger.v3.core.converter.ModelConverterContext;
import io.swagger.v3.oas.models.media.Discriminator;
import io.swagger.v3.oas.models.media.JsonSchema;
import io.swagger.v3.oas.models.media.Schema;
import java.lang.reflect.AnnotatedElement;
import java.lang.reflect.Type;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.core.ResolvableType;
import tools.jackson.databind.JsonNode;

/**
 * Writes the schemas of this service's types from the very shapes that bodies are read by. A sealed type is one of its
 * records; each record stands on its own with its kind, because a generator cannot follow the two into each other.
 */
final class ShapeSchemas implements ModelConverter {

    private static final String SCHEMAS = "#/components/schemas/";

    private final Map<String, ResolvableType> named = new ConcurrentHashMap<>();

    @Override
    public boolean isOpenapi31() {
        return true;
    }

    @Override
    public @Nullable Schema<?> resolve(
            AnnotatedType annotated, ModelConverterContext context, Iterator<ModelConverter> chain) {
        ResolvableType type = resolvable(annotated.getType());
        Class<?> raw = type.resolve();
        if (raw != null && (raw == Sent.class || raw == JsonNode.class || isModel(raw))) {
            return schema(raw == Sent.class ? type.getGeneric(0) : type, context);
        }
        return chain.hasNext() ? chain.next().resolve(annotated, context, chain) : null;
    }

    private static boolean isModel(Class<?> type) {
        return Shape.isOurs(type) && (type.isRecord() || type.isEnum() || type.isSealed());
    }

    private static ResolvableType resolvable(Type type) {
        if (type instanceof JavaType described) {
            ResolvableType[] generics = IntStream.range(0, described.containedTypeCount())
                    .mapToObj(i -> resolvable(described.containedType(i)))
                    .toArray(ResolvableType[]::new);
            return described.getRawClass().getTypeParameters().length == generics.length
                    ? ResolvableType.forClassWithGenerics(described.getRawClass(), generics)
                    : ResolvableType.forClass(described.getRawClass());
        }
        return ResolvableType.forType(type);
    }

    private Schema<?> schema(ResolvableType type, ModelConverterContext context) {
        return schema(Shape.of(type), type, context);
    }

    private Schema<?> schema(Shape shape, ResolvableType type, ModelConverterContext context) {
        if (shape instanceof Shape.ListShape list) {
            return array(schema(list.element(), type.getGeneric(0), context), false);
        }
        if (shape instanceof Shape.SetShape set) {
            return array(schema(set.element(), type.getGeneric(0), context), true);
        }
        if (shape instanceof Shape.MapShape map) {
            Schema<?> object = ofType("object");
            object.setAdditionalProperties(schema(map.value(), type.getGeneric(1), context));
            return object;
        }
        if (shape instanceof Shape.EnumShape constants) {
            Schema<Object> schema = ofType("string");
            schema.setEnum(new ArrayList<>(constants.names()));
            return define(constants.type(), type, schema, context);
        }
        if (shape instanceof Shape.TextShape text) {
            return define(text.type(), type, ofType("string"), context);
        }
        if (shape instanceof Shape.ObjectShape object) {
            return object(object, type, null, null, context);
        }
        if (shape instanceof Shape.OneOfShape oneOf) {
            return oneOf(oneOf, type, context);
        }
        return shape instanceof Shape.AnyShape ? new JsonSchema() : scalar(type);
    }

    private Schema<?> oneOf(Shape.OneOfShape oneOf, ResolvableType type, ModelConverterContext context) {
        if (oneOf.type().isRecord()) {
            Map.Entry<String, Shape.ObjectShape> only =
                    oneOf.byKind().entrySet().iterator().next();
            return object(only.getValue(), type, oneOf.discriminator(), only.getKey(), context);
        }
        String name = name(type);
        if (!context.getDefinedModels().containsKey(name)) {
            Schema<Object> schema = new JsonSchema();
            define(oneOf.type(), type, schema, context);
            Discriminator discriminator = new Discriminator().propertyName(oneOf.discriminator());
            oneOf.byKind().forEach((kind, shape) -> {
                Schema<?> child = object(shape, shape.resolved(), oneOf.discriminator(), kind, context);
                schema.addOneOfItem(child);
                discriminator.mapping(kind, child.get$ref());
            });
            schema.setDiscriminator(discriminator);
        }
        return reference(name);
    }

    private Schema<?> object(
            Shape.ObjectShape object,
            ResolvableType type,
            @Nullable String discriminator,
            @Nullable String kind,
            ModelConverterContext context) {
        String name = name(type);
        if (context.getDefinedModels().containsKey(name)) {
            return reference(name);
        }
        Schema<Object> schema = ofType("object");
        define(object.type(), type, schema, context);
        List<String> required = new ArrayList<>();
        if (discriminator != null && kind != null) {
            Schema<Object> only = ofType("string");
            only.setEnum(List.of(kind));
            schema.addProperty(discriminator, only);
            required.add(discriminator);
        }
        for (Shape.Field field : object.fields()) {
            ResolvableType fieldType = ResolvableType.forType(field.component().getGenericType(), object.resolved());
            ResolvableType told = toldType(field);
            Schema<?> property = told == null ? schema(field.shape(), fieldType, context) : schema(told, context);
            if (field.bareAllowed()) {
                Schema<Object> either = new JsonSchema();
                either.addAnyOfItem(schema(Shape.of(fieldType.getGeneric(0)), fieldType.getGeneric(0), context));
                either.addAnyOfItem(property);
                property = either;
            }
            if (field.alwaysWritten() && field.nullable()) {
                property.addType("null");
            }
            annotate(property, field.component().getAccessor());
            if (field.fact() != null) {
                describe(property, field.fact());
            }
            schema.addProperty(field.name(), property);
            if (field.isNeeded() || field.alwaysWritten()) {
                required.add(field.name());
            }
        }
        schema.setRequired(required);
        return reference(name);
    }

    private static void describe(Schema<?> property, Fact fact) {
        String usual = fact.usual().isEmpty() ? "" : "; if absent, " + fact.usual();
        String unit = fact.unit().isEmpty() ? "" : ", in " + fact.unit();
        property.setDescription(
                Character.toUpperCase(fact.value().charAt(0)) + fact.value().substring(1) + unit + usual + ".");
        if (fact.leastEntries() > 0 && property.getItems() != null) {
            property.setMinItems(fact.leastEntries());
        }
        if (fact.mostEntries() < Integer.MAX_VALUE && property.getItems() != null) {
            property.setMaxItems(fact.mostEntries());
        }
        Schema<?> number = property;
        if (property.getItems() != null) {
            number = property.getItems();
        } else if (property.getAdditionalProperties() instanceof Schema<?> values) {
            number = values;
        }
        if (number.get$ref() == null) {
            bound(number, fact);
        }
    }

    private static void bound(Schema<?> number, Fact fact) {
        if (fact.least() > Double.NEGATIVE_INFINITY) {
            if (fact.aboveLeast()) {
                number.setExclusiveMinimumValue(decimal(fact.least()));
            } else {
                number.setMinimum(decimal(fact.least()));
            }
        }
        if (fact.most() < Double.POSITIVE_INFINITY) {
            number.setMaximum(decimal(fact.most()));
        }
    }

    private static BigDecimal decimal(double value) {
        return new BigDecimal(BigDecimal.valueOf(value).stripTrailingZeros().toPlainString());
    }

    /** What a field that is kept as it was sent holds, where its declaration says so. */
    private static @Nullable ResolvableType toldType(Shape.Field field) {
        io.swagger.v3.oas.annotations.media.Schema given =
                field.component().getAccessor().getAnnotation(io.swagger.v3.oas.annotations.media.Schema.class);
        return given != null && given.implementation() != Void.class && field.shape() instanceof Shape.AnyShape
                ? ResolvableType.forClass(given.implementation())
                : null;
    }

    private Schema<?> define(Class<?> raw, ResolvableType type, Schema<Object> schema, ModelConverterContext context) {
        String name = name(type);
        annotate(schema, raw);
        context.defineModel(name, schema);
        return reference(name);
    }

    /** @throws IllegalStateException if two types would share one name in the document */
    private String name(ResolvableType type) {
        Class<?> raw = type.toClass();
        StringBuilder name = new StringBuilder(name(raw));
        for (ResolvableType generic : type.getGenerics()) {
            name.append(name(generic));
        }
        ResolvableType earlier = named.putIfAbsent(name.toString(), type);
        if (earlier != null && earlier.toClass() != raw) {
            throw new IllegalStateException("two types are called " + name + " in the written API, " + raw.getName()
                    + " and " + earlier.toClass().getName() + ": give one another name by @Schema(name = …)");
        }
        return name.toString();
    }

    /**
     * Adds what notes say to a document. The library keeps its converters for the whole JVM, so what belongs to one service
     * is not for them to know.
     */
    @SuppressWarnings("rawtypes") // as the library declares them
    static void describe(Map<String, Schema> schemas, List<SchemaNote> notes) {
        for (SchemaNote note : notes) {
            Schema<?> of = schemas.get(name(note.type()));
            Schema<?> schema = of == null || note.property() == null
                    ? of
                    : (Schema<?>) of.getProperties().get(note.property());
            if (schema != null) {
                describe(schema, note.description(), note.pattern(), note.example());
                if (!note.extensibleEnum().isEmpty()) {
                    schema.addExtension("x-extensible-enum", note.extensibleEnum());
                }
            }
        }
    }

    static String name(Class<?> type) {
        io.swagger.v3.oas.annotations.media.Schema given =
                type.getAnnotation(io.swagger.v3.oas.annotations.media.Schema.class);
        return given != null && !given.name().isEmpty() ? given.name() : type.getSimpleName();
    }

    private static void annotate(Schema<?> schema, AnnotatedElement declared) {
        io.swagger.v3.oas.annotations.media.Schema given =
                declared.getAnnotation(io.swagger.v3.oas.annotations.media.Schema.class);
        if (given != null) {
            describe(schema, given.description(), given.pattern(), given.example());
        }
    }

    private static void describe(
            Schema<?> schema, @Nullable String description, @Nullable String pattern, @Nullable String example) {
        if (description != null && !description.isEmpty()) {
            schema.setDescription(description);
        }
        if (pattern != null && !pattern.isEmpty()) {
            schema.setPattern(pattern);
        }
        if (example != null && !example.isEmpty()) {
            schema.setExample(example);
        }
    }

    private static Schema<?> array(Schema<?> items, boolean unique) {
        Schema<Object> array = ofType("array");
        array.setItems(items);
        if (unique) {
            array.setUniqueItems(true);
        }
        return array;
    }

    private static Schema<?> reference(String name) {
        Schema<Object> reference = new JsonSchema();
        reference.set$ref(SCHEMAS + name);
        return reference;
    }

    private static Schema<Object> scalar(ResolvableType type) {
        Class<?> raw = type.toClass();
        if (raw == boolean.class || raw == Boolean.class) {
            return ofType("boolean");
        }
        if (raw == double.class || raw == Double.class) {
            return ofFormat("number", "double");
        }
        if (raw == int.class || raw == Integer.class) {
            return ofFormat("integer", "int32");
        }
        if (raw == long.class || raw == Long.class) {
            return ofFormat("integer", "int64");
        }
        if (raw == UUID.class) {
            return ofFormat("string", "uuid");
        }
        if (raw == Instant.class) {
            return ofFormat("string", "date-time");
        }
        return raw == LocalDate.class ? ofFormat("string", "date") : ofType("string");
    }

    private static Schema<Object> ofFormat(String type, String format) {
        Schema<Object> schema = ofType(type);
        schema.setFormat(format);
        return schema;
    }

    private static Schema<Object> ofType(String type) {
        Schema<Object> schema = new JsonSchema();
        Set<String> types = new LinkedHashSet<>();
        types.add(type);
        schema.setTypes(types);
        return schema;
    }
}
