package dev.splicebook.web;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.core.ResolvableType;
import org.springframework.core.convert.TypeDescriptor;
import org.springframework.core.convert.converter.ConditionalGenericConverter;

/** Reads texts and constants in paths and queries by the very rules of bodies. */
final class ParameterConverter implements ConditionalGenericConverter {

    /** Stands for the name of a parameter, which is not known where its value is read. */
    static final String PLACE = "the parameter";

    @Override
    public Set<ConvertiblePair> getConvertibleTypes() {
        return Set.of(new ConvertiblePair(String.class, Record.class), new ConvertiblePair(String.class, Enum.class));
    }

    @Override
    public boolean matches(TypeDescriptor source, TypeDescriptor target) {
        Class<?> type = target.getType();
        return Shape.isTextValue(type) || (type.isEnum() && Shape.isOurs(type));
    }

    @Override
    public @Nullable Object convert(@Nullable Object source, TypeDescriptor sourceType, TypeDescriptor targetType) {
        if (!(source instanceof String text)) {
            return null;
        }
        Walk walk = new Walk();
        Shape shape = Shape.of(ResolvableType.forClass(targetType.getType()));
        walk.enter(PLACE);
        Object value = shape instanceof Shape.EnumShape constants
                ? constants.of(text, walk)
                : ((Shape.TextShape) shape).of(text, walk);
        if (walk.count() > 0) {
            throw new InvalidValueException(walk.faults().stream()
                    .map(fault -> new Invalid("", fault.code(), fault.detail()))
                    .toList());
        }
        return value;
    }
}
