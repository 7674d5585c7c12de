package dev.splicebook.hookup;

import com.fasterxml.jackson.annotation.JsonProperty;
import dev.splicebook.guard.Guard;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** What becomes of a lead that is not connected, and why. */
public record Unused(
        @JsonProperty("as") Fate fate, @Nullable String why) {

    /** What was done with the lead. */
    public enum Fate {
        CAPPED,
        TAPED_BACK,
        LEFT_PLUGGED,
        REMOVED;

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }

    public Unused {
        new Guard().text("why", why, 500).check();
    }
}
