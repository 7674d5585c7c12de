package dev.splicebook.web;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.MapperFeature;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.cfg.MapperConfig;
import tools.jackson.databind.introspect.AccessorNamingStrategy;
import tools.jackson.databind.introspect.Annotated;
import tools.jackson.databind.introspect.AnnotatedClass;
import tools.jackson.databind.introspect.AnnotatedMethod;
import tools.jackson.databind.introspect.DefaultAccessorNamingStrategy;
import tools.jackson.databind.introspect.JacksonAnnotationIntrospector;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.ser.std.StdSerializer;

/** Writes values in the very form that {@link StrictReader} reads them in. */
public final class JsonWriting {

    private JsonWriting() {}

    /** A mapper as the endpoints use it, for those that write outside them. */
    public static JsonMapper mapper() {
        JsonMapper.Builder builder = JsonMapper.builder();
        configure(builder);
        return builder.build();
    }

    static void configure(JsonMapper.Builder builder) {
        SimpleModule module = new SimpleModule("splicebook");
        module.addSerializer(Double.class, new PlainNumber());
        module.addSerializer(double.class, new PlainNumber());
        builder.disable(MapperFeature.SORT_PROPERTIES_ALPHABETICALLY)
                .changeDefaultPropertyInclusion(any -> any.withValueInclusion(JsonInclude.Include.NON_NULL))
                .annotationIntrospector(new Conventions())
                .accessorNaming(new ComponentsOnly())
                .addModule(module);
    }

    /** A whole number without a fraction, so that 4 is not sometimes 4.0; what is no number at all is absent. */
    private static final class PlainNumber extends StdSerializer<Double> {

        PlainNumber() {
            super(Double.class);
        }

        @Override
        public void serialize(Double value, JsonGenerator generator, SerializationContext context) {
            if (!Double.isFinite(value)) {
                generator.writeNull();
            } else if (value == Math.rint(value) && Math.abs(value) < 0x1p53) {
                generator.writeNumber(value.longValue());
            } else {
                generator.writeNumber(value);
            }
        }
    }

    /** Constants in kebab-case, and records with one String as texts, also as keys. */
    private static final class Conventions extends JacksonAnnotationIntrospector {

        private static final long serialVersionUID = 1L;

        @Override
        public String[] findEnumValues(
                MapperConfig<?> config, AnnotatedClass type, Enum<?>[] constants, @Nullable String[] names) {
            if (!Shape.isOurs(type.getRawType())) {
                return super.findEnumValues(config, type, constants, names);
            }
            return Arrays.stream(constants).map(Shape::nameOf).toArray(String[]::new);
        }

        @Override
        public @Nullable Boolean hasAsValue(MapperConfig<?> config, Annotated annotated) {
            if (annotated instanceof AnnotatedMethod method
                    && Shape.isTextValue(method.getDeclaringClass())
                    && method.getName()
                            .equals(method.getDeclaringClass()
                                    .getRecordComponents()[0]
                                    .getName())
                    && method.getParameterCount() == 0) {
                return true;
            }
            return super.hasAsValue(config, annotated);
        }
    }

    /** The components of a record and nothing else: what it can tell beyond them is not part of the document. */
    private static final class ComponentsOnly extends DefaultAccessorNamingStrategy.Provider {

        private static final long serialVersionUID = 1L;

        @Override
        public AccessorNamingStrategy forRecord(MapperConfig<?> config, AnnotatedClass type) {
            Set<String> components = Arrays.stream(type.getRawType().getRecordComponents())
                    .map(RecordComponent::getName)
                    .collect(Collectors.toSet());
            return new DefaultAccessorNamingStrategy.RecordNaming(config, type) {
                @Override
                public @Nullable String findNameForIsGetter(AnnotatedMethod method, String name) {
                    return null;
                }

                @Override
                public @Nullable String findNameForRegularGetter(AnnotatedMethod method, String name) {
                    // a getter that says itself what it is called is found by its annotation
                    return components.contains(name) || method.hasAnnotation(JsonProperty.class) ? name : null;
                }
            };
        }
    }
}
