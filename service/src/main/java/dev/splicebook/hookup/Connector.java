package dev.splicebook.hookup;

import dev.splicebook.function.Colour;
import dev.splicebook.guard.Guard;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A connector of a vehicle or device.
 *
 * @param name what it is called
 * @param colour of its housing
 * @param pinCount 1 to 500; pins with a number go up to it
 * @param location where it is
 * @param access how it is reached, step by step
 * @param face how its pins stand
 * @param mates names of the housings it mates by: two connectors that share one fit each other
 */
public record Connector(
        @Nullable String name,
        @Nullable Colour colour,
        @Nullable Integer pinCount,
        @Nullable String location,
        List<AccessStep> access,
        @Nullable Face face,
        Set<String> mates) {

    public Connector {
        Guard guard = new Guard()
                .text("name", name, 200)
                .between("pinCount", pinCount, 1, 500)
                .text("location", location, 1000)
                .atMost("access", access, 50)
                .atMost("mates", mates, 20)
                .refuseIf(
                        face != null && pinCount != null && pinCount > face.cavities(),
                        "pinCount",
                        "inconsistent",
                        () -> "pinCount is " + pinCount + ", and the face has " + (face == null ? 0 : face.cavities())
                                + " cavities");
        mates.forEach(mate -> guard.matches("mates", mate, Names.NAME, Names.FORM));
        guard.check();
    }

    /** A connector of which nothing is known but that it is there. */
    public static Connector unknown() {
        return new Connector(null, null, null, null, List.of(), null, Set.of());
    }

    /**
     * Refuses pins that their connector does not have, and two names of one pin.
     *
     * @param field that the names stand in
     * @param names of circuits or terminals; those of no listed connector pass
     */
    static void guardPins(Guard guard, String field, Set<String> names, Map<String, Connector> connectors) {
        Map<String, String> firstOfPin = new HashMap<>();
        for (String name : names) {
            Connector connector = connectors.get(Names.connectorOf(name));
            String pin = Names.pinOf(name);
            String number = pin.matches("[0-9]+") ? pin.replaceFirst("^0+(?=.)", "") : "";
            if (!number.isEmpty() && name.contains("-")) {
                String first = firstOfPin.putIfAbsent(Names.connectorOf(name) + "-" + number, name);
                guard.refuseIf(
                        first != null,
                        field + "/" + name,
                        "duplicate-pin",
                        () -> name + " and " + first + " are one pin");
            }
            if (connector == null) {
                continue;
            }
            boolean beyond = connector.pinCount() != null
                    && !number.isEmpty()
                    && (number.length() > 3 || Integer.parseInt(number) > connector.pinCount())
                    && (connector.face() == null
                            || connector.face().findPlace(pin).isEmpty());
            guard.refuseIf(
                    beyond,
                    field + "/" + name,
                    "beyond-pin-count",
                    () -> name + " is pin " + pin + " of a connector with " + connector.pinCount() + " pins");
            guard.refuseIf(
                    !beyond
                            && connector.face() != null
                            && connector.face().findPlace(pin).isEmpty(),
                    field + "/" + name,
                    "not-on-face",
                    () -> name + " is pin " + pin + ", which the face of its connector does not have");
        }
    }

    /** Whether two connectors mate: they share the name of a housing. */
    public boolean fits(Connector other) {
        return !Collections.disjoint(mates, other.mates);
    }
}
