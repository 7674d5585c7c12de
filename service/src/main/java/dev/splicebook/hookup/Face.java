package dev.splicebook.hookup;

import com.fasterxml.jackson.annotation.JsonIgnore;
import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The face of a connector, as it is seen from the side that is named.
 *
 * @param seenFrom which side one looks at; from the other side left and right are exchanged
 * @param rows of cavities, 1 to 50
 * @param columns of cavities, 1 to 100
 * @param numbering how the pins are numbered, from 1 in the upper left corner, or {@code listed}
 * @param pins with {@code listed} only: the rows from the top, each from left to right; an empty text where there is no
 *     cavity
 * @param latch the edge that the latch or the key stands on
 * @param keying what else makes it fit one way only
 */
public record Face(
        SeenFrom seenFrom,
        int rows,
        int columns,
        Numbering numbering,
        List<List<String>> pins,
        @Nullable Edge latch,
        @Nullable String keying) {

    /** The side of a connector that one looks at. */
    public enum SeenFrom {
        WIRE_SIDE,
        MATING_SIDE
    }

    /** How pins are numbered. */
    public enum Numbering {
        /** From left to right, then on with the next row. */
        ALONG_ROWS,
        /** From top to bottom, then on with the next column. */
        ALONG_COLUMNS,
        /** As {@code pins} has it. */
        LISTED
    }

    /** An edge of a face. */
    public enum Edge {
        TOP,
        BOTTOM,
        LEFT,
        RIGHT
    }

    /** Where a pin stands, both counted from 1 and from the upper left corner. */
    public record Place(int row, int column) {}

    private static final int MOST_ROWS = 50;
    private static final int MOST_COLUMNS = 100;

    public Face {
        Guard guard = new Guard()
                .between("rows", rows, 1, MOST_ROWS)
                .between("columns", columns, 1, MOST_COLUMNS)
                .text("keying", keying, 500);
        if (numbering == Numbering.LISTED) {
            guardList(guard, rows, columns, pins);
        } else {
            guard.refuseIf(
                    !pins.isEmpty(), "pins", "inconsistent", () -> "pins stand beside a numbering that is not listed");
        }
        guard.check();
    }

    /** The rows from the top, each from left to right; an empty text where there is no cavity. */
    public List<List<String>> grid() {
        if (numbering == Numbering.LISTED) {
            return pins;
        }
        List<List<String>> grid = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            List<String> line = new ArrayList<>();
            for (int column = 0; column < columns; column++) {
                int before = numbering == Numbering.ALONG_ROWS ? row * columns + column : column * rows + row;
                line.add(Integer.toString(before + 1));
            }
            grid.add(line);
        }
        return grid;
    }

    /** The same face looked at from the given side. */
    public Face seenFrom(SeenFrom side) {
        if (side == seenFrom) {
            return this;
        }
        List<List<String>> mirrored = new ArrayList<>();
        for (List<String> line : grid()) {
            List<String> turned = new ArrayList<>(line);
            Collections.reverse(turned);
            mirrored.add(turned);
        }
        return new Face(side, rows, columns, Numbering.LISTED, mirrored, mirrored(latch), keying);
    }

    /** Where a pin stands; empty if the face has no such pin. */
    public Optional<Place> findPlace(String pin) {
        List<List<String>> grid = grid();
        for (int row = 0; row < grid.size(); row++) {
            int column = pin.isEmpty() ? -1 : grid.get(row).indexOf(pin);
            if (column >= 0) {
                return Optional.of(new Place(row + 1, column + 1));
            }
        }
        return Optional.empty();
    }

    /** How many pins there are. */
    @JsonIgnore
    public int cavities() {
        return (int) grid().stream()
                .flatMap(List::stream)
                .filter(pin -> !pin.isEmpty())
                .count();
    }

    private static @Nullable Edge mirrored(@Nullable Edge edge) {
        if (edge == Edge.LEFT) {
            return Edge.RIGHT;
        }
        return edge == Edge.RIGHT ? Edge.LEFT : edge;
    }

    private static void guardList(Guard guard, int rows, int columns, List<List<String>> pins) {
        guard.refuseIf(
                pins.size() != rows,
                "pins",
                "inconsistent",
                () -> "pins has " + pins.size() + " rows, and rows is " + rows);
        Set<String> seen = new HashSet<>();
        for (int row = 0; row < pins.size(); row++) {
            List<String> line = pins.get(row);
            guard.refuseIf(
                    line.size() != columns,
                    "pins/" + row,
                    "inconsistent",
                    () -> "the row has " + line.size() + " cavities, and columns is " + columns);
            for (int column = 0; column < line.size(); column++) {
                String pin = line.get(column);
                String at = "pins/" + row + "/" + column;
                if (!pin.isEmpty()) {
                    guard.refuseIf(
                            !Names.PIN.matcher(pin).matches(),
                            at,
                            "bad-form",
                            () -> "the pin \"" + pin + "\" is not " + Names.PIN_FORM);
                    guard.refuseIf(
                            !seen.add(pin), at, "duplicate-pin", () -> "the pin " + pin + " stands on the face twice");
                }
            }
        }
    }
}
