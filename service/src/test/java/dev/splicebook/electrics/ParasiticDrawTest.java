package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.ParasiticDraw.DrawVerdict;
import dev.splicebook.electrics.ParasiticDraw.Load;
import java.util.List;
import org.junit.jupiter.api.Test;

class ParasiticDrawTest {

    @Test
    void judgesByServiceLiterature() {
        // service literature: 25 to 50 mA usual after the modules sleep
        assertThat(ParasiticDraw.judge(24.9)).isEqualTo(DrawVerdict.BELOW_USUAL);
        assertThat(ParasiticDraw.judge(25)).isEqualTo(DrawVerdict.USUAL);
        assertThat(ParasiticDraw.judge(50)).isEqualTo(DrawVerdict.USUAL);
        assertThat(ParasiticDraw.judge(50.1)).isEqualTo(DrawVerdict.EXCESSIVE);
    }

    @Test
    void countsDaysByTheAmpereHours() {
        // half of 48 Ah at 50 mA: 24 Ah / 1.2 Ah a day
        double perDay = ParasiticDraw.drawPerDay(50, 48);

        assertThat(ParasiticDraw.days(1, 0.5, perDay, 0)).isCloseTo(20, within(1e-9));
    }

    @Test
    void agreesWithSmallSteps() {
        double draw = ParasiticDraw.drawPerDay(40, 60);
        double self = ParasiticDraw.selfDischargePerDay(0.05);
        double charge = 0.95;
        double days = 0;
        while (charge > 0.5) {
            charge -= (draw + self * charge) * 0.001;
            days += 0.001;
        }

        assertThat(ParasiticDraw.days(0.95, 0.5, draw, self)).isCloseTo(days, within(0.01));
    }

    @Test
    void losesItsMonthlyShareInAMonth() {
        double self = ParasiticDraw.selfDischargePerDay(0.05);

        assertThat(ParasiticDraw.days(1, 0.95, 0, self)).isCloseTo(365.25 / 12, within(1e-9));
    }

    @Test
    void isShorterTheMoreIsDrawn() {
        double above = Double.POSITIVE_INFINITY;
        for (double milliamps = 0; milliamps <= 1000; milliamps += 10) {
            double days = ParasiticDraw.days(1, 0.5, ParasiticDraw.drawPerDay(milliamps, 60), 0.001);
            assertThat(days).as(milliamps + " mA").isPositive().isLessThan(above);
            above = days;
        }
    }

    @Test
    void knowsItsLimits() {
        assertThat(ParasiticDraw.days(1, 0.5, 0, 0)).isInfinite();
        assertThat(ParasiticDraw.days(1, 0, 0, 0.001)).isInfinite();
        assertThat(ParasiticDraw.days(0.5, 0.5, 0.01, 0)).isZero();
        assertThat(ParasiticDraw.days(1, 0.5, 0.01, 1e-18)).isCloseTo(50, within(1e-6));
    }

    @Test
    void findsTheEntryOutOfTheOrdinary() {
        List<Load> loads = List.of(
                new Load("clock", 4, 4.0),
                new Load("alarm", 15, 12.0),
                new Load("amplifier", 2.4, 1.5),
                new Load("head unit", 180, 3.0),
                new Load("tracker", 26, null),
                new Load("gateway", 24, null));

        assertThat(loads.stream().filter(Load::isOutOfOrdinary).map(Load::name))
                .containsExactly("head unit", "tracker");
        assertThat(ParasiticDraw.totalMilliamps(loads)).isCloseTo(251.4, within(1e-9));
    }
}
