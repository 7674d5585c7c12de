package dev.splicebook.exchange;

import dev.splicebook.web.Problems;
import java.util.concurrent.Semaphore;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;

/** Keeps imports and exports, each of which holds a database connection for long, from taking all there are. */
@Component
class Transfers {

    private final int most;
    private final Semaphore free;

    Transfers(@Value("${splicebook.exchange.at-once:4}") int most) {
        this.most = most;
        this.free = new Semaphore(most);
    }

    /** Held while a transfer runs. */
    interface Place extends AutoCloseable {

        @Override
        void close();
    }

    /** @throws dev.splicebook.web.ProblemException 429 if as many run as may */
    Place enter() {
        if (!free.tryAcquire()) {
            throw Problems.tooMany(
                    most + " imports and exports run already, which are as many as this service takes at once");
        }
        return free::release;
    }
}
