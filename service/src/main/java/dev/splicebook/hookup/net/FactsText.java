package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Electrical;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Facts as their records tell them, but for the names of other terminals. On Java 17 the records go through a formatter,
 * which takes too long for what is asked of every terminal.
 */
final class FactsText {

    private static final ClassValue<Shape> SHAPES = new ClassValue<>() {
        @Override
        protected Shape computeValue(Class<?> type) {
            return new Shape(
                    type.getSimpleName(),
                    Arrays.stream(type.getRecordComponents())
                            .map(RecordComponent::getAccessor)
                            .toList());
        }
    };

    private record Shape(String name, List<Method> accessors) {

        boolean tells(Method accessor, @Nullable Object value) {
            return value != null || !TOLD_IF_STATED.contains(name + '.' + accessor.getName());
        }
    }

    /** Facts that came later are told where they are stated, so that fingerprints of findings without them hold. */
    private static final Set<String> TOLD_IF_STATED = Set.of("Load.maxVolts", "ControlIn.maxVolts", "Supply.regulated");

    private static final String NOTHING = "null";

    private FactsText() {}

    static String of(@Nullable Electrical facts) {
        if (facts == null) {
            return NOTHING;
        }
        Shape shape = SHAPES.get(facts.getClass());
        StringBuilder text = new StringBuilder(160).append(shape.name()).append('[');
        int start = text.length();
        boolean follows = false;
        for (Method accessor : shape.accessors()) {
            Object value = read(accessor, facts);
            String name = accessor.getName();
            if (name.equals("follows")) {
                follows = value != null;
                value = null;
            } else if (name.equals("coil") && value != null) {
                // the coils of a loudspeaker are alike but for their names
                value = "coil";
            }
            if (!shape.tells(accessor, value)) {
                continue;
            }
            text.append(text.length() == start ? "" : ", ")
                    .append(name)
                    .append('=')
                    .append(value);
        }
        return text.append(follows ? "] follows" : "]").toString();
    }

    /** How the text begins. */
    static String kind(@Nullable Electrical facts) {
        return facts == null ? NOTHING : SHAPES.get(facts.getClass()).name();
    }

    private static @Nullable Object read(Method accessor, Electrical facts) {
        try {
            return accessor.invoke(facts);
        } catch (ReflectiveOperationException impossible) {
            throw new IllegalStateException(impossible);
        }
    }
}
