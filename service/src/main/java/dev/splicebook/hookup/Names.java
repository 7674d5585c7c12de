package dev.splicebook.hookup;

import java.util.List;
import java.util.regex.Pattern;

/** The forms of the names that a hookup is written with. */
public final class Names {

    /** The vehicle's ref among the parts. */
    public static final String VEHICLE = "CAR";

    /** What {@link #NAME} takes, in words. */
    public static final String FORM =
            "a name of at most 64 letters, digits, _, + and -, starting with a letter or digit";

    /** Names of connectors and terminals. */
    public static final Pattern NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9_+-]{0,63}");

    /** What {@link #PIN} takes, in words. */
    public static final String PIN_FORM = "a pin of letters, digits, _ and +, starting with a letter or digit";

    /** Names of pins. */
    public static final Pattern PIN = Pattern.compile("[A-Za-z0-9][A-Za-z0-9_+]{0,60}");

    static final String CIRCUIT_FORM = "a connector and a pin, like C1-7";
    static final Pattern CIRCUIT = Pattern.compile("(?=.{1,64}$)[A-Za-z0-9][A-Za-z0-9_+-]*-[A-Za-z0-9][A-Za-z0-9_+]*");

    private Names() {}

    /** Like {@code A, B and C}. */
    public static String list(List<String> names) {
        if (names.size() < 2) {
            return String.join("", names);
        }
        return String.join(", ", names.subList(0, names.size() - 1)) + " and " + names.get(names.size() - 1);
    }

    /** What stands before the last {@code -} of a circuit or terminal name; empty if there is none. */
    public static String connectorOf(String name) {
        int dash = name.lastIndexOf('-');
        return dash < 0 ? "" : name.substring(0, dash);
    }

    /** What follows the last {@code -} of a circuit or terminal name. */
    public static String pinOf(String name) {
        return name.substring(name.lastIndexOf('-') + 1);
    }

    /** The circuit that a name is of: a cut circuit has two ends, {@code C2-4/unit} and {@code C2-4/harness}. */
    public static String circuitOf(String name) {
        int stroke = name.indexOf('/');
        return stroke < 0 ? name : name.substring(0, stroke);
    }
}
