package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.electrics.ParasiticDraw;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Level;
import dev.splicebook.hookup.power.Power;
import dev.splicebook.hookup.power.Sink;
import dev.splicebook.hookup.power.Solved;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/** What is fitted draws too much from the battery while the vehicle sleeps. */
@AutoService(Rule.class)
@About(
        code = "parasitic-draw-excessive",
        severity = Severity.WARNING,
        since = "0.2",
        condition = "What is fitted draws too much from the battery while the vehicle sleeps.",
        checks =
                "The sum of what all loads, control inputs, pulled relay coils and resistors of the hookup draw asleep, against 50 mA. The vehicle's"
                        + " own modules come on top of it. What a battery of a part feeds while a relay keeps it apart does not"
                        + " count, nor what is given for moments: by an alarm, a horn, a window, a sunroof, a mirror, a washer, a lock, a hazard or a turn signal. A load that should be switched off and is not is told by"
                        + " switched-load-on-constant-supply, an amplifier that stays on by control-always-active, each with"
                        + " the coil that keeps it on.",
        why =
                "It flattens the battery of a parked vehicle within weeks, and the customer stands before a car that does not start.",
        mend = "Switch what need not run all night, or use a part that sleeps with less.",
        source =
                "Service literature: 25 to 50 mA are usual once the modules sleep, above 35 to 50 mA the cause is looked for.",
        fails = """
                {"parts": {"CAM": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 0.3, "maxAmps": 0.5, "needs": "constant",
                                           "minVolts": 6, "sleepAmps": 0.18}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "CAM.plus"], "conductor": {"size": "18 AWG"},
                          "length": {"value": 1, "unit": "m"}, "fuse": {"ratingAmps": 3}},
                   "W2": {"ends": ["CAR.chassis", "CAM.minus"], "conductor": {"size": "18 AWG"},
                          "length": {"value": 1, "unit": "m"}}}}
                """,
        passes = """
                {"parts": {"CAM": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 0.3, "maxAmps": 0.5, "needs": "constant",
                                           "minVolts": 6, "sleepAmps": 0.01}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "CAM.plus"], "conductor": {"size": "18 AWG"},
                          "length": {"value": 1, "unit": "m"}, "fuse": {"ratingAmps": 3}},
                   "W2": {"ends": ["CAR.chassis", "CAM.minus"], "conductor": {"size": "18 AWG"},
                          "length": {"value": 1, "unit": "m"}}}}
                """)
public final class ParasiticDrawExcessive implements Rule {

    static final Threshold MOST_MILLIAMPS = new Threshold(
            "mostMilliamps",
            ParasiticDraw.USUAL_MOST_MILLIAMPS,
            "mA",
            "what service literature takes as usual for a whole vehicle asleep, at most");

    /** Outputs and feeds that may act while the vehicle sleeps, and do so for moments; common practice, no source. */
    private static final List<FunctionId> MOMENTARY = Stream.of(
                    "control.alarm",
                    "control.horn",
                    "control.window",
                    "control.mirror-fold",
                    "control.washer",
                    "control.hazard",
                    "control.sunroof",
                    "lock",
                    "lighting.hazard",
                    "lighting.turn-left",
                    "lighting.turn-right")
            .map(FunctionId::new)
            .toList();

    @Override
    public void check(Examination examination) {
        Power power = examination.reading().power();
        for (Case each : power.cases()) {
            if (each.level() == Level.ASLEEP && each.conditions().isEmpty()) {
                check(each.typical(), each.scenario(), examination);
            }
        }
        examination.missing(power.openFeeds());
    }

    /** Whether nothing that feeds it then empties the battery that starts the engine: not all night, or another battery. */
    private static boolean isFedByOthersOnly(Node node, Scenario scenario, Examination examination) {
        List<Node> feeds = scenario.reaches(node).stream()
                .map(Reach::source)
                .filter(source -> source.givesTwelveVolts() && scenario.isLive(source) != Sure.NO)
                .toList();
        return !feeds.isEmpty() && feeds.stream().noneMatch(source -> emptiesTheBattery(source, examination));
    }

