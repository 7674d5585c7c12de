package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.electrics.FuseBody;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** A fuse is rated above the corrected ampacity of the conductor behind it. */
@AutoService(Rule.class)
@About(
        code = "fuse-exceeds-conductor",
        severity = Severity.DANGER,
        since = "0.1",
        sizes = true,
        condition = "A fuse is rated above the corrected ampacity of the conductor behind it.",
        checks =
                "Every conductor with a fuse in it, and every conductor that leaves a fuse or a fused supply, against the"
                        + " ampacity of its size, material and insulation.",
        why =
                "The fuse protects the wire, not the equipment. If it passes more than the wire bears, the wire is the fuse.",
        mend = "Use a smaller fuse, or a thicker conductor.",
        source = "33 CFR 183.425 table 5 for ampacity; 33 CFR 183.455 allows 150 % below 50 V, which is not used here.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "10 AWG"},
                          "fuse": {"ratingAmps": 80}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "8 AWG"}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "8 AWG"},
                          "fuse": {"ratingAmps": 80}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "8 AWG"}}}}
                """)
public final class FuseExceedsConductor implements Rule {

    @Override
    public void check(Examination examination) {
        Set<Link> reached = new HashSet<>();
        Set<Link> told = new HashSet<>();
        for (Node supply : examination.network().sources()) {
            if (supply.facts() instanceof Electrical.Supply facts) {
                for (Conductors.Exposed exposed : examination.reading().exposedTo(supply)) {
                    check(exposed, supply, facts, told, examination);
                    reached.add(exposed.link());
                }
            }
        }
        for (Link link : examination.network().links()) {
            if (link.kind() == Link.Kind.CONNECTION && link.hasFuse() && !reached.contains(link)) {
                check(link, link.from(), link.fuseAmps(), Stands.IN, told, examination);
            }
        }
        checkTails(told, examination);
    }

    /** The conductor from an unfused source to a fuse holder: what the fuses in it let pass flows through it too. */
    private static void checkTails(Set<Link> told, Examination examination) {
        for (Node supply : examination.network().sources()) {
            if (supply.facts() instanceof Electrical.Supply
                    && Double.isInfinite(Conductors.protectionAmps(supply, examination.network()))) {
                for (Link link : examination.network().linksOf(supply)) {
                    if (link.kind() == Link.Kind.CONNECTION && !link.hasFuse()) {
                        double ahead = Conductors.fusesAhead(link, supply, examination.network());
                        if (!Double.isNaN(ahead)) {
                            check(link, supply, ahead, Stands.AHEAD, told, examination);
                        }
                    }
                }
            }
        }
    }

    private static void check(
            Conductors.Exposed exposed, Node supply, Electrical.Supply facts, Set<Link> told, Examination examination) {
        Link link = exposed.link();
        double before = exposed.protectionAmps();
        if (link.hasFuse()) {
            // a fuse is there for its own conductor, whatever smaller one stands upstream today
            check(link, exposed.near(), link.fuseAmps(), Stands.IN, told, examination);
        } else if (!exposed.afterConductor() && Double.isNaN(before)) {
            examination.missing(supply, Boolean.TRUE.equals(facts.limited()) ? "maxAmps" : "fuseAmps");
        } else if (!exposed.afterConductor() && !Double.isInfinite(before)) {
            // a conductor behind another is a matter of fuse-missing
            check(link, exposed.near(), before, Stands.BEFORE, told, examination);
        }
    }

    /** Where the fuse stands that a conductor has to bear. */
    private enum Stands {
        IN,
        BEFORE,
        AHEAD;

        String text(String rating) {
            return switch (this) {
                case IN -> " is fused at " + rating;
                case BEFORE -> " has no fuse but the " + rating + " before it";
                case AHEAD -> " feeds fuses of " + rating + " together";
            };
        }

        String help(String most) {
            return switch (this) {
                case IN -> "use a fuse " + most;
                case BEFORE -> "put a fuse " + most + " where it begins";
                case AHEAD -> "put fuses " + most + " together behind it";
            };
        }
    }

    /** The greatest rating of a common fuse that a conductor bears, like {@code of at most 7.5 A}. */
    private static String most(double ampacity) {
        Double rating = FuseBody.allRatingsAmps().floor(ampacity);
        return rating == null ? "below " + Say.amps(ampacity) : "of at most " + Say.rating(rating);
    }

    private static void check(
            Link link, Node near, double fuseAmps, Stands stands, Set<Link> told, Examination examination) {
        Connection connection = link.connection();
        if (connection == null) {
            return;
        }
        examination.applies();
        Double ampacity = Conductors.ampacity(connection);
        if (ampacity == null || connection.conductor() == null) {
            examination.missing("connection " + link.ref(), "conductor");
            return;
        }
        Conductors.assumeDefaults(examination, connection.conductor());
        if (fuseAmps > ampacity && told.add(link)) {
            examination
                    .report(
                            Conductors.describe(link, near) + stands.text(Say.rating(fuseAmps)) + ", above the "
                                    + Say.amps(ampacity) + " that " + Conductors.describe(connection.conductor())
                                    + " takes",
                            stands.help(most(ampacity)) + ", or use a thicker conductor.")
                    .at(near, link.across(near))
                    .through(List.of(String.valueOf(link.ref())))
                    .figures(fuseAmps, ampacity, "A");
        }
    }
}
