package dev.splicebook.hookup;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A change that mends a finding. It has been applied and checked again: its finding is gone, and no new error or danger
 * is there.
 *
 * @param what is changed, in one sentence
 * @param patch of the hookup document, as RFC 6902 (JSON Patch) has it
 * @param adds what it takes beside wire
 * @param removes fingerprints of the findings that vanish
 */
public record Remedy(String what, List<Operation> patch, List<Added> adds, List<String> removes) {

    /**
     * One operation of a patch.
     *
     * @param op {@code add}, {@code remove} or {@code replace}
     * @param path a JSON pointer into the hookup document
     * @param value absent for {@code remove}
     */
    public record Operation(
            String op, String path, @Nullable Object value) {}

    /**
     * Something that is added.
     *
     * @param part its ref; absent for a fuse in a connection
     * @param connection that the fuse is in; absent for a part
     * @param device its code in the catalogue; absent for a plain component
     * @param what it is
     */
    public record Added(
            @Nullable String part,
            @Nullable String connection,
            @Nullable String device,
            String what) {}
}
