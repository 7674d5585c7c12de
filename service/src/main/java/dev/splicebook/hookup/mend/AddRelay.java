package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.VoltRange;
import dev.splicebook.hookup.mend.Defect.Lead;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What is too weak drives a relay, and the relay's contact feeds the load from a fused constant supply; what speaks the
 * other way round is turned by one.
 */
@AutoService(Change.class)
public final class AddRelay implements Change {

    private static final double COST = 10;
    static final double COIL_AMPS = 0.2;

    @Override
    public Set<String> rules() {
        return Set.of(
                "supply-overloaded",
                "control-overloaded",
                "switched-load-on-constant-supply",
                "control-polarity-mismatch",
                "component-overloaded",
                "undervoltage",
                "fuse-below-load");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        List<Node> takers = defect.terminals().stream()
                .filter(node -> !node.isVehicle() && !Defect.isParkingBrakeInput(node) && amps(node) >= 0)
                .sorted(Comparator.comparingDouble(AddRelay::amps).reversed())
                .limit(3)
                .toList();
        if (defect.rule().equals("supply-overloaded")) {
            relieveAll(defect, proposals);
        }
        for (Node taker : takers) {
            List<Link> wires = defect.wiresAt(taker);
            if (wires.size() == 1) {
                Link wire = wires.get(0);
                if (defect.rule().equals("switched-load-on-constant-supply")) {
                    switchFeed(taker, wire, defect, proposals);
                } else if (defect.rule().equals("control-polarity-mismatch")) {
                    turn(taker, wire, defect, proposals);
                } else {
                    relieve(taker, wire, defect, proposals);
                }
            }
        }
        return proposals;
    }

    private static double amps(Node node) {
        if (node.facts() instanceof Electrical.Load load) {
            return Sources.amps(load);
        }
        return node.facts() instanceof Electrical.ControlIn in ? in.amps() == null ? 0 : in.amps() : -1;
    }

    /** The wire's old source keeps the coil only. */
    private static void relieve(Node taker, Link wire, Defect defect, List<Proposal> into) {
        Node source = wire.across(taker);
        double amps = amps(taker);
        for (Place supply : constantPlaces(amps, source, defect)) {
            Edit edit = defect.edit();
            Relay relay = Relay.add(edit, amps, defect);
            edit.move(String.valueOf(wire.ref()), source.ref(), relay.open());
            edit.light(source.ref(), relay.plus());
            edit.join(relay.minus(), Sources.CHASSIS, Sizing.LIGHT, Sizing.ROOM, null);
            double rating = rating(taker);
            edit.fuse(String.valueOf(wire.ref()), null);
            Sources.feed(edit, supply, relay.common(), rating);
            Connection moved = edit.wire(String.valueOf(wire.ref()));
            Conductor conductor = moved.conductor();
            if (conductor != null && Sizing.ampacity(conductor) < rating) {
                edit.conductor(
                        String.valueOf(wire.ref()),
                        Sizing.conductorFor(rating, moved.length() == null ? Sizing.ROOM : moved.length()));
            }
            into.add(new Proposal(
                    "Let " + source.ref() + " drive a relay, and feed " + taker.ref() + " through its contact from "
                            + supply.ref() + ", fused at " + Sizing.rating(rating) + ".",
                    COST,
                    edit));
        }
    }

    private static List<Place> constantPlaces(double amps, Node except, Defect defect) {
        return Sources.best(
                place -> Sources.isConstant(place)
                        && Sources.gives(place, amps)
                        && !place.ref().equals(except.ref()),
                null,
                defect);
    }

