package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.InputReturn;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.mend.Defect.Lead;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** An isolator stands in a pair on the source's side of where its return meets another or ground. */
@AutoService(Change.class)
public final class AddIsolator implements Change {

    private static final double COST = 8;

    @Override
    public Set<String> rules() {
        return Set.of("returns-tied", "ground-loop");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Inserted.Pair> pairs = new ArrayList<>();
        List<Node> terminals = defect.terminals();
        for (Node back : terminals) {
            if (back.facts() instanceof Electrical.LineOut out
                    && out.side() == Side.RETURN
                    && (out.returns() == OutputReturn.DRIVEN || defect.rule().equals("ground-loop"))) {
                Inserted.Pair pair = pairOf(back, terminals, defect);
                if (pair != null
                        && pairs.stream().noneMatch(other -> other.wires().equals(pair.wires()))) {
                    pairs.add(pair);
                }
            }
        }
        List<Proposal> proposals = new ArrayList<>();
        if (pairs.isEmpty()) {
            return proposals;
        }
        proposeMove(pairs, defect, proposals);
        proposals.add(isolate(pairs, defect));
        if (pairs.size() > 1) {
            pairs.forEach(pair -> proposals.add(isolate(List.of(pair), defect)));
        }
        return proposals;
    }

    private static Inserted.@Nullable Pair pairOf(Node back, List<Node> terminals, Defect defect) {
        Node signal = defect.otherSide(back);
        if (signal == null) {
            return null;
        }
        Lead returning = null;
        for (Node other : terminals) {
            Lead lead = other == back || other == signal ? null : defect.firstLead(back, other);
            returning = returning == null ? lead : returning;
        }
        if (returning == null) {
            returning = defect.leads(back).stream().findFirst().orElse(null);
        }
        if (returning == null) {
            return null;
        }
        List<Lead> leads = defect.leads(signal);
        String towards = returning.far().owner();
        Lead going = leads.stream()
                .filter(lead -> lead.far().owner().equals(towards))
                .findFirst()
                .orElse(leads.size() == 1 ? leads.get(0) : null);
        if (going == null) {
            return null;
        }
        Channel channel = signal.audio() == null ? null : signal.audio().channel();
        return new Inserted.Pair(
                channel,
                List.of(going.near().ref(), returning.near().ref()),
                Arrays.asList(going.ref(), returning.ref()),
                List.of(going.far().ref(), returning.far().ref()));
    }

    private static Proposal isolate(List<Inserted.Pair> pairs, Defect defect) {
        Edit edit = defect.edit();
        List<String> parts = new ArrayList<>();
        List<Inserted.Pair> left = new ArrayList<>(pairs);
        while (!left.isEmpty()) {
            Stock.Item item = defect.stock("isolator").stream()
                    .filter(one -> !one.device().couples().isEmpty() && Inserted.isPassive(one.device()))
                    .findFirst()
                    .orElse(null);
            Device device = item == null ? plain(left) : item.device();
            String ref = item == null ? edit.add("ISO", device) : edit.add("ISO", item);
            parts.add(ref);
            List<Device.Couple> free = new ArrayList<>(device.couples());
            while (!free.isEmpty() && !left.isEmpty()) {
                Inserted.Pair pair = left.remove(0);
                Device.Couple couple =
                        Inserted.best(device, free, pair.channel()).orElse(free.get(0));
                free.remove(couple);
                Inserted.into(edit, ref, couple, pair);
            }
        }
        return new Proposal(
                "Put an isolator into the " + places(pairs) + ".",
                COST + 2 * (parts.size() - 1) + 0.5 * pairs.size(),
                edit);
    }

