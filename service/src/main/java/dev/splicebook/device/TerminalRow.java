package dev.splicebook.device;

import dev.splicebook.hookup.Device;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** One terminal of one revision, as it is searched. */
@Entity
@Table(name = "device_terminals")
class TerminalRow {

    /** Which terminal of which revision. */
    @Embeddable
    record Key(UUID deviceId, int revision, String terminal) implements Serializable {}

    @EmbeddedId
    private Key key;

    private UUID ownerFirm;
    private @Nullable String function;
    private @Nullable String colour;
    private @Nullable String kind;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected TerminalRow() {}

    TerminalRow(CatalogueDevice device, int revision, String name, Device.Terminal terminal) {
        this.key = new Key(device.id(), revision, name);
        this.ownerFirm = device.ownerFirm();
        this.function = terminal.function() == null ? null : terminal.function().value();
        this.colour = terminal.colour() == null ? null : terminal.colour().value();
        this.kind = terminal.electrical() == null ? null : terminal.electrical().kind();
    }

    @Override
    public String toString() {
        return key + " of firm " + ownerFirm + ": " + function + ", " + colour + ", " + kind;
    }
}
