package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Electrical;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
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

    private record Shape(String name, List<Method> accessors) {}

    private FactsText() {}

    /** Without what is null; empty for no facts. */
    static String of(@Nullable Electrical facts) {
        if (facts == null) {
            return "";
        }
        Shape shape = SHAPES.get(facts.getClass());
        StringBuilder text = new StringBuilder(128).append(shape.name()).append('[');
        int start = text.length();
        for (Method accessor : shape.accessors()) {
            Object value = read(accessor, facts);
            if (value != null) {
                String name = accessor.getName();
                text.append(text.length() == start ? "" : ", ").append(name);
                // the coils of a loudspeaker are alike but for their names
                if (!name.equals("follows") && !name.equals("coil")) {
                    text.append('=').append(value);
                }
            }
        }
        return text.append(']').toString();
    }

    private static @Nullable Object read(Method accessor, Electrical facts) {
        try {
            return accessor.invoke(facts);
        } catch (ReflectiveOperationException impossible) {
            throw new IllegalStateException(impossible);
        }
    }
}
