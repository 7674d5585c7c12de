package dev.splicebook.hookup.mend;

import dev.splicebook.electrics.Length;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Connection.WireFuse;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Where power and ground can be had, best place first. */
final class Sources {

    private static final int MOST = 4;
    static final String BATTERY = Names.VEHICLE + "." + Vehicle.BATTERY_PLUS;
    static final String CHASSIS = Names.VEHICLE + "." + Vehicle.CHASSIS;

    private static final FunctionId POWER = new FunctionId("power");

    private Sources() {}

    static boolean isConstant(Place place) {
        return isConstant(place.facts());
    }

    static boolean isConstant(@Nullable Electrical facts) {
        return facts instanceof Electrical.Supply supply
                && supply.when().isEmpty()
                && supply.live() != null
                && supply.live().size() == State.values().length;
    }

    /** Live while running and dead while asleep, whatever conditions hold. */
    static boolean isSwitched(Place place) {
        List<State> live = place.facts() instanceof Electrical.Supply supply
                        && supply.when().isEmpty()
                ? supply.live()
                : place.facts() instanceof Electrical.ControlOut out
                                && out.when().isEmpty()
                                && out.active() == Active.TWELVE_VOLTS
                        ? out.live()
                        : null;
        if (place.facts() instanceof Electrical.ControlOut out
                && out.follows() != null
                && out.active() == Active.TWELVE_VOLTS) {
            return live == null || !live.contains(State.ASLEEP);
        }
        return live != null && live.contains(State.RUNNING) && !live.contains(State.ASLEEP);
    }

    static boolean gives(Place place, double amps) {
        Double most = place.facts() instanceof Electrical.Supply supply
                ? supply.maxAmps() != null ? supply.maxAmps() : supply.fuseAmps()
                : place.facts() instanceof Electrical.ControlOut out ? out.maxAmps() : null;
        return place.ref().equals(BATTERY) || (most != null && most >= amps);
    }

    /** Supplies for a load that gives what it needs, the few best. */
    static List<Place> forLoad(Electrical.Load load, @Nullable FunctionId function, Defect defect) {
        double amps = amps(load);
        Predicate<Place> suits = load.needs() == Need.SWITCHED
                ? Sources::isSwitched
                : load.needs() == Need.CONSTANT ? Sources::isConstant : place -> isConstant(place) || isSwitched(place);
        return best(
                place -> place.facts() instanceof Electrical.Supply
                        && (suits.test(place) || isAwaited(place, load, function))
                        && gives(place, amps)
                        && !Electrical.isTooMuch(place.facts(), load),
                function,
                defect);
    }

    /** Whether a supply waits for the very condition that a load is for, like that of the reversing lamps for a camera. */
    private static boolean isAwaited(Place place, Electrical.Load load, @Nullable FunctionId function) {
        return load.needs() != Need.CONSTANT && isAwaited(place, function);
    }

    /** Whether a supply gives at times only, and is of the very function that is asked for, like a reversing lamp's. */
    static boolean isAwaited(Place place, @Nullable FunctionId function) {
        return function != null
                && !function.isAtOrBelow(POWER)
                && place.function() != null
                && place.facts() instanceof Electrical.Supply supply
                && !supply.when().isEmpty()
                && supply.live() != null
                && supply.live().contains(State.RUNNING);
    }

    /**
     * What a coil may hang on so that its relay rests when the vehicle does: first the circuit that the lamp or the input
     * behind its contact is for, like that of the reverse gear, the few best.
     *
     * @param except ref of a place that it is not to hang on
     */
    static List<Place> forCoil(Coil coil, String except, Defect defect) {
        double amps = MoveCoil.mostAmps(coil);
        FunctionId served = servedBy(coil, defect);
        Predicate<Place> suits = place -> !place.ref().equals(except) && gives(place, amps);
        List<Place> places = new ArrayList<>(best(
                place -> suits.test(place) && isAwaited(place, served) && Objects.equals(served, place.function()),
                served,
                defect));
        places.addAll(best(place -> suits.test(place) && isSwitched(place), null, defect));
        return places;
    }

