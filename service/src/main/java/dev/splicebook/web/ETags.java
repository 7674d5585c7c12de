package dev.splicebook.web;

import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;

/** Conditional requests over revision numbers: the strong tag of revision 3 is {@code "3"}. */
public final class ETags {

    private ETags() {}

    /** The strong entity tag of a revision. */
    public static String of(long revision) {
        return "\"" + revision + "\"";
    }

    /**
     * Lets a change pass only if it was made to the latest revision.
     *
     * @param ifMatch the If-Match header; absent is a 428. A list and {@code *} are understood; a weak tag never matches
     * @throws ProblemException 428 without the header, 412 if it does not name {@code latestRevision}
     */
    public static void requireMatch(@Nullable String ifMatch, long latestRevision) {
        if (ifMatch == null || ifMatch.isBlank()) {
            throw Problems.preconditionRequired();
        }
        String wanted = of(latestRevision);
        for (String tag : ifMatch.split(",", -1)) {
            String stripped = tag.strip();
            if (stripped.equals(wanted) || stripped.equals("*")) {
                return;
            }
        }
        throw Problems.preconditionFailed(latestRevision);
    }

    /**
     * The representation of a revision with its tag, or 304 without a body where the caller has it already.
     *
     * @param ifNoneMatch the If-None-Match header, compared weakly as RFC 9110 says; may be absent
     */
    public static <T> ResponseEntity<T> respond(@Nullable String ifNoneMatch, long revision, Supplier<T> body) {
        String tag = of(revision);
        if (ifNoneMatch != null) {
            for (String known : ifNoneMatch.split(",", -1)) {
                String stripped = known.strip();
                if (stripped.equals("*") || stripped.equals(tag) || stripped.equals("W/" + tag)) {
                    return ResponseEntity.status(HttpStatus.NOT_MODIFIED)
                            .eTag(tag)
                            .build();
                }
            }
        }
        return ResponseEntity.ok().eTag(tag).body(body.get());
    }
}
