package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnyGetter;
import com.fasterxml.jackson.annotation.JsonAnySetter;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * One line of an import or export.
 *
 * @param kind what it is of
 * @param id of the vehicle; absent for a device, and in an import for a vehicle that is new
 * @param revision the document's; in an import the latest that is expected, absent to take any
 * @param document the function map, or the device with its code
 * @param more fields that this version does not know; they are sent as they came
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Entry(
        EntryKind kind,
        @Nullable UUID id,
        @Nullable Integer revision,
        Document document,
        @JsonAnySetter @JsonAnyGetter Map<String, JsonNode> more) {

    public Entry {
        Require.present("kind", kind);
        Require.present("document", document);
        more = Require.mapOrEmpty(more);
    }

    /** A new vehicle. */
    public static Entry vehicle(Document functionMap) {
        return new Entry(EntryKind.VEHICLE, null, null, functionMap, Map.of());
    }

    /** A vehicle by its id: a new one of that id, or the next revision of the one that has it. */
    public static Entry vehicle(UUID id, Document functionMap) {
        return new Entry(EntryKind.VEHICLE, Require.present("id", id), null, functionMap, Map.of());
    }

    /** A device: a new one, or the next revision of the one that has its code. */
    public static Entry device(Document device) {
        return new Entry(EntryKind.DEVICE, null, null, device, Map.of());
    }

    /** The same, to be refused if the latest revision is another than this, 1 or more. */
    public Entry expecting(int revision) {
        return new Entry(kind, id, Require.atLeastOne("revision", revision), document, more);
    }
}
