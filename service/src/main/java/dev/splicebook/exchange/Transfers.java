package dev.splicebook.exchange;

import dev.splicebook.web.Caller;
import dev.splicebook.web.FirmId;
import dev.splicebook.web.Problems;
import java.util.HashMap;
import java.util.Map;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;

/**
 * Keeps imports and exports, each of which holds a database connection for long, from taking all there are, and one firm
 * from taking every place.
 */
@Component
class Transfers {

    private final int most;
    private final int mostOfFirm;
    private final Map<FirmId, Integer> running = new HashMap<>();

    Transfers(
            @Value("${splicebook.exchange.at-once:4}") int most,
            @Value("${splicebook.exchange.at-once-per-firm:2}") int mostOfFirm) {
        this.most = most;
        this.mostOfFirm = mostOfFirm;
    }

    /** Held while a transfer runs. */
    interface Place extends AutoCloseable {

        @Override
        void close();
    }

    /** @throws dev.splicebook.web.ProblemException 429 if as many run as may, of the firm or of all */
    synchronized Place enter(Caller caller) {
        int ofFirm = running.getOrDefault(caller.firm(), 0);
        if (ofFirm >= mostOfFirm) {
            throw Problems.tooMany(
                    ofFirm + " imports and exports of the firm run already, which are as many as may at once");
        }
        if (running.values().stream().mapToInt(Integer::intValue).sum() >= most) {
            throw Problems.tooMany(
                    most + " imports and exports run already, which are as many as this service takes at once");
        }
        running.put(caller.firm(), ofFirm + 1);
        return () -> leave(caller.firm());
    }

    private synchronized void leave(FirmId firm) {
        running.computeIfPresent(firm, (same, count) -> count > 1 ? count - 1 : null);
    }
}
