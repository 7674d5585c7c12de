package dev.splicebook.hookup.mend;

import dev.splicebook.hookup.Device;
import java.util.List;
import java.util.Map;

/** Plain components, for where the stock has none that fits. */
final class Plain {

    private Plain() {}

    static Device device(
            String name,
            String kind,
            Map<String, Device.Terminal> terminals,
            List<Device.Couple> couples,
            List<Device.Relay> relays,
            List<Device.Diode> diodes) {
        return device(name, kind, terminals, couples, relays, diodes, List.of());
    }

    static Device device(
            String name,
            String kind,
            Map<String, Device.Terminal> terminals,
            List<Device.Couple> couples,
            List<Device.Relay> relays,
            List<Device.Diode> diodes,
            List<Device.Resistor> resistors) {
        return new Device(
                null, null, name, kind, terminals, List.of(), couples, relays, List.of(), diodes, resistors, Map.of(),
                Map.of(), Map.of(), null, List.of(), null);
    }
}
