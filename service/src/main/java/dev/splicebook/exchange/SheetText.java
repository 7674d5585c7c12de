package dev.splicebook.exchange;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.NavigableSet;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A spreadsheet as text.
 *
 * @param text with U+FFFD in place of bytes that are not UTF-8, and without a byte order mark
 * @param brokenLines the lines with such bytes, each of which has its fault
 */
record SheetText(String text, NavigableSet<Integer> brokenLines) {

    static final char BROKEN = '\ufffd';

    /** Several times what all columns take. */
    private static final int LONGEST_HEADER = 20_000;

    /** Behind so many, a file is no spreadsheet with a few wrong bytes. */
    private static final int MOST_BROKEN_LINES = 1000;

    /** As far as a file is looked into for signs of UTF-16. */
    private static final int FIRST_BYTES = 64;

    /** A first line with which some spreadsheet programs say what separates the cells. */
    private static final Pattern SEPARATOR_LINE = Pattern.compile("\\A\"?[sS][eE][pP]=[,;\t]\"?(?=[\r\n])");

    private static final char BYTE_ORDER_MARK = '\ufeff';

    SheetText {
        brokenLines = Collections.unmodifiableNavigableSet(new TreeSet<>(brokenLines));
    }

    /** Absent if there is nothing to read on; the fault is told then. */
    static @Nullable SheetText decode(byte[] body, SheetFaults faults) {
        if (isUtf16(body)) {
            faults.inLine(1, "", "bad-encoding", "the file begins as UTF-16 does; UTF-8 is read");
            return null;
        }
        CharsetDecoder decoder = StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
        ByteBuffer bytes = ByteBuffer.wrap(body);
        CharBuffer characters = CharBuffer.allocate(body.length + 1);
        Place place = new Place(body);
        NavigableSet<Integer> broken = new TreeSet<>();
        CoderResult result = decoder.decode(bytes, characters, true);
        while (result.isError()) {
            place.moveTo(bytes.position());
            if (broken.add(place.line)) {
                faults.inLine(
                        place.line,
                        "",
                        "bad-encoding",
                        String.format(
                                "byte %d of the line is 0x%02X, which is not UTF-8 there",
                                bytes.position() - place.lineStart + 1, body[bytes.position()] & 0xff));
                if (broken.size() > MOST_BROKEN_LINES) {
                    faults.inLine(
                            place.line,
                            "",
                            "bad-encoding",
                            "more than " + MOST_BROKEN_LINES
                                    + " lines are not UTF-8, and the file is read no further; it may be no text");
                    return null;
                }
            }
            bytes.position(bytes.position() + result.length());
            characters.put(BROKEN);
            result = decoder.decode(bytes, characters, true);
        }
        characters.flip();
        boolean marked = characters.length() > 0 && characters.charAt(0) == BYTE_ORDER_MARK;
        String text =
                characters.subSequence(marked ? 1 : 0, characters.length()).toString();
        // the header shows it too; the line stays, so that those behind it keep their numbers
        return new SheetText(SEPARATOR_LINE.matcher(text).replaceFirst(""), broken);
    }

    /** By its byte order mark, or by every other byte being 0, as in UTF-16 of a header. */
    private static boolean isUtf16(byte[] body) {
        if (body.length >= 2 && (body[0] & 0xff) + (body[1] & 0xff) == 0xff + 0xfe && (body[0] & 0xff) >= 0xfe) {
            return true;
        }
        int looked = Math.min(body.length, FIRST_BYTES);
        int[] zeros = new int[2];
        for (int at = 0; at < looked; at++) {
            zeros[at % 2] += body[at] == 0 ? 1 : 0;
        }
        return looked > 3 && (zeros[0] == (looked + 1) / 2 || zeros[1] == looked / 2) && zeros[0] + zeros[1] < looked;
    }

    /** Whether a cell that begins in a line holds bytes that were not UTF-8, so that nothing more is said of it. */
    boolean isBroken(Cell cell) {
        if (brokenLines.isEmpty() || cell.text().indexOf(BROKEN) < 0) {
            return false;
        }
        Integer next = brokenLines.ceiling(cell.line());
        return next != null && next <= cell.line() + lineBreaks(cell.text());
    }

