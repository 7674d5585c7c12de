package dev.splicebook.check.house;

import dev.splicebook.hookup.Fact;
import dev.splicebook.hookup.FactKind;
import java.util.List;
import java.util.Locale;

/** What a house rule is about, one by one. */
public enum Subject {
    CONNECTIONS(FactKind.CONNECTION),
    TERMINALS(FactKind.TERMINAL),
    PARTS(FactKind.PART),
    NETS(FactKind.NET),
    FINDINGS(FactKind.FINDING),
    WISHES(FactKind.WISH),
    HOOKUP(FactKind.HOOKUP);

    private final FactKind kind;

    Subject(FactKind kind) {
        this.kind = kind;
    }

    /** What {@code it} is. */
    public FactKind kind() {
        return kind;
    }

    /** The things themselves. */
    List<Fact> in(Fact hookup) {
        return this == HOOKUP ? List.of(hookup) : FactValue.facts(hookup, name().toLowerCase(Locale.ROOT));
    }
}
