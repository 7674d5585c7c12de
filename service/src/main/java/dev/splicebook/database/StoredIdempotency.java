package dev.splicebook.database;

import dev.splicebook.web.Caller;
import dev.splicebook.web.Idempotency;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.Problems;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Keeps the keys beside the rows that were made under them, so that neither is there without the other. */
@Component
class StoredIdempotency implements Idempotency {

    private static final Pattern KEY = Pattern.compile("[!-~]{1,100}");

    private final JdbcClient rows;
    private final TransactionTemplate transactions;

    StoredIdempotency(JdbcClient rows, PlatformTransactionManager transactions) {
        this.rows = rows;
        this.transactions = new TransactionTemplate(transactions);
    }

    @Override
    public Once once(Caller caller, @Nullable String key, String fingerprint, Supplier<String> change) {
        requireForm(key);
        return run(caller, key, fingerprint, change);
    }

    @Override
    public <T> Once once(
            Caller caller,
            @Nullable String key,
            String fingerprint,
            Supplier<T> ahead,
            Function<? super T, String> change) {
        requireForm(key);
        if (key != null && isTold(caller, key)) {
            return told(caller, key, fingerprint);
        }
        T done = ahead.get();
        return run(caller, key, fingerprint, () -> change.apply(done));
    }

    private static void requireForm(@Nullable String key) {
        if (key != null && !KEY.matcher(key).matches()) {
            throw Problems.badParameter(
                    HEADER, "bad-form", HEADER + " is not 1 to 100 visible ASCII characters without a blank");
        }
    }

    private Once run(Caller caller, @Nullable String key, String fingerprint, Supplier<String> change) {
        return transactions.execute(status -> key == null
                ? new Once(change.get(), false)
                : take(caller, key, fingerprint) ? made(caller, key, change) : told(caller, key, fingerprint));
    }

    /** Waits for a transaction that holds the key, and takes it if that one left it free or it is older than a week. */
    private boolean take(Caller caller, String key, String fingerprint) {
        rows.sql("delete from idempotency_keys where (owner_firm, key) in (select owner_firm, key from idempotency_keys"
                        + " where owner_firm = :firm and created_at < now() - interval '7 days' and key <> :key limit 20"
                        + " for update skip locked)")
                .param("firm", caller.firm().value())
                .param("key", key)
                .update();
        int taken = rows.sql("insert into idempotency_keys as k (owner_firm, key, fingerprint)"
                        + " values (:firm, :key, :fingerprint) on conflict (owner_firm, key) do update"
                        + " set fingerprint = excluded.fingerprint, outcome = null, created_at = excluded.created_at"
                        + " where k.created_at < now() - interval '7 days'")
                .param("firm", caller.firm().value())
                .param("key", key)
                .param("fingerprint", fingerprint)
                .update();
        return taken == 1;
    }

    private Once made(Caller caller, String key, Supplier<String> change) {
        String ref = change.get();
        rows.sql("update idempotency_keys set outcome = :ref where owner_firm = :firm and key = :key")
                .param("ref", ref)
                .param("firm", caller.firm().value())
                .param("key", key)
                .update();
        return new Once(ref, false);
    }

    /** Whether an earlier request of this week made its change under the key. */
    private boolean isTold(Caller caller, String key) {
        return rows.sql("select count(*) from idempotency_keys where owner_firm = :firm and key = :key"
                                + " and created_at >= now() - interval '7 days' and outcome is not null")
                        .param("firm", caller.firm().value())
                        .param("key", key)
                        .query(Integer.class)
                        .single()
                > 0;
    }

    private Once told(Caller caller, String key, String fingerprint) {
        record Known(String fingerprint, String outcome) {}
        Known known = rows.sql(
                        "select fingerprint, outcome from idempotency_keys where owner_firm = :firm and key = :key")
                .param("firm", caller.firm().value())
                .param("key", key)
                .query((row, number) -> new Known(row.getString(1), row.getString(2)))
                .single();
        if (!known.fingerprint().equals(fingerprint)) {
            throw new ProblemException(
                    ProblemType.IDEMPOTENCY_KEY_REUSED,
                    "another request of this firm used the " + HEADER + " " + key + " within seven days");
        }
        return new Once(known.outcome(), true);
    }
}
