package dev.splicebook.database;

import dev.splicebook.web.Rehearsal;
import jakarta.persistence.EntityManager;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Makes the change in a transaction of its own that is rolled back. */
@Component
class RolledBackRehearsal implements Rehearsal {

    private final EntityManager entities;
    private final TransactionTemplate transactions;

    RolledBackRehearsal(EntityManager entities, PlatformTransactionManager transactions) {
        this.entities = entities;
        this.transactions = new TransactionTemplate(transactions);
    }

    @Override
    public void of(Runnable change) {
        transactions.executeWithoutResult(status -> {
            change.run();
            // what is not sent to the database is not judged by it
            entities.flush();
            status.setRollbackOnly();
        });
    }
}
