package dev.splicebook.calculation;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.web.Fact;
import io.swagger.v3.oas.annotations.media.Schema;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the catalogue says of one input or result. The name is its path: {@code conductor.size} stands in an object,
 * {@code loads[].amps} in each entry of a list, {@code nodes{}.volts} under each name of a map.
 */
@Schema(name = "CalculationField", description = "An input or a result: its path, what it is, its unit and its range.")
public record FieldPage(
        @Fact("path, like conductor.size, loads[].amps or nodes{}.volts")
        String name,

        @Fact("what it is") String about,

        @Fact("number, whole-number, text, choice, truth, length, size, object, list or map")
        String type,

        @Fact("symbol of the unit") @Nullable String unit,

        @Fact("least value, included unless aboveLeast") @Nullable
        Double least,

        @Fact("whether the least value itself is refused") @Nullable
        Boolean aboveLeast,

        @Fact("greatest value, included") @Nullable Double most,
        @Fact("fewest entries of a list or map") @Nullable Integer leastEntries,
        @Fact("most entries of a list or map") @Nullable Integer mostEntries,
        @Fact("whether it must be given") boolean required,

        @Fact("what is taken where it is left out") @Nullable
        String usual,

        @Fact("what it may be, where it is a choice") List<String> choices,

        @Fact("the kind of entry that has it, where entries differ by kind") @Nullable
        String kind) {

    public FieldPage {
        choices = List.copyOf(choices);
    }

    /** Every field of a record, and of the records in it, in the order of declaration. */
    static List<FieldPage> of(Class<? extends Record> type) {
        List<FieldPage> pages = new ArrayList<>();
        addFields(type, "", null, pages);
        return List.copyOf(pages);
    }

    private static void addFields(Class<?> type, String prefix, @Nullable String kind, List<FieldPage> pages) {
        for (RecordComponent component : type.getRecordComponents()) {
            Fact fact = component.getAccessor().getAnnotation(Fact.class);
            if (fact != null) {
                boolean nullable = component.getAnnotatedType().isAnnotationPresent(Nullable.class);
                add(component.getGenericType(), prefix + component.getName(), fact, nullable, kind, pages);
            }
        }
    }

    private static void add(
            Type type, String name, Fact fact, boolean nullable, @Nullable String kind, List<FieldPage> pages) {
        Class<?> raw = raw(type);
        boolean entries = raw == List.class || raw == Set.class || raw == Map.class;
        boolean length = raw == Length.class;
        boolean mayBeLeftOut = nullable || (entries && fact.leastEntries() == 0);
        pages.add(new FieldPage(
                name,
                fact.value(),
                typeName(raw),
                length ? "m" : given(fact.unit()),
                length ? Double.valueOf(0) : given(fact.least()),
                (length || fact.aboveLeast()) ? Boolean.TRUE : null,
                length ? Double.valueOf(Length.MOST_METRES) : given(fact.most()),
                entries && fact.leastEntries() > 0 ? fact.leastEntries() : null,
                entries && fact.mostEntries() < Integer.MAX_VALUE ? fact.mostEntries() : null,
                !mayBeLeftOut,
                given(fact.usual()),
                choices(raw),
                kind));
        if (entries) {
            Type[] generics = ((ParameterizedType) type).getActualTypeArguments();
            String below = name + (raw == Map.class ? "{}." : "[].");
            addBelow(raw(generics[generics.length - 1]), below, kind, pages);
        } else {
            addBelow(raw, name + ".", kind, pages);
        }
    }

    private static void addBelow(Class<?> type, String prefix, @Nullable String kind, List<FieldPage> pages) {
        JsonSubTypes kinds = type.getAnnotation(JsonSubTypes.class);
        if (kinds != null) {
            for (JsonSubTypes.Type each : kinds.value()) {
                addFields(each.value(), prefix, each.name(), pages);
            }
        } else if (type.isRecord() && !isText(type) && type != Length.class) {
            addFields(type, prefix, kind, pages);
        }
    }

    private static Class<?> raw(Type type) {
        return type instanceof ParameterizedType generic ? (Class<?>) generic.getRawType() : (Class<?>) type;
    }

    private static String typeName(Class<?> raw) {
        if (raw == double.class || raw == Double.class) {
            return "number";
        }
        if (raw == int.class || raw == Integer.class || raw == long.class || raw == Long.class) {
            return "whole-number";
        }
        if (raw == boolean.class || raw == Boolean.class) {
            return "truth";
        }
        if (raw == List.class || raw == Set.class) {
            return "list";
        }
        if (raw == Map.class) {
            return "map";
        }
        if (raw == Length.class) {
            return "length";
        }
        if (raw == ConductorSize.class) {
            return "size";
        }
        if (raw.isEnum()) {
            return "choice";
        }
        return raw == String.class || isText(raw) ? "text" : "object";
    }

    private static boolean isText(Class<?> type) {
        return type.isRecord()
                && type.getRecordComponents().length == 1
                && type.getRecordComponents()[0].getType() == String.class;
    }

    private static List<String> choices(Class<?> raw) {
        return raw.isEnum()
                ? Arrays.stream(raw.getEnumConstants())
                        .map(constant -> ((Enum<?>) constant)
                                .name()
                                .toLowerCase(Locale.ROOT)
                                .replace('_', '-'))
                        .toList()
                : List.of();
    }

    private static @Nullable String given(String text) {
        return text.isEmpty() ? null : text;
    }

    private static @Nullable Double given(double bound) {
        return Double.isInfinite(bound) ? null : bound;
    }
}
