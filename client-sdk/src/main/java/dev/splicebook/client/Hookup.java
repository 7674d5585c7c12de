package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.io.IOException;
import java.nio.file.Path;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A proposed installation: vehicle, parts, connections, unused leads, settings and wishes. Built with {@link #builder()},
 * or read from JSON and changed with {@link #toBuilder()}; either way it is sent as it stands, and the service judges it.
 *
 * <p>Terminals are named {@code PART.TERMINAL}, like {@code HU.memory}; the vehicle is the part {@code CAR}, its circuits
 * are {@code CAR.CONNECTOR-PIN}, like {@code CAR.C1-7}, and it always has {@code CAR.battery-plus},
 * {@code CAR.battery-minus} and {@code CAR.chassis}.
 */
public final class Hookup {

    private final ObjectNode json;

    private Hookup(ObjectNode json) {
        this.json = json;
    }

    /** An empty hookup to build on. */
    public static Builder builder() {
        return new Builder(Json.emptyObject());
    }

    /**
     * A hookup from JSON text.
     *
     * @throws IllegalArgumentException if it is not a JSON object
     */
    public static Hookup parse(String json) {
        return new Hookup(Json.parseObject("a hookup", json));
    }

    /**
     * A hookup from a JSON file in UTF-8.
     *
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if it does not hold a JSON object
     */
    public static Hookup read(Path file) throws IOException {
        return new Hookup(Json.readObject("the hookup", file));
    }

    /**
     * A hookup from a copy of a tree.
     *
     * @throws IllegalArgumentException if it is not a JSON object
     */
    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public static Hookup of(JsonNode json) {
        return new Hookup(Json.object("a hookup", json));
    }

    /** A builder that starts from this hookup, which stays as it is. */
    public Builder toBuilder() {
        return new Builder(json.deepCopy());
    }

    /** A copy of the tree. */
    @JsonValue
    public ObjectNode json() {
        return json.deepCopy();
    }

    /** Equal if both say the same, whatever the order of their fields; 12.6 and 12.60 are the same. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Hookup hookup && Json.meaning(json).equals(Json.meaning(hookup.json));
    }

    @Override
    public int hashCode() {
        return Json.meaning(json).hashCode();
    }

    /** The hookup as JSON. */
    @Override
    public String toString() {
        return json.toString();
    }

    /** Puts a hookup together. What is named twice is refused here; everything else is the service's to judge. */
    public static final class Builder {

        private final ObjectNode json;

        private Builder(ObjectNode json) {
            this.json = json;
        }

        /** The vehicle: the latest revision of one in the book. */
        public Builder vehicle(UUID id) {
            return vehicleBy(Json.emptyObject().put("id", id.toString()));
        }

        /** The vehicle: one revision of one in the book. */
        public Builder vehicle(UUID id, int revision) {
            Require.atLeastOne("revision", revision);
            return vehicleBy(Json.emptyObject().put("id", id.toString()).put("revision", revision));
        }

        /** The vehicle: one that need not be in the book, by its function map. */
        public Builder vehicle(Document functionMap) {
            ObjectNode inline = Json.emptyObject();
            inline.set("inline", functionMap.json());
            return vehicleBy(inline);
        }

        private Builder vehicleBy(ObjectNode vehicle) {
            JsonNode before = json.path("vehicle");
            for (String kept : new String[] {"unplugged", "cuts"}) {
                if (before.has(kept)) {
                    vehicle.set(kept, before.get(kept));
                }
            }
            json.set("vehicle", vehicle);
            return this;
        }

        /** Connectors taken off the factory unit, like {@code C1}. */
        public Builder unplug(String... connectors) {
            return addAll(within("vehicle").withArray("unplugged"), connectors);
        }

        /** Circuits that are cut, like {@code C2-4}; {@code C2-4/unit} and {@code C2-4/harness} are their ends. */
        public Builder cut(String... circuits) {
            return addAll(within("vehicle").withArray("cuts"), circuits);
        }

        /** A part: a device of the catalogue in its latest revision. */
        public Builder part(String ref, String deviceCode) {
            return part(ref, Part.device(deviceCode));
        }

        /** A part: a device of the catalogue in one revision. */
        public Builder part(String ref, String deviceCode, int revision) {
            return part(ref, Part.device(deviceCode, revision));
        }

        /** A part: a device that need not be in the catalogue. */
        public Builder part(String ref, Document inlineDevice) {
            return part(ref, Part.inline(inlineDevice));
        }

        /**
         * A part.
         *
         * @throws IllegalArgumentException if there is a part of that ref already
         */
        public Builder part(String ref, Part part) {
            return put("parts", "part", ref, part);
        }

        /**
         * Takes a part out, and leaves what refers to it.
         *
         * @throws IllegalArgumentException if there is no such part
         */
        public Builder removePart(String ref) {
            return remove("parts", "part", ref);
        }

        /** A connection of two terminals by a wire of which nothing is known, like the leads of two plugs. */
        public Builder connect(String ref, String from, String to) {
            return connect(ref, from, to, new Wire(null, null, null));
        }

        /**
         * A connection of two terminals.
         *
         * @throws IllegalArgumentException if there is a connection of that ref already
         */
        public Builder connect(String ref, String from, String to, Wire wire) {
            ObjectNode connection = Json.emptyObject();
            connection.putArray("ends").add(Require.text("from", from)).add(Require.text("to", to));
            connection.setAll((ObjectNode) Json.tree(wire));
            return put("connections", "connection", ref, connection);
        }

        /**
         * Takes a connection out.
         *
         * @throws IllegalArgumentException if there is no such connection
         */
        public Builder disconnect(String ref) {
            return remove("connections", "connection", ref);
        }

        /** Mates two connectors pin by pin, like {@code CAR.C1} and {@code HARNESS.C1}. */
        public Builder plug(String connector, String other) {
            json.withArray("plugs")
                    .addArray()
                    .add(Require.text("connector", connector))
                    .add(Require.text("other", other));
            return this;
        }

        /**
         * A lead that is not connected, what becomes of it, and why.
         *
         * @throws IllegalArgumentException if the lead is listed already
         */
        public Builder unused(String terminal, Fate as, String why) {
            return put(
                    "unused",
                    "unused lead",
                    terminal,
                    Json.emptyObject().put("as", as.value()).put("why", Require.text("why", why)));
        }

        /**
         * Takes a lead off the unused ones, since it is used now.
         *
         * @throws IllegalArgumentException if the lead is not listed
         */
        public Builder use(String terminal) {
            return remove("unused", "unused lead", terminal);
        }

        /** What a setting of a part is put to; a value given before is replaced. */
        public Builder set(String part, String setting, String value) {
            ObjectNode settings = within("settings");
            ObjectNode ofPart = settings.get(Require.text("part", part)) instanceof ObjectNode known
                    ? known
                    : settings.putObject(part);
            ofPart.put(Require.text("setting", setting), value);
            return this;
        }

        /** A function, or a group of functions, that the customer has and wants to keep. */
        public Builder keep(String function) {
            return wish(function, Want.KEEP);
        }

        /** A function, or a group of functions, that the customer wants added. */
        public Builder add(String function) {
            return wish(function, Want.ADD);
        }

        /** Something that the customer wants of a function, or of a group of functions. */
        public Builder wish(String function, Want want) {
            json.withArray("wishes")
                    .addObject()
                    .put("function", Require.text("function", function))
                    .put("want", want.value());
            return this;
        }

        /** What the shop calls the job, like an order number; a name given before is replaced. */
        public Builder name(String name) {
            json.put("name", Require.text("name", name));
            return this;
        }

        /** Accepts a finding as it is; the report lists it, and the verdict does not go by it. */
        public Builder waive(Waiver waiver) {
            json.withArray("waivers").add(Json.tree(waiver));
            return this;
        }

        /** The hookup as it stands; the builder may be used further. */
        public Hookup build() {
            return new Hookup(json.deepCopy());
        }

        private ObjectNode within(String field) {
            return json.get(field) instanceof ObjectNode known ? known : json.putObject(field);
        }

        private Builder put(String field, String what, String ref, Object value) {
            ObjectNode object = within(field);
            if (object.has(Require.text("ref", ref))) {
                throw new IllegalArgumentException(what + " " + ref + " is there already");
            }
            object.set(ref, Json.tree(value));
            return this;
        }

        private Builder remove(String field, String what, String ref) {
            if (within(field).remove(ref) == null) {
                throw new IllegalArgumentException("there is no " + what + " " + ref);
            }
            return this;
        }

        private Builder addAll(ArrayNode array, String... values) {
            for (String value : values) {
                array.add(Require.text("a name", value));
            }
            return this;
        }
    }
}
