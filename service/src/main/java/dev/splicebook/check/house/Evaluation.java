package dev.splicebook.check.house;

import dev.splicebook.hookup.Fact;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** One evaluation after the other over one hookup, with what they may cost together and what each read. */
final class Evaluation {

    /** Thrown within an evaluation whose rule has used up what it may; told by {@link #isSpent} all the same. */
    static final class SpentException extends RuntimeException {

        private static final long serialVersionUID = 1L;

        SpentException() {
            super("spent", null, false, false);
        }
    }

    /** What a rule may take however many there are: the first runs before the code is warm. */
    private static final long LEAST_NANOS = 50_000_000;

    private final IdentityHashMap<Fact, FactValue> values = new IdentityHashMap<>();
    private final long nanosAtMost;
    private int rulesLeft;
    private long deadlineNanos;
    private long stepsLeft;
    private boolean spent;
    private boolean late;
    private boolean recording;
    private final Set<String> missed = new LinkedHashSet<>();
    private final List<String> read = new ArrayList<>();

    /**
     * @param most how long all rules together may take
     * @param rules how many there are
     */
    Evaluation(Duration most, int rules) {
        this.nanosAtMost = System.nanoTime() + most.toNanos();
        this.rulesLeft = rules;
    }

    /** Begins with the next rule, which has its share of the time that those before it have left. */
    void beginRule(long steps, Duration most) {
        stepsLeft = steps;
        spent = false;
        long now = System.nanoTime();
        long share = Math.max(0, nanosAtMost - now) / rulesLeft--;
        late = now >= nanosAtMost;
        deadlineNanos = Math.min(nanosAtMost, now + Math.min(most.toNanos(), Math.max(share, LEAST_NANOS)));
    }

    /** Begins with the next expression. */
    void begin(boolean record) {
        missed.clear();
        read.clear();
        recording = record;
    }

    /** Takes one step. */
    void step() {
        stepsLeft--;
        if (stepsLeft < 0 || ((stepsLeft & 15) == 0 && System.nanoTime() >= deadlineNanos)) {
            spent = true;
        }
        if (spent) {
            throw new SpentException();
        }
    }

    boolean isSpent() {
        return spent;
    }

    /** Whether the rules before had taken all the time when this one began. */
    boolean isLate() {
        return late;
    }

    FactValue valueOf(Fact fact) {
        return values.computeIfAbsent(fact, each -> new FactValue(each, this));
    }

    void missed(String field) {
        missed.add(field);
    }

    void read(Fact fact, String field) {
        if (recording) {
            Object value = fact.fields().get(field);
            // what is read of each thing in a list is told by itself
            read.add(fact.kind() + "." + field
                    + (value instanceof Collection<?> list && isOfFacts(list) ? ".size=" + list.size() : "=" + value));
        }
    }

    private static boolean isOfFacts(Collection<?> list) {
        return list.stream().anyMatch(Fact.class::isInstance);
    }

    /** What the last expression asked for and is not known. */
    List<String> missed() {
        return List.copyOf(missed);
    }

    /** What the last expression read, without names, in an order of its own. */
    List<String> read() {
        return read.stream().sorted().toList();
    }
}