    /** What hangs on one circuit goes to the contact of one relay, each lead as thick as before and with its own fuse. */
    private static void relieveAll(Defect defect, List<Proposal> into) {
        Map<Node, List<Lead>> loads = new LinkedHashMap<>();
        for (Node taker : defect.terminals()) {
            List<Link> wires = defect.wiresAt(taker);
            if (taker.facts() instanceof Electrical.Load && !taker.isVehicle() && wires.size() == 1) {
                Lead lead = new Lead(wires.get(0), taker);
                loads.computeIfAbsent(lead.far(), key -> new ArrayList<>()).add(lead);
            }
        }
        loads.forEach((source, leads) -> {
            boolean told = leads.stream()
                    .allMatch(lead -> amps(lead.near()) > 0 && (isFused(lead) || conductor(lead) != null));
            if (leads.size() > 1 && told && source.givesTwelveVolts() && !Sources.isConstant(source.facts())) {
                relieveAll(source, leads, defect, into);
            }
        });
    }

    private static boolean isFused(Lead lead) {
        return lead.wire().hasFuse();
    }

    private static @Nullable Conductor conductor(Lead lead) {
        Connection connection = lead.wire().connection();
        return connection == null ? null : connection.conductor();
    }

    private static void relieveAll(Node source, List<Lead> leads, Defect defect, List<Proposal> into) {
        double most = 0;
        double typical = 0;
        for (Lead lead : leads) {
            if (lead.near().facts() instanceof Electrical.Load load) {
                most += Sources.amps(load);
                typical += load.typicalAmps() == null ? 0 : load.typicalAmps();
            }
        }
        double rating = Sizing.ratingFor(typical, most);
        for (Place supply : constantPlaces(most, source, defect)) {
            Edit edit = defect.edit();
            Relay relay = Relay.add(edit, most, defect);
            for (Lead lead : leads) {
                edit.move(lead.ref(), source.ref(), relay.open());
                Connection moved = edit.wire(lead.ref());
                Conductor conductor = moved.conductor();
                if (moved.fuse() == null && conductor != null && Sizing.ampacity(conductor) < rating) {
                    edit.fuse(
                            lead.ref(),
                            Sizing.fuse(Math.min(rating(lead.near()), Sizing.ratingOf(conductor)), moved.length()));
                }
            }
            edit.light(source.ref(), relay.plus());
            edit.join(relay.minus(), Sources.CHASSIS, Sizing.LIGHT, Sizing.ROOM, null);
            Sources.feed(edit, supply, relay.common(), rating);
            into.add(new Proposal(
                    "Let " + source.ref() + " drive a relay, and feed "
                            + Names.list(leads.stream()
                                    .map(lead -> lead.near().ref())
                                    .sorted()
                                    .toList())
                            + " through its contact from " + supply.ref() + ", fused at " + Sizing.rating(rating) + ".",
                    COST + leads.size() - 1,
                    edit));
        }
    }

    /** The contact stands in the wire's own feed; the coil hangs on something that sleeps with the vehicle. */
    private static void switchFeed(Node taker, Link wire, Defect defect, List<Proposal> into) {
        Node source = wire.across(taker);
        for (Place switched : Sources.best(
                place -> Sources.isSwitched(place)
                        && Sources.gives(place, COIL_AMPS)
                        && !place.ref().startsWith(taker.owner() + "."),
                null,
                defect)) {
            Edit edit = defect.edit();
            Relay relay = Relay.add(edit, amps(taker), defect);
            Connection was = edit.wire(String.valueOf(wire.ref()));
            edit.move(String.valueOf(wire.ref()), taker.ref(), relay.common());
            edit.join(relay.open(), taker.ref(), was.conductor(), Sizing.NEAR, null);
            Sources.feed(edit, switched, relay.plus(), 1);
            edit.join(relay.minus(), Sources.CHASSIS, Sizing.LIGHT, Sizing.ROOM, null);
            into.add(new Proposal(
                    "Put the contact of a relay between " + source.ref() + " and " + taker.ref() + ", and let "
                            + switched.ref() + " drive its coil.",
                    COST,
                    edit));
        }
    }

