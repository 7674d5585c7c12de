package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A load or a control input goes to another source: one that is live when it is needed and gives enough. */
@AutoService(Change.class)
public final class MoveFeed implements Change {

    /** To the very circuit that an input is for: less than to cap its lead. */
    private static final double COST_OF_ITS_OWN = 0.9;

    @Override
    public Set<String> rules() {
        return Set.of(
                "constant-load-on-switched-supply",
                "switched-load-on-constant-supply",
                "control-always-active",
                "control-never-active",
                "control-polarity-mismatch",
                "control-overloaded",
                "load-without-supply",
                "supply-overloaded",
                "parasitic-draw-excessive",
                "line-back-fed",
                "function-mismatched",
                "undervoltage",
                "overvoltage",
                "lead-unaccounted");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        for (Node taker : defect.terminals()) {
            if (Defect.isParkingBrakeInput(taker) || taker.isVehicle()) {
                continue;
            }
            List<Link> wires = defect.wiresAt(taker);
            Link feed = wires.size() == 1 ? wires.get(0) : feed(taker, wires, defect);
            if (feed != null) {
                if (isCommanded(taker, feed)) {
                    continue;
                }
                for (Place place : places(taker, defect)) {
                    move(taker, feed, place, defect, proposals);
                }
            } else if (wires.isEmpty() && taker.facts() instanceof Electrical.Load load) {
                for (Place place : places(taker, defect)) {
                    Edit edit = defect.edit();
                    Sources.feed(edit, place, taker.ref(), Sources.ratingFor(load));
                    proposals.add(new Proposal("Feed " + taker.ref() + " from " + place.ref() + ".", 3, edit));
                }
            } else if (wires.isEmpty() && Defect.isTurnOnInput(taker)) {
                for (Place place : places(taker, defect)) {
                    connect(taker, place, defect, proposals);
                }
            } else if (wires.isEmpty() && taker.facts() instanceof Electrical.ControlIn) {
                for (Place place : places(taker, defect)) {
                    if (Sources.isAwaited(place, taker.function())) {
                        Edit edit = defect.edit();
                        connect(edit, taker, place);
                        proposals.add(new Proposal(
                                "Connect " + taker.ref() + " to " + place.ref() + ".", COST_OF_ITS_OWN, edit));
                    }
                }
            } else if (wires.isEmpty() && isTurnOnOutput(taker)) {
                Place place = new Place(taker.ref(), taker.facts(), taker.function(), false);
                defect.network().nodes().stream()
                        .filter(input -> Defect.isTurnOnInput(input)
                                && !defect.network().isConnected(input)
                                && !input.owner().equals(taker.owner()))
                        .forEach(input -> connect(input, place, defect, proposals));
            }
        }
        return proposals;
    }

    /** Of several connections at a terminal, which pass its feed on, the one that brings it; null where that cannot be told. */
    private static @Nullable Link feed(Node taker, List<Link> wires, Defect defect) {
        Link feed = null;
        for (Link wire : wires) {
            boolean brings =
                    defect.joinedWithout(wire.across(taker), wire).stream().anyMatch(Node::givesTwelveVolts)
                            && defect.joinedWithout(taker, wire).stream().noneMatch(Node::givesTwelveVolts);
            if (brings && feed != null) {
                return null;
            }
            feed = brings ? wire : feed;
        }
        return feed;
    }

    private static boolean isTurnOnOutput(Node node) {
        return node.facts() instanceof Electrical.ControlOut && node.isFor(Defect.AMPLIFIER_ON);
    }

    /** Whether a load takes more than any other that a finding is about: moved away, it helps the most. */
    private static boolean isLargest(Node taker, Defect defect) {
        return taker.facts() instanceof Electrical.Load load
                && defect.terminals().stream()
                        .allMatch(other -> other == taker
                                || !(other.facts() instanceof Electrical.Load less)
                                || Sources.amps(less) < Sources.amps(load));
    }

    /** A load that an output turns on, like a siren, would have nothing to turn it on elsewhere. */
    private static boolean isCommanded(Node taker, Link feed) {
        return taker.facts() instanceof Electrical.Load load
                && load.needs() != Need.CONSTANT
                && feed.across(taker).facts() instanceof Electrical.ControlOut;
    }

    private static void connect(Node input, Place place, Defect defect, List<Proposal> into) {
        Edit edit = defect.edit();
        connect(edit, input, place);
        into.add(new Proposal("Connect " + input.ref() + " to " + place.ref() + ".", 3, edit));
    }

    private static void connect(Edit edit, Node input, Place place) {
        edit.join(
                place.ref(),
                input.ref(),
                Sizing.LIGHT,
                Sizing.NEAR,
                place.facts() instanceof Electrical.Supply
                        ? Sources.fuseFor(place, 1, Sizing.LIGHT, Sizing.NEAR)
                        : null);
    }

    private static void move(Node taker, Link wire, Place place, Defect defect, List<Proposal> into) {
        String ref = String.valueOf(wire.ref());
        String from = wire.across(taker).ref();
        if (from.equals(place.ref()) || place.ref().equals(taker.ref())) {
            return;
        }
        Edit edit = defect.edit().move(ref, from, place.ref());
        if (place.facts() instanceof Electrical.ControlOut) {
            edit.fuse(ref, null);
        } else if (place.facts() instanceof Electrical.Supply && edit.wire(ref).fuse() == null) {
            @Nullable Conductor conductor = edit.wire(ref).conductor();
            double rating = taker.facts() instanceof Electrical.Load load ? Sources.ratingFor(load) : 1;
            if (conductor != null) {
                edit.fuse(
                        ref,
                        Sources.fuseFor(place, rating, conductor, edit.wire(ref).length()));
            }
        }
        into.add(new Proposal(
                "Move the lead of " + taker.ref() + " from " + from + " to " + place.ref() + ".",
                (place.isVehicle() ? 2.5 : 2) - (isLargest(taker, defect) ? 0.2 : 0),
                edit));
    }

    private static List<Place> places(Node taker, Defect defect) {
        FunctionId function = taker.function();
        if (taker.facts() instanceof Electrical.Load load) {
            return Sources.forLoad(load, function, defect);
        }
        if (taker.facts() instanceof Electrical.ControlIn in && in.active() != null) {
            double amps = in.amps() == null ? 0 : in.amps();
            Active active = in.active();
            return Sources.best(
                    place -> !place.ref().startsWith(taker.owner() + ".")
                            && !Electrical.isTooMuch(place.facts(), in)
                            && (active == Active.TWELVE_VOLTS
                                    ? (Sources.isSwitched(place) || Sources.isAwaited(place, function))
                                            && Sources.gives(place, amps)
                                    : place.facts() instanceof Electrical.ControlOut out
                                            && out.active() == active
                                            && out.live() != null
                                            && out.live().contains(State.RUNNING)
                                            && Sources.gives(place, amps)),
                    function,
                    defect);
        }
        return List.of();
    }
}
