package dev.splicebook.hookup.net;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.speakerOut;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Speakers;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import dev.splicebook.hookup.net.OutputLoad.Share;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Ohm's and Kirchhoff's laws say what a load comes to and what each coil gets; the figures here follow from them. */
class OutputLoadsTest {

    private static OutputLoads loads(Wiring wiring) {
        Network network = new Network(wiring.hookup());
        return new OutputLoads(network, network.scenario(State.RUNNING));
    }

    private static OutputLoad only(Wiring wiring) {
        List<OutputLoad> all = loads(wiring).all();
        assertThat(all).hasSize(1);
        return all.get(0);
    }

    private static Share share(OutputLoad load, String plus) {
        return load.shares().stream()
                .filter(share -> share.coil().plus().ref().equals(plus))
                .findFirst()
                .orElseThrow();
    }

    private static void assertOhms(double ohms, double expected) {
        assertThat(ohms).as("ohms").isCloseTo(expected, within(1e-9 * expected));
    }

    private static void assertVolts(Share share, double expected) {
        assertThat(share.volts()).as("volts for a volt of the output").isCloseTo(expected, within(1e-9));
    }

    @Test
    void halvesTheVoltsOverTwoCoilsInSeries() {
        OutputLoad load = only(Speakers.inSeries(Speakers.dual(Speakers.amplifier(), "SUB"), "SUB"));

        assertOhms(load.ohms(), 8);
        assertVolts(share(load, "SUB.1-plus"), 0.5);
        assertVolts(share(load, "SUB.2-plus"), 0.5);
        assertThat(share(load, "SUB.1-plus").watts(20)).as("watts").isCloseTo(25, within(1e-9));
    }

    @Test
    void makesFourOhmsOfTwoSeriesPairsInParallel() {
        Wiring two = Speakers.dual(Speakers.dual(Speakers.amplifier(), "SUB1"), "SUB2");

        OutputLoad load = only(Speakers.inSeries(Speakers.inSeries(two, "SUB1"), "SUB2"));

        assertOhms(load.ohms(), 4);
        assertThat(load.shares()).hasSize(4).allSatisfy(share -> assertVolts(share, 0.5));
    }

    @Test
    void tellsTheCoilThatIsTurnedRoundInAString() {
        OutputLoad load = only(Speakers.inSeriesWithOneTurned(Speakers.dual(Speakers.amplifier(), "SUB"), "SUB"));

        assertOhms(load.ohms(), 8);
        assertThat(share(load, "SUB.1-plus").isTurned()).isFalse();
        assertThat(share(load, "SUB.2-plus").isTurned()).isTrue();
        assertVolts(share(load, "SUB.2-plus"), -0.5);
    }

    @Test
    void solvesABridgeThatIsNeitherSeriesNorParallel() {
        // 100 and 200 ohms, 150 and 120 ohms, 50 ohms between: 12 V give 87.677 mA (check value of a Wheatstone bridge)
        Wiring wiring = Speakers.amplifier();
        Speakers.single(wiring, "BRIDGE", "\"ohms\": 50");
        double[] ohms = {100, 200, 150, 120};
        for (int at = 0; at < ohms.length; at++) {
            Speakers.resistor(wiring, "R" + at, ohms[at]);
        }
        OutputLoad load = only(wiring.join("AMP.plus R0.a", "R0.b BRIDGE.plus", "BRIDGE.plus R1.a", "R1.b AMP.minus")
                .join("AMP.plus R2.a", "R2.b BRIDGE.minus", "BRIDGE.minus R3.a", "R3.b AMP.minus"));

        assertThat(12 / load.ohms()).as("amps").isCloseTo(0.087677, within(1e-6));
        // 7.0303 V and 6.3030 V at its ends, with the arm of 100 ohms above
        assertThat(12 * share(load, "BRIDGE.plus").volts()).as("volts").isCloseTo(7.0303 - 6.3030, within(1e-4));
    }

    @Test
    void addsTheWiresOfWhichSizeAndLengthAreKnown() {
        Wiring wiring = Speakers.single(Speakers.amplifier(), "SUB")
                .joinBy(
                        "AMP.plus SUB.plus",
                        "\"conductor\": {\"size\": \"18 AWG\"}, \"length\": {\"value\": 10, \"unit\": \"m\"}")
                .join("AMP.minus SUB.minus");

        OutputLoad load = only(wiring);

        // 6.385 ohms per 1000 ft at 20 °C (NBS Handbook 100, 18 AWG)
        double wire = 6.385 * 10 / 304.8;
        assertThat(load.ohms()).as("ohms").isCloseTo(4 + wire, within(2e-3));
        assertThat(share(load, "SUB.plus").volts()).as("volts").isCloseTo(4 / (4 + wire), within(5e-4));
    }

