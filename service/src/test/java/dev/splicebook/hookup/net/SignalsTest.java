package dev.splicebook.hookup.net;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.lineOut;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import dev.splicebook.hookup.net.Signals.Arrival;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.assertj.core.api.AbstractDoubleAssert;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Gains in a row multiply, an output gives no more than its most, and each gain below 0 turns the polarity round. */
class SignalsTest {

    /** A coupling part from {@code in}, {@code in-return} to {@code out}, {@code out-return}. */
    private static Wiring stage(Wiring wiring, String part, String gain) {
        return wiring.inside(part, "\"couples\": [" + couple("in", "in-return", "out", "out-return", gain) + "]");
    }

    /** A floating output of 17.32 V with stages A, B and so on behind it. */
    private static Wiring chain(String... gains) {
        Wiring wiring = new Wiring().carFloating("A2-1", "A2-2", "front-left");
        String from = "CAR.A2-1";
        String fromReturn = "CAR.A2-2";
        for (int stage = 0; stage < gains.length; stage++) {
            String part = String.valueOf((char) ('A' + stage));
            stage(wiring, part, "\"gain\": " + gains[stage])
                    .join(from + " " + part + ".in", fromReturn + " " + part + ".in-return");
            from = part + ".out";
            fromReturn = part + ".out-return";
        }
        return wiring;
    }

    @Test
    void bringsAnOutputToEverythingOnItsNet() {
        Arrival arrival =
                only(chain().inside("Y", "\"conducts\": [[\"a\", \"b\"]]").join("CAR.A2-1 Y.a"), "Y.b");

        assertThat(arrival.origin().ref()).isEqualTo("CAR.A2-1");
        assertThat(arrival.isCoupled()).isFalse();
        assertThat(arrival.isPositive()).isTrue();
        assertThat(arrival.gain()).isEqualTo(1);
        assertVolts(arrival).isEqualTo(17.32);
    }

    @Test
    void multipliesTheGainsOfCouplingsInARow() {
        Arrival arrival = only(chain("0.2", "0.5", "4"), "C.out");

        assertThat(arrival.origin().ref()).isEqualTo("CAR.A2-1");
        assertThat(arrival.isCoupled()).isTrue();
        assertVolts(arrival).isCloseTo(17.32 * 0.4, within(1e-9));
    }

    @Test
    void keepsTheTwoConductorsOfACouplingApart() {
        assertThat(only(chain("0.2"), "A.out").origin().ref()).isEqualTo("CAR.A2-1");
        assertThat(only(chain("0.2"), "A.out-return").origin().ref()).isEqualTo("CAR.A2-2");
        assertThat(only(chain("0.2"), "A.out-return").isPositive()).isFalse();
    }

    @Test
    void turnsThePolarityRoundAtEachNegativeGain() {
        assertThat(only(chain("-0.2"), "A.out").isPositive()).isFalse();
        assertThat(only(chain("-0.2"), "A.out-return").isPositive()).isTrue();
        assertVolts(only(chain("-0.2"), "A.out")).isCloseTo(17.32 * 0.2, within(1e-9));
        assertThat(only(chain("-0.2", "-1"), "B.out").isPositive()).isTrue();
    }

    @Test
    void capsTheLevelAtWhatAnOutputOnTheWayGives() {
        Wiring capped = chain("10", "3").lead("A", "out", facts(lineOut("left", "signal", "isolated")));

        assertVolts(only(capped, "A.out")).isEqualTo(2.0);
        assertVolts(only(capped, "B.out")).isCloseTo(6.0, within(1e-9));
    }

    @Test
    void knowsAnUnknownLevelOnlyBehindAnOutputThatCapsIt() {
        Wiring wiring = stage(stage(new Wiring(), "A", ""), "B", "")
                .lead("P", "out", facts(audio("line-out", "left", "signal", "")))
                .lead("B", "out", facts(lineOut("left", "signal", "isolated")))
                .join("P.out A.in", "A.out B.in");

        assertThat(only(wiring, "A.out").volts()).isNull();
        assertVolts(only(wiring, "B.out")).isEqualTo(2.0);
    }

