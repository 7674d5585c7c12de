package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.mend.Defect.Lead;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Sources that must not feed each other each get a diode towards what they share. */
@AutoService(Change.class)
public final class AddDiode implements Change {

    private static final double COST = 5;

    @Override
    public Set<String> rules() {
        return Set.of("supplies-tied", "outputs-tied", "line-back-fed");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Node> terminals = defect.terminals();
        // a diode keeps feeds apart, and does nothing for a signal
        if (terminals.stream().anyMatch(node -> node.audio() != null || node.facts() instanceof Electrical.VideoOut)) {
            return List.of();
        }
        List<Node> batteries = AddIsolatingRelay.batteries(defect);
        Map<String, Lead> leads = new LinkedHashMap<>();
        for (Node source : terminals) {
            if (!source.givesTwelveVolts() || isCharged(source, batteries) || wouldCharge(source, batteries)) {
                continue;
            }
            for (Node other : terminals) {
                Lead lead = other == source ? null : defect.firstLead(source, other);
                if (lead != null && feedsAnything(lead, defect)) {
                    leads.putIfAbsent(lead.ref(), lead);
                }
            }
        }
        List<Proposal> proposals = new ArrayList<>();
        leads.values().forEach(lead -> proposals.add(guard(List.of(lead), defect)));
        if (leads.size() > 1) {
            proposals.add(guard(List.copyOf(leads.values()), defect));
        }
        return proposals;
    }

    /** Whether anything hangs beyond a lead that its source would still feed through a diode. */
    private static boolean feedsAnything(Lead lead, Defect defect) {
        Set<Node> beyond = defect.joinedWithout(lead.far(), lead.wire());
        if (lead.near().facts() instanceof Electrical.ControlOut
                && beyond.stream().anyMatch(node -> Sources.isConstant(node.facts()))) {
            return false;
        }
        return beyond.stream().anyMatch(node -> !node.givesTwelveVolts() && node.facts() != null)
                || defect.network().coils().stream()
                        .anyMatch(coil -> beyond.contains(coil.one()) || beyond.contains(coil.other()))
                || beyond.stream()
                        .anyMatch(node -> defect.network().linksOf(node).stream()
                                .anyMatch(link -> !link.kind().isSolid()));
    }

    private static Proposal guard(List<Lead> leads, Defect defect) {
        Edit edit = defect.edit();
        List<String> told = new ArrayList<>();
        for (Lead lead : leads) {
            ClampCoil.Diode diode = ClampCoil.Diode.add(edit, amps(lead, defect), defect);
            edit.move(lead.ref(), lead.far().ref(), diode.anode());
            var was = edit.wire(lead.ref());
            edit.join(diode.cathode(), lead.far().ref(), was.conductor(), Sizing.NEAR, null);
            told.add(lead.near().ref());
        }
        return new Proposal(
                "Put a diode into the lead of " + String.join(", and one into that of ", told)
                        + ", conducting away from " + (told.size() > 1 ? "them" : "it") + ".",
                COST * leads.size(),
                edit);
    }

    /** Whether a source is a battery of a part beside another: a diode in its lead would keep the charge from it. */
    private static boolean isCharged(Node source, List<Node> batteries) {
        return batteries.size() > 1 && batteries.contains(source) && !source.isVehicle();
    }

    /** Whether a circuit that is none for it would charge the battery of a part through the diode. */
    private static boolean wouldCharge(Node source, List<Node> batteries) {
        return !batteries.contains(source) && batteries.stream().anyMatch(battery -> !battery.isVehicle());
    }

    /** What flows by a lead at most: what its fuse lets through, where it charges a battery. */
    private static double amps(Lead lead, Defect defect) {
        if (AddIsolatingRelay.batteries(defect).size() > 1) {
            Conductor conductor = defect.edit().wire(lead.ref()).conductor();
            return lead.wire().hasFuse() ? lead.wire().fuseAmps() : conductor == null ? 0 : Sizing.ratingOf(conductor);
        }
        return defect.joinedWithout(lead.far(), lead.wire()).stream()
                .mapToDouble(node -> node.facts() instanceof Electrical.Load load
                        ? Sources.amps(load)
                        : node.facts() instanceof Electrical.ControlIn in && in.amps() != null ? in.amps() : 0)
                .sum();
    }
}
