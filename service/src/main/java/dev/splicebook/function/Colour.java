package dev.splicebook.function;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a wire wears, in IEC 60757 letters: {@code BU}, or base and stripe, {@code WH/BK}.
 *
 * @param value one code, or two with a stroke between them
 */
public record Colour(String value) {

    private static final Map<String, String> WORDS_BY_CODE = wordsByCode();
    private static final Map<String, String> CODES_BY_WORD = codesByWord();
    private static final int QUOTED = 40;

    /**
     * Takes one or two codes.
     *
     * @throws InvalidValueException with code {@code unknown-colour} for each part that is no code, naming the codes
     */
    public Colour {
        if (!WORDS_BY_CODE.containsKey(value)) {
            List<Invalid> faults = faults(value);
            if (!faults.isEmpty()) {
                throw new InvalidValueException(faults);
            }
        }
    }

    /** In words, like {@code white with black stripe}. */
    public String words() {
        int stroke = value.indexOf('/');
        return stroke < 0
                ? word(value)
                : word(value.substring(0, stroke)) + " with " + word(value.substring(stroke + 1)) + " stripe";
    }

    @Override
    public String toString() {
        return value;
    }

    private static String word(String code) {
        return WORDS_BY_CODE.getOrDefault(code, code);
    }

    private static List<Invalid> faults(String value) {
        String[] parts = value.split("/", 3);
        if (parts.length > 2) {
            return List.of(fault("colour \"" + quoted(value) + "\" has more than a base and a stripe"));
        }
        List<Invalid> faults = new ArrayList<>();
        for (String part : parts) {
            if (!WORDS_BY_CODE.containsKey(part)) {
                faults.add(fault("colour \"" + quoted(part) + "\" is no letter code of IEC 60757" + meant(part)));
            }
        }
        return faults;
    }

    private static Invalid fault(String detail) {
        return new Invalid(
                "", "unknown-colour", detail + "; the codes are " + String.join(" ", WORDS_BY_CODE.keySet()));
    }

    private static String meant(String part) {
        String word = part.strip().toLowerCase(Locale.ROOT);
        @Nullable String code = CODES_BY_WORD.get(word);
        return code == null ? "" : ", " + code + " stands for " + word(code);
    }

    private static String quoted(String text) {
        return text.length() > QUOTED ? text.substring(0, QUOTED) + "…" : text;
    }

    private static Map<String, String> wordsByCode() {
        Map<String, String> words = new LinkedHashMap<>();
        words.put("BK", "black");
        words.put("BN", "brown");
        words.put("RD", "red");
        words.put("OG", "orange");
        words.put("YE", "yellow");
        words.put("GN", "green");
        words.put("BU", "blue");
        words.put("VT", "violet");
        words.put("GY", "grey");
        words.put("WH", "white");
        words.put("PK", "pink");
        words.put("GD", "gold");
        words.put("TQ", "turquoise");
        words.put("SR", "silver");
        words.put("GNYE", "green and yellow");
        return words;
    }

    private static Map<String, String> codesByWord() {
        Map<String, String> codes = new LinkedHashMap<>();
        wordsByCode().forEach((code, word) -> {
            codes.put(word, code);
            codes.put(code.toLowerCase(Locale.ROOT), code);
        });
        codes.put("gray", "GY");
        codes.put("purple", "VT");
        return codes;
    }
}
