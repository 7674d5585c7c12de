package dev.splicebook.vehicle;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Where no source is named, the number is invented. */
class VinTest {

    private static final String USED = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789";

    @Test
    void reckonsTheCheckDigitOfTheRegulationsExample() {
        // 49 CFR 565.15, Table VI: the sum is 411, which leaves 4 over 11
        assertThat(Vin.checkDigit("1G4AH59H45G118341")).isEqualTo('4');
        assertThat(new Vin("1G4AH59H45G118341").hasRightCheckDigit()).isTrue();
    }

    // numbers in common use as examples of the check digit; each also comes out by the regulation's tables
    @ParameterizedTest
    @ValueSource(strings = {"1M8GDM9AXKP042788", "11111111111111111", "5GZCZ43D13S812715", "1G1BN53E6NW128495"})
    void takesWhatIsKnownToBeRight(String vin) {
        assertThat(new Vin(vin).hasRightCheckDigit()).isTrue();
    }

    // the regulation's example and one of the above with one character changed
    @ParameterizedTest
    @CsvSource({
        "5GZCZ43D23S812715, character 9 of the VIN is 2; the check digit reckoned from the others is 1",
        "1G4AH59H45G118331, character 9 of the VIN is 4; the check digit reckoned from the others is 1",
    })
    void refusesAWrongCheckDigitOfNorthAmerica(String vin, String detail) {
        assertThat(faults(vin)).containsExactly(new Invalid("", "bad-check-digit", detail));
    }

    // 49 CFR 565.15, Table VII: A is 1980, Y is 2000, 1 to 9 are 2001 to 2009, A is 2010 again; position 7 tells which
    @ParameterizedTest
    @CsvSource({
        "1, A, 1980", "1, H, 1987", "1, J, 1988", "1, N, 1992", "1, P, 1993", "1, R, 1994", "1, T, 1996", "1, V, 1997",
        "1, Y, 2000", "0, 1, 2001", "9, 9, 2009", "A, A, 2010", "K, L, 2020", "Z, Y, 2030", "B, 1, 2031", "B, 9, 2039",
    })
    void readsTheModelYearOfNorthAmerica(char cycle, char code, int year) {
        assertThat(new Vin(withCheckDigit("5ZZAA1" + cycle + "A_" + code + "0000017")).modelYears())
                .containsExactly(year);
    }

    @ParameterizedTest
    @ValueSource(chars = {'U', 'Z', '0'})
    void refusesACodeOfNoModelYearInNorthAmerica(char code) {
        assertThat(faults(withCheckDigit("5ZZAA1KA_" + code + "0000017")))
                .containsExactly(new Invalid(
                        "",
                        "bad-model-year",
                        "character 10 of the VIN is " + code
                                + "; a model year's code is a digit but 0 or a letter but I, O, Q, U and Z"));
    }

    @ParameterizedTest
    @CsvSource({"A, 1980, 2010", "Y, 2000, 2030", "1, 2001, 2031", "9, 2009, 2039"})
    void leavesBothCyclesOpenElsewhere(char code, int early, int late) {
        assertThat(new Vin("WZZAA11A0" + code + "0000017").modelYears()).containsExactly(early, late);
    }

    @ParameterizedTest
    @ValueSource(chars = {'U', 'Z', '0'})
    void readsNoModelYearWhereAMakerElsewherePutsNoCode(char code) {
        assertThat(new Vin("WZZAA11A0" + code + "0000017").modelYears()).isEmpty();
    }