    /** The function of what is behind the contact of a coil, where it is the same for all of it and no power or ground. */
    private static @Nullable FunctionId servedBy(Coil coil, Defect defect) {
        Set<FunctionId> functions = defect.network().links().stream()
                .filter(link -> link.kind() == Link.Kind.OPEN_CONTACT && link.relay() == coil.relay())
                .flatMap(link -> Stream.of(link.from(), link.to()))
                .map(end -> defect.network().netOf(end))
                .filter(net -> net.stream().noneMatch(Node::givesTwelveVolts))
                .flatMap(List::stream)
                .filter(node -> node.facts() instanceof Electrical.Load || node.facts() instanceof Electrical.ControlIn)
                .map(Node::function)
                .filter(Objects::nonNull)
                .filter(function -> !function.isAtOrBelow(POWER))
                .collect(Collectors.toSet());
        return functions.size() == 1 ? functions.iterator().next() : null;
    }

    /** The few best places of those that suit: by function, then where the hookup is at work already, the battery last. */
    static List<Place> best(Predicate<Place> suits, @Nullable FunctionId function, Defect defect) {
        Set<String> opened = defect.hookup().document().connections().values().stream()
                .flatMap(connection -> connection.ends().stream())
                .map(Names::connectorOf)
                .collect(Collectors.toSet());
        return defect.places().stream()
                .filter(place -> suits.test(place) && !isUnfit(function, place))
                .sorted(Comparator.comparing((Place place) -> place.ref().equals(BATTERY))
                        .thenComparing(place -> function == null
                                || place.function() == null
                                || !place.function().equals(function))
                        .thenComparing(Place::isVehicle)
                        .thenComparing(place -> !opened.contains(place.connector()))
                        .thenComparing(Place::ref))
                .limit(MOST)
                .toList();
    }

    private static boolean isUnfit(@Nullable FunctionId wanted, Place place) {
        return wanted != null
                && place.function() != null
                && !Functions.vocabulary().mayFeed(place.function(), wanted);
    }

    static double amps(Electrical.Load load) {
        return load.maxAmps() != null ? load.maxAmps() : load.typicalAmps() != null ? load.typicalAmps() : 0;
    }

    /** The least fuse that bears a load. */
    static double ratingFor(Electrical.Load load) {
        return Sizing.ratingFor(load.typicalAmps() == null ? 0 : load.typicalAmps(), amps(load));
    }

    /** Connects a load to a supply with a conductor and a fuse that suit it. */
    static void feed(Edit edit, Place supply, String load, double ratingAmps) {
        Length length = supply.ref().equals(BATTERY) ? Sizing.FROM_BATTERY : Sizing.ROOM;
        Conductor conductor = Sizing.conductorFor(ratingAmps, length);
        edit.join(supply.ref(), load, conductor, length, fuseFor(supply, ratingAmps, conductor, length));
    }

    /** The fuse that a conductor needs at a supply: none where what is upstream protects it and no more than it. */
    static @Nullable WireFuse fuseFor(Place supply, double ratingAmps, Conductor conductor, @Nullable Length length) {
        boolean limited = supply.facts() instanceof Electrical.ControlOut
                || (supply.facts() instanceof Electrical.Supply facts
                        && (Boolean.TRUE.equals(facts.limited())
                                || (facts.fuseAmps() != null && facts.fuseAmps() <= ratingAmps)));
        return limited ? null : Sizing.fuse(Math.min(ratingAmps, Sizing.ampacity(conductor)), length);
    }

    /** Gives a part that was added its power and its ground; false if a load of it finds no supply. */
    static boolean power(Edit edit, String part, Device device, Defect defect) {
        for (var entry : device.terminals().entrySet()) {
            String ref = part + "." + entry.getKey();
            Electrical facts = entry.getValue().electrical();
            if (facts instanceof Electrical.Load load) {
                List<Place> supplies = forLoad(load, entry.getValue().function(), defect);
                if (supplies.isEmpty()) {
                    return false;
                }
                feed(edit, supplies.get(0), ref, ratingFor(load));
            } else if (facts instanceof Electrical.Ground) {
                edit.join(ref, CHASSIS, Sizing.LIGHT, Sizing.ROOM, null);
            }
        }
        return true;
    }
}
