package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A conductor leaves an unfused source, or gets thinner, without a fuse that suits it. */
@AutoService(Rule.class)
@About(
        code = "fuse-missing",
        severity = Severity.DANGER,
        since = "0.1",
        condition = "A conductor leaves an unfused source, or gets thinner, without a fuse that suits it.",
        checks =
                "Every conductor that the battery, or any other supply, can push current through, from each end from which one can."
                        + " A second battery is a source like the first, and a fuse at the far end of a conductor is none for it. A conductor may leave an"
                        + " unfused supply only if it has a fuse of its own or leads to nothing but a fuse. A thinner conductor"
                        + " behind a thicker one needs a fuse that its own size bears. Fuses that feed a conductor side by side"
                        + " count together: none blows before it carries the sum.",
        why = "A battery gives hundreds of amperes into a chafed wire. The wire glows before the battery tires, and the"
                + " carpet around it burns.",
        mend =
                "Put a fuse at the source, within 18 inches (45 cm) of the battery, rated for the thinnest conductor behind it;"
                        + " or use a distribution block with a fuse for each thinner branch.",
        source = "33 CFR 183.455 (protection at the source). The 18 inches: common practice in vehicles, no source.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "8 AWG"}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "8 AWG"}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "8 AWG"},
                          "fuse": {"ratingAmps": 60, "fromSource": {"value": 30, "unit": "cm"}}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "8 AWG"}}}}
                """)
public final class FuseMissing implements Rule {

    @Override
    public void check(Examination examination) {
        Set<Link> told = new HashSet<>();
        Map<Link, Node> fuseEnds = examination.reading().fuseEnds();
        BitSet grounds = grounds(examination.network());
        for (Node supply : examination.network().sources()) {
            if (supply.facts() instanceof Electrical.Supply) {
                check(supply, fuseEnds, grounds, told, examination);
            }
        }
        Map<Link, Inflows.Excess> together = new LinkedHashMap<>();
        for (Scenario standing : examination.reading().partitions()) {
            for (Inflows.Excess excess : new Inflows(standing, fuseEnds, examination.network()).excesses()) {
                // supplies that are tied by mistake are told as that
                if (!SuppliesTied.isTied(standing.netOf(excess.near()), standing, examination.network())) {
                    together.merge(excess.link(), excess, FuseMissing::worse);
                }
            }
        }
        together.values().stream()
                .filter(excess -> !told.contains(excess.link())
                        && !grounds.get(excess.near().net()))
                .forEach(excess -> report(excess, examination));
    }

    private static Inflows.Excess worse(Inflows.Excess one, Inflows.Excess other) {
        int order = Double.compare(one.amps(), other.amps());
        return order > 0 || (order == 0 && Say.BY_FACTS.compare(one.near(), other.near()) <= 0) ? one : other;
    }

    private static void report(Inflows.Excess excess, Examination examination) {
        Link link = excess.link();
        Connection connection = link.connection();
        if (connection == null || connection.conductor() == null) {
            return;
        }
        Conductors.assumeDefaults(examination, connection.conductor());
        examination
                .report(
                        Conductors.describe(link, excess.near())
                                + (link.hasFuse()
                                        ? " has its fuse at the other end, and is fed at this one "
                                        : " is fed ")
                                + excess.through()
                                + " at once, which together let " + Say.amps(excess.amps()) + " pass, above the "
                                + Say.amps(excess.ampacity()) + " that " + Conductors.describe(connection.conductor())
                                + " takes",
                        "put a fuse of at most " + Say.amps(excess.ampacity()) + " in it at " + excess.near()
                                + (link.hasFuse() ? " too" : "") + ", or lay it in a size that takes "
                                + Say.amps(excess.amps()) + ".")
                .at(excess.near(), link.across(excess.near()))
                .through(List.of(String.valueOf(link.ref())))
                .figures(excess.amps(), excess.ampacity(), "A");
    }

    private static void check(
            Node supply, Map<Link, Node> fuseEnds, BitSet grounds, Set<Link> told, Examination examination) {
        for (Conductors.Exposed exposed : examination.reading().exposedTo(supply)) {
            Link link = exposed.link();
            examination.applies();
            boolean fused = link.hasFuse()
                    && fuseEnds.getOrDefault(link, exposed.near()).equals(exposed.near());
            if (fused || told.contains(link) || grounds.get(exposed.near().net())) {
                continue;
            }
            if (exposed.afterConductor()) {
                checkReduction(exposed, told, examination);
            } else if (!link.hasFuse()
                    && !Conductors.isProtected(supply)
                    && !(exposed.protectionAmps() < Conductors.UNFUSED)) {
                // a fuse at the far end is told by fuse-too-far
                checkStart(exposed, supply, told, examination);
            }
        }
    }

    /** The nets of the vehicle's ground. A conductor from a supply straight to one is told by supply-shorted-to-ground. */
    private static BitSet grounds(Network network) {
        BitSet nets = new BitSet();
        for (Node node : network.nodes()) {
            if (node.isReference()) {
                nets.set(node.net());
            }
        }
        return nets;
    }

    private static void checkStart(Conductors.Exposed exposed, Node supply, Set<Link> told, Examination examination) {
        Link link = exposed.link();
        if (Conductors.leadsToFuse(link, exposed.near(), examination.network())) {
            return;
        }
        if (Double.isNaN(exposed.protectionAmps())) {
            examination.missing(supply, "fuseAmps");
            return;
        }
        told.add(link);
        examination
                .report(
                        Conductors.describe(link, exposed.near()) + " has no fuse, and neither has " + Say.name(supply)
                                + ", which feeds it",
                        "put a fuse that suits the conductor in " + link.ref() + ", close to " + supply.ref() + ".")
                .at(exposed.near(), link.across(exposed.near()))
                .through(List.of(String.valueOf(link.ref())));
    }

    private static void checkReduction(Conductors.Exposed exposed, Set<Link> told, Examination examination) {
        Link link = exposed.link();
        double before = exposed.protectionAmps();
        if (Double.isNaN(before) || Double.isInfinite(before)) {
            return;
        }
        Double ampacity = Conductors.ampacity(link.connection());
        if (ampacity == null || link.connection() == null || link.connection().conductor() == null) {
            examination.missing("connection " + link.ref(), "conductor");
            return;
        }
        Conductors.assumeDefaults(examination, link.connection().conductor());
        // one that bears as much as what lies before it is mended with that
        if (before <= ampacity || ampacity >= exposed.bearableAmps()) {
            return;
        }
        told.add(link);
        examination
                .report(
                        Conductors.describe(link, exposed.near())
                                + (link.hasFuse()
                                        ? " is fed from " + exposed.near()
                                                + " as well, and its fuse sits at the other end: what stands before it there lets "
                                        : " gets thinner without a fuse: what stands before it lets ")
                                + Say.rating(before) + " pass, above the " + Say.amps(ampacity) + " that "
                                + Conductors.describe(link.connection().conductor()) + " takes",
                        "put a fuse of at most " + Say.amps(ampacity) + " where " + link.ref()
                                + " begins, or keep the size of the conductor before it.")
                .at(exposed.near(), link.across(exposed.near()))
                .through(List.of(String.valueOf(link.ref())))
                .figures(before, ampacity, "A");
    }
}
