package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A signal of one kind goes into an input for another. */
@AutoService(Rule.class)
@About(
        code = "signal-type-mismatch",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A signal of one kind goes into an input for another.",
        checks =
                "Sound, pictures and antenna leads, in every state and through couplings: what gives one kind may not stand on a"
                        + " net with what takes another. A picture must have the format that the input takes, and may not meet a return, nor a return stand alone at an input for a picture. A line output"
                        + " drives no voice coil. Bus lines are judged by a rule of their own.",
        why =
                "Nothing plays, or it buzzes: a picture in a sound input is a loud hum, and a sound on an antenna lead is silence.",
        mend = "Take the two apart; go by the function of each lead, not by the shape of its plug.",
        source = "Common practice, no source.",
        fails = """
                {"parts": {
                   "CAM": {"inline": {"terminals": {"video": {"electrical": {"kind": "video-out", "side": "signal", "format": "composite"}}}}},
                   "HU": {"inline": {"terminals": {"av-left": {"electrical": {"kind": "line-in", "channel": "left", "side": "signal", "minVolts": 0.1, "maxVolts": 2, "return": "chassis"}}}}}},
                 "connections": {"W1": {"ends": ["CAM.video", "HU.av-left"]}}}
                """,
        passes = """
                {"parts": {
                   "CAM": {"inline": {"terminals": {"video": {"electrical": {"kind": "video-out", "side": "signal", "format": "composite"}}}}},
                   "HU": {"inline": {"terminals": {"av-video": {"electrical": {"kind": "video-in", "side": "signal", "format": "composite"}}}}}},
                 "connections": {"W1": {"ends": ["CAM.video", "HU.av-video"]}}}
                """,
        rank = Rank.SIGNAL_TYPE)
public final class SignalTypeMismatch implements Rule {

    /** Above every voice coil, below every input that takes speaker level; common practice, no source. */
    private static final double MOST_COIL_OHMS = 100;

    /** What a terminal gives or takes. */
    private enum Kind {
        SOUND("sound"),
        PICTURE("a picture"),
        ANTENNA("an antenna signal");

        final String what;

        Kind(String what) {
            this.what = what;
        }

