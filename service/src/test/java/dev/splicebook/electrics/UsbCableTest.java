package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.UsbCable.Segment;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class UsbCableTest {

    // USB 2.0, longest cable by gauge of the power pair (secondary copy)
    @ParameterizedTest
    @CsvSource({"28, 0.81", "26, 1.31", "24, 2.08", "22, 3.33", "20, 5.00"})
    void knowsTheLongestCable(String gauge, double metres) {
        ConductorSize size = new ConductorSize(gauge + " AWG");
        assertThat(UsbCable.longestMetres(size)).isEqualTo(metres);
        assertThat(cable(0.5, 0, new Segment(size, metres)).shareOfLongest()).isEqualTo(1);
        // every row allows about the same: 86 mV in each wire for 28 AWG, 83 mV for 20 AWG at 500 mA, by the AWG law.
        // The
        // figures are those of one wire; the device loses twice that
        double perWire = cable(0.5, 0, new Segment(size, metres)).dropVolts() / 2;
        assertThat(perWire).isBetween(0.0830, 0.0885);
        // with two contacts of 30 mΩ (from memory) in each line it stays within 125 mV a line
        assertThat(cable(0.5, 2, new Segment(size, metres)).dropVolts() / 2).isLessThan(0.125);
    }

    @Test
    void dropsWhatTheLawSays() {
        assertThat(cable(0.5, 0, segment("28 AWG", 0.81)).dropVolts() / 2).isCloseTo(0.086, within(0.0005));
        assertThat(cable(0.5, 0, segment("20 AWG", 5)).dropVolts() / 2).isCloseTo(0.083, within(0.0005));
    }

    @Test
    void delaysByLength() {
        // USB 2.0: 5.2 ns a metre, at most 26 ns, which is 5 m
        assertThat(cable(0.1, 0, segment("20 AWG", 5)).delayNs()).isCloseTo(26, within(1e-9));
        assertThat(UsbCable.MOST_NS / UsbCable.NS_PER_METRE).isCloseTo(5, within(1e-9));
    }

    @Test
    void takesTheThinnerRowBetweenTwo() {
        assertThat(UsbCable.longestMetres(new ConductorSize("25 AWG"))).isEqualTo(1.31);
        assertThat(UsbCable.longestMetres(new ConductorSize("18 AWG"))).isEqualTo(5);
        assertThat(UsbCable.longestMetres(new ConductorSize("30 AWG"))).isNull();
        assertThat(cable(0.5, 0, segment("30 AWG", 1)).shareOfLongest()).isNull();
    }

    @Test
    void findsTheWorstSegmentAndHowShortItMustBe() {
        UsbCable cable = cable(0.5, 3, segment("20 AWG", 1), segment("28 AWG", 2), segment("24 AWG", 1));
        assertThat(cable.worstSegment()).isEqualTo(1);
        double metres = cable.longestSegmentMetres(1, 0.35);
        UsbCable shorter = cable(0.5, 3, segment("20 AWG", 1), segment("28 AWG", metres), segment("24 AWG", 1));
        assertThat(shorter.dropVolts()).isLessThanOrEqualTo(0.35 + 1e-12);
        assertThat(shorter.shareOfLongest()).isLessThanOrEqualTo(1 + 1e-12);
    }

    @Test
    void shortensUntilTheTightestLimitIsJustKept() {
        Random random = new Random(4);
        for (int n = 0; n < 500; n++) {
            Segment first = segment((20 + random.nextInt(9)) + " AWG", 0.1 + random.nextDouble() * 3);
            Segment second = segment((20 + random.nextInt(9)) + " AWG", 0.1 + random.nextDouble() * 3);
            double amps = 0.1 + random.nextDouble() * 2;
            UsbCable cable = cable(amps, 2, first, second);
            double metres = cable.longestSegmentMetres(0, 0.35);
            if (metres > 0) {
                UsbCable fitted = cable(amps, 2, new Segment(first.gauge(), metres), second);
                double tightest = Math.max(
                        fitted.dropVolts() / 0.35,
                        Math.max(fitted.delayNs() / 26, Objects.requireNonNull(fitted.shareOfLongest())));
                assertThat(tightest).as("of the limits").isCloseTo(1, within(1e-9));
            }
        }
    }

    private static Segment segment(String gauge, double metres) {
        return new Segment(new ConductorSize(gauge), metres);
    }

    private static UsbCable cable(double amps, int contacts, Segment... segments) {
        return new UsbCable(List.of(segments), amps, contacts, UsbCable.CONTACT_OHMS, 20);
    }
}
