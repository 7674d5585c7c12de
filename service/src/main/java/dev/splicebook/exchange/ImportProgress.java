package dev.splicebook.exchange;

import dev.splicebook.web.Fault;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** How far an import has come; written by the thread that runs it and read by the one that tells of it. */
final class ImportProgress {

    static final int MOST_FAULTS = 100;

    private Counts counts = new Counts(0, 0, 0, 0, 0, 0, 0);
    private final List<Fault> faults = new ArrayList<>();

    /** What was read and what came of it. */
    record Counts(int lines, int vehicles, int devices, int circuits, int unchanged, long bytes, int faults) {

        Counts read(int atLine, long byteCount) {
            return new Counts(atLine, vehicles, devices, circuits, unchanged, byteCount, faults);
        }

        Counts vehicle(int itsCircuits) {
            return new Counts(lines, vehicles + 1, devices, circuits + itsCircuits, unchanged, bytes, faults);
        }

        Counts device() {
            return new Counts(lines, vehicles, devices + 1, circuits, unchanged, bytes, faults);
        }

        Counts same() {
            return new Counts(lines, vehicles, devices, circuits, unchanged + 1, bytes, faults);
        }

        Counts refused(int more) {
            return new Counts(lines, vehicles, devices, circuits, unchanged, bytes, faults + more);
        }
    }

    synchronized Counts counts() {
        return counts;
    }

    synchronized List<Fault> faults() {
        return List.copyOf(faults);
    }

    synchronized void read(int lines, long bytes) {
        counts = counts.read(lines, bytes);
    }

    synchronized void vehicle(int circuits) {
        counts = counts.vehicle(circuits);
    }

    synchronized void device() {
        counts = counts.device();
    }

    synchronized void unchanged() {
        counts = counts.same();
    }

    /** Adds the faults of some lines in their order; {@code count} tells of more than are listed. */
    synchronized void refused(List<Fault> more, int count) {
        counts = counts.refused(count);
        more.stream()
                .sorted(Comparator.comparing(fault -> fault.line() == null ? 0 : fault.line()))
                .limit(MOST_FAULTS - faults.size())
                .forEach(faults::add);
    }
}
