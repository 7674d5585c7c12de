package dev.splicebook.electrics;

import static dev.splicebook.electrics.Crossover.CrossoverAlignment.BESSEL;
import static dev.splicebook.electrics.Crossover.CrossoverAlignment.BUTTERWORTH;
import static dev.splicebook.electrics.Crossover.CrossoverAlignment.LINKWITZ_RILEY;
import static dev.splicebook.electrics.Crossover.CrossoverSide.HIGH_PASS;
import static dev.splicebook.electrics.Crossover.CrossoverSide.LOW_PASS;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.Crossover.Component;
import dev.splicebook.electrics.Crossover.CrossoverAlignment;
import dev.splicebook.electrics.Crossover.CrossoverKind;
import dev.splicebook.electrics.Crossover.CrossoverPlace;
import dev.splicebook.electrics.Crossover.CrossoverSide;
import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class CrossoverTest {

    // 8 Ω, 2 kHz; computed from C = g/(2π·f·R) and L = g·R/(2π·f)
    @ParameterizedTest
    @CsvSource({"1, BUTTERWORTH, 9.947, 0.6366", "2, BUTTERWORTH, 7.034, 0.9003", "2, LINKWITZ_RILEY, 4.974, 1.273"})
    void knowsCommonCrossovers(int order, CrossoverAlignment alignment, double microfarads, double millihenries) {
        for (CrossoverSide side : CrossoverSide.values()) {
            for (Component component : new Crossover(order, alignment, 8, 2000, side).components()) {
                if (component.kind() == CrossoverKind.CAPACITOR) {
                    assertMicrofarads(component, microfarads);
                } else {
                    assertMillihenries(component, millihenries);
                }
            }
        }
    }

    // published design tables: C = c/(R·f) in farads, L = l·R/f in henries
    @Test
    void knowsTheFiguresOfDesignTables() {
        List<Component> linkwitzRiley = new Crossover(2, LINKWITZ_RILEY, 1, 1, HIGH_PASS).components();
        assertMicrofarads(linkwitzRiley.get(0), 0.0796e6);
        assertMillihenries(linkwitzRiley.get(1), 0.3183e3);

        List<Component> third = new Crossover(3, BUTTERWORTH, 1, 1, HIGH_PASS).components();
        assertMicrofarads(third.get(0), 0.1061e6);
        assertMillihenries(third.get(1), 0.1194e3);
        assertMicrofarads(third.get(2), 0.3183e6);

        // from memory, and the same computed
        List<Component> second = new Crossover(2, BUTTERWORTH, 1, 1, HIGH_PASS).components();
        assertMicrofarads(second.get(0), 0.1125e6);
        assertMillihenries(second.get(1), 0.2251e3);
    }

    // prototypes for a source without resistance, in order from it; handbook values from memory
    @ParameterizedTest
    @CsvSource({
        "BUTTERWORTH, 1, 1 0 0 0",
        "BUTTERWORTH, 2, 1.4142 0.7071 0 0",
        "BUTTERWORTH, 3, 1.5000 1.3333 0.5000 0",
        "BUTTERWORTH, 4, 1.5307 1.5772 1.0824 0.3827",
        "LINKWITZ_RILEY, 2, 2.0000 0.5000 0 0",
        "LINKWITZ_RILEY, 4, 1.8856 1.5910 0.9428 0.3536",
        "BESSEL, 2, 1.3617 0.4539 0 0",
        "BESSEL, 3, 1.4631 0.8427 0.2926 0",
        "BESSEL, 4, 1.5012 0.9781 0.6127 0.2114"
    })
    void knowsPrototypes(CrossoverAlignment alignment, int order, String values) {
        double[] prototype = Crossover.prototype(Crossover.polynomial(alignment, order));
        double[] expected = Arrays.stream(values.split(" "))
                .mapToDouble(Double::parseDouble)
                .toArray();
        assertThat(prototype).hasSize(order);
        for (int each = 0; each < order; each++) {
            assertThat(prototype[each]).as("value %d", each).isCloseTo(expected[each], within(1e-4));
        }
    }

    static List<Crossover> everyKind() {
        List<Crossover> all = new ArrayList<>();
        Random random = new Random(4);
        for (CrossoverAlignment alignment : CrossoverAlignment.values()) {
            for (int order = 1; order <= 4; order++) {
                for (CrossoverSide side : CrossoverSide.values()) {
                    if (alignment != LINKWITZ_RILEY || order % 2 == 0) {
                        all.add(new Crossover(
                                order, alignment, 1 + 15 * random.nextDouble(), 40 + 5000 * random.nextDouble(), side));
                    }
                }
            }
        }
        return all;
    }

    @ParameterizedTest
    @MethodSource("everyKind")
    void respondsAsItsPolynomialSays(Crossover crossover) {
        double[] polynomial = Crossover.polynomial(crossover.alignment(), crossover.order());
        List<Component> components = crossover.components();
        for (double ratio = 0.01; ratio < 100; ratio *= 1.07) {
            double gain = Crossover.gain(components, crossover.ohms(), crossover.hertz() * ratio);
            double omega = crossover.side() == LOW_PASS ? ratio : 1 / ratio;
            double ideal = 1 / Crossover.magnitude(polynomial, omega);
            assertThat(gain).as("gain at %f of the corner", ratio).isCloseTo(ideal, within(ideal * 1e-9));
        }
    }

    @Test
    void respondsAsButterworthByItsDefinition() {
        // |H|² = 1/(1 + ω^2n)
        for (int order = 1; order <= 4; order++) {
            for (double ratio = 0.1; ratio < 10; ratio *= 1.1) {
                double gain = Crossover.gain(
                        new Crossover(order, BUTTERWORTH, 4, 100, LOW_PASS).components(), 4, 100 * ratio);
                assertThat(gain).isCloseTo(1 / Math.sqrt(1 + Math.pow(ratio, 2 * order)), within(1e-9));
            }
        }
    }

    @Test
    void respondsAsTwoButterworthsOneBehindTheOtherForLinkwitzRiley() {
        for (int order = 2; order <= 4; order += 2) {
            List<Component> components = new Crossover(order, LINKWITZ_RILEY, 4, 100, HIGH_PASS).components();
            for (double hertz = 10; hertz < 1000; hertz *= 1.1) {
                double half = 1 / Math.sqrt(1 + Math.pow(100 / hertz, order));
                assertThat(Crossover.gain(components, 4, hertz)).isCloseTo(half * half, within(1e-9));
            }
        }
    }

    @Test
    void delaysAllFrequenciesAlikeForBessel() {
        // its definition: the group delay is flat far into the pass band, unlike Butterworth's
        double[] bessel = Crossover.polynomial(BESSEL, 4);
        double[] butterworth = Crossover.polynomial(BUTTERWORTH, 4);
        assertThat(delay(bessel, 0.5) / delay(bessel, 0.01)).isCloseTo(1, within(0.01));
        assertThat(delay(butterworth, 0.5) / delay(butterworth, 0.01)).isGreaterThan(1.1);
        assertThat(Crossover.magnitude(bessel, 1)).isCloseTo(Math.sqrt(2), within(1e-9));
    }

    private static double delay(double[] polynomial, double omega) {
        double step = 1e-4;
        return (phase(polynomial, omega + step) - phase(polynomial, omega)) / step;
    }

    private static double phase(double[] polynomial, double omega) {
        double real = polynomial[0] - polynomial[2] * omega * omega + polynomial[4] * Math.pow(omega, 4);
        double imaginary = polynomial[1] * omega - polynomial[3] * Math.pow(omega, 3);
        return Math.atan2(imaginary, real);
    }

    @ParameterizedTest
    @MethodSource("everyKind")
    void findsTheCornerOfIdealComponentsWhereItWasAskedFor(Crossover crossover) {
        assertThat(crossover.cornerHertz(crossover.components()))
                .as("Hz")
                .isCloseTo(crossover.hertz(), within(crossover.hertz() * 1e-9));
    }

    @ParameterizedTest
    @MethodSource("everyKind")
    void findsTheCornerOfComponentsThatCanBeBought(Crossover crossover) {
        for (PreferredValues series : List.of(PreferredValues.E12, PreferredValues.E24)) {
            List<Component> components = crossover.components(series);
            double hertz = crossover.cornerHertz(components);
            assertThat(Crossover.gain(components, crossover.ohms(), hertz))
                    .as("gain at the corner")
                    .isCloseTo(crossover.alignment().cornerGain(), within(1e-9));
            assertThat(hertz / crossover.hertz()).as("of the corner").isBetween(0.75, 1.33);
        }
    }

    @Test
    void shiftsTheCornerOfASingleCapacitorByItsValue() {
        // first order, so the corner goes by 1/C: 9.947 µF becomes 10 µF, 2000 Hz 1989.4 Hz
        Crossover block = new Crossover(1, BUTTERWORTH, 8, 2000, HIGH_PASS);
        List<Component> rounded = block.components(PreferredValues.E12);
        assertThat(rounded).singleElement().isEqualTo(Component.capacitor(CrossoverPlace.SERIES, 10));
        assertThat(block.cornerHertz(rounded)).as("Hz").isCloseTo(1989.4, within(0.05));
    }

    @Test
    void turnsLowPassIntoHighPassByTurningComponents() {
        List<Component> low = new Crossover(3, BUTTERWORTH, 4, 500, LOW_PASS).components();
        List<Component> high = new Crossover(3, BUTTERWORTH, 4, 500, HIGH_PASS).components();
        assertThat(low)
                .extracting(Component::kind)
                .containsExactly(CrossoverKind.INDUCTOR, CrossoverKind.CAPACITOR, CrossoverKind.INDUCTOR);
        assertThat(high)
                .extracting(Component::kind)
                .containsExactly(CrossoverKind.CAPACITOR, CrossoverKind.INDUCTOR, CrossoverKind.CAPACITOR);
        assertThat(low)
                .extracting(Component::place)
                .containsExactly(CrossoverPlace.SERIES, CrossoverPlace.SHUNT, CrossoverPlace.SERIES);
        double omega = 2 * Math.PI * 500;
        for (int each = 0; each < 3; each++) {
            // at the corner each pair has equal and opposite reactance
            assertThat(low.get(each).reactanceOhms(omega))
                    .isCloseTo(-high.get(each).reactanceOhms(omega), within(1e-9));
        }
    }

    @ParameterizedTest
    @CsvSource({
        "0, BUTTERWORTH, 8, 2000",
        "5, BUTTERWORTH, 8, 2000",
        "1, LINKWITZ_RILEY, 8, 2000",
        "3, LINKWITZ_RILEY, 8, 2000",
        "2, BESSEL, 0, 2000",
        "2, BESSEL, 8, 0",
        "2, BESSEL, 8, 100001",
        "2, BESSEL, NaN, 2000"
    })
    void refusesWhatIsNoCrossover(int order, CrossoverAlignment alignment, double ohms, double hertz) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Crossover(order, alignment, ohms, hertz, LOW_PASS));
    }

    private static void assertMicrofarads(Component component, double expected) {
        assertThat(component.microfarads()).as("µF").isNotNull().isCloseTo(expected, within(expected * 0.0008));
    }

    private static void assertMillihenries(Component component, double expected) {
        assertThat(component.millihenries()).as("mH").isNotNull().isCloseTo(expected, within(expected * 0.0008));
    }
}
