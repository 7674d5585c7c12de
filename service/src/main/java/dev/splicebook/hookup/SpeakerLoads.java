package dev.splicebook.hookup;

import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import dev.splicebook.hookup.rule.Reading;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What the report says of the speaker outputs that the hookup loads. */
final class SpeakerLoads {

    private static final Comparator<Report.SpeakerLoad> BY_OUTPUT =
            Comparator.comparing(load -> String.join(" ", load.output()));

    private SpeakerLoads() {}

    static List<Report.SpeakerLoad> of(Reading reading) {
        Map<Report.SpeakerLoad, Set<State>> found = new LinkedHashMap<>();
        for (Scenario scenario : reading.signalWays()) {
            List<State> states = reading.signalStates(scenario);
            for (OutputLoad load : reading.loads(scenario).all()) {
                if (load.isOfTheHookup()) {
                    found.computeIfAbsent(of(load, scenario), key -> EnumSet.noneOf(State.class))
                            .addAll(states);
                }
            }
        }
        List<Report.SpeakerLoad> loads = new ArrayList<>();
        found.forEach((load, states) -> loads.add(new Report.SpeakerLoad(
                load.output(),
                load.ohms(),
                load.minOhms(),
                load.maxVolts(),
                states.size() == State.values().length ? List.of() : List.copyOf(states),
                load.coils())));
        loads.sort(BY_OUTPUT);
        return loads;
    }

    private static Report.SpeakerLoad of(OutputLoad load, Scenario scenario) {
        Double maxVolts = load.stated(Electrical.SpeakerOut::maxVolts);
        boolean turned = load.isFedTurned(Signals.in(scenario));
        List<Report.DrivenCoil> coils = load.shares().stream()
                .map(share -> new Report.DrivenCoil(
                        share.coil().ends().stream().map(Node::ref).toList(),
                        share.coil().ohms(),
                        maxVolts == null ? null : Double.valueOf(Math.abs(share.volts()) * maxVolts),
                        maxVolts == null ? null : Double.valueOf(Math.abs(share.amps()) * maxVolts),
                        maxVolts == null ? null : Double.valueOf(share.watts(maxVolts)),
                        !share.isDriven()
                                ? Report.Polarity.NONE
                                : share.isTurned() == turned ? Report.Polarity.RIGHT : Report.Polarity.REVERSED))
                .sorted(Comparator.comparing(coil -> String.join(" ", coil.terminals())))
                .toList();
        return new Report.SpeakerLoad(
                load.sides().stream().map(Node::ref).toList(),
                load.isClosed() ? load.ohms() : null,
                load.stated(Electrical.SpeakerOut::minOhms),
                maxVolts,
                List.of(),
                coils);
    }
}