    @Test
    void takesAnOutputForItsOwnSignalOnlyWhereNothingArrivesAtItsInput() {
        Wiring wiring = stage(new Wiring(), "DSP", "")
                .lead("DSP", "out", facts(lineOut("left", "signal", "isolated")))
                .lead("P", "out", facts(lineOut("right", "signal", "isolated")));

        assertThat(only(wiring, "DSP.out").origin().ref()).isEqualTo("DSP.out");
        assertThat(only(wiring.join("P.out DSP.in"), "DSP.out").origin().ref()).isEqualTo("P.out");
    }

    @Test
    void saysOfAnOutputOfUnknownSideThatThePolarityIsUnknown() {
        Wiring wiring = new Wiring().lead("P", "out", facts("\"kind\": \"line-out\", \"channel\": \"left\""));

        assertThat(only(wiring, "P.out").isPositive()).isNull();
    }

    @Test
    void keepsTheStrongerOfTwoWaysToOneCouplingAndBothPolarities() {
        Wiring wiring = chain("0.2").join("CAR.A2-1 X.in");
        stage(stage(wiring, "X", "\"gain\": 0.5"), "SUM", "").join("A.out SUM.in", "X.out SUM.in");

        assertVolts(only(wiring, "SUM.out")).isCloseTo(17.32 * 0.5, within(1e-9));

        Wiring turned = chain("0.2").join("CAR.A2-1 X.in");
        stage(stage(turned, "X", "\"gain\": -0.5"), "SUM", "").join("A.out SUM.in", "X.out SUM.in");

        assertThat(arrivals(turned, "SUM.out")).extracting(Arrival::isPositive).containsExactlyInAnyOrder(true, false);
    }

    @Test
    void followsTheContactsAsTheyStandInAState() {
        Wiring switched = chain().relayWhileRunning("K").join("CAR.A2-1 K.30");
        Network network = new Network(switched.hookup());

        assertThat(in(network, State.RUNNING, "K.87")).hasSize(1);
        assertThat(in(network, State.RUNNING, "K.87a")).isEmpty();
        assertThat(in(network, State.ASLEEP, "K.87a")).hasSize(1);
    }

    @Test
    void goesOnceRoundALoopOfCouplings() {
        Wiring loop = chain("2", "2").join("B.out A.in");

        assertVolts(only(loop, "A.out")).isCloseTo(17.32 * 2, within(1e-9));
        assertVolts(only(loop, "B.in")).isCloseTo(17.32 * 2, within(1e-9));
        assertThat(arrivals(loop, "A.in"))
                .extracting(arrival -> arrival.origin().ref())
                .containsOnly("CAR.A2-1");
    }

    @Test
    void tracesWhatLiesBehindALoopAsIfThereWereNone() {
        Wiring loop =
                chain("2", "2", "0.5").join("B.out A.in").lead("C", "out", facts(lineOut("left", "signal", "chassis")));

        assertThat(arrivals(loop, "C.out"))
                .extracting(arrival -> arrival.origin().ref())
                .containsOnly("CAR.A2-1");
    }

    @Test
    void takesAnOutputThatFeedsItsOwnInputForASource() {
        Wiring alone = stage(new Wiring(), "DSP", "")
                .lead("DSP", "out", facts(lineOut("left", "signal", "isolated")))
                .join("DSP.out DSP.in");

        assertThat(only(alone, "DSP.in").origin().ref()).isEqualTo("DSP.out");
    }

    @Test
    void takesAnOutputOnALoopForNoSourceWhereASignalComesRound() {
        Wiring effects =
                effects().carFloating("A2-1", "A2-2", "left").join("CAR.A2-1 MIX.dry", "CAR.A2-2 MIX.dry-return");

        for (String terminal : List.of("MIX.out", "FX.out")) {
            assertThat(arrivals(effects, terminal))
                    .as(terminal)
                    .extracting(arrival -> arrival.origin().ref())
                    .containsOnly("CAR.A2-1");
        }
    }

    @Test
    void takesTheOutputsOfALoopForSourcesWhereNothingComesRound() {
        assertThat(arrivals(effects(), "MIX.wet"))
                .extracting(arrival -> arrival.origin().ref())
                .containsOnly("FX.out");
    }

