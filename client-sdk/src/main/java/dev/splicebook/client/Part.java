package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.jspecify.annotations.Nullable;

/**
 * A part of a hookup: a device of the catalogue, or one that stands in the hookup itself.
 *
 * @param device code of a device in the catalogue; absent if {@code inline} is given
 * @param revision of the device, 1 or more; absent for the latest
 * @param inline a device as a document; absent if {@code device} is given
 * @param mode of the device, like {@code bridged}; absent for its plain use
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Part(
        @Nullable String device,
        @Nullable Integer revision,
        @Nullable Document inline,
        @Nullable String mode) {

    public Part {
        if ((device == null) == (inline == null)) {
            throw new IllegalArgumentException("a part is given by device or inline: one of the two");
        }
        if (revision != null && device == null) {
            throw new IllegalArgumentException("a revision belongs to a part given by device");
        }
        if (revision != null) {
            Require.atLeastOne("revision", revision);
        }
    }

    /** A device of the catalogue, in its latest revision. */
    public static Part device(String code) {
        return new Part(Require.text("code", code), null, null, null);
    }

    /** A device of the catalogue, in one revision. */
    public static Part device(String code, int revision) {
        return new Part(Require.text("code", code), revision, null, null);
    }

    /** A device that need not be in the catalogue. */
    public static Part inline(Document device) {
        return new Part(null, null, device, null);
    }

    /** The same part used in a mode, like {@code bridged}. */
    public Part inMode(String mode) {
        return new Part(device, revision, inline, mode);
    }
}
