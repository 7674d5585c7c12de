package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;
import java.time.LocalDate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Says that a finding is accepted as it is, by whom and why. It holds for every finding of its fingerprint; as that is of
 * the rule and the facts, the waiver lapses by itself when one of these changes. A danger is never waived.
 *
 * @param fingerprint of the finding, 16 hexadecimal digits in lower case
 * @param author who answers for it, at most 200 characters
 * @param reason at most 1000 characters
 * @param expiresOn the last day, in UTC, on which it holds; absent if it holds for good
 */
public record Waiver(
        String fingerprint,
        String author,
        String reason,
        @Nullable LocalDate expiresOn) {

    /** What a fingerprint looks like. */
    public static final Pattern FINGERPRINT = Pattern.compile("[0-9a-f]{16}");

    public Waiver {
        new Guard()
                .matches(
                        "fingerprint",
                        fingerprint,
                        FINGERPRINT,
                        "a fingerprint of 16 hexadecimal digits, like 09af5c3de81b7246")
                .text("author", author, 200)
                .text("reason", reason, 1000)
                .refuseIf(!isDay(expiresOn), "expiresOn", "out-of-range", () -> told(expiresOn))
                .check();
    }

    /** Whether a waiver may end then: from the year 2000 to 9999. */
    public static boolean isDay(@Nullable LocalDate expiresOn) {
        return expiresOn == null || (expiresOn.getYear() >= 2000 && expiresOn.getYear() <= 9999);
    }

    /** Why a day is refused. */
    public static String told(@Nullable LocalDate expiresOn) {
        return "expiresOn is " + expiresOn + ", outside the years 2000 to 9999";
    }

    boolean hasExpired(LocalDate today) {
        return expiresOn != null && today.isAfter(expiresOn);
    }
}
