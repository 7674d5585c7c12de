package dev.splicebook.hookup.pair;

import java.util.List;

/** What a way lacks, in the words that say so, and the kind of device that helps. */
final class Lack {

    static final String CONVERTER = "speaker level wants a converter before a line input";
    static final String ISOLATOR = "a driven return wants an isolator before it meets another or the chassis";
    static final String RELAY = "no switched source gives enough by itself";

    private static final List<String> ALL = List.of(CONVERTER, ISOLATOR, RELAY);

    private Lack() {}

    static boolean isLack(String why) {
        return ALL.contains(why);
    }

    /** The kind of device, as the catalogue names it. */
    static String kind(String need) {
        return switch (need) {
            case CONVERTER -> "line-output-converter";
            case ISOLATOR -> "isolator";
            default -> "relay";
        };
    }
}
