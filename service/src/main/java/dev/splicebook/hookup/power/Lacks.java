package dev.splicebook.hookup.power;

import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;

/** Facts that are lacking, each a place, a dot and a name. Sets that many conductors share are kept and not copied. */
public final class Lacks {

    private final Set<Set<String>> shared = Collections.newSetFromMap(new IdentityHashMap<>());
    private final Set<String> own = new TreeSet<>();

    public void add(String fact) {
        own.add(fact);
    }

    /**
     * @param facts that do not change any more
     */
    public void addAll(Set<String> facts) {
        if (!facts.isEmpty()) {
            shared.add(facts);
        }
    }

    public boolean isEmpty() {
        return own.isEmpty() && shared.isEmpty();
    }

    /** Tells the sets that hold all facts. */
    public void forEach(Consumer<Set<String>> each) {
        shared.forEach(each);
        if (!own.isEmpty()) {
            each.accept(own);
        }
    }
}
