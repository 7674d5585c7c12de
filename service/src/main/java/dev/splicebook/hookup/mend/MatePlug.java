package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connector;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** Mates a plug that hangs free with the connector of the vehicle that it fits, in place of a splice at each pin. */
@AutoService(Change.class)
public final class MatePlug implements Change {

    private static final double COST = 2;

    @Override
    public Set<String> rules() {
        return Set.of("lead-unaccounted", "load-without-supply", "load-without-ground", "control-never-active");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        Set<String> off = new TreeSet<>();
        for (String terminal : defect.finding().terminals()) {
            Node node = defect.network().findNode(terminal);
            if (node != null) {
                defect.network().netOf(node).forEach(member -> addConnectors(member, defect, off));
            }
        }
        off.retainAll(defect.hookup().unplugged());
        List<Proposal> proposals = new ArrayList<>();
        add(off, defect, proposals);
        return proposals;
    }

    /** The vehicle's connector that a node is a pin of, or those that the part's connector fits. */
    private static void addConnectors(Node node, Defect defect, Set<String> into) {
        String name = Names.connectorOf(node.name());
        if (node.isVehicle()) {
            into.add(name);
            return;
        }
        Device device = defect.hookup().devices().get(node.owner());
        Connector connector = device == null ? null : device.connectors().get(name);
        if (connector != null) {
            defect.hookup().map().connectors().forEach((other, socket) -> {
                if (connector.fits(socket)) {
                    into.add(other);
                }
            });
        }
    }

    /** Adds for connectors of the vehicle that nothing is mated with each plug of a part that fits and hangs free. */
    static void add(Set<String> connectors, Defect defect, List<Proposal> into) {
        Set<String> mated = new HashSet<>();
        defect.hookup().document().plugs().forEach(mated::addAll);
        for (String name : connectors) {
            Connector connector = defect.hookup().map().connectors().get(name);
            String ref = Names.VEHICLE + "." + name;
            if (connector == null || mated.contains(ref)) {
                continue;
            }
            defect.hookup()
                    .devices()
                    .forEach((part, device) -> device.connectors().forEach((other, plug) -> {
                        if (connector.fits(plug) && !mated.contains(part + "." + other)) {
                            into.add(new Proposal(
                                    "Mate " + ref + " with " + part + "." + other + ".",
                                    COST,
                                    defect.edit().plug(ref, part + "." + other)));
                        }
                    }));
        }
    }
}
