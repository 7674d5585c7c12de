package dev.splicebook.hookup.mend;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Side;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Which terminals belong together by what they are for and what they are. */
final class Affinity {

    private Affinity() {}

    static boolean isSame(@Nullable FunctionId one, @Nullable FunctionId other) {
        return one != null && one.equals(other);
    }

    static boolean isNear(@Nullable FunctionId one, @Nullable FunctionId other) {
        return one != null && other != null && (one.isAtOrBelow(other) || other.isAtOrBelow(one));
    }

    /** Whether both are for the same side of the same kind of signal, like the left return of a line, whatever it is a line of. */
    static boolean isAlike(@Nullable FunctionId one, @Nullable FunctionId other) {
        if (one == null || other == null) {
            return false;
        }
        List<String> first = List.of(one.value().split("\\."));
        List<String> second = List.of(other.value().split("\\."));
        int least = Math.min(first.size(), second.size());
        return least >= 4
                && first.subList(0, 2).equals(second.subList(0, 2))
                && first.subList(first.size() - 2, first.size())
                        .equals(second.subList(second.size() - 2, second.size()));
    }

    /** Whether one may give what the other takes; what feeds a load, or grounds one, is left to other changes. */
    static boolean agree(@Nullable Electrical one, @Nullable Electrical other) {
        if (isHeard(one, other) || isHeard(other, one)) {
            return true;
        }
        if (isPower(one) || isPower(other)) {
            return false;
        }
        if (isOpen(one) || isOpen(other)) {
            return true;
        }
        if (one instanceof Electrical.Audio first && other instanceof Electrical.Audio second) {
            return first.isOutput() != second.isOutput() && agree(first.side(), second.side());
        }
        if (one instanceof Electrical.Data || one instanceof Electrical.Antenna) {
            return other != null && one.getClass() == other.getClass();
        }
        return (one instanceof Electrical.ControlOut && other instanceof Electrical.ControlIn)
                || (one instanceof Electrical.ControlIn && other instanceof Electrical.ControlOut)
                || (one instanceof Electrical.VideoOut first
                        && other instanceof Electrical.VideoIn second
                        && agree(first.side(), second.side()))
                || (one instanceof Electrical.VideoIn in
                        && other instanceof Electrical.VideoOut out
                        && agree(in.side(), out.side()));
    }

    private static boolean agree(@Nullable Side one, @Nullable Side other) {
        return one == null || other == null || one.isPositive() == other.isPositive();
    }

    /** Whether an input listens for what a supply gives, like that of the lamps. */
    private static boolean isHeard(@Nullable Electrical giver, @Nullable Electrical taker) {
        return giver instanceof Electrical.Supply
                && taker instanceof Electrical.ControlIn in
                && (in.active() == null || in.active() == Active.TWELVE_VOLTS);
    }

    private static boolean isPower(@Nullable Electrical facts) {
        return facts instanceof Electrical.Supply
                || facts instanceof Electrical.Load
                || facts instanceof Electrical.Ground;
    }

    /** Whether anything may stand at it: nothing is known of it, or it does nothing by itself. */
    static boolean isOpen(@Nullable Electrical facts) {
        return facts == null || facts instanceof Electrical.Passive;
    }
}