    /** An isolator of the hookup itself, which stands where it does not help. */
    private static void proposeMove(List<Inserted.Pair> pairs, Defect defect, List<Proposal> into) {
        defect.hookup().devices().forEach((part, device) -> {
            boolean isolator = Inserted.isPassive(device)
                    && device.couples().size() >= pairs.size()
                    && device.couples().stream().allMatch(couple -> isIsolating(device, couple));
            boolean apart = pairs.stream()
                    .flatMap(pair -> Stream.concat(pair.source().stream(), pair.sink().stream()))
                    .noneMatch(terminal -> terminal.startsWith(part + "."));
            if (!isolator || !apart) {
                return;
            }
            Edit edit = defect.edit();
            for (Device.Couple couple : device.couples()) {
                for (int side = 0; side < 2; side++) {
                    bridge(
                            part + "." + couple.from().get(side),
                            part + "." + couple.to().get(side),
                            edit,
                            defect);
                }
            }
            List<Device.Couple> free = new ArrayList<>(device.couples());
            for (Inserted.Pair pair : pairs) {
                Device.Couple couple =
                        Inserted.best(device, free, pair.channel()).orElse(free.get(0));
                free.remove(couple);
                Inserted.into(edit, part, couple, pair);
            }
            into.add(new Proposal(
                    "Move the isolator " + part + " to the " + places(pairs) + ".", 4 + 0.5 * pairs.size(), edit));
        });
    }

    private static boolean isIsolating(Device device, Device.Couple couple) {
        return Stream.concat(couple.from().stream(), couple.to().stream())
                .map(name -> device.allTerminals().get(name))
                .allMatch(terminal -> terminal != null
                        && ((terminal.electrical() instanceof Electrical.LineIn in
                                        && in.returns() == InputReturn.ISOLATED)
                                || (terminal.electrical() instanceof Electrical.LineOut out
                                        && out.returns() == OutputReturn.ISOLATED)));
    }

    /** Joins what is on one side of a coupling with what is on the other, so that nothing of the part is left in the way. */
    private static void bridge(String in, String out, Edit edit, Defect defect) {
        Node from = defect.network().findNode(in);
        Node to = defect.network().findNode(out);
        Link before = from == null ? null : Inserted.onlyWire(from, defect);
        Link after = to == null ? null : Inserted.onlyWire(to, defect);
        if (from != null && to != null && before != null && after != null) {
            edit.without(String.valueOf(after.ref()));
            edit.move(String.valueOf(before.ref()), in, after.across(to).ref());
            edit.withoutTwin(String.valueOf(before.ref()));
        }
    }

    private static String places(List<Inserted.Pair> pairs) {
        return (pairs.size() > 1 ? "pairs" : "pair") + " at "
                + String.join(
                        ", and at ",
                        pairs.stream()
                                .map(pair -> pair.source().get(0) + " and "
                                        + pair.source().get(1))
                                .toList())
                + ", before " + (pairs.size() > 1 ? "their returns meet" : "its return meets another");
    }

    /** Transformers of one to one with isolated returns; common practice, no source: 20 kilohms, 10 V. */
    private static Device plain(List<Inserted.Pair> pairs) {
        Map<String, Device.Terminal> terminals = new LinkedHashMap<>();
        List<Device.Couple> couples = new ArrayList<>();
        for (int at = 1; at <= pairs.size(); at++) {
            Channel channel = pairs.get(at - 1).channel();
            String in = "in-" + at;
            String out = "out-" + at;
            for (Side side : List.of(Side.SIGNAL, Side.RETURN)) {
                String suffix = side == Side.SIGNAL ? "" : "-return";
                terminals.put(
                        in + suffix,
                        new Device.Terminal(
                                null,
                                null,
                                new Electrical.LineIn(channel, side, 0.01, 10.0, 20_000.0, InputReturn.ISOLATED, null),
                                null));
                terminals.put(
                        out + suffix,
                        new Device.Terminal(
                                null,
                                null,
                                new Electrical.LineOut(channel, side, 10.0, 600.0, null, OutputReturn.ISOLATED),
                                null));
            }
            couples.add(
                    new Device.Couple(List.of(in, in + "-return"), List.of(out, out + "-return"), 1.0, 20_000.0, 10.0));
        }
        return Plain.device(
                "isolator of " + pairs.size() + " channels", "isolator", terminals, couples, List.of(), List.of());
    }
}