    /** Line breaks of any of the three kinds. */
    static int lineBreaks(String text) {
        int breaks = 0;
        for (int at = 0; at < text.length(); at++) {
            char letter = text.charAt(at);
            boolean breaking =
                    letter == '\n' || (letter == '\r' && (at + 1 == text.length() || text.charAt(at + 1) != '\n'));
            breaks += breaking ? 1 : 0;
        }
        return breaks;
    }

    /** The separator that makes most known names of the first line that is not blank; a comma where none does. */
    char separator() {
        String line = text.lines().filter(any -> !any.isBlank()).findFirst().orElse("");
        String header = line.substring(0, Math.min(line.length(), LONGEST_HEADER));
        char best = ',';
        int most = 0;
        for (char candidate : new char[] {',', ';', '\t'}) {
            int known = 0;
            String[] names = header.split(String.valueOf(candidate), -1);
            for (String name : names) {
                known += SheetColumns.all().contains(SheetColumns.named(unquoted(name))) ? 1 : 0;
            }
            // where no name is known, the number of cells tells
            int score = 1000 * known + Math.min(names.length - 1, 999);
            if (score > most) {
                most = score;
                best = candidate;
            }
        }
        return best;
    }

    private static String unquoted(String name) {
        String stripped = name.strip();
        boolean quoted = stripped.length() > 1 && stripped.startsWith("\"") && stripped.endsWith("\"");
        return quoted ? stripped.substring(1, stripped.length() - 1).strip() : stripped;
    }

    /**
     * The first place at which quoting is broken.
     *
     * @param closed whether the quotes end, with something behind them
     */
    record BrokenQuotes(int line, int column, boolean closed) {}

    /** Where quoting is broken; only asked where it is. */
    BrokenQuotes findBrokenQuotes(char separator) {
        int line = 1;
        int column = 1;
        int at = 0;
        while (at < text.length()) {
            char letter = text.charAt(at);
            if (letter == '"') {
                int close = closing(at);
                if (close < 0) {
                    return new BrokenQuotes(line, column, false);
                }
                int behind = close + 1;
                while (behind < text.length() && isFiller(text.charAt(behind), separator)) {
                    behind++;
                }
                if (behind < text.length() && !endsCell(text.charAt(behind), separator)) {
                    return new BrokenQuotes(line, column, true);
                }
                line += lineBreaks(text.substring(at, close));
                at = behind;
            } else {
                while (at < text.length() && !endsCell(text.charAt(at), separator)) {
                    at++;
                }
            }
            if (at < text.length()) {
                if (text.charAt(at) == separator) {
                    column++;
                } else {
                    boolean pair = text.charAt(at) == '\r' && at + 1 < text.length() && text.charAt(at + 1) == '\n';
                    at += pair ? 1 : 0;
                    line++;
                    column = 1;
                }
                at++;
            }
        }
        throw new IllegalStateException("no quotes are broken");
    }

    private int closing(int open) {
        int at = open + 1;
        while (at < text.length()) {
            if (text.charAt(at) == '"') {
                if (at + 1 == text.length() || text.charAt(at + 1) != '"') {
                    return at;
                }
                at++;
            }
            at++;
        }
        return -1;
    }

    private static boolean isFiller(char letter, char separator) {
        return Character.isWhitespace(letter) && !endsCell(letter, separator);
    }

    private static boolean endsCell(char letter, char separator) {
        return letter == separator || letter == '\n' || letter == '\r';
    }

    /** Where the decoder stands in the bytes. */
    private static final class Place {

        private final byte[] body;
        private int position;
        private int line = 1;
        private int lineStart;

        Place(byte[] body) {
            this.body = body;
        }

        void moveTo(int next) {
            for (; position < next; position++) {
                boolean breaks = body[position] == '\n'
                        || (body[position] == '\r' && (position + 1 == body.length || body[position + 1] != '\n'));
                if (breaks) {
                    line++;
                    lineStart = position + 1;
                }
            }
        }
    }
}
