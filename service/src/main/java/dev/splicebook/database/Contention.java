package dev.splicebook.database;

import java.sql.SQLException;
import org.jspecify.annotations.Nullable;

/** Tells a change that another one stood in the way of from everything else that goes wrong with a database. */
public final class Contention {

    private static final int MOST_CAUSES = 20;

    private Contention() {}

    /**
     * Whether the failure, or something that caused it, is a lock that was not given in time, or a deadlock.
     *
     * <p>Source: PostgreSQL documentation, appendix A: 55P03 lock_not_available, 40P01 deadlock_detected, 40001
     * serialization_failure.
     */
    public static boolean isCauseOf(Throwable failure) {
        @Nullable Throwable cause = failure;
        for (int depth = 0; cause != null && depth < MOST_CAUSES; depth++) {
            if (cause instanceof SQLException sql
                    && sql.getSQLState() != null
                    && sql.getSQLState().matches("55P03|40P01|40001")) {
                return true;
            }
            cause = cause.getCause();
        }
        return false;
    }
}
