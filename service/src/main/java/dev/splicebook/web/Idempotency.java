package dev.splicebook.web;

import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;

/**
 * Lets a caller send a creating request again without creating twice: under the key that it gives in the header
 * {@value #HEADER}, a change is made once and told again for seven days.
 */
public interface Idempotency {

    /** The request header with the key: 1 to 100 visible ASCII characters, of the caller's making. */
    String HEADER = "Idempotency-Key";

    /** The response header that an answer told again carries. */
    String REPLAYED = "Idempotency-Replayed";

    /**
     * Makes a change in one transaction with the record of it, or tells what the same request made before. While another
     * request with the key runs, this one waits for it, 3 s at most, and ends as a conflict if that does not suffice. A
     * change that throws leaves nothing behind, not even the key.
     *
     * @param key from the header; without one the change is simply made
     * @param fingerprint of the request, by {@link #fingerprint}
     * @param change what it made, by {@link #ref}
     * @throws ProblemException 400 for a key of another form, 422 if another request used the key
     */
    Once once(Caller caller, @Nullable String key, String fingerprint, Supplier<String> change);

    /**
     * The same for a change that needs long work ahead, like a check: that is done before the transaction begins, and not at
     * all where an earlier request made the change.
     *
     * @param ahead what the change needs; what it throws is thrown, and leaves nothing behind
     * @param change what it made, by {@link #ref}
     */
    <T> Once once(
            Caller caller,
            @Nullable String key,
            String fingerprint,
            Supplier<T> ahead,
            Function<? super T, String> change);

    /** What a request asks for: equal for the same method, path, query, If-Match and body. */
    static String fingerprint(HttpServletRequest request, String body) {
        MessageDigest digest = sha256();
        String query = request.getQueryString();
        String ifMatch = request.getHeader(HttpHeaders.IF_MATCH);
        for (String part : new String[] {
            request.getMethod(),
            request.getRequestURI(),
            query == null ? "" : query,
            ifMatch == null ? "" : ifMatch,
            body
        }) {
            digest.update(part.getBytes(StandardCharsets.UTF_8));
            digest.update((byte) 0);
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    /** Names a revision for {@link #once}, like {@code AMP-4/3}. */
    static String ref(Object name, int revision) {
        return name + "/" + revision;
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /**
     * What was made under a key.
     *
     * @param ref of the revision, as {@link #ref} wrote it
     * @param replayed whether an earlier request made it
     */
    record Once(String ref, boolean replayed) {

        /** The first part of the ref. */
        public String name() {
            return ref.substring(0, ref.lastIndexOf('/'));
        }

        /** The second part of the ref. */
        public int revision() {
            return Integer.parseInt(ref.substring(ref.lastIndexOf('/') + 1));
        }

        /** Says in the answer whether it is told again. */
        public void mark(HttpHeaders headers) {
            if (replayed) {
                headers.set(REPLAYED, "true");
            }
        }
    }
}
