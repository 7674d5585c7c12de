package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.SpeakerDriver.Coil;
import dev.splicebook.guard.InvalidValueException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WiringTest {

    private static final List<SpeakerDriver> DRIVERS = List.of(
            new SpeakerDriver("A", List.of(new Coil(4, null), new Coil(4, null))),
            new SpeakerDriver("B", List.of(new Coil(4, null), new Coil(4, null))),
            new SpeakerDriver("MID-L", List.of(new Coil(8, null))));

    // Ohm's law
    @ParameterizedTest
    @CsvSource({
        "A.1, 4",
        "A.1 + A.2, 8",
        "A.1 | A.2, 2",
        "(A.1 + A.2) | (B.1 + B.2), 4",
        "(A.1 | A.2) + (B.1 | B.2), 4",
        "A.1|A.2|B.1|B.2, 1",
        "A.1 + A.2 + (B.1 + B.2), 16",
        "((A.1 + A.2) | MID-L) + B.1, 8",
        "MID-L.1, 8"
    })
    void knowsItsOhms(String text, double ohms) {
        assertThat(wiring(text).ohms()).as("ohms").isCloseTo(ohms, within(1e-12));
    }

    @ParameterizedTest
    @ValueSource(strings = {"A.1", "-A.1", "(A.1 + -A.2) | (B.1 + B.2)", "((A.1 + A.2) | MID-L) + B.1"})
    void isWrittenAsItIsRead(String text) {
        assertThat(wiring(text).text()).isEqualTo(text);
    }

    @Test
    void dropsParenthesesThatMeanNothing() {
        assertThat(wiring("((A.1)) + (A.2 + (B.1))").text()).isEqualTo("A.1 + A.2 + B.1");
        assertThat(wiring("-(A.1 | -A.2)").text()).isEqualTo("-A.1 | A.2");
        assertThat(wiring("--A.1").text()).isEqualTo("A.1");
    }

    @Test
    void sharesCurrentAndPower() {
        // 8 Ω beside 4 + 4 Ω take half of the amperes each, and half of the power; in it each coil half of that
        List<Wiring.Share> shares = wiring("MID-L | (A.1 + A.2)").shares();
        assertThat(shares).extracting(each -> each.coil().coil()).containsExactly("MID-L", "A.1", "A.2");
        assertThat(shares).extracting(Wiring.Share::currentShare).containsExactly(0.5, 0.5, 0.5);
        assertThat(shares).extracting(Wiring.Share::powerShare).containsExactly(0.5, 0.25, 0.25);
    }

    @Test
    void sharesAllOfThePower() {
        for (String text : List.of("((A.1 + A.2) | MID-L) + B.1", "A.1 | A.2 | MID-L", "A.1 + (B.1 | (MID-L + A.2))")) {
            assertThat(wiring(text).shares().stream()
                            .mapToDouble(Wiring.Share::powerShare)
                            .sum())
                    .isCloseTo(1, within(1e-12));
        }
    }

    @Test
    void saysWhatIsJoined() {
        assertThat(wiring("A.1 + A.2").joins())
                .containsExactly("amplifier+ to A.1+", "A.1- to A.2+", "amplifier- to A.2-");
        assertThat(wiring("A.1 | A.2").joins()).containsExactly("amplifier+ to A.1+, A.2+", "amplifier- to A.1-, A.2-");
        assertThat(wiring("(A.1 + A.2) | (B.1 + B.2)").joins())
                .containsExactly(
                        "amplifier+ to A.1+, B.1+", "A.1- to A.2+", "B.1- to B.2+", "amplifier- to A.2-, B.2-");
        assertThat(wiring("A.1 + -A.2").joins())
                .containsExactly("amplifier+ to A.1+", "A.1- to A.2-", "amplifier- to A.2+");
    }

    @Test
    void findsCoilsThatAreTurnedRound() {
        assertThat(wiring("A.1 + A.2").polarityFaults()).isEmpty();
        assertThat(wiring("-A.1 + -A.2").polarityFaults()).isEmpty();
        assertThat(wiring("A.1 + -A.2").polarityFaults())
                .singleElement()
                .asString()
                .contains("A", "silent");
        assertThat(wiring("(A.1 + A.2) | (B.1 + B.2) | -MID-L").polarityFaults())
                .singleElement()
                .asString()
                .contains("MID-L");
        assertThat(wiring("-(A.1 + A.2) | -(B.1 + B.2) | MID-L").polarityFaults())
                .singleElement()
                .asString()
                .contains("MID-L");
    }

    @ParameterizedTest
    @CsvSource({
        "'()', a coil is missing",
        "A.3, no coil",
        "A, no coil",
        "A.1 + , a coil is missing",
        "A.1 A.2, unexpected",
        "A.1 + A.2 | B.1, without parentheses",
        "(A.1 + A.2, ) is missing",
        "A.1 + A.1, used twice",
        "MID-L + MID-L.1, used twice",
        "A.1 + A.2), unexpected",
        "A.1 * A.2, unexpected"
    })
    void saysWhatItCannotRead(String text, String detail) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> wiring(text))
                .withMessageContaining(detail)
                .withMessageContaining("at character");
    }

    @Test
    void refusesATextThatIsTooLong() {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> wiring("(".repeat(501)))
                .withMessageContaining("500");
        // as deep as it may be, it is read to its end
        assertThat(wiring("(".repeat(248) + "A.1" + ")".repeat(248)).text()).isEqualTo("A.1");
    }

    private static Wiring wiring(String text) {
        return Wiring.parse(new WiringText(text), DRIVERS);
    }
}
