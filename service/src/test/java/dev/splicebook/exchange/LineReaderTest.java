package dev.splicebook.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import org.junit.jupiter.api.Test;

class LineReaderTest {

    private static LineReader reader(String body, Duration longest) {
        return new LineReader(new ByteArrayInputStream(body.getBytes(StandardCharsets.UTF_8)), 5, longest);
    }

    @Test
    void passesOverALineThatIsTooLongAndReadsOn() throws IOException {
        LineReader reader = reader("ab\nabcdef\ncd", Duration.ofMinutes(1));

        assertThat(reader.next()).asString(StandardCharsets.UTF_8).isEqualTo("ab");
        assertThat(reader.isTooLong()).isFalse();
        assertThat(reader.next()).isEmpty();
        assertThat(reader.isTooLong()).isTrue();
        assertThat(reader.next()).asString(StandardCharsets.UTF_8).isEqualTo("cd");
        assertThat(reader.number()).isEqualTo(3);
        assertThat(reader.next()).isNull();
        assertThat(reader.bytes()).isEqualTo(12);
    }

    @Test
    void endsABodyThatTakesLongerThanItMay() {
        assertThatExceptionOfType(LineReader.TooSlowException.class)
                .isThrownBy(() -> reader("ab\n", Duration.ofNanos(-1)).next())
                .withMessageContaining("the body did not end within");
    }
}
