package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
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
        Set<Link> seen = new HashSet<>();
        for (Node supply : examination.network().sources()) {
            if (supply.facts() instanceof Electrical.Supply) {
                for (Conductors.Exposed exposed : Conductors.from(supply, examination.network())) {
                    check(exposed.link(), exposed.near(), protection(exposed), seen, examination);
                }
            }
        }
        for (Link link : examination.network().links()) {
            if (link.kind() == Link.Kind.CONNECTION && link.hasFuse()) {
                check(link, link.from(), link.fuseAmps(), seen, examination);
            }
        }
    }

    /** The fuse that the conductor itself must bear; a conductor behind another is a matter of {@code fuse-missing}. */
    private static double protection(Conductors.Exposed exposed) {
        if (exposed.link().hasFuse()) {
            double own = exposed.link().fuseAmps();
            return exposed.protectionAmps() < own ? exposed.protectionAmps() : own;
        }
        return exposed.afterConductor() || Double.isInfinite(exposed.protectionAmps())
                ? Double.NaN
                : exposed.protectionAmps();
    }

    private static void check(Link link, Node near, double fuseAmps, Set<Link> seen, Examination examination) {
        Connection connection = link.connection();
        if (Double.isNaN(fuseAmps) || connection == null || seen.contains(link)) {
            return;
        }
        examination.applies();
        Double ampacity = Conductors.ampacity(connection);
        if (ampacity == null || connection.conductor() == null) {
            examination.missing("connection " + link.ref(), "conductor");
            return;
        }
        Conductors.assumeDefaults(examination, connection.conductor());
        if (fuseAmps > ampacity && seen.add(link)) {
            examination
                    .report(
                            Conductors.describe(link, near) + " is fused at " + Say.rating(fuseAmps) + ", above the "
                                    + Say.amps(ampacity) + " that " + Conductors.describe(connection.conductor())
                                    + " takes",
                            "use a fuse of at most " + Say.amps(ampacity) + ", or a thicker conductor.")
                    .at(near, link.across(near))
                    .through(List.of(String.valueOf(link.ref())))
                    .figures(fuseAmps, ampacity, "A");
        }
    }
}
