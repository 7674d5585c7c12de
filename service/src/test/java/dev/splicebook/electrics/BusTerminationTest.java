package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.BusTermination.Bus;
import dev.splicebook.electrics.BusTermination.BusLevel;
import dev.splicebook.electrics.BusTermination.BusLine;
import dev.splicebook.electrics.BusTermination.TerminationVerdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BusTerminationTest {

    private static final Bus BUS = new Bus(0.05, 10);

    // two 120 Ω terminators read 60 Ω (ISO 11898-2); one missing, 120 Ω (computed); the others by the same law
    @ParameterizedTest
    @CsvSource({
        "0, SHORTED",
        "0.4, SHORTED",
        "5, TOO_MANY_TERMINATORS",
        "24, TOO_MANY_TERMINATORS",
        "30, TOO_MANY_TERMINATORS",
        "40, THREE_TERMINATORS",
        "47, BETWEEN_BANDS",
        "57, BOTH_FITTED",
        "60, BOTH_FITTED",
        "63, BOTH_FITTED",
        "80, BETWEEN_BANDS",
        "115, ONE_TERMINATOR",
        "120, ONE_TERMINATOR",
        "126, ONE_TERMINATOR",
        "200, BETWEEN_BANDS",
        "1300, NO_TERMINATOR",
        "20000, NO_TERMINATOR",
        "50000, OPEN",
        "Infinity, OPEN"
    })
    void tellsWhatIsFitted(double ohms, TerminationVerdict verdict) {
        assertThat(BUS.judge(ohms)).isEqualTo(verdict);
    }

    @Test
    void tellsWhatIsFittedOnEveryBus() {
        for (double tolerance : new double[] {0, 0.01, 0.05, 0.1}) {
            for (int nodes = 0; nodes <= 40; nodes++) {
                Bus bus = new Bus(tolerance, nodes);
                String as = tolerance + " tolerance, " + nodes + " nodes";
                assertThat(bus.judge(60)).as(as).isEqualTo(TerminationVerdict.BOTH_FITTED);
                assertThat(bus.judge(120)).as(as).isEqualTo(TerminationVerdict.ONE_TERMINATOR);
                assertThat(bus.judge(40)).as(as).isEqualTo(TerminationVerdict.THREE_TERMINATORS);
            }
        }
    }

    @Test
    void countsTheNodesIn() {
        // 57 Ω beside ten nodes of 10 kΩ, worked by hand
        assertThat(BUS.band(2).leastOhms()).isCloseTo(57 * 1000.0 / 1057, within(1e-9));
        assertThat(BUS.band(2).mostOhms()).isCloseTo(64, within(1e-9));
        assertThat(new Bus(0, 0).band(1).leastOhms()).isEqualTo(120);
        assertThat(BusTermination.equivalentTerminators(30)).isEqualTo(4);
    }

    @Test
    void judgesEachLine() {
        assertThat(BusTermination.line(0.5)).isEqualTo(BusLine.SHORTED);
        assertThat(BusTermination.line(120)).isEqualTo(BusLine.LEAKING);
        assertThat(BusTermination.line(5000)).isEqualTo(BusLine.SOUND);
    }

    @Test
    void judgesTheVoltsOfABusAtWork() {
        // ISO 11898-2: dominant from 0.9 V, recessive up to 0.5 V
        assertThat(BusTermination.level(3.5, 1.5)).isEqualTo(BusLevel.DOMINANT);
        assertThat(BusTermination.level(2.9, 2.0)).isEqualTo(BusLevel.DOMINANT);
        assertThat(BusTermination.level(2.5, 2.5)).isEqualTo(BusLevel.RECESSIVE);
        assertThat(BusTermination.level(2.75, 2.25)).isEqualTo(BusLevel.RECESSIVE);
        assertThat(BusTermination.level(2.7, 2.0)).isEqualTo(BusLevel.UNDEFINED);
    }
}
