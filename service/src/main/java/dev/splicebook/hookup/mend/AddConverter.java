package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Speaker level goes through a line-output converter: a free channel of one that is there, one of the stock, or a plain one. */
@AutoService(Change.class)
public final class AddConverter implements Change {

    private static final double COST = 10;

    @Override
    public Set<String> rules() {
        return Set.of("level-too-high", "speaker-minus-grounded", "signal-type-mismatch");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        List<Node> terminals = defect.terminals();
        for (Node input : terminals) {
            if (!(input.facts() instanceof Electrical.LineIn)) {
                continue;
            }
            for (Node output : terminals) {
                if (output.facts() instanceof Electrical.SpeakerOut || output.facts() instanceof Electrical.LineOut) {
                    Inserted.Pair pair = pairOf(output, input, defect);
                    if (pair != null) {
                        convert(pair, output, input, defect, proposals);
                    }
                }
            }
        }
        return proposals;
    }

    private static Inserted.@Nullable Pair pairOf(Node output, Node input, Defect defect) {
        Node otherOutput = defect.otherSide(output);
        Node otherInput = defect.otherSide(input);
        Link wire = Inserted.onlyWire(input, defect);
        if (otherOutput == null || otherInput == null || wire == null) {
            return null;
        }
        boolean turned = input.audio() != null
                && input.audio().side() != null
                && !input.audio().side().isPositive();
        Link otherWire = Inserted.onlyWire(otherInput, defect);
        String otherSource = otherOutput.ref();
        if (otherWire != null) {
            Node far = otherWire.across(otherInput);
            if (defect.joinedWithout(far, otherWire).contains(otherOutput)) {
                otherSource = far.ref();
            }
        }
        List<String> source = List.of(wire.across(input).ref(), otherSource);
        List<@Nullable String> wires = Arrays.asList(Inserted.ref(wire), Inserted.ref(otherWire));
        List<String> sink = List.of(input.ref(), otherInput.ref());
        Channel channel = output.audio() == null ? null : output.audio().channel();
        return turned
                ? new Inserted.Pair(
                        channel,
                        List.of(source.get(1), source.get(0)),
                        Arrays.asList(wires.get(1), wires.get(0)),
                        List.of(sink.get(1), sink.get(0)))
                : new Inserted.Pair(channel, source, wires, sink);
    }

    private static void convert(Inserted.Pair pair, Node output, Node input, Defect defect, List<Proposal> into) {
        Double volts = volts(output);
        Double takes = input.facts() instanceof Electrical.LineIn in ? in.maxVolts() : null;
        String between = " between " + output.ref() + " and " + input.ref();
        defect.hookup().devices().forEach((part, device) -> {
            List<Device.Couple> free = device.couples().stream()
                    .filter(couple -> suits(couple, volts, takes) && Inserted.isFree(part, couple, defect))
                    .toList();
            Inserted.best(device, free, pair.channel()).ifPresent(couple -> {
                Edit edit = defect.edit();
                Inserted.into(edit, part, couple, pair);
                into.add(new Proposal(
                        "Put the free channel of " + part + " from "
                                + couple.from().get(0) + " to " + couple.to().get(0) + between + ".",
                        4,
                        edit));
            });
        });
        for (Stock.Item item : defect.stock("line-output-converter")) {
            List<Device.Couple> suiting = item.device().couples().stream()
                    .filter(couple -> suits(couple, volts, takes))
                    .toList();
            Inserted.best(item.device(), suiting, pair.channel()).ifPresent(couple -> {
                Edit edit = defect.edit();
                String part = edit.add("LOC", item);
                Inserted.into(edit, part, couple, pair);
                if (Sources.power(edit, part, item.device(), defect)) {
                    capOthers(edit, part, item.device(), couple);
                    into.add(new Proposal("Put a line-output converter" + between + ".", COST, edit));
                }
            });
        }
        if (volts != null && takes != null && takes < volts) {
            Edit edit = defect.edit();
            Device plain = plain(pair.channel(), volts, takes);
            Inserted.into(edit, edit.add("LOC", plain), plain.couples().get(0), pair);
            into.add(new Proposal("Put a passive line-output converter" + between + ".", COST + 1, edit));
        }
    }

    private static @Nullable Double volts(Node output) {
        return output.facts() instanceof Electrical.SpeakerOut out
                ? out.maxVolts()
                : output.facts() instanceof Electrical.LineOut line ? line.maxVolts() : null;
    }

    private static boolean suits(Device.Couple couple, @Nullable Double volts, @Nullable Double takes) {
        double gain = couple.gain() == null ? 1 : couple.gain();
        return gain > 0
                && volts != null
                && couple.maxVolts() != null
                && couple.maxVolts() >= volts
                && takes != null
                && volts * gain <= takes;
    }

    /** The inputs of the other channels; what gives is capped by itself. */
    private static void capOthers(Edit edit, String part, Device device, Device.Couple used) {
        device.couples().stream()
                .flatMap(couple -> couple.from().stream())
                .filter(name -> !used.from().contains(name))
                .forEach(name -> edit.unused(part + "." + name, "one channel is enough"));
    }

    /** A transformer that brings the output to nine tenths of what the input takes. */
    private static Device plain(@Nullable Channel channel, double volts, double takes) {
        double gain = Math.floor(takes / volts * 0.9 * 1000) / 1000;
        Map<String, Device.Terminal> terminals = new LinkedHashMap<>();
        for (Side side : List.of(Side.PLUS, Side.MINUS)) {
            terminals.put(
                    "in-" + side.name().toLowerCase(java.util.Locale.ROOT),
                    new Device.Terminal(
                            null, null, new Electrical.SpeakerIn(channel, side, null, volts, null, null), null));
        }
        for (Side side : List.of(Side.SIGNAL, Side.RETURN)) {
            terminals.put(
                    side == Side.SIGNAL ? "out" : "out-return",
                    new Device.Terminal(
                            null,
                            null,
                            new Electrical.LineOut(channel, side, volts * gain, 600.0, null, OutputReturn.ISOLATED),
                            null));
        }
        return Plain.device(
                "passive line-output converter, " + gain + " V for 1 V",
                "line-output-converter",
                terminals,
                List.of(new Device.Couple(
                        List.of("in-plus", "in-minus"), List.of("out", "out-return"), gain, 10_000.0, volts)),
                List.of(),
                List.of());
    }
}
