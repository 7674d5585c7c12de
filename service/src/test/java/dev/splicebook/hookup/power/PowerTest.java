package dev.splicebook.hookup.power;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.DemoFiles;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Renaming;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class PowerTest {

    private static final String REAR = "rear-entertainment/check-3-ready";
    private static final String BASS = "amplifier-and-subwoofers/check-2-ready";

    private static final String GROUND = facts("\"kind\": \"ground\"");
    private static final String PULLS =
            facts("\"kind\": \"control-out\", \"active\": \"ground\", \"maxAmps\": 2," + " \"live\": [\"ignition\"]");

    static LongStream seeds() {
        return LongStream.range(0, 300);
    }

    /** A load of 10 A and one of 3 A behind one feed, and returns of their own. */
    private static Wiring twoLoads(double feedMetres) {
        return new Wiring()
                .inside("S", "\"conducts\": [[\"in\", \"a\", \"b\"]]")
                .lead("A", "plus", load(10))
                .lead("A", "minus", GROUND)
                .lead("B", "plus", load(3))
                .lead("B", "minus", GROUND)
                .joinBy("CAR.battery-plus S.in", wire("8 AWG", feedMetres))
                .joinBy("S.a A.plus", wire("10 AWG", 1))
                .joinBy("S.b B.plus", wire("16 AWG", 2))
                .joinBy("A.minus CAR.chassis", wire("10 AWG", 0.5))
                .joinBy("B.minus CAR.chassis", wire("16 AWG", 0.5));
    }

    private static String load(double amps) {
        return facts("\"kind\": \"load\", \"needs\": \"constant\", \"typicalAmps\": " + amps / 2 + ", \"maxAmps\": "
                + amps + ", \"sleepAmps\": 0.001");
    }

    private static String wire(String size, double metres) {
        return "\"conductor\": {\"size\": \"" + size + "\"}, \"length\": {\"value\": " + metres + ", \"unit\": \"m\"}";
    }

    /**
     * Ohms of copper by hand: 0.017241 Ω·mm²/m at 20 °C (IACS, from memory), the AWG law of ASTM B258 (from memory), and in
     * air of 30 °C with 105 °C insulation 30 + 75·(I/Imax)² °C with the offset 234.5 °C of FAA AC 43.13-1B.
     */
    private static double ohms(int gauge, double metres, double amps, double allowableAmps) {
        double diameterMm = 0.127 * Math.pow(92, (36 - gauge) / 39.0);
        double areaMm2 = Math.PI / 4 * diameterMm * diameterMm;
        double celsius = 30 + 75 * Math.pow(amps / allowableAmps, 2);
        return 0.017241 / areaMm2 * metres * (234.5 + celsius) / 254.5;
    }

    @Test
    void followsTheLadderOfTwoLoadsByHand() {
        // allowable amps of 33 CFR 183.425 table 5 at 105 °C: 8 AWG 80 A, 10 AWG 60 A, 16 AWG 25 A
        double feedOhms = ohms(8, 3, 13, 80);
        double across10Amps = 12.6 - 13 * feedOhms - 10 * ohms(10, 1, 10, 60) - 10 * ohms(10, 0.5, 10, 60);
        double across3Amps = 12.6 - 13 * feedOhms - 3 * ohms(16, 2, 3, 25) - 3 * ohms(16, 0.5, 3, 25);

        Report.PowerCase resting = caseOf(twoLoads(3).check(), State.IGNITION);

        assertThat(loadAt(resting, "A.plus").worstVolts())
                .as("volts across the load of 10 A")
                .isCloseTo(across10Amps, within(1e-6));
        assertThat(loadAt(resting, "B.plus").worstVolts())
                .as("volts across the load of 3 A")
                .isCloseTo(across3Amps, within(1e-6));
        Report.ConductorPower feed = resting.conductors().stream()
                .filter(conductor -> conductor.connection().equals("W1"))
                .findFirst()
                .orElseThrow();
        assertThat(feed.worstAmps()).isCloseTo(13, within(1e-6));
        assertThat(feed.worstLossWatts()).as("13² · R").isCloseTo(169 * feedOhms, within(1e-6));
        assertThat(resting.grounds()).extracting(Report.GroundOffset::part).containsExactly("A", "B");
        double offset = 10 * ohms(10, 0.5, 10, 60) - 3 * ohms(16, 0.5, 3, 25);
        Report.OffsetBetween largest = resting.largestOffset();
        assertThat(largest).isNotNull();
        assertThat(largest == null ? Double.NaN : largest.worstVolts())
                .as("between the two grounds")
                .isCloseTo(Math.abs(offset), within(1e-6));
    }

    @Test
    void takesAFuseAtItsPublishedColdResistance() {
        // 7.70 mΩ at 10 A (secondary copy of a maker's table), so 5 A lose 38.5 mV in it
        Wiring wiring = new Wiring()
                .lead("A", "plus", load(5))
                .lead("A", "minus", GROUND)
                .joinBy("CAR.battery-plus A.plus", wire("10 AWG", 1) + ", \"fuse\": {\"ratingAmps\": 10}")
                .joinBy("A.minus CAR.chassis", wire("10 AWG", 1));

        Report.PowerCase resting = caseOf(wiring.check(), State.IGNITION);

        assertThat(loadAt(resting, "A.plus").worstVolts())
                .isCloseTo(12.6 - 0.0385 - 2 * 5 * ohms(10, 1, 5, 60), within(1e-6));
        assertThat(resting.fuses()).singleElement().satisfies(fuse -> {
            assertThat(fuse.at()).containsExactly("W1");
            assertThat(fuse.worstAmps()).isEqualTo(5);
        });
    }

    @Test
    void returnsWhatAnOutputPullsToGroundByTheGroundLeadOfItsPart() {
        Wiring wiring = new Wiring()
                .lead("A", "plus", load(3))
                .lead("A", "minus", GROUND)
                .lead("A", "pull", PULLS)
                .relay("K")
                .joinBy("CAR.battery-plus A.plus", wire("10 AWG", 1))
                .joinBy("CAR.battery-plus K.86", wire("10 AWG", 1))
                .joinBy("K.85 A.pull", wire("10 AWG", 1))
                .joinBy("A.minus CAR.chassis", wire("16 AWG", 2));

        Report.PowerCase awake = caseOf(wiring.check(), State.IGNITION);

        // by Kirchhoff: 3 A of the load, and of the coil 12.6 V less what the ground lead takes over 90 ohms
        double groundOhms = ohms(16, 2, 3.14, 25);
        double coil = (12.6 - 3 * groundOhms) / (90 + groundOhms);
        assertThat(ampsIn(awake, "W4")).isCloseTo(3 + coil, within(1e-4));
        assertThat(ampsIn(awake, "W4")).isCloseTo(3 + ampsIn(awake, "W3"), within(1e-9));
        assertThat(ampsIn(caseOf(wiring.check(), State.RUNNING), "W4")).isEqualTo(3);
    }

    @Test
    void takesAnOutputForGroundWhereItsPartHasNoneConnected() {
        Wiring wiring = new Wiring()
                .lead("A", "minus", GROUND)
                .lead("A", "pull", PULLS)
                .relay("K")
                .joinBy("CAR.battery-plus K.86", wire("10 AWG", 1))
                .joinBy("K.85 A.pull", wire("10 AWG", 1));

        // 12.6 V over 90 ohms
        assertThat(ampsIn(caseOf(wiring.check(), State.IGNITION), "W2")).isCloseTo(0.14, within(1e-4));
    }

    private static double ampsIn(Report.PowerCase at, String connection) {
        return at.conductors().stream()
                .filter(conductor -> conductor.connection().equals(connection))
                .mapToDouble(Report.ConductorPower::worstAmps)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void losesMoreTheLongerTheFeed() {
        double before = Double.POSITIVE_INFINITY;
        for (double metres = 0.5; metres < 20; metres *= 1.5) {
            double volts = loadAt(caseOf(twoLoads(metres).check(), State.RUNNING), "A.plus")
                    .worstVolts();
            assertThat(volts).as("with %s m", metres).isLessThan(before);
            before = volts;
        }
    }

    @Test
    void dipsAtAStartUnlessASupplyStandsByItself() {
        Report report = twoLoads(3).check();
        Report.PowerCase starting = caseOf(report, State.RESTARTING);

        assertThat(starting.states()).containsExactly(State.CRANKING, State.RESTARTING);
        assertThat(starting.typicalVolts()).isEqualTo(9.5);
        assertThat(starting.worstVolts()).isEqualTo(8.0);

        Wiring second = new Wiring()
                .lead("B2", "plus", facts("\"kind\": \"supply\", \"volts\": 12.8, \"live\": [\"cranking\"]"))
                .lead("A", "plus", load(5))
                .lead("A", "minus", GROUND)
                .join("B2.plus A.plus", "A.minus CAR.chassis");
        assertThat(loadAt(caseOf(second.check(), State.CRANKING), "A.plus").worstVolts())
                .as("the starter does not pull a second battery down")
                .isCloseTo(12.8, within(1e-4));
    }

    @Test
    void leavesOutARestartThatTheVehicleDoesNotMake() {
        Hookup hookup = DemoFiles.example(BASS);

        assertThat(hookup.map().automaticRestart()).isFalse();
        assertThat(Hookups.checker().check(hookup).power().cases())
                .flatExtracting(Report.PowerCase::states)
                .contains(State.CRANKING)
                .doesNotContain(State.RESTARTING);
    }

    @Test
    void tellsConditionsThatMustHoldAtOnceFromThoseOfWhichOneWillDo() {
        Wiring series = new Wiring()
                .car("C5-3", facts(supply("running") + ", \"when\": \"reverse\""))
                .car("C5-4", facts(supply("running") + ", \"when\": \"brake\""))
                .relay("K")
                .lead("CAM", "plus", facts("\"kind\": \"load\", \"maxAmps\": 0.5, \"needs\": \"switched\""))
                .lead("CAM", "minus", facts("\"kind\": \"ground\""))
                .join("CAR.C5-4 K.86", "K.85 CAR.chassis", "CAR.C5-3 K.30", "K.87 CAM.plus", "CAM.minus CAR.chassis");

        assertThat(series.check().power().cases())
                .filteredOn(each ->
                        each.loads().stream().anyMatch(load -> load.terminal().equals("CAM.plus")))
                .singleElement()
                .satisfies(each -> {
                    assertThat(each.conditions()).containsExactly(Condition.REVERSE, Condition.BRAKE);
                    assertThat(each.together()).isTrue();
                });
        assertThat(series.check().power().cases())
                .filteredOn(Report.PowerCase::together)
                .hasSize(1);
    }

    private static String fed(String electrical, String source) {
        return "{\"electrical\": {" + electrical + "}, \"source\": \"" + source + "\"}";
    }

    @Test
    void addsUpWhatTheCircuitsOfOneFuseUpstreamGive() {
        Wiring wiring = new Wiring()
                .car("C1-2", fed(constant(), "fuse 12"))
                .car("C1-1", fed(constant().replace("\"fuseAmps\": 10", "\"fuseAmps\": 7.5"), "fuse 12"))
                .car("C1-3", fed(constant(), "fuse 13"))
                .car("C1-4", fed(constant(), "fuse 14"))
                .lead("A", "plus", load(3))
                .lead("A", "minus", GROUND)
                .lead("B", "plus", load(2))
                .lead("B", "minus", GROUND)
                .lead("C", "plus", load(1))
                .lead("C", "minus", GROUND)
                .inside("F", "\"fuses\": [{\"between\": [\"in\", \"out\"], \"ratingAmps\": 5}]")
                .join("CAR.C1-1 A.plus", "CAR.C1-2 B.plus", "CAR.C1-3 F.in", "F.out C.plus", "CAR.C1-4 D.spare")
                .lead("D", "spare", facts("\"kind\": \"passive\""))
                .join("A.minus CAR.chassis", "B.minus CAR.chassis", "C.minus CAR.chassis");

        List<Report.FusePower> fuses = caseOf(wiring.check(), State.IGNITION).fuses();

        assertThat(fuses)
                .extracting(Report.FusePower::at)
                .containsExactly(List.of("CAR.C1-1", "CAR.C1-2"), List.of("CAR.C1-3"), List.of("F.in", "F.out"));
        // the least rating that a circuit of it states
        assertThat(fuses).extracting(Report.FusePower::ratingAmps).containsExactly(7.5, 10.0, 5.0);
        assertThat(fuses).extracting(Report.FusePower::worstAmps).containsExactly(5.0, 1.0, 1.0);
        assertThat(fuses).extracting(Report.FusePower::typicalAmps).containsExactly(2.5, 0.5, 0.5);
    }

    @Test
    void tellsOnlyConductorsThatCarryAnythingByTheirRefs() {
        Wiring wiring = twoLoads(3).lead("C", "plus", load(4)).joinBy("S.b C.plus", wire("16 AWG", 1));

        assertThat(caseOf(wiring.check(), State.IGNITION).conductors())
                .extracting(Report.ConductorPower::connection)
                .containsExactly("W1", "W2", "W3", "W4", "W5");
        assertThat(caseOf(wiring.check(), State.IGNITION).loads())
                .extracting(Report.LoadPower::terminal)
                .containsExactly("A.plus", "B.plus");
    }

    @Test
    void saysWhichFactTellsWhetherASourceFeedsAnything() {
        String output = "\"kind\": \"control-out\", \"maxAmps\": 5";
        for (Map.Entry<String, String> source : Map.of(
                        "\"kind\": \"supply\", \"maxAmps\": 5",
                        "X.out.live",
                        output + ", \"active\": \"12V\"",
                        "X.out.live",
                        output + ", \"live\": [\"running\"]",
                        "X.out.active")
                .entrySet()) {
            Wiring wiring = new Wiring()
                    .lead("X", "out", facts(source.getKey()))
                    .lead("A", "plus", load(1))
                    .lead("A", "minus", GROUND)
                    .join("X.out A.plus", "A.minus CAR.chassis");
            Power power = Power.of(new Network(wiring.hookup()));

            assertThat(power.openFeeds()).as(source.getKey()).isSubsetOf(source.getValue());
        }
        Wiring unknown = new Wiring()
                .car("C9-1", "{}")
                .lead("A", "plus", load(1))
                .lead("A", "minus", GROUND)
                .join("CAR.C9-1 A.plus", "A.minus CAR.chassis");
        assertThat(Power.of(new Network(unknown.hookup())).openFeeds()).containsExactly("CAR.C9-1.electrical");
        assertThat(Power.of(new Network(twoLoads(1).hookup())).openFeeds()).isEmpty();
        assertThat(Power.of(new Network(twoLoads(1).hookup())).isUsed()).isTrue();
        assertThat(Power.of(new Network(new Wiring().hookup())).isUsed()).isFalse();
    }

    @Test
    void namesWhatItLeavesOut() {
        Report report = new Wiring()
                .lead("A", "plus", facts("\"kind\": \"load\", \"needs\": \"constant\", \"typicalAmps\": 2"))
                .lead("A", "minus", GROUND)
                .lead("B", "plus", load(3))
                .joinBy("CAR.battery-plus A.plus", "\"conductor\": {\"size\": \"16 AWG\"}")
                .join("A.minus CAR.chassis", "CAR.battery-plus B.plus")
                .check();

        assertThat(report.power().leftOut())
                .containsExactly(
                        "A.plus.maxAmps",
                        "A.plus.sleepAmps",
                        "B.ground",
                        "connection W1.length",
                        "connection W2.conductor");
        assertThat(loadAt(caseOf(report, State.RUNNING), "A.plus").worstAmps()).isNull();
    }

    @Test
    void dividesTheCurrentBetweenTwoReturns() {
        // 2 m and 1 m of the same wire: 3 A and 6 A, by their ohms, which their own heat hardly moves
        Wiring wiring = new Wiring()
                .lead("A", "plus", load(9))
                .lead("A", "minus", GROUND)
                .joinBy("CAR.battery-plus A.plus", wire("8 AWG", 1))
                .joinBy("A.minus CAR.chassis", wire("8 AWG", 2))
                .joinBy("A.minus CAR.battery-minus", wire("8 AWG", 1));

        Map<String, Double> amps = caseOf(wiring.check(), State.RUNNING).conductors().stream()
                .collect(Collectors.toMap(Report.ConductorPower::connection, Report.ConductorPower::worstAmps));

        assertThat(amps.get("W2")).isCloseTo(3, within(0.01));
        assertThat(amps.get("W3")).isCloseTo(6, within(0.01));
    }

    @Test
    void blocksBehindADiodeAndLosesAJunctionInIt() {
        Wiring wiring = new Wiring()
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\", \"amps\": 6}]")
                .lead("A", "plus", load(1))
                .lead("A", "minus", GROUND)
                .lead("B", "plus", load(1))
                .lead("B", "minus", GROUND)
                .car("C1-1", facts(constant()))
                .car("C1-2", facts(supply("ignition")))
                .join("CAR.C1-2 D.a", "D.c A.plus", "CAR.C1-2 B.plus", "CAR.C1-1 A.plus")
                .join("A.minus CAR.chassis", "B.minus CAR.chassis");

        Report report = wiring.check();

        assertThat(caseOf(report, State.ASLEEP).loads())
                .extracting(Report.LoadPower::terminal)
                .containsExactly("A.plus");
        Wiring alone = new Wiring()
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\", \"amps\": 6}]")
                .lead("A", "plus", load(1))
                .lead("A", "minus", GROUND)
                .car("C1-2", facts(supply("ignition")))
                .join("CAR.C1-2 D.a", "D.c A.plus", "A.minus CAR.chassis");
        // Shockley's law with the 1e-14 A of Berkeley SPICE at 27 °C (from memory): 25.865 mV · ln(1 A / 1e-14 A)
        assertThat(loadAt(caseOf(alone.check(), State.IGNITION), "A.plus").worstVolts())
                .isCloseTo(12.6 - 0.025865 * Math.log(1e14), within(1e-3));
    }

    @Test
    void leavesAMeshOfMoreLoopsThanAVehicleHasUnsolvedAndSaysSo() {
        // 25 points all joined have 300 ways less 24, a point of battery plus among them
        assertThat(Power.of(new Network(mesh(25))).leftOut()).isEmpty();
        Report unsolved = Hookups.checker().check(mesh(27));

        assertThat(Objects.requireNonNull(unsolved.power()).leftOut()).contains("connection W1.solution");
        assertThat(Hookups.outcome(unsolved, "conductor-too-small"))
                .satisfies(outcome -> assertThat(outcome.result()).isEqualTo(Report.Result.NOT_CHECKED))
                .satisfies(outcome -> assertThat(outcome.missing()).containsExactly("connection W1.solution"));
    }

    private static Hookup mesh(int points) {
        String wire = "\"conductor\": {\"size\": \"12 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}";
        Wiring wiring = new Wiring();
        for (int point = 0; point < points; point++) {
            wiring.lead("J", "t" + point, facts("\"kind\": \"passive\""));
        }
        wiring.lead(
                        "L",
                        "plus",
                        facts("\"kind\": \"load\", \"needs\": \"constant\", \"typicalAmps\": 1, \"maxAmps\": 2,"
                                + " \"minVolts\": 6, \"sleepAmps\": 0.001"))
                .lead("L", "minus", facts("\"kind\": \"ground\""))
                .joinBy("CAR.battery-plus J.t0", wire)
                .joinBy("J.t1 L.plus", wire)
                .joinBy("L.minus CAR.chassis", wire);
        for (int one = 0; one < points; one++) {
            for (int other = one + 1; other < points; other++) {
                wiring.joinBy("J.t" + one + " J.t" + other, wire);
            }
        }
        return wiring.hookup();
    }

    @Test
    void tellsNothingOfAShortAndAllOfTheRest() {
        Report report = twoLoads(3)
                .car("C1-1", facts(constant()))
                .lead("C", "plus", load(1))
                .lead("C", "minus", GROUND)
                .joinBy("CAR.C1-1 C.plus", wire("16 AWG", 1))
                .joinBy("C.plus CAR.chassis", wire("16 AWG", 1))
                .joinBy("C.minus CAR.chassis", wire("16 AWG", 1))
                .check();

        assertThat(report.power().leftOut())
                .containsExactly("connection W6.solution", "connection W7.solution", "connection W8.solution");
        assertThat(caseOf(report, State.RUNNING).loads())
                .extracting(Report.LoadPower::terminal)
                .containsExactly("A.plus", "B.plus");
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void balancesTheJobsAndFindsThemPlausible(String job) {
        Network network = new Network(DemoFiles.example(job));
        Power power = Power.of(network);
        for (Case each : power.cases()) {
            assertBalanced(network, each.typical());
            assertBalanced(network, each.worst());
        }
        assertThat(power.leftOut()).isEmpty();
        Report.PowerCase running = caseOf(Hookups.checker().check(DemoFiles.example(job)), State.RUNNING);
        assertThat(running.loads()).isNotEmpty().allSatisfy(load -> {
            assertThat(load.worstVolts()).isBetween(running.worstVolts() - 0.4, running.worstVolts());
            assertThat(load.typicalVolts()).isGreaterThanOrEqualTo(load.worstVolts());
        });
        assertThat(running.conductors())
                .allSatisfy(conductor -> assertThat(conductor.worstCelsius()).isBetween(30.0, 105.0));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void balancesWhateverIsConnected(long seed) {
        Network network = new Network(new Maker(new Random(seed)).wiring().hookup());
        for (Case each : Power.of(network).cases()) {
            assertBalanced(network, each.typical());
            assertBalanced(network, each.worst());
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void agreesWithTheSolverOfNetworks(long seed) {
        Network network = new Network(new Maker(new Random(seed)).wiring().hookup());
        List<Case> byTrees = Power.of(network).cases();
        for (int at = 0; at < byTrees.size(); at++) {
            Solved trees = byTrees.get(at).worst();
            Layout layout = new Layout(
                    trees.layout.grid,
                    byTrees.get(at).scenario(),
                    byTrees.get(at).level());
            for (int joint = 0; joint < layout.grid.joints; joint++) {
                if (layout.root(joint) != Layout.NONE) {
                    layout.mesh(joint, joint);
                }
            }
            Solved solver = new Solved(layout, Extent.WORST);
            for (Sink sink : trees.sinks()) {
                double expected = solver.across(sink);
                if (!Double.isNaN(expected) && trees.isFed(sink)) {
                    assertThat(trees.across(sink))
                            .as("volts across %s in case %s", sink.node(), at)
                            .isCloseTo(expected, within(1e-5));
                }
                assertThat(trees.amps(sink)).as("amps of %s", sink.node()).isCloseTo(solver.amps(sink), within(1e-5));
            }
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void isTheSameUnderOtherNames(long seed) {
        Hookup hookup = new Maker(new Random(seed)).wiring().hookup();
        Report before = Hookups.checker().check(hookup);
        Report after = Hookups.checker().check(new Renaming(seed).apply(hookup));

        assertThat(figures(after)).isEqualTo(figures(before));
    }

    /** What stands in each state, without names, to the microvolt. */
    private static Map<String, List<String>> figures(Report report) {
        Map<String, List<String>> figures = new TreeMap<>();
        for (Report.PowerCase each : report.power().cases()) {
            figures.put(
                    each.states() + " " + each.conditions(),
                    each.loads().stream()
                            .map(load -> "%.6f %.6f %s"
                                    .formatted(load.typicalVolts(), load.worstVolts(), load.worstAmps() == null))
                            .sorted()
                            .toList());
        }
        return figures;
    }

    /** What sources give is what loads take and wires lose: Tellegen's theorem. */
    private static void assertBalanced(Network network, Solved solved) {
        double given = 0;
        for (Node source : network.sources()) {
            if (solved.isHolding(source)) {
                given += solved.heldVolts(source) * solved.amps(source);
            }
        }
        double taken = 0;
        for (Sink sink : solved.sinks()) {
            taken += solved.amps(sink) == 0 ? 0 : solved.amps(sink) * solved.across(sink);
        }
        for (Strand strand : solved.strands()) {
            double loss = solved.lossWatts(strand);
            taken += Double.isNaN(loss) ? 0 : loss;
        }
        assertThat(given).as("watts given, and watts taken").isCloseTo(taken, within(1e-6 * Math.max(1, taken)));
    }

    private static Report.PowerCase caseOf(Report report, State state) {
        return report.power().cases().stream()
                .filter(each ->
                        each.states().contains(state) && each.conditions().isEmpty())
                .findFirst()
                .orElseThrow();
    }

    private static Report.LoadPower loadAt(Report.PowerCase at, String terminal) {
        return at.loads().stream()
                .filter(load -> load.terminal().equals(terminal))
                .findFirst()
                .orElseThrow();
    }

    /** Loads behind blocks, fuses, relays, diodes and resistors, with one or two returns. No source is shorted. */
    private static final class Maker {

        private static final List<String> SIZES = List.of("18 AWG", "14 AWG", "10 AWG", "4 AWG", "2.5 mm2");

        private final Random random;
        private final Wiring wiring = new Wiring();

        Maker(Random random) {
            this.random = random;
        }

        Wiring wiring() {
            wiring.car("C1-1", facts(constant()))
                    .car("C1-2", facts(supply("accessory", "ignition", "running", "restarting")))
                    .car("C1-3", facts(supply("running")));
            int parts = 1 + random.nextInt(5);
            for (int part = 0; part < parts; part++) {
                add("P" + part);
            }
            return wiring;
        }

        private void add(String part) {
            String feed = part + ".plus";
            wiring.lead(part, "plus", load(0.5 + random.nextInt(8)))
                    .lead(part, "minus", GROUND)
                    .joinBy(part + ".minus CAR.chassis", wire());
            if (random.nextInt(4) == 0) {
                wiring.joinBy(part + ".minus CAR.battery-minus", wire());
            }
            String source = pick(List.of("CAR.battery-plus", "CAR.C1-1", "CAR.C1-2", "CAR.C1-3"));
            String inside = part + "X";
            switch (random.nextInt(12)) {
                case 0 -> {
                    wiring.relay(inside)
                            .joinBy(source + " " + inside + ".30", wire())
                            .joinBy(inside + ".87 " + feed, wire())
                            .joinBy("CAR.C1-2 " + inside + ".86", wire())
                            .joinBy(inside + ".85 CAR.chassis", wire());
                    if (random.nextBoolean()) {
                        wiring.inside(inside, "\"diodes\": [{\"anode\": \"85\", \"cathode\": \"86\"}]");
                    }
                }
                case 1 -> {
                    wiring.inside(
                                    inside,
                                    "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}, {\"anode\": \"b\", \"cathode\": \"c\"}]")
                            .joinBy(source + " " + inside + ".a", wire())
                            .joinBy("CAR.C1-3 " + inside + ".b", wire())
                            .joinBy(inside + ".c " + feed, wire());
                }
                case 2 -> {
                    wiring.inside(inside, "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 0.2}]")
                            .joinBy(source + " " + inside + ".a", wire())
                            .joinBy(inside + ".b " + feed, wire());
                }
                case 3 -> {
                    wiring.inside(
                                    inside,
                                    "\"fuses\": [{\"between\": [\"a\", \"b\"], \"ratingAmps\": 15}], \"conducts\": [[\"b\", \"c\"]]")
                            .lead(part + "L", "plus", load(1))
                            .lead(part + "L", "minus", GROUND)
                            .joinBy(source + " " + inside + ".a", wire())
                            .joinBy(inside + ".b " + feed, wire())
                            .joinBy(inside + ".c " + part + "L.plus", wire())
                            .joinBy(part + "L.minus " + part + ".minus", wire());
                }
                case 4 -> {
                    // two coils in series, and what the first one switches
                    wiring.relay(inside)
                            .relay(part + "Y")
                            .joinBy("CAR.C1-2 " + inside + ".86", wire())
                            .joinBy(inside + ".85 " + part + "Y.86", wire())
                            .joinBy(part + "Y.85 CAR.chassis", wire())
                            .joinBy(source + " " + part + "Y.30", wire())
                            .joinBy(part + "Y.87a " + feed, wire());
                }
                case 5 -> {
                    // a diode behind a diode, with a load between
                    wiring.inside(inside, "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]")
                            .inside(part + "Y", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]")
                            .lead(part + "L", "plus", load(1 + random.nextInt(3)))
                            .lead(part + "L", "minus", GROUND)
                            .joinBy(source + " " + inside + ".a", wire())
                            .joinBy(inside + ".c " + part + "L.plus", wire())
                            .joinBy(part + "L.minus CAR.chassis", wire())
                            .joinBy(inside + ".c " + part + "Y.a", wire())
                            .joinBy(part + "Y.c " + feed, wire());
                }
                case 6 -> {
                    // a second battery, joined while running
                    wiring.lead(part + "B", "plus", facts(constant()))
                            .relay(inside)
                            .joinBy("CAR.C1-3 " + inside + ".86", wire())
                            .joinBy(inside + ".85 CAR.chassis", wire())
                            .joinBy("CAR.battery-plus " + inside + ".30", wire())
                            .joinBy(inside + ".87 " + part + "B.plus", wire())
                            .joinBy(part + "B.plus " + feed, wire());
                }
                case 7 -> {
                    // so thin and long a wire that little arrives
                    wiring.joinBy(source + " " + feed, PowerTest.wire("26 AWG", 20 + random.nextInt(60)));
                }
                case 8 -> {
                    // a coil that an output pulls to ground
                    wiring.relay(inside)
                            .lead(
                                    part + "H",
                                    "low",
                                    facts("\"kind\": \"control-out\", \"active\": \"ground\", \"maxAmps\": 1,"
                                            + " \"live\": [\"running\", \"ignition\"]"))
                            .joinBy(source + " " + inside + ".86", wire())
                            .joinBy(inside + ".85 " + part + "H.low", wire())
                            .joinBy("CAR.battery-plus " + inside + ".30", wire())
                            .joinBy(inside + ".87 " + feed, wire());
                }
                case 9 -> {
                    // two feeds of one load that meet behind resistors
                    wiring.inside(
                                    inside,
                                    "\"resistors\": [{\"between\": [\"a\", \"c\"], \"ohms\": 0.3},"
                                            + " {\"between\": [\"b\", \"c\"], \"ohms\": 0.5}]")
                            .joinBy("CAR.battery-plus " + inside + ".a", wire())
                            .joinBy("CAR.C1-3 " + inside + ".b", wire())
                            .joinBy(inside + ".c " + feed, wire());
                }
                default -> wiring.joinBy(source + " " + feed, wire());
            }
        }

        private String wire() {
            return PowerTest.wire(pick(SIZES), (1 + random.nextInt(40)) / 10.0);
        }

        private <T> T pick(List<T> all) {
            return all.get(random.nextInt(all.size()));
        }
    }
}
