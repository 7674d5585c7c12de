package dev.splicebook.hookup;

import dev.splicebook.electrics.Length;
import dev.splicebook.guard.Guard;
import org.jspecify.annotations.Nullable;

/**
 * The opening for a radio in a vehicle, or the chassis of a device that goes into one.
 *
 * @param form of a standard, or measured
 * @param width with {@code measured} only
 * @param height with {@code measured} only
 * @param depth behind the panel; no standard fixes it
 */
public record PanelSize(
        Form form,
        @Nullable Length width,
        @Nullable Length height,
        @Nullable Length depth) {

    /** A form of ISO 7736, which gives a unit of 180 by 50 mm, or one of a standard height twice, or none. */
    public enum Form {
        ISO_7736,
        ISO_7736_DOUBLE,
        MEASURED
    }

    public PanelSize {
        boolean measured = form == Form.MEASURED;
        Guard guard = new Guard();
        guardMeasure(guard, "width", width, measured);
        guardMeasure(guard, "height", height, measured);
        guard.check();
    }

    private static void guardMeasure(Guard guard, String field, @Nullable Length length, boolean measured) {
        guard.refuseIf(
                measured && length == null, field, "required", () -> field + " is missing, which measured needs");
        guard.refuseIf(
                !measured && length != null,
                field,
                "inconsistent",
                () -> field + " stands beside a form that fixes it");
    }
}