    @Test
    void countsInputsOnlyWhereALoadIsDetected() {
        OutputLoad load = only(Speakers.single(Speakers.amplifier(), "SUB")
                .inside(
                        "LOC",
                        "\"couples\": [" + couple("in", "in-return", "out", "out-return", "\"inputOhms\": 12") + "]")
                .join("AMP.plus SUB.plus", "AMP.minus SUB.minus", "AMP.plus LOC.in", "AMP.minus LOC.in-return"));

        assertOhms(load.ohms(), 4);
        assertOhms(load.detectedOhms(), 3);
    }

    @Test
    void isOpenWhereNothingClosesTheCircuit() {
        OutputLoad load =
                only(Speakers.dual(Speakers.amplifier(), "SUB").join("AMP.plus SUB.1-plus", "SUB.1-minus SUB.2-plus"));

        assertThat(load.isClosed()).isFalse();
        assertThat(load.shares()).hasSize(2).noneMatch(Share::isDriven);
    }

    @Test
    void countsTheFactoryLoudspeakerOfACircuitThatIsTappedAndNotOfOneThatIsCut() {
        String unplugged = "\"whenUnplugged\": {" + audio("speaker-in", "left", "%s", "\"ohms\": 4") + "}";
        Wiring tapped = new Wiring();
        for (String side : List.of("plus", "minus")) {
            tapped.car(
                    "C1-" + (side.equals("plus") ? 1 : 2),
                    "{\"whenPlugged\": {" + speakerOut("left", side, "\"drive\": \"floating\"") + "}, "
                            + unplugged.formatted(side) + "}");
        }
        Speakers.single(tapped, "MORE").join("CAR.C1-1 MORE.plus", "CAR.C1-2 MORE.minus");

        OutputLoad load = only(tapped);

        assertOhms(load.ohms(), 2);
        assertThat(load.shares()).filteredOn(share -> share.coil().within()).hasSize(1);

        Wiring cut = new Wiring().cut("C1-1").cut("C1-2");
        for (String side : List.of("plus", "minus")) {
            cut.car(
                    "C1-" + (side.equals("plus") ? 1 : 2),
                    "{\"whenPlugged\": {" + speakerOut("left", side, "\"drive\": \"floating\"") + "}, "
                            + unplugged.formatted(side) + "}");
        }
        Speakers.single(cut, "MORE").join("CAR.C1-1/unit MORE.plus", "CAR.C1-2/unit MORE.minus");

        assertOhms(only(cut).ohms(), 4);
    }

    @Test
    void returnsThroughGroundWhereTheOutputDoes() {
        OutputLoad load = only(Speakers.single(Speakers.amplifier("\"drive\": \"common-ground\""), "SUB")
                .join("AMP.plus SUB.plus", "SUB.minus CAR.chassis"));

        assertOhms(load.ohms(), 4);
        assertVolts(share(load, "SUB.plus"), 1);
    }

    @Test
    void leavesOutputsThatMeetToOtherRules() {
        Wiring tied = Speakers.output(Speakers.single(Speakers.amplifier(), "SUB"), "AMP2", "\"drive\": \"floating\"");

        assertThat(loads(tied.join("AMP.plus SUB.plus", "AMP2.plus SUB.plus", "AMP.minus SUB.minus"))
                        .all())
                .isEmpty();
    }

    @Test
    void leavesAShortedOutputToOtherRules() {
        assertThat(loads(Speakers.single(Speakers.amplifier(), "SUB")
                                .join("AMP.plus SUB.plus", "AMP.minus SUB.minus", "AMP.plus AMP.minus"))
                        .all())
                .isEmpty();
    }

    @Test
    void tellsCoilsApartByTheWiringWhereNoFactDoes() {
        OutputLoads right = loads(Speakers.inSeries(Speakers.dualUndeclared(Speakers.amplifier(), "SUB"), "SUB"));
        OutputLoads turned =
                loads(Speakers.inSeriesWithOneTurned(Speakers.dualUndeclared(Speakers.amplifier(), "SUB"), "SUB"));
        OutputLoads parallel = loads(Speakers.dualUndeclared(Speakers.amplifier(), "SUB")
                .join("AMP.plus SUB.1-plus", "AMP.plus SUB.2-plus", "AMP.minus SUB.1-minus", "AMP.minus SUB.2-minus"));

        assertOhms(right.all().get(0).ohms(), 8);
        assertThat(right.all().get(0).shares()).noneMatch(Share::isTurned);
        assertThat(turned.all().get(0).shares()).filteredOn(Share::isTurned).hasSize(1);
        assertOhms(parallel.all().get(0).ohms(), 2);
        assertThat(List.of(right, turned, parallel)).allMatch(OutputLoads::isToldApartByWiring);
    }

