package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;
import org.jspecify.annotations.Nullable;

/**
 * One step on the way to a connector, in the order of the list that it stands in.
 *
 * @param panel what comes off or open in this step
 * @param clips that hold it, 0 to 100
 * @param screws that hold it, 0 to 100
 * @param how it comes off: direction, tool, size of the screws
 * @param caution what breaks, or bites, in this step
 */
public record AccessStep(
        String panel,
        @Nullable Integer clips,
        @Nullable Integer screws,
        @Nullable String how,
        @Nullable String caution) {

    public AccessStep {
        new Guard()
                .text("panel", panel, 200)
                .between("clips", clips, 0, 100)
                .between("screws", screws, 0, 100)
                .text("how", how, 1000)
                .text("caution", caution, 1000)
                .check();
    }
}