    /** 12 V becomes ground, or ground 12 V. */
    private static void turn(Node taker, Link wire, Defect defect, List<Proposal> into) {
        Node source = wire.across(taker);
        Active wants = taker.facts() instanceof Electrical.ControlIn in ? in.active() : null;
        if (wants != Active.TWELVE_VOLTS && wants != Active.GROUND) {
            return;
        }
        for (Place supply : Sources.best(
                place -> wants == Active.GROUND
                        ? place.ref().equals(Sources.CHASSIS)
                        : Sources.isConstant(place) && Sources.gives(place, COIL_AMPS + amps(taker)),
                null,
                defect)) {
            Edit edit = defect.edit();
            Relay relay = Relay.add(edit, amps(taker), defect);
            edit.move(String.valueOf(wire.ref()), source.ref(), relay.open());
            if (wants == Active.GROUND) {
                edit.light(source.ref(), relay.plus());
                edit.join(relay.minus(), Sources.CHASSIS, Sizing.LIGHT, Sizing.ROOM, null);
                edit.join(relay.common(), Sources.CHASSIS, Sizing.LIGHT, Sizing.ROOM, null);
            } else {
                edit.light(source.ref(), relay.minus());
                Sources.feed(edit, supply, relay.common(), 1);
                edit.light(relay.common(), relay.plus());
            }
            edit.fuse(String.valueOf(wire.ref()), null);
            into.add(new Proposal(
                    "Let " + source.ref() + " drive a relay whose contact gives " + taker.ref() + " "
                            + (wants == Active.GROUND ? "ground" : "12 V from " + supply.ref()) + ".",
                    COST,
                    edit));
        }
    }

    private static double rating(Node taker) {
        return taker.facts() instanceof Electrical.Load load ? Sources.ratingFor(load) : 1;
    }

    /** A relay that was added, by its terminals; its coil has a side for plus because of the diode across it. */
    record Relay(String plus, String minus, String common, String open) {

        static Relay add(Edit edit, double amps, Defect defect) {
            VoltRange running = defect.hookup().map().runningVolts();
            double volts = running != null && running.isOf24Volts() ? 24 : 12;
            Stock.Item item = defect.stock("relay").stream()
                    .filter(one -> one.device().relays().size() == 1
                            && isMadeFor(volts, one.device().relays().get(0))
                            && one.device().relays().get(0).open() != null
                            && bears(one.device().relays().get(0), amps)
                            && clamp(one.device()) != null)
                    .findFirst()
                    .orElse(null);
            Device device = item == null ? plain(amps, volts) : item.device();
            String ref = item == null ? edit.add("REL", device) : edit.add("REL", item);
            Device.Relay relay = device.relays().get(0);
            Device.Diode clamp = clamp(device);
            String plus = clamp == null ? relay.coil().get(1) : clamp.cathode();
            String minus = clamp == null ? relay.coil().get(0) : clamp.anode();
            return new Relay(ref + "." + plus, ref + "." + minus, ref + "." + relay.common(), ref + "." + relay.open());
        }

        /** One that does not say what its coil is made for is taken to be for the usual 12 V. */
        private static boolean isMadeFor(double volts, Device.Relay relay) {
            return (relay.coilVolts() == null ? 12 : relay.coilVolts()) == volts;
        }

        private static boolean bears(Device.Relay relay, double amps) {
            return relay.contactAmps() != null && relay.contactAmps() >= amps && relay.coilOhms() != null;
        }

        private static Device.@Nullable Diode clamp(Device device) {
            List<String> coil = device.relays().get(0).coil();
            return device.diodes().stream()
                    .filter(diode -> coil.contains(diode.anode()) && coil.contains(diode.cathode()))
                    .findFirst()
                    .orElse(null);
        }

        /** A relay by the usual numbers of ISO 7588, with a coil of 90 ohms, for 24 V 350 (common practice, no source). */
        private static Device plain(double amps, double volts) {
            return Plain.device(
                    "relay with a diode across its coil, contact for " + Sizing.rating(Math.max(30, Math.ceil(amps))),
                    "relay",
                    Map.of(),
                    List.of(),
                    List.of(new Device.Relay(
                            List.of("85", "86"),
                            volts > 12 ? 350.0 : 90.0,
                            volts,
                            "30",
                            "87",
                            null,
                            Math.max(30, Math.ceil(amps)),
                            null)),
                    List.of(new Device.Diode("85", "86", 1.0)));
        }
    }
}
