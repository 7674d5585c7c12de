package dev.splicebook.exchange;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.FunctionMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** One line of an import. */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
@JsonSubTypes({
    @JsonSubTypes.Type(value = ImportLine.OfVehicle.class, name = "vehicle"),
    @JsonSubTypes.Type(value = ImportLine.OfDevice.class, name = "device")
})
sealed interface ImportLine {

    /**
     * A vehicle.
     *
     * @param id absent for a new one
     * @param revision that must be the latest where the vehicle exists
     */
    record OfVehicle(@Nullable UUID id, @Nullable Integer revision, FunctionMap document) implements ImportLine {}

    /**
     * A device, known by the code in its document.
     *
     * @param revision that must be the latest where the device exists
     */
    record OfDevice(@Nullable Integer revision, Device document) implements ImportLine {}
}
