package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.HookupDocument.VehicleUse;
import dev.splicebook.hookup.Stock;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The latest revision of a device or of the vehicle's map is taken. */
@AutoService(Change.class)
public final class TakeLatest implements Change {

    @Override
    public Set<String> rules() {
        return Set.of("map-outdated");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        VehicleUse vehicle = defect.hookup().document().vehicle();
        // the finding about the map names no terminal
        if (defect.terminals().isEmpty() && vehicle != null && vehicle.id() != null) {
            Stock.StockedMap latest = defect.latestMap(vehicle.id());
            if (latest != null) {
                proposals.add(new Proposal(
                        "Take revision " + latest.revision() + " of the vehicle's map.",
                        1,
                        defect.edit().revision(latest)));
            }
        }
        Set<String> parts = new TreeSet<>();
        defect.terminals().forEach(node -> parts.add(node.owner()));
        String code = parts.isEmpty() ? null : codeOf(parts.iterator().next(), defect);
        Stock.Item latest = code == null ? null : defect.latest(code);
        if (latest != null && latest.revision() != null) {
            Edit edit = defect.edit();
            parts.forEach(part -> edit.revision(part, latest));
            proposals.add(new Proposal("Take revision " + latest.revision() + " of the device " + code + ".", 1, edit));
        }
        return proposals;
    }

    private static @Nullable String codeOf(String part, Defect defect) {
        PartUse use = defect.hookup().document().parts().get(part);
        return use == null ? null : use.device();
    }
}