    @Test
    void bringsOneOutputOverALoopToWhatIsBehindItAtTheGainOfTheWayThere() {
        Wiring effects = stage(effects(), "AMP", "\"gain\": 3")
                .carFloating("A2-1", "A2-2", "left")
                .join("CAR.A2-1 MIX.dry", "CAR.A2-2 MIX.dry-return", "MIX.out AMP.in");

        assertThat(arrivals(effects, "AMP.out"))
                .allSatisfy(arrival -> assertThat(arrival.origin().ref()).isEqualTo("CAR.A2-1"))
                .anySatisfy(arrival -> assertVolts(arrival).isCloseTo(17.32 * 0.1 * 3, within(1e-9)));
    }

    /** A mixer of what comes in and of what an effect makes of its own output. */
    private static Wiring effects() {
        String mix = "\"couples\": [" + couple("dry", "dry-return", "out", "out-return", "\"gain\": 0.1") + ", "
                + couple("wet", "wet-return", "out", "out-return", "\"gain\": 0.5") + "]";
        return stage(new Wiring(), "FX", "")
                .inside("MIX", mix)
                .lead("FX", "out", facts(lineOut("right", "signal", "isolated")))
                .join("MIX.out FX.in", "FX.out MIX.wet");
    }

    @ParameterizedTest
    @ValueSource(ints = {60, 300})
    void tracesManyStagesOfManyBranchesInNoTime(int stages) {
        Wiring wiring = new Wiring().carFloating("A2-1", "A2-2", "left").join("CAR.A2-1 S0.in");
        for (int stage = 0; stage < stages; stage++) {
            String branches = IntStream.range(0, 4)
                    .mapToObj(branch -> couple("in", "in-return", "out" + branch, "ret" + branch, "\"gain\": 0.999"))
                    .collect(Collectors.joining(", "));
            wiring.inside("S" + stage, "\"couples\": [" + branches + "]");
            for (int branch = 0; branch < 4 && stage + 1 < stages; branch++) {
                wiring.join("S" + stage + ".out" + branch + " S" + (stage + 1) + ".in");
            }
        }

        List<Arrival> last =
                assertTimeoutPreemptively(Duration.ofSeconds(20), () -> arrivals(wiring, "S" + (stages - 1) + ".out0"));

        assertThat(last)
                .singleElement()
                .satisfies(arrival -> assertThat(arrival.gain()).isCloseTo(Math.pow(0.999, stages), within(1e-9)));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8})
    void comesToAnEndOnWhateverCouplingsAreJoined(int seed) {
        Random random = new Random(seed);
        Wiring wiring = new Wiring().carFloating("A2-1", "A2-2", "left");
        for (int part = 0; part < 25; part++) {
            stage(wiring, "P" + part, "\"gain\": " + (random.nextBoolean() ? 1.5 : -0.5));
        }
        List<String> ends = List.of(".in", ".in-return", ".out", ".out-return");
        for (int join = 0; join < 60; join++) {
            String from = join % 10 == 0 ? "CAR.A2-1" : "P" + random.nextInt(25) + ends.get(random.nextInt(4));
            String to = "P" + random.nextInt(25) + ends.get(random.nextInt(4));
            if (!from.equals(to)) {
                wiring.join(from + " " + to);
            }
        }

        assertTimeoutPreemptively(
                Duration.ofSeconds(20), () -> assertThatCode(wiring::check).doesNotThrowAnyException());
    }

    private static Arrival only(Wiring wiring, String terminal) {
        List<Arrival> arrivals = arrivals(wiring, terminal);
        assertThat(arrivals).as("arrivals at %s", terminal).hasSize(1);
        return arrivals.get(0);
    }

    private static List<Arrival> arrivals(Wiring wiring, String terminal) {
        return in(new Network(wiring.hookup()), State.ASLEEP, terminal);
    }

    private static List<Arrival> in(Network network, State state, String terminal) {
        return Signals.in(network.scenario(state))
                .arrivals(Objects.requireNonNull(network.findNode(terminal), terminal));
    }

    private static AbstractDoubleAssert<?> assertVolts(Arrival arrival) {
        return assertThat(arrival.volts());
    }
}