        static @Nullable Kind of(Node node) {
            Electrical facts = node.facts();
            if (facts instanceof Electrical.Audio) {
                return SOUND;
            }
            if (facts instanceof Electrical.Video) {
                return PICTURE;
            }
            return facts instanceof Electrical.Antenna ? ANTENNA : null;
        }
    }

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Examination.Draft> told = new HashMap<>();
        Set<Node> pictured = new HashSet<>();
        List<Passing> passings = passings(examination.network());
        for (Scenario scenario : examination.reading().signalWays()) {
            for (Node giver : examination.network().nodes()) {
                Kind kind = gives(giver) && !isReturn(giver) ? Kind.of(giver) : null;
                if (kind == null) {
                    continue;
                }
                for (Node taker : reached(giver, scenario, passings)) {
                    Kind other = Kind.of(taker);
                    if (taker == giver || other == null || !takes(taker)) {
                        continue;
                    }
                    if (isReturn(taker)) {
                        if (kind == Kind.PICTURE && other == kind) {
                            examination.applies();
                            pictured.add(giver);
                            tell(
                                    giver,
                                    taker,
                                    "a picture and goes into " + Say.name(taker) + ", which is a return",
                                    scenario,
                                    told,
                                    examination);
                        }
                        continue;
                    }
                    examination.applies();
                    pictured.add(taker);
                    if (kind != other) {
                        tell(
                                giver,
                                taker,
                                kind.what + " and goes into " + Say.name(taker) + ", which is for " + other.what,
                                scenario,
                                told,
                                examination);
                    } else if (giver.facts() instanceof Electrical.VideoOut out
                            && taker.facts() instanceof Electrical.VideoIn in) {
                        checkFormats(giver, out, taker, in, scenario, told, examination);
                    } else if (giver.facts() instanceof Electrical.LineOut
                            && taker.facts() instanceof Electrical.SpeakerIn in
                            && in.ohms() != null
                            && in.ohms() < MOST_COIL_OHMS) {
                        tell(
                                giver,
                                taker,
                                "line level and goes into " + Say.name(taker) + ", a voice coil of "
                                        + Say.ohms(in.ohms()) + ", which needs an amplifier's speaker output",
                                "put an amplifier between the two, or drive " + taker.ref() + " from a speaker output.",
                                scenario,
                                told,
                                examination);
                    }
                }
            }
            checkReturns(pictured, scenario, told, examination);
        }
    }

    /** A picture input that gets the return of a picture and nothing else. */
    private static void checkReturns(
            Set<Node> pictured, Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        for (Node taker : examination.network().nodes()) {
            if (!(taker.facts() instanceof Electrical.VideoIn) || isReturn(taker) || pictured.contains(taker)) {
                continue;
            }
            for (Node giver : scenario.members(scenario.netOf(taker))) {
                // with its signal in a return the two are swapped, and that is told already
                if (giver.facts() instanceof Electrical.VideoOut
                        && isReturn(giver)
                        && examination.network().nodesOf(giver.owner()).stream().noneMatch(pictured::contains)) {
                    examination.applies();
                    tell(
                            giver,
                            taker,
                            "no picture, being a return, and goes into " + Say.name(taker) + ", which takes one",
                            scenario,
                            told,
                            examination);
                }
            }
        }
    }

    private static void checkFormats(
            Node giver,
            Electrical.VideoOut out,
            Node taker,
            Electrical.VideoIn in,
            Scenario scenario,
            Map<Set<Node>, Examination.Draft> told,
            Examination examination) {
        String given = out.format();
        String wanted = in.format();
        if (given != null && wanted != null) {
            if (!given.strip().toLowerCase(Locale.ROOT).equals(wanted.strip().toLowerCase(Locale.ROOT))) {
                tell(
                        giver,
                        taker,
                        "a picture in " + given + " and goes into " + Say.name(taker) + ", which takes " + wanted,
                        scenario,
                        told,
                        examination);
            }
        } else if (given != null) {
            examination.missing(taker, "format");
        } else if (wanted != null) {
            examination.missing(giver, "format");
        }
    }

    private static void tell(
            Node giver,
            Node taker,
            String what,
            Scenario scenario,
            Map<Set<Node>, Examination.Draft> told,
            Examination examination) {
        tell(
                giver,
                taker,
                what,
                "take " + taker.ref() + " off what joins the two, and connect it to what it is for.",
                scenario,
                told,
                examination);
    }

    private static void tell(
            Node giver,
            Node taker,
            String what,
            String help,
            Scenario scenario,
            Map<Set<Node>, Examination.Draft> told,
            Examination examination) {
        Examination.Draft draft = told.computeIfAbsent(
                        Set.of(giver, taker),
                        key -> examination
                                .report(Say.name(giver) + " gives " + what, help)
                                .at(giver, taker)
                                .through(examination.reading().connectionsAt(List.of(taker))))
                .in(examination.reading().signalStates(scenario));
        // where their returns meet it is the same mistake
        for (Node given : returns(giver, examination)) {
            for (Node taken : returns(taker, examination)) {
                if (scenario.netOf(given) == scenario.netOf(taken)) {
                    draft.claimsUnlessGround(scenario, scenario.netOf(given));
                }
            }
        }
    }

    private static List<Node> returns(Node signal, Examination examination) {
        return examination.network().nodesOf(signal.owner()).stream()
                .filter(node -> isReturn(node) && Kind.of(node) == Kind.of(signal))
                .toList();
    }

    /** One conductor of a coupling that passes a signal on to a terminal of which no facts tell what it gives. */
    private record Passing(Node from, Node to) {}

    private static List<Passing> passings(Network network) {
        List<Passing> passings = new ArrayList<>();
        for (Coupling coupling : network.couplings()) {
            for (int end = 0; end < 2; end++) {
                // what a part makes of its own input is its own business where it says what it gives
                if (Kind.of(coupling.to().get(end)) == null) {
                    passings.add(
                            new Passing(coupling.from().get(end), coupling.to().get(end)));
                }
            }
        }
        return passings;
    }

    /** What stands on the net of a node, and on those that couplings pass its signal on to. */
    private static List<Node> reached(Node giver, Scenario scenario, List<Passing> passings) {
        if (passings.isEmpty()) {
            return scenario.members(scenario.netOf(giver));
        }
        List<Node> reached = new ArrayList<>();
        Set<Integer> seen = new LinkedHashSet<>(Set.of(scenario.netOf(giver)));
        ArrayDeque<Integer> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            int net = queue.remove();
            reached.addAll(scenario.members(net));
            for (Passing passing : passings) {
                int next = scenario.netOf(passing.to());
                if (scenario.netOf(passing.from()) == net && seen.add(next)) {
                    queue.add(next);
                }
            }
        }
        return reached;
    }

    /** A return is a conductor for any kind, and often ground for all. */
    private static boolean isReturn(Node node) {
        return node.facts() instanceof Electrical.Video video
                ? video.isReturn()
                : node.audio() != null && node.audio().side() == Side.RETURN;
    }

    private static boolean gives(Node node) {
        return node.facts() instanceof Electrical.VideoOut
                || node.facts() instanceof Electrical.Antenna
                || (node.audio() != null && node.audio().isOutput());
    }

    private static boolean takes(Node node) {
        return node.facts() instanceof Electrical.VideoIn
                || node.facts() instanceof Electrical.Antenna
                || (node.audio() != null && !node.audio().isOutput());
    }
}
