package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Functions that do not belong together are joined, and no other rule owns it. */
@AutoService(Rule.class)
@About(
        code = "function-mismatched",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "Functions that do not belong together are joined, and no other rule owns it.",
        checks =
                "Every input or load, and every bus line, against the functions of what feeds its net, by the vocabulary's list"
                        + " of what may feed what, and a camera may hang on the reversing lamp; and power, sound, pictures and data"
                        + " against inputs for another of them, whatever the functions, power through diodes and contacts too. Between sound and pictures, and among each, the other rules judge.",
        why = "Volts are right and meaning is wrong: the reverse input that sees accessory shows the camera all day.",
        mend = "Find the circuit of the right function; go by function, never by colour.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"function": "power.accessory", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"HU": {"inline": {"terminals": {"reverse": {"function": "control.reverse",
                   "electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-8", "HU.reverse"], "conductor": {"size": "18 AWG"}}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C3-4": {"function": "lighting.reverse", "electrical":
                   {"kind": "supply", "maxAmps": 5, "fuseAmps": 10, "live": ["ignition", "running"], "when": "reverse"}}}}},
                 "parts": {"HU": {"inline": {"terminals": {"reverse": {"function": "control.reverse",
                   "electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C3-4", "HU.reverse"], "conductor": {"size": "18 AWG"}}}}
                """,
        rank = Rank.FUNCTION)
public final class FunctionMismatched implements Rule {

    private static final FunctionId REVERSE = new FunctionId("control.reverse");
    private static final FunctionId POWER = new FunctionId("power");

    @Override
    public void check(Examination examination) {
        Set<List<Node>> done = new HashSet<>();
        checkPassiveLeads(examination, done);
        checkKinds(examination, done);
        for (Node taker : examination.network().nodes()) {
            boolean unknown = taker.facts() == null;
            if (taker.function() == null || !(unknown || takes(taker) || taker.facts() instanceof Electrical.Data)) {
                continue;
            }
            List<Node> net = examination.network().netOf(taker);
            if (net.size() < 2 || examination.network().isUnused(taker)) {
                continue;
            }
            for (Node giver : net) {
                if (giver == taker || giver.function() == null || isWithin(giver, taker, examination)) {
                    continue;
                }
                if (unknown || (giver.facts() == null && takes(taker))) {
                    lack(giver, taker, examination);
                } else if (mayMeet(giver, taker) && done.add(pair(giver, taker))) {
                    examination.applies();
                    if (isMismatch(giver, taker) && !isCameraOnReverse(giver, taker, examination)) {
                        report(giver, taker, examination);
                    }
                }
            }
        }
    }

    /** A lead that neither gives nor takes still has a function, and so has what it is connected to. */
    private static void checkPassiveLeads(Examination examination, Set<List<Node>> done) {
        for (Link link : examination.network().links()) {
            Node one = link.from();
            Node other = link.to();
            if (link.kind() == Link.Kind.CONNECTION
                    && one.function() != null
                    && other.function() != null
                    && (one.facts() instanceof Electrical.Passive || other.facts() instanceof Electrical.Passive)
                    && done.add(List.of(one, other))) {
                examination.applies();
                Functions functions = Functions.vocabulary();
                if (!functions.mayFeed(one.function(), other.function())
                        && !functions.mayFeed(other.function(), one.function())) {
                    boolean turned = Say.BY_FACTS.compare(one, other) > 0;
                    report(turned ? other : one, turned ? one : other, examination);
                }
            }
        }
    }

    /** Power into an input for sound, a picture into a bus: whatever the functions are, and where they are not known. */
    private static void checkKinds(Examination examination, Set<List<Node>> done) {
        Map<Integer, Set<Kind>> givenOn = new HashMap<>();
        for (Node taker : examination.network().nodes()) {
            Kind wanted = takes(taker) || taker.facts() instanceof Electrical.Data ? Kind.of(taker) : Kind.NONE;
            if (wanted == Kind.NONE || examination.network().isUnused(taker)) {
                continue;
            }
            List<Node> net = examination.network().netOf(taker);
            if (wanted.isSignal) {
                checkPowerFromAfar(taker, wanted, examination, done);
            }
            Set<Kind> givenOnNet = givenOn.computeIfAbsent(taker.net(), key -> kindsGiven(net));
            // most nets carry one kind, and some thousands of takers of it
            if (givenOnNet.equals(Set.of(wanted))) {
                continue;
            }
            for (Node giver : net) {
                Kind given = given(giver);
                if (given != Kind.NONE
                        && given != wanted
                        && !(given.isSignal && wanted.isSignal)
                        && giver != taker
                        && !isWithin(giver, taker, examination)
                        && mayMeet(giver, taker)
                        && done.add(pair(giver, taker))) {
                    reportKinds(giver, given, taker, wanted, examination);
                }
            }
        }
    }

    /** Power that comes through a diode or a contact. */
    private static void checkPowerFromAfar(Node taker, Kind wanted, Examination examination, Set<List<Node>> done) {
        for (Scenario scenario : examination.reading().partitions()) {
            for (Reach reach : scenario.reaches(taker)) {
                Node giver = reach.source();
                if (reach.hard()
                        && giver.givesTwelveVolts()
                        && giver.net() != taker.net()
                        && done.add(pair(giver, taker))) {
                    reportKinds(giver, Kind.POWER, taker, wanted, examination)
                            .in(examination.reading().states(scenario));
                }
            }
        }
    }

    private static Examination.Draft reportKinds(
            Node giver, Kind given, Node taker, Kind wanted, Examination examination) {
        return examination
                .report(
                        Say.name(giver) + " is " + given.what + " and is joined with " + Say.name(taker)
                                + ", which is for " + wanted.what,
                        "take " + taker.ref() + " off what joins the two, and connect it to what gives " + wanted.what
                                + ".")
                .at(giver, taker)
                .through(examination.reading().connectionsAt(List.of(taker)));
    }

    private static Kind given(Node giver) {
        return gives(giver) || giver.facts() instanceof Electrical.Data ? Kind.of(giver) : Kind.NONE;
    }

    private static Set<Kind> kindsGiven(List<Node> net) {
        Set<Kind> kinds = EnumSet.noneOf(Kind.class);
        for (Node giver : net) {
            kinds.add(given(giver));
        }
        kinds.remove(Kind.NONE);
        return kinds;
    }

    /** What a terminal gives or takes at all. */
    private enum Kind {
        NONE("nothing", false),
        POWER("power", false),
        SOUND("sound", true),
        PICTURE("pictures", true),
        DATA("data", false);

        final String what;
        /** Whether signal-type-mismatch tells it from its like. */
        final boolean isSignal;

        Kind(String what, boolean isSignal) {
            this.what = what;
            this.isSignal = isSignal;
        }

        static Kind of(Node node) {
            Electrical facts = node.facts();
            if (facts instanceof Electrical.Audio) {
                return SOUND;
            }
            if (facts instanceof Electrical.Video) {
                return PICTURE;
            }
            if (facts instanceof Electrical.Data) {
                return DATA;
            }
            return gives(node) || takes(node) ? POWER : NONE;
        }
    }

    private static List<Node> pair(Node giver, Node taker) {
        return giver.facts() instanceof Electrical.Data
                ? List.of(giver, taker).stream().sorted(Say.BY_FACTS).toList()
                : List.of(giver, taker);
    }

    /** Two terminals of one part that meet by the part's own making. */
    private static boolean isWithin(Node giver, Node taker, Examination examination) {
        return giver.owner().equals(taker.owner())
                && examination.reading().isJoinedInside(giver)
                && examination.reading().isJoinedInside(taker);
    }

    /** Where the functions do not belong together, and which of the two gives is not known. */
    private static void lack(Node giver, Node taker, Examination examination) {
        boolean mayGive = giver.facts() == null ? taker.facts() != null || isMismatch(taker, giver) : gives(giver);
        if (mayGive && isMismatch(giver, taker)) {
            for (Node node : List.of(giver, taker)) {
                if (node.facts() == null) {
                    examination.missing(node, "electrical");
                }
            }
        }
    }

    private static boolean mayMeet(Node giver, Node taker) {
        boolean giverIsData = giver.facts() instanceof Electrical.Data;
        boolean takerIsData = taker.facts() instanceof Electrical.Data;
        if (giverIsData || takerIsData) {
            return giverIsData == takerIsData || gives(giver) || takes(taker);
        }
        return gives(giver) && !(giver.audio() != null && taker.audio() != null);
    }

    private static boolean isMismatch(Node giver, Node taker) {
        if (giver.function() == null || taker.function() == null) {
            return false;
        }
        Functions functions = Functions.vocabulary();
        boolean may = functions.mayFeed(giver.function(), taker.function());
        return !may
                && !(giver.facts() instanceof Electrical.Data && functions.mayFeed(taker.function(), giver.function()));
    }

    /** A camera is fed by the reversing lamp, whatever its own lead is called; common practice, no source. */
    private static boolean isCameraOnReverse(Node giver, Node taker, Examination examination) {
        return giver.isFor(REVERSE)
                && giver.facts() instanceof Electrical.Supply
                && taker.facts() instanceof Electrical.Load
                && taker.isFor(POWER)
                && examination.network().nodesOf(taker.owner()).stream()
                        .anyMatch(node -> node.facts() instanceof Electrical.VideoOut);
    }

    private static void report(Node giver, Node taker, Examination examination) {
        examination
                .report(
                        Say.name(giver) + " is " + giver.function() + " and is joined with " + Say.name(taker)
                                + ", which is " + taker.function(),
                        "connect " + taker.ref() + " to a circuit whose function is " + taker.function() + ".")
                .at(giver, taker)
                .through(examination.reading().connectionsAt(List.of(taker)));
    }

    private static boolean gives(Node node) {
        return node.facts() instanceof Electrical.Supply
                || node.facts() instanceof Electrical.ControlOut
                || node.facts() instanceof Electrical.VideoOut
                || (node.audio() != null && node.audio().isOutput());
    }

    private static boolean takes(Node node) {
        return node.facts() instanceof Electrical.Load
                || node.facts() instanceof Electrical.ControlIn
                || node.facts() instanceof Electrical.VideoIn
                || (node.audio() != null && !node.audio().isOutput());
    }
}
