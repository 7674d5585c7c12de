package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Wish;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.rule.WishUnmet;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** What a wish or a warning sound lacks is connected to leads of the same function, or their connectors are mated. */
@AutoService(Change.class)
public final class JoinByFunction implements Change {

    private static final double COST_OF_A_LEAD = 2;

    @Override
    public Set<String> rules() {
        return Set.of("wish-unmet", "safety-sound-lost");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        Predicate<Place> wanted = wanted(defect);
        List<Place> free = defect.places().stream()
                .filter(place -> !place.used() && place.function() != null)
                .toList();
        Map<String, List<Place>> byOwner = new TreeMap<>();
        free.forEach(place ->
                byOwner.computeIfAbsent(owner(place), key -> new ArrayList<>()).add(place));
        List<Proposal> proposals = new ArrayList<>();
        byOwner.forEach((one, places) -> {
            List<Place> lacking = places.stream().filter(wanted).toList();
            if (!lacking.isEmpty()) {
                byOwner.forEach((other, candidates) -> {
                    if (!other.equals(one)) {
                        join(lacking, candidates, defect, proposals);
                    }
                });
            }
        });
        MatePlug.add(connectors(defect, wanted), defect, proposals);
        return proposals;
    }

    private static Predicate<Place> wanted(Defect defect) {
        Finding finding = defect.finding();
        for (Wish wish : defect.hookup().document().wishes()) {
            if (WishUnmet.isAbout(wish, finding)) {
                boolean keep = wish.want() == Wish.Want.KEEP;
                return place -> place.isVehicle() == keep
                        && place.function() != null
                        && place.function().isAtOrBelow(wish.function())
                        && (!keep || isOffItsUnit(place, defect));
            }
        }
        Set<String> named = new HashSet<>(finding.terminals());
        return place -> named.contains(place.ref());
    }

    private static boolean isOffItsUnit(Place place, Defect defect) {
        return defect.hookup().unplugged().contains(Names.connectorOf(nameOf(place)));
    }

    private static String owner(Place place) {
        return place.ref().substring(0, place.ref().indexOf('.'));
    }

    private static String nameOf(Place place) {
        return place.ref().substring(place.ref().indexOf('.') + 1);
    }

    private static void join(List<Place> lacking, List<Place> candidates, Defect defect, List<Proposal> into) {
        Edit edit = defect.edit();
        List<String> joined = new ArrayList<>();
        Set<Place> taken = new HashSet<>();
        for (Place place : lacking) {
            Place mate = mate(place, candidates);
            if (mate != null && taken.add(mate)) {
                edit.light(place.ref(), mate.ref());
                joined.add(place.ref() + " to " + mate.ref());
            }
        }
        if (!joined.isEmpty()) {
            into.add(new Proposal(
                    "Connect " + String.join(" and ", joined) + ".", COST_OF_A_LEAD * joined.size(), edit));
        }
    }

    /** The one candidate for the same, else for a wider or narrower function; null if there is none or several. */
    private static @Nullable Place mate(Place place, List<Place> candidates) {
        List<Place> found = candidates.stream()
                .filter(other -> Affinity.agree(place.facts(), other.facts()))
                .filter(other -> Affinity.isSame(place.function(), other.function()))
                .toList();
        if (found.isEmpty()) {
            found = candidates.stream()
                    .filter(other -> Affinity.agree(place.facts(), other.facts()))
                    .filter(other -> Affinity.isNear(place.function(), other.function()))
                    .toList();
        }
        return found.size() == 1 ? found.get(0) : null;
    }

    /** Connectors of the vehicle that carry what is lacking. */
    private static Set<String> connectors(Defect defect, Predicate<Place> wanted) {
        Set<String> connectors = new TreeSet<>();
        defect.places().stream()
                .filter(place -> place.isVehicle() && wanted.test(place))
                .forEach(place -> connectors.add(Names.connectorOf(nameOf(place))));
        return connectors;
    }
}
