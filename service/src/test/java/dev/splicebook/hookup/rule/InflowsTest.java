package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Wiring;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayDeque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Fuses that feed a conductor side by side: it carries the sum before any of them blows, by Kirchhoff's current law.
 * Ampacities: 33 CFR 183.425 table 5, 105 °C insulation: 16 AWG 25 A, 8 AWG 80 A, 6 AWG 120 A, 4 AWG 160 A.
 */
class InflowsTest {

    private static final Told MISSING = Told.by("fuse-missing");
    private static final String BUS = "\"conducts\": [[\"a\", \"b\", \"c\", \"d\"]]";

    @Test
    void addsUpTwoFusedRunsIntoOneLead() {
        Finding finding = MISSING.finding(twoRuns("8 AWG"));
        assertThat(finding.message())
                .isEqualTo("connection W3 (J.c to AMP.plus) is fed by way of W1 and W2 at once, which together let"
                        + " 120.0 A pass, above the 80.0 A that 8 AWG with 105 °C insulation takes");
        assertThat(finding.help())
                .isEqualTo("put a fuse of at most 80.0 A in it at J.c, or lay it in a size that takes 120.0 A.");
        assertThat(finding.connections()).containsExactly("W3");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("J.c", "AMP.plus");
        MISSING.passes(twoRuns("6 AWG"));
    }

    @Test
    void acceptsAFuseWhereTheLeadBegins() {
        MISSING.passes(amplifier()
                .inside("J", BUS)
                .joinBy("CAR.battery-plus J.a", of("8 AWG", 60))
                .joinBy("CAR.battery-plus J.b", of("8 AWG", 60))
                .joinBy("J.c AMP.plus", of("8 AWG", 80)));
    }

    @Test
    void countsNoMoreThanOneFuseUpstreamOfBothLetsPass() {
        Wiring main = amplifier()
                .inside("I", BUS)
                .inside("J", BUS)
                .joinBy("CAR.battery-plus I.a", of("6 AWG", 100))
                .joinBy("I.b J.a", of("8 AWG", 60))
                .joinBy("I.c J.b", of("8 AWG", 60));
        assertThat(MISSING.finding(main.joinBy("J.c AMP.plus", of("8 AWG", 0))).measured())
                .isEqualTo(100);
    }

    @Test
    void takesAThirdRunForOneThatNeedsAFuseAtBothEnds() {
        // a short at the far end of one is fed by the other two
        Wiring three = amplifier()
                .inside("J", BUS)
                .joinBy("CAR.battery-plus J.a", of("8 AWG", 60))
                .joinBy("CAR.battery-plus J.b", of("8 AWG", 60))
                .joinBy("CAR.battery-plus J.c", of("8 AWG", 60))
                .joinBy("J.d AMP.plus", of("1/0 AWG", 0));
        assertThat(findings(three))
                .extracting(Finding::connections)
                .containsExactlyInAnyOrder(List.of("W1"), List.of("W2"), List.of("W3"));
        assertThat(findings(three)).extracting(Finding::measured).containsOnly(120.0);
    }

    @Test
    void addsUpTwoBatteries() {
        Wiring two = amplifier()
                .lead("BAT", "plus", facts("power.battery", "\"kind\": \"supply\""))
                .inside("J", BUS)
                .relayWhileRunning("K")
                .joinBy("CAR.battery-plus K.30", of("4 AWG", 100))
                .joinBy("K.87 J.a", of("4 AWG", 0))
                .joinBy("BAT.plus J.b", of("4 AWG", 100));
        Finding finding = MISSING.finding(two.joinBy("J.c AMP.plus", of("4 AWG", 0)));
        assertThat(finding.measured()).isEqualTo(200);
        assertThat(finding.message()).contains("by way of W3 and W5 at once");
    }

    @Test
    void countsTwoCircuitsOnlyWhereBothAreEverLiveAtOnceAndNotBehindOneFuse() {
        assertThat(MISSING.finding(twoCircuits(fed(constant(), "F1"), fed(constant(), "F2")))
                        .measured())
                .isEqualTo(30);
        MISSING.passes(twoCircuits(fed(constant(), "F1"), fed(constant(), "F1")));
        MISSING.passes(twoCircuits(fed(supply("cranking"), "F1"), fed(supply("running"), "F2")));
    }

