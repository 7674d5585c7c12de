package dev.splicebook.web;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import dev.splicebook.guard.Guard;
import dev.splicebook.guard.InvalidValueException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** A body with one of everything: a shelf of lamps, each with its feed. */
record Sample(
        String name,
        @Nullable Integer count,
        @Nullable Boolean lit,

        @JsonFormat(with = JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY)
        List<SampleState> states,

        Set<Tint> tints,
        Map<String, Feed> feeds,
        Map<Tint, Integer> counts,
        List<List<Integer>> pairs,
        @Nullable Sample below,
        @Nullable JsonNode extra,
        @Nullable Battery battery) {

    enum SampleState {
        ASLEEP,
        PARKING_BRAKE,
        @JsonProperty("12V")
        TWELVE_VOLTS
    }

    record Tint(String letters) {
        Tint {
            if (!letters.matches("[A-Z]{2}")) {
                throw new InvalidValueException("bad-form", "\"" + letters + "\" is not two capital letters");
            }
        }

        boolean isDark() {
            return letters.equals("BK");
        }
    }

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
    @JsonSubTypes({
        @JsonSubTypes.Type(value = Battery.class, name = "battery"),
        @JsonSubTypes.Type(value = Mains.class, name = "mains")
    })
    sealed interface Feed permits Battery, Mains {}

    record Battery(double volts, @Nullable Double maxAmps) implements Feed {
        Battery {
            new Guard()
                    .positive("volts", volts, 60)
                    .positive("maxAmps", maxAmps, 1000)
                    .check();
        }
    }

    record Mains(@JsonProperty("plug") String plugShape) implements Feed {
        Mains {
            if (plugShape.equals("round")) {
                throw new IllegalArgumentException("no round plugs");
            }
        }
    }
}
