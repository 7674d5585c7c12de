package dev.splicebook.hookup;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Findings told apart by whether a waiver holds for them.
 *
 * @param findings those that none holds for, in the order that they had
 * @param waived those that one holds for, in the order that they had
 * @param lapsed waivers that hold for nothing, in the order that they had
 */
public record Waiving(List<Finding> findings, List<Waived> waived, List<Lapsed> lapsed) {

    public Waiving {
        findings = List.copyOf(findings);
        waived = List.copyOf(waived);
        lapsed = List.copyOf(lapsed);
    }

    /** A finding with the waiver that holds for it. */
    public record Waived(Finding finding, Waiver waiver) {}

    /** A waiver that holds for nothing, and why. */
    public record Lapsed(Waiver waiver, Why why) {}

    /** Why a waiver holds for nothing. */
    public enum Why {
        /** Its last day is over. */
        EXPIRED,
        /** There is no finding of its fingerprint: a fact has changed, or what it was about is mended. */
        NO_SUCH_FINDING,
        /** The finding is a danger, which is never waived. */
        DANGER
    }

    /**
     * Tells findings apart.
     *
     * @param waivers of two for one finding that both hold, the first is named
     * @param today in UTC
     */
    public static Waiving of(List<Finding> findings, List<Waiver> waivers, LocalDate today) {
        Map<String, Waiver> holding = new HashMap<>();
        for (Waiver waiver : waivers) {
            if (!waiver.hasExpired(today)) {
                holding.putIfAbsent(waiver.fingerprint(), waiver);
            }
        }
        List<Finding> kept = new ArrayList<>();
        List<Waived> waived = new ArrayList<>();
        Map<String, Severity> found = new HashMap<>();
        for (Finding finding : findings) {
            found.merge(
                    finding.fingerprint(), finding.severity(), (one, other) -> one.compareTo(other) <= 0 ? one : other);
            Waiver waiver = finding.severity() == Severity.DANGER ? null : holding.get(finding.fingerprint());
            if (waiver == null) {
                kept.add(finding);
            } else {
                waived.add(new Waived(finding, waiver));
            }
        }
        List<Lapsed> lapsed = new ArrayList<>();
        for (Waiver waiver : waivers) {
            if (waiver.hasExpired(today)) {
                lapsed.add(new Lapsed(waiver, Why.EXPIRED));
            } else if (!found.containsKey(waiver.fingerprint())) {
                lapsed.add(new Lapsed(waiver, Why.NO_SUCH_FINDING));
            } else if (found.get(waiver.fingerprint()) == Severity.DANGER) {
                lapsed.add(new Lapsed(waiver, Why.DANGER));
            }
        }
        return new Waiving(kept, waived, lapsed);
    }
}
