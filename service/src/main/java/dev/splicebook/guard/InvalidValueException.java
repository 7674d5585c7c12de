package dev.splicebook.guard;

import java.util.List;
import java.util.stream.Collectors;

/** Thrown by the constructor of an immutable type; carries every fault found, not only the first. */
public final class InvalidValueException extends IllegalArgumentException {

    private static final long serialVersionUID = 1L;

    private final transient List<Invalid> invalids;

    public InvalidValueException(List<Invalid> invalids) {
        super(invalids.stream()
                .map(invalid ->
                        invalid.pointer().isEmpty() ? invalid.detail() : invalid.pointer() + ": " + invalid.detail())
                .collect(Collectors.joining("; ")));
        this.invalids = List.copyOf(invalids);
    }

    public InvalidValueException(String code, String detail) {
        this(List.of(new Invalid("", code, detail)));
    }

    /** Every fault, at least one. */
    public List<Invalid> invalids() {
        return invalids;
    }
}
