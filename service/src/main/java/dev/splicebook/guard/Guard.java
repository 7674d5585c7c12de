package dev.splicebook.guard;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Collects the faults of one constructor call and throws them together. A null value is an absent one and passes. */
public final class Guard {

    private final List<Invalid> invalids = new ArrayList<>();

    /** Above zero and at most {@code most}. */
    public Guard positive(String field, @Nullable Double value, double most) {
        return refuseIf(
                value != null && !(value > 0 && value <= most),
                field,
                "out-of-range",
                () -> field + " is " + text(value) + ", outside above 0 to " + text(most));
    }

    /** From {@code least} to {@code most}, both included. */
    public Guard between(String field, @Nullable Double value, double least, double most) {
        return refuseIf(
                value != null && !(value >= least && value <= most),
                field,
                "out-of-range",
                () -> field + " is " + text(value) + ", outside " + text(least) + " to " + text(most));
    }

    /** From {@code least} to {@code most}, both included. */
    public Guard between(String field, @Nullable Integer value, int least, int most) {
        return refuseIf(
                value != null && !(value >= least && value <= most),
                field,
                "out-of-range",
                () -> field + " is " + value + ", outside " + least + " to " + most);
    }

    /** Not above another quantity of the same value. */
    public Guard notAbove(String field, @Nullable Double value, String otherField, @Nullable Double other) {
        return refuseIf(
                value != null && other != null && value > other,
                field,
                "inconsistent",
                () -> field + " is " + text(value) + ", above " + otherField + " of " + text(other));
    }

    /** Not blank and at most {@code most} characters. */
    public Guard text(String field, @Nullable String value, int most) {
        return refuseIf(
                value != null && (value.isBlank() || value.length() > most),
                field,
                "bad-text",
                () -> field
                        + (value == null || value.isBlank()
                                ? " is blank"
                                : " has " + value.length() + " characters, above " + most));
    }

    /** Matches a pattern that {@code form} describes. */
    public Guard matches(String field, @Nullable String value, Pattern pattern, String form) {
        return refuseIf(
                value != null && !pattern.matcher(value).matches(),
                field,
                "bad-form",
                () -> field + " is \"" + shortened(value) + "\", which is not " + form);
    }

    /** At most {@code most} entries. */
    public Guard atMost(String field, Collection<?> value, int most) {
        return refuseIf(
                value.size() > most,
                field,
                "too-many",
                () -> field + " has " + value.size() + " entries, above " + most);
    }

    /** Refuses {@code field} if {@code condition}. The field may be a path below it, like {@code coil/0}. */
    public Guard refuseIf(boolean condition, String field, String code, java.util.function.Supplier<String> detail) {
        if (condition) {
            invalids.add(new Invalid(field.isEmpty() ? "" : "/" + field, code, detail.get()));
        }
        return this;
    }

    /** Throws what was collected, if anything was. */
    public void check() {
        if (!invalids.isEmpty()) {
            throw new InvalidValueException(invalids);
        }
    }

    private static String text(@Nullable Double value) {
        if (value == null) {
            return "absent";
        }
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString(value.longValue())
                : value.toString();
    }

    private static String shortened(@Nullable String value) {
        if (value == null) {
            return "";
        }
        return value.length() > 60 ? value.substring(0, 60) + "…" : value;
    }
}
