package dev.splicebook.web;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;

/** Where the reader stands in a body, and every fault it met so far. */
final class Walk {

    private final List<Object> path = new ArrayList<>();
    private final List<Fault> faults = new ArrayList<>();
    private int count;

    void enter(Object token) {
        path.add(token);
    }

    void leave() {
        path.remove(path.size() - 1);
    }

    /** The detail is only worked out while faults are still listed: a hostile body may hold any number of them. */
    void fault(String code, Supplier<String> detail) {
        faultBelow("", code, detail);
    }

    void faultBelow(String relativePointer, String code, Supplier<String> detail) {
        count++;
        if (faults.size() < Problems.MOST_FAULTS) {
            faults.add(Fault.at(Fault.pointerTo(path.toArray()) + relativePointer, code, detail.get()));
        }
    }

    /** The present place in words, as the subject of a sentence. */
    String here() {
        if (path.isEmpty()) {
            return "the body";
        }
        Object last = path.get(path.size() - 1);
        if (!(last instanceof Integer)) {
            return Words.shortened(last.toString());
        }
        return path.size() == 1 ? "entry " + last : "entry " + last + " of " + path.get(path.size() - 2);
    }

    int count() {
        return count;
    }

    List<Fault> faults() {
        return faults;
    }
}
