package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Connector;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.Wish;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.rule.WishUnmet;
import java.util.ArrayList;
import java.util.Collections;
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
    private static final double COST_OF_A_PLUG = 2;

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
        plug(defect, wanted, proposals);
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
                .filter(other -> agree(place.facts(), other.facts()))
                .filter(other -> isSame(place.function(), other.function()))
                .toList();
        if (found.isEmpty()) {
            found = candidates.stream()
                    .filter(other -> agree(place.facts(), other.facts()))
                    .filter(other -> isNear(place.function(), other.function()))
                    .toList();
        }
        return found.size() == 1 ? found.get(0) : null;
    }

    private static boolean isSame(@Nullable FunctionId one, @Nullable FunctionId other) {
        return one != null && one.equals(other);
    }

    private static boolean isNear(@Nullable FunctionId one, @Nullable FunctionId other) {
        return one != null && other != null && (one.isAtOrBelow(other) || other.isAtOrBelow(one));
    }

    /** Whether one may give what the other takes; what feeds a load is none of this change's business. */
    private static boolean agree(@Nullable Electrical one, @Nullable Electrical other) {
        if (isHeard(one, other) || isHeard(other, one)) {
            return true;
        }
        if (isPower(one) || isPower(other)) {
            return false;
        }
        if (isOpen(one) || isOpen(other)) {
            return true;
        }
        if (one instanceof Electrical.Audio first && other instanceof Electrical.Audio second) {
            return first.isOutput() != second.isOutput() && agree(first.side(), second.side());
        }
        if (one instanceof Electrical.Data || one instanceof Electrical.Antenna) {
            return other != null && one.getClass() == other.getClass();
        }
        return (one instanceof Electrical.ControlOut && other instanceof Electrical.ControlIn)
                || (one instanceof Electrical.ControlIn && other instanceof Electrical.ControlOut)
                || (one instanceof Electrical.VideoOut first
                        && other instanceof Electrical.VideoIn second
                        && agree(first.side(), second.side()))
                || (one instanceof Electrical.VideoIn in
                        && other instanceof Electrical.VideoOut out
                        && agree(in.side(), out.side()));
    }

    private static boolean agree(@Nullable Side one, @Nullable Side other) {
        return one == null || other == null || one.isPositive() == other.isPositive();
    }

    /** Whether an input listens for what a supply gives, like that of the lamps. */
    private static boolean isHeard(@Nullable Electrical giver, @Nullable Electrical taker) {
        return giver instanceof Electrical.Supply
                && taker instanceof Electrical.ControlIn in
                && (in.active() == null || in.active() == Active.TWELVE_VOLTS);
    }

    private static boolean isPower(@Nullable Electrical facts) {
        return facts instanceof Electrical.Supply
                || facts instanceof Electrical.Load
                || facts instanceof Electrical.Ground;
    }

    private static boolean isOpen(@Nullable Electrical facts) {
        return facts == null || facts instanceof Electrical.Passive;
    }

    /** Connectors of the vehicle that carry what is lacking, each mated with a connector of a part that fits it. */
    private static void plug(Defect defect, Predicate<Place> wanted, List<Proposal> into) {
        Set<String> connectors = new TreeSet<>();
        defect.places().stream()
                .filter(place -> place.isVehicle() && wanted.test(place))
                .forEach(place -> connectors.add(Names.connectorOf(nameOf(place))));
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
                    .forEach((part, device) -> device.connectors().forEach((other, fits) -> {
                        boolean mates = !Collections.disjoint(connector.mates(), fits.mates());
                        if (mates && !mated.contains(part + "." + other)) {
                            into.add(new Proposal(
                                    "Mate " + ref + " with " + part + "." + other + ".",
                                    COST_OF_A_PLUG,
                                    defect.edit().plug(ref, part + "." + other)));
                        }
                    }));
        }
    }
}
