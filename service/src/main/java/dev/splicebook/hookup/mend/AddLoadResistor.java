package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A resistor across an output that mutes without a load. */
@AutoService(Change.class)
public final class AddLoadResistor implements Change {

    private static final double COST = 5;
    /** Of what the output still detects: a tolerance of 5 % and a margin; common practice, no source. */
    private static final double SHARE = 0.9;
    /** IEC 60063, series E6, from 4.7 to 470 ohms. */
    private static final List<Double> OHMS =
            List.of(4.7, 6.8, 10.0, 15.0, 22.0, 33.0, 47.0, 68.0, 100.0, 150.0, 220.0, 330.0, 470.0);

    @Override
    public Set<String> rules() {
        return Set.of("load-not-detected");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        for (Node plus : defect.terminals()) {
            Node minus = defect.otherSide(plus);
            if (minus != null
                    && plus.facts() instanceof Electrical.SpeakerOut out
                    && out.side() == Side.PLUS
                    && out.maxDetectOhms() != null
                    && out.maxVolts() != null) {
                double most = out.maxDetectOhms() * SHARE;
                double volts = out.maxVolts();
                OHMS.stream()
                        .filter(ohms -> ohms <= most && (out.minOhms() == null || ohms >= out.minOhms()))
                        .max(Double::compare)
                        .ifPresent(ohms -> proposals.add(load(plus, minus, ohms, volts * volts / ohms, defect)));
            }
        }
        return proposals;
    }

    private static Proposal load(Node plus, Node minus, double ohms, double watts, Defect defect) {
        Edit edit = defect.edit();
        double rated = Math.ceil(watts);
        Device plain = Plain.device(
                "load resistor, " + Sizing.figure(ohms) + " ohms, " + Sizing.figure(rated) + " W",
                "load-resistor",
                Map.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(new Device.Resistor(List.of("a", "b"), ohms, rated)));
        String part = edit.add("LOAD", plain);
        edit.light(plus.ref(), part + ".a");
        edit.light(minus.ref(), part + ".b");
        return new Proposal(
                "Put a load resistor of " + Sizing.figure(ohms) + " ohms across " + plus + " and " + minus + ".",
                COST,
                edit);
    }
}
