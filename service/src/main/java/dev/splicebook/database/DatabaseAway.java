package dev.splicebook.database;

import dev.splicebook.web.ProblemWriter;
import dev.splicebook.web.Problems;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.sql.SQLException;
import java.sql.SQLNonTransientConnectionException;
import java.sql.SQLRecoverableException;
import java.sql.SQLTransientConnectionException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.NestedExceptionUtils;
import org.springframework.transaction.CannotCreateTransactionException;

/** Tells a database that cannot be reached from everything else that goes wrong with one, and answers for it. */
public final class DatabaseAway {

    private static final Logger log = LoggerFactory.getLogger(DatabaseAway.class);

    private static final int MOST_CAUSES = 20;

    private DatabaseAway() {}

    /** Whether the failure, or something that caused it, is a missing or broken connection. */
    public static boolean isCauseOf(Throwable failure) {
        @Nullable Throwable cause = failure;
        for (int depth = 0; cause != null && depth < MOST_CAUSES; depth++) {
            if (cause instanceof CannotCreateTransactionException
                    || cause instanceof SQLTransientConnectionException
                    || cause instanceof SQLNonTransientConnectionException
                    || cause instanceof SQLRecoverableException
                    || (cause instanceof SQLException sql && tellsOfLostConnection(sql.getSQLState()))) {
                return true;
            }
            cause = cause.getCause();
        }
        return false;
    }

    /** Answers the request with 503, and says in the log what is wrong with the database. */
    public static void answer(HttpServletRequest request, HttpServletResponse response, Throwable failure)
            throws IOException {
        log.warn(
                "The database is away: {}",
                NestedExceptionUtils.getMostSpecificCause(failure).getMessage());
        ProblemWriter.write(request, response, Problems.databaseAway());
    }

    /**
     * Source: PostgreSQL documentation, appendix A: class 08 is connection exceptions, 57P01 to 57P03 a server that
     * shuts down, crashed or still starts, 53300 no connection left.
     */
    private static boolean tellsOfLostConnection(@Nullable String sqlState) {
        return sqlState != null
                && (sqlState.startsWith("08") || sqlState.matches("57P0[1-3]") || sqlState.equals("53300"));
    }
}