    @Test
    void takesACoilToLieBetweenTheTwoSidesOfOneOutput() {
        OutputLoads loads = loads(
                Speakers.output(Speakers.dualUndeclared(Speakers.amplifier(), "SUB"), "AMP2", "\"drive\": \"floating\"")
                        .join(
                                "AMP.plus SUB.1-plus",
                                "AMP.minus SUB.1-minus",
                                "AMP2.plus SUB.2-plus",
                                "AMP2.minus SUB.2-minus"));

        assertThat(loads.all()).hasSize(2).allSatisfy(load -> assertOhms(load.ohms(), 4));
    }

    @Test
    void doesNotGuessWhereTheWiringCanMeanTwoThings() {
        // the strays hang on resistors of their own, so that either pairing is one
        Wiring wiring = Speakers.resistor(
                Speakers.resistor(Speakers.dualUndeclared(Speakers.amplifier(), "SUB"), "R1", 8), "R2", 2);

        OutputLoads loads = loads(wiring.join("AMP.plus SUB.1-plus", "AMP.minus SUB.1-minus")
                .join("AMP.plus R1.a", "R1.b SUB.2-plus", "AMP.minus R2.a", "R2.b SUB.2-minus"));

        assertThat(loads.all()).isEmpty();
        assertThat(loads.unpaired())
                .extracting(Node::ref)
                .containsExactlyInAnyOrder("SUB.1-plus", "SUB.1-minus", "SUB.2-plus", "SUB.2-minus");
    }

    @Test
    void findsACoilThatIsShortByItsOwnWiring() {
        OutputLoads loads = loads(Speakers.dual(Speakers.amplifier(), "SUB")
                .join(
                        "AMP.plus SUB.1-plus",
                        "SUB.1-minus SUB.2-plus",
                        "SUB.2-plus SUB.2-minus",
                        "SUB.2-minus AMP.minus"));

        assertThat(loads.shorted()).extracting(coil -> coil.plus().ref()).containsExactly("SUB.2-plus");
        assertOhms(loads.all().get(0).ohms(), 4);
        assertThat(Objects.requireNonNull(loads.findShare(loads.shorted().get(0).plus()))
                        .isDriven())
                .isFalse();
    }

    /** Random trees of series and parallel, whose ohms follow from adding ohms or siemens at each fork. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void addsOhmsInSeriesAndSiemensInParallel(long seed) {
        Random random = new Random(seed);
        Wiring wiring = Speakers.amplifier();
        List<String> pairs = new ArrayList<>();
        int[] used = {0};
        double ohms = grow("AMP.plus", "AMP.minus", 4, random, wiring, pairs, used);

        OutputLoad load = only(wiring.join(pairs.toArray(String[]::new)));

        assertOhms(load.ohms(), ohms);
        double watts =
                load.shares().stream().mapToDouble(share -> share.watts(1)).sum();
        assertThat(watts).as("watts of all coils").isCloseTo(1 / ohms, within(1e-9 / ohms));
        assertThat(load.shares()).hasSize(used[0]).noneMatch(Share::isTurned);
    }

    private static double grow(
            String plus, String minus, int depth, Random random, Wiring wiring, List<String> pairs, int[] used) {
        int kind = depth == 0 ? 0 : random.nextInt(3);
        if (kind == 0) {
            String part = "S" + used[0]++;
            double ohms = 1 + random.nextInt(80) / 10.0;
            Speakers.single(wiring, part, "\"ohms\": " + ohms);
            pairs.add(plus + " " + part + ".plus");
            pairs.add(minus + " " + part + ".minus");
            return ohms;
        }
        if (kind == 1) {
            double one = grow(plus, minus, depth - 1, random, wiring, pairs, used);
            double other = grow(plus, minus, depth - 1, random, wiring, pairs, used);
            return one * other / (one + other);
        }
        String joint = "J" + used[0] + "-" + depth + "-" + pairs.size();
        wiring.inside(joint, "\"conducts\": [[\"x\", \"y\"]]");
        return grow(plus, joint + ".x", depth - 1, random, wiring, pairs, used)
                + grow(joint + ".y", minus, depth - 1, random, wiring, pairs, used);
    }
}
