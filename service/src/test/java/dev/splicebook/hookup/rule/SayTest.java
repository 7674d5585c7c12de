package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class SayTest {

    @Test
    void tellsAFigureAsFinelyAsItTakesToTellItFromTheLimit() {
        assertThat(Say.apart(26.043, 25, Say::amps)).isEqualTo("26.0 A");
        assertThat(Say.apart(25.04, 25, Say::amps)).isEqualTo("25.04 A");
        assertThat(Say.apart(0.37812, 0.378, Say::finerVolts)).isEqualTo("0.3781 V");
        assertThat(Say.apart(0.0802, 0.1, Say::ohms)).isEqualTo("0.08 Ω");
        assertThat(Say.apart(0.1002, 0.1, Say::amps)).isEqualTo("100.20 mA");
        assertThat(Say.apart(0.25, 0.25, Say::watts)).isEqualTo("250 mW");
    }

    @Test
    void tellsALimitAsItWasStated() {
        assertThat(Say.amps(1.45)).isEqualTo("1.45 A");
        assertThat(Say.amps(1.5)).isEqualTo("1.5 A");
        assertThat(Say.amps(20)).isEqualTo("20.0 A");
        assertThat(Say.amps(1.4567)).isEqualTo("1.5 A");
        assertThat(Say.watts(12.5)).isEqualTo("12.5 W");
        assertThat(Say.watts(60)).isEqualTo("60 W");
        assertThat(Say.level(0.855)).isEqualTo("0.855 V");
    }
}
