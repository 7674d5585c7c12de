package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * How a rule ended.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record Result(@JsonValue String value) {

    /** It was checked and found nothing. */
    public static final Result PASSED = new Result("passed");

    /** It was checked and found something. */
    public static final Result FAILED = new Result("failed");

    /** The hookup has nothing that it is about. */
    public static final Result NOT_APPLICABLE = new Result("not-applicable");

    /** Facts that it needs are unknown. */
    public static final Result NOT_CHECKED = new Result("not-checked");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public Result {
        Require.text("Result", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