    @Test
    void takesAnyCharacterForTheCheckDigitElsewhere() {
        String right = withCheckDigit("WZZAA11A_L0000017");

        assertThat(new Vin(right).hasRightCheckDigit()).isTrue();
        assertThat(new Vin(right.substring(0, 8) + "Z" + right.substring(9)).hasRightCheckDigit())
                .isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "AAZ, Africa",
        "CAZ, Africa",
        "HAZ, Asia",
        "JZZ, Asia",
        "RZZ, Asia",
        "SZZ, Europe",
        "WZZ, Europe",
        "ZZZ, Europe",
        "1ZZ, North America",
        "2ZZ, North America",
        "3ZZ, North America",
        "4ZZ, North America",
        "5ZZ, North America",
        "6ZZ, Oceania",
        "7AZ, Oceania",
        "7EZ, Oceania",
        "7FZ, North America",
        "70Z, North America",
        "8ZZ, South America",
        "9ZZ, South America",
    })
    void knowsThePartOfTheWorld(String wmi, String region) {
        Vin vin = new Vin(withCheckDigit(wmi + "AA1KA_L0000017"));

        assertThat(vin.region()).isEqualTo(region);
        assertThat(vin.wmi()).isEqualTo(wmi);
    }

    @ParameterizedTest
    @ValueSource(strings = {"DAZ", "GAZ", "0ZZ"})
    void knowsNoPartOfTheWorldWhereNoneIsGiven(String wmi) {
        assertThat(new Vin(wmi + "AA1KA0L0000017").region()).isNull();
    }

    @Test
    void takesLowerCaseForUpper() {
        String vin = withCheckDigit("5ZZAA1KA_L0000017");

        assertThat(new Vin(vin.toLowerCase(java.util.Locale.ROOT))).isEqualTo(new Vin(vin));
    }

    @Test
    void tellsEveryCharacterThatAVinHasNot() {
        assertThat(faults("IOQ-A1KA7L00 00\u00df\u0000"))
                .extracting(Invalid::detail)
                .containsExactly(
                        bad(1, "I"),
                        bad(2, "O"),
                        bad(3, "Q"),
                        bad(4, "-"),
                        bad(13, "a blank"),
                        bad(16, "\u00df"),
                        bad(17, "U+0000"));
    }

    @ParameterizedTest
    @CsvSource({"'', 0", "5ZZ, 3", "5ZZAA1KA7L000001, 16", "5ZZAA1KA7L00000177, 18"})
    void refusesAnotherLength(String vin, int length) {
        assertThat(faults(vin))
                .containsExactly(new Invalid("", "bad-length", "the VIN has " + length + " characters, not 17"));
    }

    @Test
    void forgivesNoBlanksAround() {
        assertThat(faults(" 5ZZAA1KA7L0000017"))
                .extracting(Invalid::code)
                .containsExactly("bad-length", "bad-character");
    }

    @Test
    void tellsAFewFaultsOfAHugeText() {
        assertThat(faults("?".repeat(100_000))).hasSize(18);
    }

    @Test
    void countsACharacterBeyondTheBasicOnesOnce() {
        assertThat(faults("\ud83d\ude97ZZAA1KA7L0000017"))
                .extracting(Invalid::code)
                .containsExactly("bad-character");
    }

    @Test
    void tellsWrongCheckDigitAndModelYearTogether() {
        assertThat(faults("5ZZAA1KAAU0000017"))
                .extracting(Invalid::code)
                .containsExactly("bad-check-digit", "bad-model-year");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1M8GDM9AXKP042788", "11111111111111111", "5GZCZ43D13S812715", "1G1BN53E6NW128495"})
    void refusesEveryChangeOfOneCharacterThatChangesWhatItCounts(String vin) {
        for (int at = 0; at < vin.length(); at++) {
            for (int with = 0; with < USED.length(); with++) {
                char other = USED.charAt(with);
                String changed = vin.substring(0, at) + other + vin.substring(at + 1);
                boolean northAmerican = "12345".indexOf(changed.charAt(0)) >= 0;
                boolean right = changed.charAt(8) == reckoned(changed);
                boolean year = "UZ0".indexOf(changed.charAt(9)) < 0;

                assertThat(find(changed) != null)
                        .as(changed)
                        .isEqualTo((right && year)
                                || (!northAmerican && changed.charAt(0) != '7')
                                || (changed.charAt(0) == '7' && "ABCDE".indexOf(changed.charAt(1)) >= 0));
                if (at != 8 && counts(other) != counts(vin.charAt(at))) {
                    assertThat(right).as("that %s is found out", changed).isFalse();
                }
            }
        }
    }

    @Test
    void tellsLogsTheMakerOnly() {
        assertThat(new Vin(withCheckDigit("5ZZAA1KA_L0000017"))).hasToString("a VIN of 5ZZ");
    }

    private static String bad(int position, String character) {
        return "character " + position + " of the VIN is " + character
                + "; a VIN has digits and the letters but I, O and Q";
    }

    private static List<Invalid> faults(String vin) {
        try {
            throw new AssertionError("taken: " + new Vin(vin).value());
        } catch (InvalidValueException refused) {
            return refused.invalids();
        }
    }

    private static @Nullable Vin find(String vin) {
        try {
            return new Vin(vin);
        } catch (InvalidValueException refused) {
            return null;
        }
    }

    private static String withCheckDigit(String vin) {
        return vin.replace('_', reckoned(vin.replace('_', '0')));
    }

    /** By another way than the code under test: letters count the last digit of their place in a row. */
    private static char reckoned(String vin) {
        int sum = 0;
        for (int at = 0; at < vin.length(); at++) {
            int weight = at < 7 ? 8 - at : at == 7 ? 10 : at == 8 ? 0 : 18 - at;
            sum += counts(vin.charAt(at)) * weight;
        }
        return sum % 11 == 10 ? 'X' : (char) ('0' + sum % 11);
    }

    private static int counts(char character) {
        return "0123456789.ABCDEFGH..JKLMN.P.R..STUVWXYZ".indexOf(character) % 10;
    }
}
