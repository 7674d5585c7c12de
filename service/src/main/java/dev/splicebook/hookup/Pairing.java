package dev.splicebook.hookup;

import dev.splicebook.hookup.PairingQuestion.Preferences;
import dev.splicebook.hookup.pair.Search;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Proposes a whole hookup for a vehicle, parts and wishes. What wants something and what could give it meet by electrical
 * facts and function, never by colour; signals are matched by a min-cost flow, power by budgets of amperes, and what the
 * check finds fault with is forbidden and solved again. Untouchable circuits and their connectors are left alone, and a
 * parking-brake input is given the parking brake's own circuit or nothing.
 */
public final class Pairing {

    private final Function<Hookup, Report> check;

    /** @param check judges each proposal; it decides which is best, and every verdict is its */
    public Pairing(Function<Hookup, Report> check) {
        this.check = check;
    }

    /**
     * The best hookup that is found.
     *
     * @param asked what {@link PairingQuestion#document} says, resolved: nothing is joined in it
     * @param stock what may be added
     */
    public Proposal propose(Hookup asked, @Nullable Preferences preferences, Stock stock) {
        return new Search(check, asked, preferences == null ? Preferences.none() : preferences, stock).propose();
    }
}
