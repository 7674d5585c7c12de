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

    /** Outputs times inputs of sound and picture: what the search for pairs takes in a second or two. */
    private static final long MOST_PAIRS = 10_000;

    /** Terminals of parts and circuits of the vehicle together. */
    private static final int MOST_TERMINALS = 3000;

    /** Why a question is too large to be answered in time; null if it is not. */
    public static @Nullable String tooLarge(Hookup asked) {
        long outputs = 0;
        long inputs = 0;
        long terminals = asked.map().circuits().size();
        for (Device device : asked.devices().values()) {
            terminals += device.terminals().size();
            for (Device.Terminal terminal : device.terminals().values()) {
                if (terminal.electrical() instanceof Electrical.Audio audio) {
                    outputs += audio.isOutput() ? 1 : 0;
                    inputs += audio.isOutput() ? 0 : 1;
                }
            }
        }
        if (terminals > MOST_TERMINALS) {
            return "parts and vehicle have " + terminals + " terminals together, above the " + MOST_TERMINALS
                    + " that a pairing takes";
        }
        return outputs * inputs > MOST_PAIRS
                ? outputs + " outputs and " + inputs + " inputs of sound can pair in " + outputs * inputs
                        + " ways, above the " + MOST_PAIRS + " that a pairing takes"
                : null;
    }

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
