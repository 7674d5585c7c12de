package dev.splicebook.client;

import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A question to a calculation: its name, and its inputs by name. {@link Calculations#get} tells what inputs there are, with
 * their units and ranges. Unchangeable: {@code with} gives another.
 */
public final class Question {

    private final String name;
    private final ObjectNode inputs;

    private Question(String name, ObjectNode inputs) {
        this.name = name;
        this.inputs = inputs;
    }

    /** A question without inputs yet, to a calculation like {@code voltage-drop}. */
    public static Question of(String calculation) {
        return new Question(Require.text("calculation", calculation), Json.emptyObject());
    }

    /** A question with the inputs of a document, like the example of a {@link Calculation}. */
    public static Question of(String calculation, Document inputs) {
        return new Question(
                Require.text("calculation", calculation),
                Require.present("inputs", inputs).json());
    }

    /** With a figure, in the unit that the input's name ends with. */
    public Question with(String input, double figure) {
        return with(input, (Object) figure);
    }

    /** With a choice, like {@code chassis}, or another text. */
    public Question with(String input, String text) {
        return with(input, (Object) text);
    }

    /** With a length. */
    public Question with(String input, Length length) {
        return with(input, (Object) length);
    }

    /** With the conductor of a wire; its length and fuse are inputs of their own. */
    public Question with(String input, Wire wire) {
        ObjectNode conductor = Json.emptyObject();
        Wire.Conductor of = Require.present("the conductor of " + input, wire.conductor());
        conductor.set("size", Json.tree(of.size()));
        if (of.material() != null) {
            conductor.set("material", Json.tree(of.material()));
        }
        return with(input, (Object) conductor);
    }

    /** With any other input, as the JSON that it becomes: a list, a map, a record, a tree. */
    public Question with(String input, Object value) {
        ObjectNode more = inputs.deepCopy();
        JsonNode json = Json.tree(Require.present(input, value));
        more.set(Require.text("input", input), json);
        return new Question(name, more);
    }

    /** The calculation's name. */
    public String name() {
        return name;
    }

    /** A copy of the inputs, as they are sent. */
    public ObjectNode inputs() {
        return inputs.deepCopy();
    }

    /** Name and inputs. */
    @Override
    public String toString() {
        return name + " " + inputs;
    }
}
