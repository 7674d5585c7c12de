package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A diode goes across a coil, its cathode to plus. */
@AutoService(Change.class)
public final class ClampCoil implements Change {

    private static final double COST = 4;

    @Override
    public Set<String> rules() {
        return Set.of("coil-unclamped");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Node> terminals = defect.terminals();
        List<Proposal> proposals = new ArrayList<>();
        for (Coil coil : defect.network().coils()) {
            if (terminals.contains(coil.one()) || terminals.contains(coil.other())) {
                boolean turned = isPlus(coil.other(), defect) && !isPlus(coil.one(), defect);
                proposals.add(clamp(
                        turned ? coil.other() : coil.one(),
                        turned ? coil.one() : coil.other(),
                        MoveCoil.mostAmps(coil),
                        defect));
            }
        }
        return proposals;
    }

    private static boolean isPlus(Node end, Defect defect) {
        return defect.network().scenarios().stream()
                .anyMatch(scenario -> scenario.hasFeed(end) != Scenario.Sure.NO && !scenario.isGrounded(end));
    }

    private static Proposal clamp(Node plus, Node minus, double amps, Defect defect) {
        Edit edit = defect.edit();
        Diode diode = Diode.add(edit, amps, defect);
        edit.light(diode.cathode(), plus.ref());
        edit.light(diode.anode(), minus.ref());
        return new Proposal(
                "Put a diode across the coil of " + plus.owner() + ", its cathode (the end with the stripe) to "
                        + plus.ref() + ".",
                COST,
                edit);
    }

    /** A diode that was added, by its terminals. */
    record Diode(String anode, String cathode) {

        /** From the stock if one bears the load. */
        static Diode add(Edit edit, double amps, Defect defect) {
            Stock.Item item = defect.stock("diode-lead").stream()
                    .filter(one -> one.device().diodes().size() == 1
                            && bears(one.device().diodes().get(0), amps))
                    .findFirst()
                    .orElse(null);
            double rating = Math.max(1, Math.ceil(amps * 1.5));
            Device device = item == null
                    ? Plain.device(
                            "diode for " + Sizing.rating(rating),
                            "diode-lead",
                            Map.of(),
                            List.of(),
                            List.of(),
                            List.of(new Device.Diode("anode", "cathode", rating)))
                    : item.device();
            String ref = item == null ? edit.add("DIO", device) : edit.add("DIO", item);
            Device.Diode inside = device.diodes().get(0);
            return new Diode(ref + "." + inside.anode(), ref + "." + inside.cathode());
        }

        private static boolean bears(Device.Diode diode, double amps) {
            return diode.amps() != null && diode.amps() >= amps;
        }
    }
}
