package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * Why a waiver holds for nothing.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record LapseReason(@JsonValue String value) {

    /** Its last day is over. */
    public static final LapseReason EXPIRED = new LapseReason("expired");

    /** There is no such finding: a fact has changed, or what it was about is mended. */
    public static final LapseReason NO_SUCH_FINDING = new LapseReason("no-such-finding");

    /** The finding is a danger, which is never waived. */
    public static final LapseReason DANGER = new LapseReason("danger");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public LapseReason {
        Require.text("LapseReason", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
