package dev.splicebook.web;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.exc.StreamConstraintsException;
import tools.jackson.core.exc.StreamReadException;
import tools.jackson.core.exc.UnexpectedEndOfInputException;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.core.json.JsonReadFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The first stage of reading a body: from bytes to a tree, or the first fault of syntax with its line and column. */
final class JsonText {

    static final int DEEPEST = 64;
    static final int LONGEST_TEXT = 100_000;
    static final int LONGEST_NAME = 200;
    static final int LONGEST_NUMBER = 1000;

    /** Keeps the tree of the largest body in bounds: a list of empty objects costs fifty times its text. */
    static final int MOST_VALUES = 500_000;

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private static final JsonFactory FACTORY = JsonFactory.builder()
            // the depth is judged here, with a pointer, long before the parser would
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(10 * DEEPEST)
                    .maxNumberLength(LONGEST_NUMBER)
                    .build())
            // read so that they can be refused by name and place
            .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
            .build();

    private final JsonParser parser;
    private final int firstLine;
    private final Deque<JsonNode> open = new ArrayDeque<>();
    private @Nullable JsonNode root;
    private @Nullable String name;

    private JsonText(JsonParser parser, int firstLine) {
        this.parser = parser;
        this.firstLine = firstLine;
    }

    /** @throws ProblemException 400 with the one fault */
    static String decode(byte[] body) {
        return decode(body, 1);
    }

    /** As {@link #decode(byte[])}, of a part of a body that begins at a line. */
    static String decode(byte[] body, int firstLine) {
        CharsetDecoder decoder = StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
        ByteBuffer bytes = ByteBuffer.wrap(body);
        CharBuffer characters = CharBuffer.allocate(body.length);
        CoderResult result = decoder.decode(bytes, characters, true);
        characters.flip();
        if (result.isError()) {
            int line = firstLine;
            int column = 1;
            for (int i = 0; i < characters.length(); i++) {
                if (characters.charAt(i) == '\n') {
                    line++;
                    column = 1;
                } else {
                    column++;
                }
            }
            throw fault("", "bad-encoding", "the body is not UTF-8 " + place(line, column));
        }
        boolean marked = characters.length() > 0 && characters.charAt(0) == '\ufeff';
        return marked ? characters.subSequence(1, characters.length()).toString() : characters.toString();
    }

    /** @throws ProblemException 400 with the one fault */
    static JsonNode parse(String text) {
        return parse(text, 1);
    }

    /** As {@link #parse(String)}, of a part of a body that begins at a line. */
    static JsonNode parse(String text, int firstLine) {
        try (JsonParser parser = FACTORY.createParser(ObjectReadContext.empty(), text)) {
            return new JsonText(parser, firstLine).parse();
        }
    }

    /** The text of a member of an object that {@link #parse} took. */
    static String member(String object, String name) {
        try (JsonParser parser = FACTORY.createParser(ObjectReadContext.empty(), object)) {
            parser.nextToken();
            while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
                boolean found = parser.currentName().equals(name);
                parser.nextToken();
                int start = (int) parser.currentTokenLocation().getCharOffset();
                parser.skipChildren();
                // a text is only read to its end where it is asked for
                parser.finishToken();
                if (found) {
                    return object.substring(
                            start, (int) parser.currentLocation().getCharOffset());
                }
            }
        }
        throw new IllegalArgumentException("no member " + name);
    }

    /** Well-formed JSON without the blanks between its tokens: numbers, texts and the order of keys stay as they are. */
    static String compact(String wellFormed) {
        StringBuilder compact = new StringBuilder(wellFormed.length());
        boolean inText = false;
        boolean escaped = false;
        for (int i = 0; i < wellFormed.length(); i++) {
            char letter = wellFormed.charAt(i);
            if (inText) {
                compact.append(letter);
                inText = escaped || letter != '"';
                escaped = !escaped && letter == '\\';
            } else if (letter > ' ') {
                compact.append(letter);
                inText = letter == '"';
            }
        }
        return compact.toString();
    }

    private JsonNode parse() {
        try {
            int values = 0;
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (++values > MOST_VALUES) {
                    throw faultHere("too-many-values", "the body has more than " + MOST_VALUES + " names and values");
                }
                if (root != null && open.isEmpty()) {
                    throw fault("", "trailing-content", "the body goes on behind its value " + place());
                }
                take(token);
            }
        } catch (UnexpectedEndOfInputException end) {
            throw fault("", "malformed-json", "the body ends before its JSON does" + at(end.getLocation()));
        } catch (StreamConstraintsException tooMuch) {
            throw faultHere("too-long", "a number or a name is too long");
        } catch (StreamReadException malformed) {
            throw fault(
                    "",
                    "malformed-json",
                    "the body is not well-formed JSON" + at(malformed.getLocation()) + ": "
                            + cause(malformed.getOriginalMessage()));
        }
        if (root == null) {
            throw fault("", "empty-body", "the body is empty");
        }
        return root;
    }

    private void take(JsonToken token) {
        switch (token) {
            case PROPERTY_NAME -> takeName(parser.currentName());
            case START_OBJECT -> enter(NODES.objectNode());
            case START_ARRAY -> enter(NODES.arrayNode());
            case END_OBJECT, END_ARRAY -> open.pop();
            case VALUE_STRING -> add(NODES.stringNode(checked(parser.getString())));
            case VALUE_NUMBER_INT -> add(integer());
            case VALUE_NUMBER_FLOAT -> add(fraction());
            case VALUE_TRUE -> add(NODES.booleanNode(true));
            case VALUE_FALSE -> add(NODES.booleanNode(false));
            case VALUE_NULL -> add(NODES.nullNode());
            default -> throw new IllegalStateException("no such token in JSON text: " + token);
        }
    }

    private void takeName(String read) {
        if (read.length() > LONGEST_NAME) {
            throw faultHere("name-too-long", "a name has " + read.length() + " characters, above " + LONGEST_NAME);
        }
        name = checked(read);
        if (open.peek() instanceof ObjectNode object && object.get(read) != null) {
            throw faultHere("duplicate-key", "\"" + shortened(read) + "\" stands twice in one object");
        }
    }

    private void enter(JsonNode container) {
        if (open.size() == DEEPEST) {
            throw faultHere("too-deep", "the body is nested deeper than " + DEEPEST + " levels");
        }
        add(container);
        open.push(container);
    }

    private void add(JsonNode value) {
        JsonNode parent = open.peek();
        if (parent instanceof ObjectNode object && name != null) {
            object.set(name, value);
        } else if (parent instanceof ArrayNode array) {
            array.add(value);
        } else {
            root = value;
        }
    }

    private JsonNode integer() {
        return switch (parser.getNumberType()) {
            case INT -> NODES.numberNode(parser.getIntValue());
            case LONG -> NODES.numberNode(parser.getLongValue());
            default -> {
                finite(Double.parseDouble(parser.getString()));
                yield NODES.numberNode(parser.getBigIntegerValue());
            }
        };
    }

    private JsonNode fraction() {
        if (parser.isNaN()) {
            throw faultHere("not-a-number", parser.getString() + " is not a number in JSON");
        }
        return NODES.numberNode(finite(parser.getDoubleValue()));
    }

    private double finite(double value) {
        if (Double.isInfinite(value)) {
            throw faultHere(
                    "number-out-of-range",
                    "the number " + shortened(parser.getString()) + " is beyond what is computed with, 1.8e308");
        }
        return value;
    }

    private String checked(String text) {
        if (text.length() > LONGEST_TEXT) {
            throw faultHere("text-too-long", "a text has " + text.length() + " characters, above " + LONGEST_TEXT);
        }
        for (int i = 0; i < text.length(); i++) {
            char letter = text.charAt(i);
            if (letter == 0) {
                throw faultHere("bad-character", "a text holds the character U+0000");
            }
            if (Character.isSurrogate(letter)) {
                boolean paired = Character.isHighSurrogate(letter)
                        && i + 1 < text.length()
                        && Character.isLowSurrogate(text.charAt(i + 1));
                if (!paired) {
                    throw faultHere(
                            "bad-character", String.format("a text holds half a surrogate pair, U+%04X", (int) letter));
                }
                i++;
            }
        }
        return text;
    }

    private ProblemException faultHere(String code, String detail) {
        String pointer = parser.streamReadContext().pathAsPointer().toString();
        return fault(pointer, code, detail + " " + place());
    }

    private static ProblemException fault(String pointer, String code, String detail) {
        return Problems.badBody(List.of(Fault.at(pointer, code, detail)));
    }

    private String place() {
        TokenStreamLocation location = parser.currentTokenLocation();
        return place(firstLine - 1 + location.getLineNr(), location.getColumnNr());
    }

    private static String place(int line, int column) {
        return "(line " + line + ", column " + column + ")";
    }

    private String at(@Nullable TokenStreamLocation location) {
        return location == null ? "" : " " + place(firstLine - 1 + location.getLineNr(), location.getColumnNr());
    }

    /** The parser's own words without its hints on how to be configured more laxly. */
    private static String cause(String message) {
        String plain = message.lines()
                .findFirst()
                .orElse(message)
                .replaceAll("(a valid value )?\\(JSON String.*", "a value")
                .replaceAll("\\(\\(CTRL-CHAR, code (\\d+)\\)\\)", "of code $1")
                .replaceAll("\\s*\\(code \\d+[^)]*\\)|\\s*[:(]\\s*(enable|maybe) .*", "");
        return shortened(plain);
    }

    private static String shortened(String text) {
        return text.length() > 120 ? text.substring(0, 120) + "…" : text;
    }
}
