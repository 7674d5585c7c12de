package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.transaction.TransactionSystemException;

class DatabaseAwayTest {

    @ParameterizedTest
    @ValueSource(strings = {"08001", "08006", "57P01", "57P02", "57P03", "53300"})
    void seesALostConnectionHoweverDeepItLies(String sqlState) {
        Throwable failure =
                new TransactionSystemException("commit", new IllegalStateException(new SQLException("lost", sqlState)));

        assertThat(DatabaseAway.isCauseOf(failure)).isTrue();
    }

    @Test
    void seesAPoolWithoutConnections() {
        assertThat(DatabaseAway.isCauseOf(new CannotCreateTransactionException("none")))
                .isTrue();
        assertThat(DatabaseAway.isCauseOf(new RuntimeException(new SQLTransientConnectionException("timed out"))))
                .isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"23505", "40001", "42501", "57014", "22001"})
    void leavesOtherFailuresOfADatabaseThatIsThere(String sqlState) {
        assertThat(DatabaseAway.isCauseOf(
                        new DataIntegrityViolationException("refused", new SQLException("refused", sqlState))))
                .isFalse();
    }

    @Test
    void endsOnCausesThatGoInACircle() {
        RuntimeException outer = new RuntimeException("outer");
        RuntimeException inner = new RuntimeException("inner", outer);
        outer.initCause(inner);

        assertThat(DatabaseAway.isCauseOf(outer)).isFalse();
    }
}
