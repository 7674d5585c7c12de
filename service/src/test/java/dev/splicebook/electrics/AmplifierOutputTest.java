package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.AmplifierOutput.LoadWatts;
import dev.splicebook.guard.InvalidValueException;
import java.util.List;
import org.junit.jupiter.api.Test;

class AmplifierOutputTest {

    private static final AmplifierOutput AMPLIFIER =
            new AmplifierOutput(2, List.of(new LoadWatts(4, 100), new LoadWatts(2, 150)));

    @Test
    void givesWhatItsMakerStates() {
        assertWatts(4, 100, 100);
        assertWatts(2, 150, 150);
        // the same load, computed with a rounding error
        assertWatts(1 / (1 / 4.0 + 1 / 6.0 + 1 / 12.0), 150, 150);
    }

    @Test
    void staysWithinTheVoltsOfItsNeighbours() {
        // Ohm's law: 150 W into 2 Ω are 17.32 V, 100 W into 4 Ω are 20 V; at 3 Ω these give 100 and 133.3 W
        assertWatts(3, 100, 133.33);
        // above the last, its 20 V
        assertWatts(8, 50, 50);
    }

    @Test
    void boundsWhatLiesBelowItsLeastStatedLoad() {
        // 150 W into 2 Ω are 17.32 V and 8.66 A; at 1 Ω those are 300 W and 75 W
        assertWatts(1, 75, 300);
    }

    @Test
    void bearsItsLeastLoadAndNoLess() {
        assertThat(AMPLIFIER.bears(2)).isTrue();
        assertThat(AMPLIFIER.bears(1.99)).isFalse();
        assertThat(AMPLIFIER.bears(1 / (1 / 3.0 + 1 / 6.0))).isTrue();
    }

    @Test
    void knowsNoWattsWhereNoneAreStated() {
        AmplifierOutput unknown = new AmplifierOutput(2, List.of());
        assertThat(unknown.leastWatts(4)).isNull();
        assertThat(unknown.mostWatts(4)).isNull();
    }

    @Test
    void refusesOneLoadTwice() {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new AmplifierOutput(2, List.of(new LoadWatts(4, 100), new LoadWatts(4, 110))));
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new AmplifierOutput(0, List.of()));
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new LoadWatts(4, Double.NaN));
    }

    private static void assertWatts(double ohms, double leastWatts, double mostWatts) {
        assertThat(AMPLIFIER.leastWatts(ohms)).as("least watts").isNotNull().isCloseTo(leastWatts, within(0.005));
        assertThat(AMPLIFIER.mostWatts(ohms)).as("most watts").isNotNull().isCloseTo(mostWatts, within(0.005));
    }
}