    @Test
    void countsBothSidesOfAChangeoverContactNeverTogether() {
        Wiring changeover = amplifier()
                .relayWhileRunning("K")
                .joinBy("CAR.battery-plus K.87", of("8 AWG", 60))
                .joinBy("CAR.battery-plus K.87a", of("8 AWG", 60))
                .joinBy("K.30 AMP.plus", of("8 AWG", 0));
        MISSING.passes(changeover);
    }

    @Test
    void tellsOfThinConductorsInARowOnlyTheFirstAndOfBranchesEach() {
        Wiring row = twoRunsTo("I.a", "8 AWG")
                .inside("I", BUS)
                .joinBy("I.b AMP.plus", of("8 AWG", 0))
                .joinBy("J.d AMP.plus", of("8 AWG", 0));
        assertThat(findings(row))
                .extracting(Finding::connections)
                .containsExactlyInAnyOrder(List.of("W3"), List.of("W5"));
    }

    /**
     * Against every way to cut a conductor's end off from all sources by taking fuses out: what the cheapest of them lets pass
     * is what flows, by the max-flow min-cut theorem (Ford and Fulkerson 1956).
     */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25})
    void findsWhatTheCheapestCutOfFusesLetsPass(long seed) {
        Random random = new Random(seed);
        int found = 0;
        for (int each = 0; each < 20; each++) {
            Network network = new Network(tangle(random).hookup());
            Reading reading = new Reading(network);
            Map<Link, Double> told = new HashMap<>();
            new Inflows(reading.partitions().get(0), reading.fuseEnds(), network)
                    .excesses()
                    .forEach(excess -> told.merge(excess.link(), excess.amps(), Math::max));
            Map<Link, Map<Node, Double>> expected = new HashMap<>();
            for (Link link : network.links()) {
                Double ampacity = Conductors.ampacity(link.connection());
                for (Node near : List.of(link.from(), link.to())) {
                    if (ampacity == null
                            || (link.hasFuse() && near.equals(reading.fuseEnds().get(link)))) {
                        continue;
                    }
                    double amps = cheapestCut(near, link, network);
                    if (amps > ampacity && !isLetThroughByOne(near, link, ampacity, network)) {
                        expected.computeIfAbsent(link, key -> new HashMap<>()).put(near, amps);
                    }
                }
            }
            assertThat(expected.keySet()).containsAll(told.keySet());
            expected.forEach((link, byEnd) -> {
                double most = byEnd.entrySet().stream()
                        .filter(end -> !isBehind(end.getKey(), link, expected.keySet(), network))
                        .mapToDouble(Map.Entry::getValue)
                        .max()
                        .orElse(0);
                assertThat(told.getOrDefault(link, 0.0))
                        .as("%s with seed %s", link.ref(), seed)
                        .isCloseTo(most, within(1e-9));
            });
            found += told.size();
        }
        assertThat(found).isPositive();
    }

    /** Whether no way leads to an end of a conductor without a fuse but through others of those expected that take no more. */
    private static boolean isBehind(Node end, Link conductor, Set<Link> expected, Network network) {
        Set<Link> out = new HashSet<>(Set.of(conductor));
        expected.stream()
                .filter(other -> !other.hasFuse() && ampacity(other) <= ampacity(conductor))
                .forEach(out::add);
        Set<Node> seen = new HashSet<>(Set.of(end));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            for (Link link : network.linksOf(at)) {
                if (link.hasFuse() && link != conductor && reaches(link.across(at), Set.of(link), network)) {
                    return false;
                }
                if (!link.hasFuse() && !out.contains(link) && seen.add(link.across(at))) {
                    queue.add(link.across(at));
                }
            }
        }
        return true;
    }

    private static double ampacity(Link link) {
        Double ampacity = Conductors.ampacity(link.connection());
        return ampacity == null ? Double.POSITIVE_INFINITY : ampacity;
    }

    private static Wiring tangle(Random random) {
        Wiring wiring = new Wiring();
        int buses = 2 + random.nextInt(4);
        for (int bus = 0; bus < buses; bus++) {
            wiring.inside("B" + bus, "\"conducts\": [[\"a\", \"b\"]]");
        }
        List<String> sizes = List.of("8 AWG", "6 AWG", "4 AWG");
        for (int run = 0; run < 2 + random.nextInt(3); run++) {
            wiring.joinBy("CAR.battery-plus B" + random.nextInt(buses) + ".a", of("8 AWG", 60));
        }
        for (int wire = 0; wire < 2 + random.nextInt(5); wire++) {
            int one = random.nextInt(buses);
            int other = (one + 1 + random.nextInt(buses - 1)) % buses;
            int fuse = random.nextInt(3) == 0 ? 40 + 20 * random.nextInt(3) : 0;
            wiring.joinBy("B" + one + ".a B" + other + ".b", of(sizes.get(random.nextInt(sizes.size())), fuse));
        }
        return wiring;
    }

    private static double cheapestCut(Node near, Link without, Network network) {
        List<Link> fuses = network.links().stream()
                .filter(link -> link.hasFuse() && link != without)
                .toList();
        double cheapest = Double.POSITIVE_INFINITY;
        for (int choice = 0; choice < 1 << fuses.size(); choice++) {
            Set<Link> out = new HashSet<>(Set.of(without));
            double amps = 0;
            for (int fuse = 0; fuse < fuses.size(); fuse++) {
                if ((choice >> fuse & 1) == 1) {
                    out.add(fuses.get(fuse));
                    amps += fuses.get(fuse).fuseAmps();
                }
            }
            if (amps < cheapest && !reaches(near, out, network)) {
                cheapest = amps;
            }
        }
        return cheapest;
    }

    /** Whether one way alone, by fuses that each let more pass than a conductor takes, leads to its end. */
    private static boolean isLetThroughByOne(Node near, Link without, double ampacity, Network network) {
        Set<Link> out = new HashSet<>(Set.of(without));
        network.links().stream()
                .filter(link -> link.hasFuse() && link.fuseAmps() <= ampacity)
                .forEach(out::add);
        return reaches(near, out, network);
    }

    private static boolean reaches(Node start, Set<Link> out, Network network) {
        Set<Node> seen = new HashSet<>(Set.of(start));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            if (at.ref().equals("CAR.battery-plus")) {
                return true;
            }
            for (Link link : network.linksOf(at)) {
                if (!out.contains(link) && seen.add(link.across(at))) {
                    queue.add(link.across(at));
                }
            }
        }
        return false;
    }

    private static List<Finding> findings(Wiring wiring) {
        return Hookups.findings(wiring.check(), "fuse-missing");
    }

    private static Wiring amplifier() {
        return new Wiring()
                .lead(
                        "AMP",
                        "plus",
                        facts("\"kind\": \"load\", \"typicalAmps\": 20, \"maxAmps\": 70, \"needs\": \"either\""))
                .lead("AMP", "minus", facts("\"kind\": \"ground\""));
    }

    private static Wiring twoRuns(String size) {
        return twoRunsTo("AMP.plus", size);
    }

    /** Two runs of 60 A from the battery to a bus, and a lead from there. */
    private static Wiring twoRunsTo(String end, String size) {
        return amplifier()
                .inside("J", BUS)
                .joinBy("CAR.battery-plus J.a", of("8 AWG", 60))
                .joinBy("CAR.battery-plus J.b", of("8 AWG", 60))
                .joinBy("J.c " + end, of(size, 0));
    }

    private static Wiring twoCircuits(String one, String other) {
        return amplifier()
                .car("C1-2", one)
                .car("C1-3", other)
                .inside(
                        "D",
                        "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}, {\"anode\": \"b\", \"cathode\": \"c\"}]")
                .joinBy("CAR.C1-2 D.a", of("16 AWG", 0))
                .joinBy("CAR.C1-3 D.b", of("16 AWG", 0))
                .joinBy("D.c AMP.plus", of("16 AWG", 0));
    }

    private static String fed(String electrical, String source) {
        return "{\"electrical\": {" + electrical.replace("\"fuseAmps\": 10", "\"fuseAmps\": 15") + "}, \"source\": \""
                + source + "\"}";
    }

    /** What more is known of a connection: its size, and its fuse if it has one, which sits at the first end. */
    private static String of(String size, double fuseAmps) {
        return "\"conductor\": {\"size\": \"" + size + "\"}"
                + (fuseAmps == 0 ? "" : ", \"fuse\": {\"ratingAmps\": " + fuseAmps + "}");
    }
}
