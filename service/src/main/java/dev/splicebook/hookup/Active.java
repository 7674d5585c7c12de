package dev.splicebook.hookup;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Locale;

/** How a control line speaks. */
public enum Active {
    @JsonProperty("12V")
    TWELVE_VOLTS,
    GROUND,
    PULSE,
    PWM,
    RESISTANCE;

    @Override
    public String toString() {
        return this == TWELVE_VOLTS ? "12 V" : name().toLowerCase(Locale.ROOT);
    }
}
