package dev.splicebook.calculation;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.web.Fact;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Questions drawn from what a calculation declares of its inputs, the ends of each range among them. */
final class RandomQuestion {

    private static final JsonNodeFactory NODES = JsonMapper.builder().build().getNodeFactory();
    private static final List<String> SIZES = List.of(
            "40 AWG", "22 AWG", "18 AWG", "8 AWG", "4 AWG", "1/0 AWG", "4/0 AWG", "0.35 mm2", "2.5 mm2", "120 mm2");
    private static final List<String> NAMES = List.of("a", "b", "c", "d", "left", "right", "A.1", "0");

    private final Random random;

    RandomQuestion(Random random) {
        this.random = random;
    }

    /** A question all of whose single values lie within their ranges; together they may still be refused. */
    JsonNode of(Class<? extends Record> type) {
        return object(type);
    }

    private ObjectNode object(Class<?> type) {
        ObjectNode object = NODES.objectNode();
        for (RecordComponent component : type.getRecordComponents()) {
            Fact fact = component.getAccessor().getAnnotation(Fact.class);
            boolean nullable = component.getAnnotatedType().isAnnotationPresent(Nullable.class);
            if (fact != null && !(nullable && random.nextInt(3) == 0)) {
                object.set(component.getName(), value(component.getGenericType(), fact));
            }
        }
        return object;
    }

    private JsonNode value(Type type, Fact fact) {
        Class<?> raw = type instanceof ParameterizedType generic ? (Class<?>) generic.getRawType() : (Class<?>) type;
        if (raw == List.class || raw == Set.class || raw == Map.class) {
            Type[] generics = ((ParameterizedType) type).getActualTypeArguments();
            int most = Math.min(fact.mostEntries(), 6);
            int count = fact.leastEntries() + random.nextInt(Math.max(1, most - fact.leastEntries() + 1));
            if (raw == Map.class) {
                ObjectNode map = NODES.objectNode();
                for (int i = 0; i < count; i++) {
                    map.set(NAMES.get(i % NAMES.size()), value(generics[1], fact));
                }
                return map;
            }
            ArrayNode list = NODES.arrayNode();
            for (int i = 0; i < count; i++) {
                list.add(value(generics[0], fact));
            }
            return list;
        }
        if (raw == double.class || raw == Double.class) {
            return NODES.numberNode(number(fact));
        }
        if (raw == int.class || raw == Integer.class) {
            return NODES.numberNode((int) Math.rint(number(fact)));
        }
        if (raw == boolean.class || raw == Boolean.class) {
            return NODES.booleanNode(random.nextBoolean());
        }
        if (raw == String.class) {
            return NODES.stringNode(pick(NAMES));
        }
        if (raw == ConductorSize.class) {
            return NODES.stringNode(pick(SIZES));
        }
        if (raw == Length.class) {
            ObjectNode length = NODES.objectNode();
            length.put("value", random.nextInt(4) == 0 ? 0.001 : 0.01 + 30 * random.nextDouble());
            length.put("unit", random.nextBoolean() ? "ft" : "m");
            return length;
        }
        if (raw.isEnum()) {
            String[] names = Arrays.stream(raw.getEnumConstants())
                    .map(constant ->
                            ((Enum<?>) constant).name().toLowerCase(Locale.ROOT).replace('_', '-'))
                    .toArray(String[]::new);
            return NODES.stringNode(names[random.nextInt(names.length)]);
        }
        JsonSubTypes kinds = raw.getAnnotation(JsonSubTypes.class);
        if (kinds != null) {
            JsonSubTypes.Type kind = kinds.value()[random.nextInt(kinds.value().length)];
            ObjectNode entry = object(kind.value());
            entry.put("kind", kind.name());
            return entry;
        }
        return object(raw);
    }

    private double number(Fact fact) {
        double least = Double.isInfinite(fact.least()) ? -1e6 : fact.least();
        double most = Double.isInfinite(fact.most()) ? 1e6 : fact.most();
        double lowest = fact.aboveLeast() ? least + Math.min(1e-9, (most - least) / 2) : least;
        return switch (random.nextInt(6)) {
            case 0 -> lowest;
            case 1 -> most;
            case 2 -> lowest + (most - lowest) * random.nextDouble();
            // small figures are the usual ones, whatever the range allows
            default -> Math.min(most, Math.max(lowest, Math.rint(1000 * Math.exp(random.nextGaussian() * 2)) / 1000));
        };
    }

    private String pick(List<String> from) {
        return from.get(random.nextInt(from.size()));
    }
}
