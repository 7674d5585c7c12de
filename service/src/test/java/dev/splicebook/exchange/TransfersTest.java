package dev.splicebook.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.splicebook.web.Caller;
import dev.splicebook.web.FirmId;
import dev.splicebook.web.KeyId;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.ShopId;
import java.util.UUID;
import org.junit.jupiter.api.Test;

/** One firm leaves places for others, and all together leave connections for everything else. */
class TransfersTest {

    private final Transfers transfers = new Transfers(3, 2);
    private final Caller one = caller(1);
    private final Caller other = caller(2);

    private static Caller caller(int number) {
        UUID id = new UUID(0, number);
        return new Caller(new FirmId(id), new ShopId(id), new KeyId(id));
    }

    private void assertFull(Caller caller, String why) {
        assertThatExceptionOfType(ProblemException.class)
                .isThrownBy(() -> transfers.enter(caller))
                .satisfies(problem -> {
                    assertThat(problem.type()).isEqualTo(ProblemType.TOO_MANY_REQUESTS);
                    assertThat(problem.detail()).contains(why);
                    assertThat(problem.headers()).containsKey("Retry-After");
                });
    }

    @Test
    void leavesPlacesForOtherFirms() {
        transfers.enter(one);
        Transfers.Place second = transfers.enter(one);
        assertFull(one, "of the firm");

        Transfers.Place others = transfers.enter(other);
        assertFull(other, "as this service takes");

        others.close();
        assertFull(one, "of the firm");
        second.close();
        transfers.enter(one);
        transfers.enter(other);
        assertFull(other, "as this service takes");
    }
}
