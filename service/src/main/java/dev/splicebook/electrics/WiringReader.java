package dev.splicebook.electrics;

import dev.splicebook.electrics.SpeakerDriver.Named;
import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Reads the text of a {@link Wiring} by recursive descent. */
final class WiringReader {

    private final String text;
    private final Map<String, Named> coils = new HashMap<>();
    private final Set<String> used = new HashSet<>();
    private int at;

    WiringReader(String text, List<Named> coils) {
        this.text = text;
        coils.forEach(each -> {
            this.coils.put(each.name(), each);
            // the only coil of a driver may be called by either name
            this.coils.putIfAbsent(each.name() + ".1", each);
        });
    }

    Wiring whole() {
        Wiring wiring = group(false);
        if (at < text.length()) {
            throw fault("\"" + text.charAt(at) + "\" is unexpected");
        }
        return wiring;
    }

    private Wiring group(boolean reversed) {
        List<Wiring> parts = new ArrayList<>();
        parts.add(term(reversed));
        char joint = 0;
        while (next() == '+' || next() == '|') {
            if (joint != 0 && joint != next()) {
                throw fault("+ and | stand side by side without parentheses");
            }
            joint = next();
            at++;
            parts.add(term(reversed));
        }
        if (joint == 0) {
            return parts.get(0);
        }
        List<Wiring> flat = new ArrayList<>();
        for (Wiring part : parts) {
            boolean sameKind = joint == '+' ? part instanceof Wiring.Series : part instanceof Wiring.Parallel;
            flat.addAll(sameKind ? Wiring.partsOf(part) : List.of(part));
        }
        return joint == '+' ? new Wiring.Series(flat) : new Wiring.Parallel(flat);
    }

    private Wiring term(boolean reversed) {
        if (next() == '-') {
            at++;
            return term(!reversed);
        }
        if (next() == '(') {
            at++;
            Wiring inner = group(reversed);
            if (next() != ')') {
                throw fault("a ) is missing");
            }
            at++;
            return inner;
        }
        return coil(reversed);
    }

    private Wiring coil(boolean reversed) {
        next();
        int from = at;
        while (at < text.length() && isOfName(text.charAt(at))) {
            at++;
        }
        String name = text.substring(from, at);
        Named named = coils.get(name);
        if (named == null) {
            at = from;
            throw fault(name.isEmpty() ? "a coil is missing" : "\"" + name + "\" is no coil of these drivers");
        }
        if (!used.add(named.name())) {
            at = from;
            throw fault("\"" + name + "\" is used twice");
        }
        return new Wiring.One(
                named.name(), named.driver(), named.coil().ohms(), named.coil().ratedWatts(), reversed);
    }

    private static boolean isOfName(char character) {
        return character < 128 && (Character.isLetterOrDigit(character) || "._-".indexOf(character) >= 0);
    }

    /** The next character that is no space, or NUL at the end. */
    private char next() {
        while (at < text.length() && text.charAt(at) == ' ') {
            at++;
        }
        return at < text.length() ? text.charAt(at) : 0;
    }

    private InvalidValueException fault(String what) {
        return new InvalidValueException("bad-wiring", what + ", at character " + (at + 1) + " of the wiring");
    }
}
