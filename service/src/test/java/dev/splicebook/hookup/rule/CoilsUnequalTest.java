package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Speakers;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** Ohm's law: a resistor before one of two coils takes its part of the volts. */
class CoilsUnequalTest {

    private static final Told TOLD = Told.by("coils-unequal");

    private static Wiring padded(double ohms) {
        return Speakers.resistor(Speakers.dual(Speakers.amplifier(), "SUB"), "R", ohms)
                .join(
                        "AMP.plus SUB.1-plus",
                        "AMP.plus R.a",
                        "R.b SUB.2-plus",
                        "AMP.minus SUB.1-minus",
                        "AMP.minus SUB.2-minus");
    }

    @Test
    void reportsACoilThatGetsLessThanItsTwin() {
        Finding finding = TOLD.finding(padded(4));

        assertThat(finding.message())
                .isEqualTo(
                        "the coils at SUB.1-plus and SUB.1-minus, and at SUB.2-plus and SUB.2-minus are alike and get unlike current"
                                + " from AMP.plus: the least of them 50 % of the most");
        Bench.assertFigures(finding, 50, 90, "%");
    }

    @Test
    void reportsStringsThatTakeACoilOfEachOther() {
        // the first coil of A alone beside a string of its second and both of B
        Wiring crossed = Speakers.dual(Speakers.dual(Speakers.amplifier(), "A"), "B")
                .join("AMP.plus A.1-plus", "A.1-minus AMP.minus", "AMP.plus B.1-plus", "B.1-minus B.2-plus")
                .join("B.2-minus A.2-plus", "A.2-minus AMP.minus");

        assertThat(TOLD.finding(crossed).terminals())
                .contains("A.1-plus", "A.2-plus")
                .doesNotContain("B.1-plus");
    }

    @Test
    void reportsACoilThatIsLeftOffWhileItsTwinIsDriven() {
        Wiring one = Speakers.dual(Speakers.amplifier(), "SUB").join("AMP.plus SUB.1-plus", "AMP.minus SUB.1-minus");
        assertThat(TOLD.messages(one)).isEmpty();
        one.unused("SUB.2-plus", "capped").unused("SUB.2-minus", "capped");

        Finding finding = TOLD.finding(one);
        assertThat(finding.message())
                .isEqualTo("the coil at SUB.2-plus and SUB.2-minus is connected to nothing, and its twin at SUB.1-plus"
                        + " is driven");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("SUB.2-plus", "SUB.2-minus");
    }

    @Test
    void acceptsCoilsInSeriesAndSideBySide() {
        TOLD.passes(Speakers.inSeries(Speakers.dual(Speakers.amplifier(), "SUB"), "SUB"));
        TOLD.passes(Speakers.dual(Speakers.amplifier(), "SUB")
                .join("AMP.plus SUB.1-plus", "AMP.plus SUB.2-plus", "AMP.minus SUB.1-minus", "AMP.minus SUB.2-minus"));
    }

    @Test
    void acceptsTheDifferenceThatWiresMayMake() {
        // 4 ohms of 4.444 leave nine tenths of the current
        TOLD.passes(padded(4.0 / 9));
        assertThat(TOLD.messages(padded(4.01 / 9))).hasSize(1);
    }

    @Test
    void isSilentAtALoudspeakerOfOneCoil() {
        TOLD.doesNotApply(
                Speakers.single(Speakers.amplifier(), "SUB").join("AMP.plus SUB.plus", "AMP.minus SUB.minus"));
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhichEndsAreOneCoil() {
        Wiring strays = Speakers.resistor(
                Speakers.resistor(Speakers.dualUndeclared(Speakers.amplifier(), "SUB"), "R1", 8), "R2", 2);

        TOLD.lacks(
                strays.join("AMP.plus SUB.1-plus", "AMP.minus SUB.1-minus")
                        .join("AMP.plus R1.a", "R1.b SUB.2-plus", "AMP.minus R2.a", "R2.b SUB.2-minus"),
                "SUB.1-plus.coil",
                "SUB.1-minus.coil",
                "SUB.2-plus.coil",
                "SUB.2-minus.coil");
    }
}
