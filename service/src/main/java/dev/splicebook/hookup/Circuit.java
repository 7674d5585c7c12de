package dev.splicebook.hookup;

import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.guard.Guard;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One circuit of a function map: a wire at a pin of a connector.
 *
 * @param function what the wire is for
 * @param colour base, then stripe
 * @param electrical facts that hold whether or not the connector is plugged into the factory unit; excludes the two next
 * @param whenPlugged facts while the connector is plugged into the factory unit
 * @param whenUnplugged facts of the wire alone
 * @param source where it comes from, like a fuse slot; circuits that name the same source share it
 * @param loadEnd where it goes
 * @param test how to prove it with a meter
 * @param carries what is lost with it when the factory unit goes
 * @param verifiedOn the day on which somebody last proved the entry on a vehicle; absent if nobody is known to have
 */
public record Circuit(
        @Nullable FunctionId function,
        @Nullable Colour colour,
        @Nullable Electrical electrical,
        @Nullable Electrical whenPlugged,
        @Nullable Electrical whenUnplugged,
        @Nullable String source,
        @Nullable String loadEnd,
        @Nullable String test,
        @Nullable String note,
        List<String> carries,
        @Nullable LocalDate verifiedOn) {

    private static final FunctionId SAFETY = new FunctionId("safety");

    public Circuit {
        carries = List.copyOf(carries);
        Guard guard = new Guard()
                .refuseIf(
                        electrical != null && (whenPlugged != null || whenUnplugged != null),
                        "electrical",
                        "inconsistent",
                        () -> "electrical holds in both cases, so whenPlugged and whenUnplugged cannot stand beside it")
                .text("source", source, 200)
                .text("loadEnd", loadEnd, 200)
                .text("test", test, 1000)
                .text("note", note, 2000)
                .atMost("carries", carries, 20);
        for (int at = 0; at < carries.size(); at++) {
            guard.text("carries/" + at, carries.get(at), 500);
        }
        guard.check();
    }

    /** A circuit of which only the electrical facts are known. */
    public static Circuit of(Electrical electrical) {
        return new Circuit(null, null, electrical, null, null, null, null, null, null, List.of(), null);
    }

    /** The facts while plugged or while unplugged, null where unknown. */
    public @Nullable Electrical factsWhen(boolean plugged) {
        if (electrical != null) {
            return electrical;
        }
        return plugged ? whenPlugged : whenUnplugged;
    }

    /** Whether nobody may take its connector off or join anything to it: by its facts, or by what it is for. */
    public boolean mustBeLeftAlone() {
        return factsWhen(true) instanceof Electrical.Untouchable
                || factsWhen(false) instanceof Electrical.Untouchable
                || (function != null && function.isAtOrBelow(SAFETY));
    }
}
