package dev.splicebook.hookup;

import dev.splicebook.guard.InvalidValueException;
import java.util.regex.Pattern;

/**
 * How the vehicle identification numbers (VIN) of a map's vehicles begin: up to 17 of its characters, a {@code ?} where
 * any may stand.
 *
 * @param value 3 to 17 characters, at least 3 of them given
 */
public record VinPattern(String value) {

    private static final Pattern FORM = Pattern.compile("[A-HJ-NPR-Z0-9?]{3,17}");
    private static final int FEWEST_GIVEN = 3;

    public VinPattern {
        if (!FORM.matcher(value).matches()) {
            throw new InvalidValueException(
                    "bad-form",
                    "the VIN pattern \"" + (value.length() > 40 ? value.substring(0, 40) + "…" : value)
                            + "\" is not 3 to 17 of the digits, the letters but I, O and Q, and ?");
        }
        if (value.chars().filter(letter -> letter != '?').count() < FEWEST_GIVEN) {
            throw new InvalidValueException(
                    "bad-form", "the VIN pattern \"" + value + "\" gives fewer than 3 characters");
        }
    }

    /** Whether a VIN, in upper case, begins so. */
    public boolean matches(String vin) {
        for (int at = 0; at < value.length(); at++) {
            if (at >= vin.length() || (value.charAt(at) != '?' && value.charAt(at) != vin.charAt(at))) {
                return false;
            }
        }
        return true;
    }

    @Override
    public String toString() {
        return value;
    }
}
