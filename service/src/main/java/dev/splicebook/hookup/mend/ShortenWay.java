package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.electrics.Length;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.net.Link;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** A cable takes a shorter way. */
@AutoService(Change.class)
public final class ShortenWay implements Change {

    /** Parts may have to move for it. */
    private static final double COST = 8;

    /** The most of a cable that a better way saves; where more is too much the parts stand wrong. */
    private static final double MOST_SAVED = 0.5;

    @Override
    public Set<String> rules() {
        return Set.of("cable-too-long");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        Double measured = defect.finding().measured();
        Double limit = defect.finding().limit();
        List<Proposal> proposals = new ArrayList<>();
        if (measured == null || limit == null) {
            return proposals;
        }
        // the lines of one cable run together
        Map<Set<String>, List<Link>> cables = new LinkedHashMap<>();
        for (Link wire : defect.wires()) {
            cables.computeIfAbsent(
                            new TreeSet<>(List.of(wire.from().owner(), wire.to().owner())), key -> new ArrayList<>())
                    .add(wire);
        }
        cables.values().forEach(cable -> shorten(cable, measured - limit, defect, proposals));
        return proposals;
    }

    private static void shorten(List<Link> cable, double excessMetres, Defect defect, List<Proposal> into) {
        Edit edit = defect.edit();
        List<String> refs = new ArrayList<>();
        Length shorter = null;
        for (Link wire : cable) {
            Connection connection = wire.connection();
            Length length = connection == null ? null : connection.length();
            double left = length == null ? 0 : length.metres() - excessMetres;
            if (length == null || left < (1 - MOST_SAVED) * length.metres()) {
                return;
            }
            double unit = length.metres() / length.value();
            shorter = new Length(Math.floor(left / unit * 10) / 10, length.unit());
            refs.add(String.valueOf(wire.ref()));
            edit.length(String.valueOf(wire.ref()), shorter);
        }
        if (shorter != null) {
            into.add(new Proposal(
                    "Lead " + String.join(" and ", refs) + " a shorter way, of " + shorter + " at most.", COST, edit));
        }
    }
}
