package dev.splicebook.exchange;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/** Reads a body line by line, one at a time in memory, and takes its hash on the way. */
final class LineReader {

    private static final int BUFFER_BYTES = 64 * 1024;

    private final InputStream body;
    private final int mostBytesOfLine;
    private final Duration longest;
    private final long startedNanos;
    private final MessageDigest digest;
    private final byte[] buffer = new byte[BUFFER_BYTES];
    private int at;
    private int end;
    private int number;
    private long bytes;
    private boolean tooLong;

    /** The body took longer than an import may, which holds a connection and locks all the while. */
    static final class TooSlowException extends IOException {

        private static final long serialVersionUID = 1L;

        TooSlowException(Duration longest) {
            super("the body did not end within " + longest.toSeconds() + " s");
        }
    }

    /**
     * @param mostBytesOfLine above which a line is passed over
     * @param longest how long the body may take to come in
     */
    LineReader(InputStream body, int mostBytesOfLine, Duration longest) {
        this.body = body;
        this.longest = longest;
        this.startedNanos = System.nanoTime();
        this.mostBytesOfLine = mostBytesOfLine;
        try {
            this.digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** The next line without its end; empty if it {@link #isTooLong()}; null behind the last one. */
    byte @Nullable [] next() throws IOException {
        ByteArrayOutputStream line = new ByteArrayOutputStream(256);
        tooLong = false;
        if (at == end && !fill()) {
            return null;
        }
        number++;
        do {
            int start = at;
            while (at < end && buffer[at] != '\n') {
                at++;
            }
            if (line.size() + (at - start) > mostBytesOfLine) {
                tooLong = true;
                line.reset();
            }
            if (!tooLong) {
                line.write(buffer, start, at - start);
            }
            if (at < end) {
                at++;
                break;
            }
        } while (fill());
        return line.toByteArray();
    }

    /** Reads on to the end without looking at lines. */
    void skipToEnd() throws IOException {
        while (fill()) {
            at = end;
        }
    }

    /** Whether the line read last is longer than a line may be. */
    boolean isTooLong() {
        return tooLong;
    }

    /** Of the line read last, from 1. */
    int number() {
        return number;
    }

    /** How many bytes of the body were read so far. */
    long bytes() {
        return bytes;
    }

    /** Of the whole body, once it is read to its end, in hexadecimal. */
    String sha256() {
        return HexFormat.of().formatHex(digest.digest());
    }

    private boolean fill() throws IOException {
        if (System.nanoTime() - startedNanos > longest.toNanos()) {
            throw new TooSlowException(longest);
        }
        int read = body.read(buffer, 0, buffer.length);
        at = 0;
        end = Math.max(read, 0);
        digest.update(buffer, 0, end);
        bytes += end;
        return read > 0;
    }
}
