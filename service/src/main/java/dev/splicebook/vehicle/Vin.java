package dev.splicebook.vehicle;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A vehicle identification number of 17 characters, as 49 CFR 565.15 (content requirements, Tables III to VII) has it for
 * North America and ISO 3779 for the rest of the world.
 *
 * <p>It tells who keeps a vehicle, so it is stored nowhere, and {@link #toString} shows the maker's part only.
 *
 * @param value digits and letters but I, O and Q, lower case being taken as upper. In North America the check digit must
 *     be right and the model year's code must be one
 */
public record Vin(String value) {

    private static final int LENGTH = 17;
    private static final int WMI_LENGTH = 3;
    private static final int CYCLE_POSITION = 7;
    private static final int CHECK_POSITION = 9;
    private static final int YEAR_POSITION = 10;

    /** Table III: what each letter counts in the check digit, from A on; 0 for I, O and Q, which are not used. */
    private static final int[] LETTER_VALUES = {
        1, 2, 3, 4, 5, 6, 7, 8, 0, 1, 2, 3, 4, 5, 0, 7, 0, 9, 2, 3, 4, 5, 6, 7, 8, 9
    };

    /** Table IV: what each position weighs in the check digit; its own counts nothing. */
    private static final int[] WEIGHTS = {8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2};

    /** Table V: the check digit by the remainder of the weighted sum over 11. */
    private static final String CHECK_DIGITS = "0123456789X";

    /** Table VII: the codes of one cycle of model years, in order. */
    private static final String YEAR_CODES = "ABCDEFGHJKLMNPRSTVWXY123456789";

    private static final int FIRST_YEAR = 1980;

    /**
     * Takes a number that could be one.
     *
     * @throws InvalidValueException with a fault for each cause, naming position, character and reason:
     *     {@code bad-length}, {@code bad-character}, {@code bad-check-digit}, {@code bad-model-year}
     */
    public Vin {
        value = upperCase(value);
        List<Invalid> faults = faults(value);
        if (!faults.isEmpty()) {
            throw new InvalidValueException(faults);
        }
    }

    /** The world manufacturer identifier, 3 characters. */
    public String wmi() {
        return value.substring(0, WMI_LENGTH);
    }

    /**
     * The part of the world that the maker is registered in, by ISO 3780; null where the first character is given to none.
     * Of 7, A to E are New Zealand's and the rest the United States'.
     */
    public @Nullable String region() {
        return region(value);
    }

    /**
     * The model years that it can stand for, from the earliest: one in North America, where position 7 tells the cycle;
     * elsewhere two, as the code comes round every thirty years, or none where the maker puts no code. The regulation says
     * so of vehicles up to 4536 kg; in a heavier one position 7 may mislead.
     */
    public List<Integer> modelYears() {
        int offset = YEAR_CODES.indexOf(at(value, YEAR_POSITION));
        if (offset < 0) {
            return List.of();
        }
        int early = FIRST_YEAR + offset;
        int late = early + YEAR_CODES.length();
        if (!isNorthAmerican(value)) {
            return List.of(early, late);
        }
        return List.of(isDigit(at(value, CYCLE_POSITION)) ? early : late);
    }

    /** Whether the check digit is that of the other characters; always so in North America, elsewhere by chance or custom. */
    public boolean hasRightCheckDigit() {
        return at(value, CHECK_POSITION) == checkDigit(value);
    }

    /** For logs: which maker, and not which vehicle. */
    @Override
    public String toString() {
        return "a VIN of " + wmi();
    }

    /**
     * The check digit that the other characters ask for.
     *
     * @param vin 17 digits and letters but I, O and Q, in upper case
     * @return 0 to 9 or X
     */
    static char checkDigit(String vin) {
        int sum = 0;
        for (int i = 0; i < LENGTH; i++) {
            sum += WEIGHTS[i] * valueOf(vin.charAt(i));
        }
        return CHECK_DIGITS.charAt(sum % CHECK_DIGITS.length());
    }

    private static int valueOf(char character) {
        return isDigit(character) ? character - '0' : LETTER_VALUES[character - 'A'];
    }

    private static List<Invalid> faults(String vin) {
        List<Invalid> faults = new ArrayList<>();
        int[] characters = vin.codePoints().toArray();
        if (characters.length != LENGTH) {
            faults.add(
                    new Invalid("", "bad-length", "the VIN has " + characters.length + " characters, not " + LENGTH));
        }
        for (int i = 0; i < Math.min(characters.length, LENGTH); i++) {
            if (!isUsed(characters[i])) {
                faults.add(new Invalid(
                        "",
                        "bad-character",
                        "character " + (i + 1) + " of the VIN is " + quoted(characters[i])
                                + "; a VIN has digits and the letters but I, O and Q"));
            }
        }
        if (faults.isEmpty() && isNorthAmerican(vin)) {
            addNorthAmericanFaults(vin, faults);
        }
        return faults;
    }

    private static void addNorthAmericanFaults(String vin, List<Invalid> faults) {
        char checkDigit = checkDigit(vin);
        if (at(vin, CHECK_POSITION) != checkDigit) {
            faults.add(new Invalid(
                    "",
                    "bad-check-digit",
                    "character " + CHECK_POSITION + " of the VIN is " + at(vin, CHECK_POSITION)
                            + "; the check digit reckoned from the others is " + checkDigit));
        }
        if (YEAR_CODES.indexOf(at(vin, YEAR_POSITION)) < 0) {
            faults.add(new Invalid(
                    "",
                    "bad-model-year",
                    "character " + YEAR_POSITION + " of the VIN is " + at(vin, YEAR_POSITION)
                            + "; a model year's code is a digit but 0 or a letter but I, O, Q, U and Z"));
        }
    }

    private static @Nullable String region(String vin) {
        char first = vin.charAt(0);
        if (first >= 'A' && first <= 'C') {
            return "Africa";
        }
        if (first >= 'H' && first <= 'R') {
            return "Asia";
        }
        if (first >= 'S' && first <= 'Z') {
            return "Europe";
        }
        return switch (first) {
            case '1', '2', '3', '4', '5' -> "North America";
            case '6' -> "Oceania";
            case '7' -> vin.charAt(1) >= 'A' && vin.charAt(1) <= 'E' ? "Oceania" : "North America";
            case '8', '9' -> "South America";
            default -> null;
        };
    }

    private static boolean isNorthAmerican(String vin) {
        return "North America".equals(region(vin));
    }

    private static char at(String vin, int position) {
        return vin.charAt(position - 1);
    }

    private static boolean isDigit(int character) {
        return character >= '0' && character <= '9';
    }

    private static boolean isUsed(int character) {
        return isDigit(character)
                || (character >= 'A' && character <= 'Z' && character != 'I' && character != 'O' && character != 'Q');
    }

    private static String quoted(int character) {
        if (Character.isLetterOrDigit(character) || (character > ' ' && character < 0x7f)) {
            return Character.toString(character);
        }
        return character == ' ' ? "a blank" : String.format("U+%04X", character);
    }

    /** Of the letters of a VIN only: in general, upper case can be longer. */
    private static String upperCase(String text) {
        StringBuilder upper = new StringBuilder(text);
        for (int i = 0; i < upper.length(); i++) {
            char letter = upper.charAt(i);
            if (letter >= 'a' && letter <= 'z') {
                upper.setCharAt(i, (char) (letter - 'a' + 'A'));
            }
        }
        return upper.toString();
    }
}