    /** Whether a sink is a coil that an output pulls to ground for moments only. */
    private static boolean returnsForMoments(Sink sink, Scenario scenario) {
        Coil coil = sink.coil();
        return coil != null
                && Stream.of(coil.one(), coil.other()).anyMatch(end -> {
                    List<Node> sources = scenario.reaches(end).stream()
                            .map(Reach::source)
                            .filter(source -> scenario.isLive(source) != Sure.NO)
                            .toList();
                    return !sources.isEmpty() && sources.stream().allMatch(ParasiticDrawExcessive::isMomentary);
                });
    }

    private static boolean isMomentary(Node source) {
        return MOMENTARY.stream().anyMatch(source::isFor);
    }

    private static boolean emptiesTheBattery(Node source, Examination examination) {
        boolean another = !source.isVehicle() && examination.network().isBattery(source);
        return !another && !isMomentary(source);
    }

    /** Whether a sink is a coil that keeps on what another rule tells of. */
    private static boolean keepsOn(Sink sink, Scenario scenario, Examination examination) {
        Coil coil = sink.coil();
        return coil != null
                && examination.network().links().stream()
                        .filter(link ->
                                link.kind().isContact() && link.relay() == coil.relay() && scenario.isClosed(link))
                        .flatMap(link -> scenario.members(scenario.netOf(link.from())).stream())
                        .anyMatch(node -> isLeftOn(node, scenario));
    }

    private static boolean isLeftOn(Node node, Scenario scenario) {
        if (node.facts() instanceof Electrical.Load load) {
            return load.needs() == Need.SWITCHED && scenario.hasFeed(node) == Sure.YES;
        }
        Active wants = node.isFor(ControlAlwaysActive.TURN_ON) ? Controls.wants(node) : null;
        return wants != null && Controls.hears(node, wants, scenario) == Sure.YES;
    }

    private static void check(Solved asleep, Scenario scenario, Examination examination) {
        List<Node> drawing = new ArrayList<>();
        Set<String> latched = new TreeSet<>();
        double amps = 0;
        for (Sink sink : asleep.sinks()) {
            boolean leftOn = sink.load() != null
                    && sink.load().needs() == Need.SWITCHED
                    && sink.load().sleepAmps() == null;
            if (!asleep.isFed(sink)
                    || leftOn
                    || isFedByOthersOnly(sink.node(), scenario, examination)
                    || returnsForMoments(sink, scenario)
                    || keepsOn(sink, scenario, examination)) {
                continue;
            }
            examination.applies();
            String fact = asleep.lackedFact(sink);
            if (fact != null) {
                examination.missing(sink.node(), fact);
            } else if (asleep.amps(sink) > 0) {
                amps += asleep.amps(sink);
                drawing.add(asleep.fedEnd(sink));
                if (sink.coil() != null && KeptOn.holdsItself(sink.coil(), scenario, examination.network())) {
                    latched.add(sink.coil().part());
                }
            }
        }
        double leaked = asleep.leakedAmps(
                source -> emptiesTheBattery(source, examination),
                sink -> !isFedByOthersOnly(sink.node(), scenario, examination));
        if (leaked > 0) {
            examination.applies();
            amps += leaked;
            asleep.leaks().forEach(leak -> drawing.add(asleep.fedEnd(leak)));
        }
        double milliamps = 1000 * amps;
        if (milliamps > examination.value(MOST_MILLIAMPS) + 1e-6) {
            examination
                    .report(
                            "asleep, " + Say.names(drawing) + (drawing.size() > 1 ? " together draw " : " draws ")
                                    + String.format(Locale.ROOT, "%.0f mA", milliamps)
                                    + " from the battery, above the "
                                    + Math.round(examination.value(MOST_MILLIAMPS))
                                    + " mA that are usual for a whole vehicle"
                                    + (latched.isEmpty()
                                            ? ""
                                            : ": " + Say.list(List.copyOf(latched))
                                                    + (latched.size() == 1
                                                            ? " holds itself by its"
                                                            : " hold themselves by their")
                                                    + " own contact once pulled in"),
                            (latched.isEmpty()
                                            ? ""
                                            : "see that the coil of " + Say.list(List.copyOf(latched))
                                                    + " goes dead when the vehicle sleeps, ")
                                    + "switch off what need not run all night, or use a part that sleeps with less.")
                    .at(drawing)
                    .in(Set.of(State.ASLEEP))
                    .figures(Flows.figure(milliamps), examination.value(MOST_MILLIAMPS), "mA");
        }
    }
}
