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

    private static final ClassValue<List<Method>> ACCESSORS = new ClassValue<>() {
        @Override
        protected List<Method> computeValue(Class<?> type) {
            return Arrays.stream(type.getRecordComponents())
                    .map(RecordComponent::getAccessor)
                    .toList();
        }
    };

    private FactsText() {}

    static String of(@Nullable Electrical facts) {
        if (facts == null) {
            return "null";
        }
        StringBuilder text =
                new StringBuilder(128).append(facts.getClass().getSimpleName()).append('[');
        boolean follows = false;
        for (Method accessor : ACCESSORS.get(facts.getClass())) {
            Object value = read(accessor, facts);
            String name = accessor.getName();
            if (name.equals("follows")) {
                follows = value != null;
                value = null;
            } else if (name.equals("coil") && value != null) {
                // the coils of a loudspeaker are alike but for their names
                value = "coil";
            }
            text.append(text.charAt(text.length() - 1) == '[' ? "" : ", ")
                    .append(name)
                    .append('=')
                    .append(value);
        }
        return text.append(follows ? "] follows" : "]").toString();
    }

    private static @Nullable Object read(Method accessor, Electrical facts) {
        try {
            return accessor.invoke(facts);
        } catch (ReflectiveOperationException impossible) {
            throw new IllegalStateException(impossible);
        }
    }
}
