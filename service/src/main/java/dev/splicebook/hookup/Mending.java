package dev.splicebook.hookup;

import dev.splicebook.hookup.Remedy.Added;
import dev.splicebook.hookup.Remedy.Operation;
import dev.splicebook.hookup.Report.Outcome;
import dev.splicebook.hookup.Report.Verdict;
import dev.splicebook.hookup.mend.Change;
import dev.splicebook.hookup.mend.Defect;
import dev.splicebook.hookup.mend.Latent;
import dev.splicebook.hookup.mend.Patch;
import dev.splicebook.hookup.mend.Proposal;
import dev.splicebook.hookup.mend.RestoreInterlock;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.rule.About;
import dev.splicebook.hookup.rule.Rule;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.ServiceLoader;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Finds changes that mend a hookup. Each has been applied and checked again before it is offered. An interlock is never
 * mended by defeating it, and an untouchable circuit is only ever left alone. Holds no state and may be shared.
 */
public final class Mending {

    /** What a list of remedies may take. */
    public static final Bounds FOR_REMEDIES = new Bounds(60, Duration.ofMillis(500));

    /** What a search for the whole mend may take. */
    public static final Bounds FOR_FIX = new Bounds(2000, Duration.ofSeconds(2), Duration.ofMillis(700));

    /** Above this many, one check takes so long that a caller who asked for a report would wait for remedies. */
    private static final int MOST_CONNECTIONS = 600;

    private static final String UP_TO = "looked for up to " + MOST_CONNECTIONS + " connections only";

    /** Rules about sizes, which a change of connections may settle. */
    private static final Set<String> SIZES = ServiceLoader.load(Rule.class, Rule.class.getClassLoader()).stream()
            .map(rule -> rule.type().getAnnotation(About.class))
            .filter(about -> about != null && about.sizes())
            .map(About::code)
            .collect(Collectors.toUnmodifiableSet());

    private static final int MOST_REMEDIES = 3;
    /** So that three ways to take something off do not hide the part that would keep it. */
    private static final int MOST_OF_A_KIND = 2;

    private static final int MOST_CHECKS_A_FINDING = 14;
    /** What a warning that a remedy brings weighs against a plainer remedy. */
    private static final double COST_OF_NEW = 3;
    /** Findings of the hookup as it came that are all looked at. */
    private static final int MOST_AT_ONCE = 8;

    /** Checks that are spent on a less costly mend once there is one, or on a nearer one once the search runs dry. */
    private static final int CHECKS_FOR_BETTER = 150;

    private final List<Change> changes;

    /** With every kind of change that is found on the class path. */
    public Mending() {
        changes = ServiceLoader.load(Change.class, Change.class.getClassLoader()).stream()
                .sorted(Comparator.comparing(provider -> provider.type().getName()))
                .map(ServiceLoader.Provider::get)
                .toList();
    }

    /**
     * What a search may take; whichever is reached first ends it.
     *
     * @param checks at most
     * @param time at most; a check that is running is not broken off
     * @param timeOnceMended after which a search that has found a mend looks for no less costly one
     */
    public record Bounds(int checks, Duration time, Duration timeOnceMended) {

        public Bounds(int checks, Duration time) {
            this(checks, time, time);
        }
    }

    /**
     * What a search works with.
     *
     * @param check the very check that the report comes from
     */
    public record Means(Function<Hookup, Report> check, Stock stock, Bounds bounds) {}

    /**
     * Remedies by finding.
     *
     * @param report the same report, each finding with at most three remedies, least costly first
     * @param checks that were made
     * @param bound which bound ended the search; null if none did
     */
    public record Remedied(
            Report report, int checks, @Nullable String bound) {}

    /**
     * The least costly set of changes that was found to make a hookup ready, or the nearest it came.
     *
     * @param isReady whether it is ready then
     * @param what is changed, in the order in which it was found
     * @param patch of the hookup document, all changes together; empty if nothing helps
     * @param adds what it takes beside wire
     * @param hookup as mended
     * @param report of the mended hookup; its findings are what remains
     * @param checks that were made
     * @param bound which bound ended the search; null if none did
     */
    public record Fix(
            boolean isReady,
            List<String> what,
            List<Operation> patch,
            List<Added> adds,
            Hookup hookup,
            Report report,
            int checks,
            @Nullable String bound) {}

    /** Adds remedies to the findings of a report of a hookup. */
    public Remedied remedy(Hookup hookup, Report report, Means means) {
        if (hookup.document().connections().size() > MOST_CONNECTIONS) {
            List<Finding> bare =
                    report.findings().stream().map(one -> one.with(List.of())).toList();
            return new Remedied(report.with(bare), 0, bare.isEmpty() ? null : UP_TO);
        }
        Budget budget = new Budget(means);
        Network network = new Network(hookup);
        Map<HookupDocument, Report> known = new HashMap<>();
        List<Finding> findings = new ArrayList<>();
        for (Finding finding : report.findings()) {
            List<Remedy> remedies =
                    remedies(new Defect(finding, network, hookup, means.stock()), finding, report, known, budget);
            findings.add(finding.with(remedies));
        }
        return new Remedied(report.with(findings), budget.made, budget.bound());
    }

    private List<Remedy> remedies(
            Defect defect, Finding finding, Report before, Map<HookupDocument, Report> known, Budget budget) {
        record Weighed(double cost, Remedy remedy) {}
        List<Weighed> found = new ArrayList<>();
        Hookup hookup = defect.hookup();
        Set<HookupDocument> done = new HashSet<>();
        Set<String> told = new HashSet<>();
        int tried = 0;
        Map<Change, Integer> kinds = new HashMap<>();
        for (Offer offer : budget.allows() ? offers(defect) : List.<Offer>of()) {
            if (found.size() == MOST_REMEDIES || tried == MOST_CHECKS_A_FINDING || !budget.allows()) {
                break;
            }
            Proposal proposal = offer.proposal();
            if (kinds.getOrDefault(offer.by(), 0) == MOST_OF_A_KIND || told.contains(proposal.what())) {
                continue;
            }
            Hookup changed = apply(hookup, proposal);
            if (changed == null || !done.add(changed.document())) {
                continue;
            }
            tried++;
            Report after = known.get(changed.document());
            if (after == null) {
                after = budget.check(changed);
                known.put(changed.document(), after);
            }
            if (isGone(finding, before, after) && !isWorse(before, after)) {
                kinds.merge(offer.by(), 1, Integer::sum);
                told.add(proposal.what());
                found.add(new Weighed(
                        proposal.cost() + COST_OF_NEW * fresh(before, after).size(),
                        new Remedy(
                                proposal.what(),
                                Patch.between(hookup.document(), changed.document()),
                                Patch.added(hookup, changed),
                                vanished(before, after))));
            }
        }
        return found.stream()
                .sorted(Comparator.comparingDouble(Weighed::cost))
                .map(Weighed::remedy)
                .toList();
    }

    /** Searches for the least costly set of changes that makes a hookup ready. */
    public Fix fix(Hookup hookup, Report report, Means means) {
        if (hookup.document().connections().size() > MOST_CONNECTIONS) {
            return new Fix(
                    report.verdict() == Verdict.READY, List.of(), List.of(), List.of(), hookup, report, 0, UP_TO);
        }
        Budget budget = new Budget(means);
        PriorityQueue<Stand> queue = new PriorityQueue<>(Comparator.comparingDouble(Stand::promise)
                .thenComparingInt(stand -> stand.what().size()));
        Tried tried = new Tried(hookup.document());
        Stand best = new Stand(hookup, report, 0, List.of());
        queue.add(best);
        int lastBetter = 0;
        while (!queue.isEmpty()) {
            Stand at = queue.remove();
            if (best.isMended() && at.cost() >= best.cost()) {
                continue;
            }
            if (best.isMended() && budget.isLate()) {
                break;
            }
            if ((best.isMended() || isDry(best, queue)) && budget.made - lastBetter > CHECKS_FOR_BETTER) {
                break;
            }
            for (Stand next : expand(at, hookup, means, tried, budget)) {
                queue.add(next);
                if (next.isNearerThan(best) && !isWorse(report, next.report())) {
                    best = next;
                    lastBetter = budget.made;
                }
            }
            if (budget.isSpent()) {
                break;
            }
        }
        return new Fix(
                best.report().verdict() == Verdict.READY,
                best.what(),
                Patch.between(hookup.document(), best.hookup().document()),
                Patch.added(hookup, best.hookup()),
                best.hookup(),
                best.report(),
                budget.made,
                budget.bound());
    }

    /** Whether what is left in the queue promises nothing better than what there is. */
    private static boolean isDry(Stand best, PriorityQueue<Stand> queue) {
        Stand first = queue.peek();
        return first == null || first.promise() >= best.promise();
    }

    /** A hookup on the way to a mended one. */
    private record Stand(Hookup hookup, Report report, double cost, List<String> what) {

        /** Whether no finding is left to mend; facts may be missing still, which no change supplies. */
        boolean isMended() {
            return report.findings().stream().allMatch(finding -> finding.severity() == Severity.NOTE);
        }

        /** What is left, in the cost that it usually takes to mend. */
        double left() {
            double left = 0;
            for (Finding finding : report.findings()) {
                left += weight(finding.severity());
            }
            for (Outcome outcome : report.outcomes()) {
                left += outcome.result() == Report.Result.NOT_CHECKED && outcome.severity() != Severity.NOTE
                        ? weight(outcome.severity()) / 2
                        : 0;
            }
            return left;
        }

        /** Errors, dangers in the weight of some of them, and rules of errors that cannot tell. */
        long errors() {
            return report.findings().stream()
                            .mapToLong(finding -> switch (finding.severity()) {
                                case DANGER -> 3;
                                case ERROR -> 1;
                                case WARNING, NOTE -> 0;
                            })
                            .sum()
                    + report.outcomes().stream()
                            .filter(outcome -> outcome.result() == Report.Result.NOT_CHECKED
                                    && outcome.severity().compareTo(Severity.ERROR) <= 0)
                            .count();
        }

        double promise() {
            return cost + left();
        }

        boolean isNearerThan(Stand other) {
            if (isMended() != other.isMended()) {
                return isMended();
            }
            // warnings that an error hid are nearer than the error
            if (errors() != other.errors()) {
                return errors() < other.errors();
            }
            return left() == other.left() ? cost < other.cost : left() < other.left();
        }

        private static double weight(Severity severity) {
            return switch (severity) {
                case DANGER -> 20;
                case ERROR -> 12;
                case WARNING -> 6;
                case NOTE -> 0;
            };
        }
    }

    /** Hookups that a search has come to, and the reports of those that it looked at. */
    private static final class Tried {

        final Set<HookupDocument> queued;
        final Map<HookupDocument, Report> reports = new HashMap<>();

        Tried(HookupDocument first) {
            queued = new HashSet<>(Set.of(first));
        }
    }

    /** Every change that mends the first finding that any mends; the next too where each brings something new. */
    private List<Stand> expand(Stand at, Hookup original, Means means, Tried tried, Budget budget) {
        List<Stand> next = new ArrayList<>();
        Network network = new Network(at.hookup());
        // first what is connected where, then how thick it is
        List<Finding> findings = at.report().findings().stream()
                .sorted(Comparator.comparing(finding -> SIZES.contains(finding.rule())))
                .toList();
        for (Finding finding : findings) {
            if (finding.severity() == Severity.NOTE) {
                continue;
            }
            boolean clean = false;
            boolean known = false;
            for (Offer offer : offers(new Defect(finding, network, original, means.stock()))) {
                Proposal proposal = offer.proposal();
                if (!budget.allows()) {
                    return next;
                }
                Hookup changed = apply(at.hookup(), proposal);
                if (changed == null) {
                    continue;
                }
                if (tried.queued.contains(changed.document())) {
                    known = true;
                    continue;
                }
                // what does nothing for one finding may mend another
                Report after = tried.reports.get(changed.document());
                if (after == null) {
                    after = budget.check(changed);
                    tried.reports.put(changed.document(), after);
                }
                if (isGone(finding, at.report(), after)
                        && fresh(at.report(), after).stream().noneMatch(one -> one.severity() == Severity.DANGER)) {
                    tried.queued.add(changed.document());
                    List<String> what = new ArrayList<>(at.what());
                    what.add(proposal.what());
                    next.add(new Stand(changed, after, at.cost() + proposal.cost(), what));
                    clean |= fresh(at.report(), after).isEmpty();
                }
            }
            // at first everything that was found is looked at, as one mistake may be told by several rules
            if ((clean || known) && !(at.what().isEmpty() && findings.size() <= MOST_AT_ONCE)) {
                break;
            }
        }
        return next;
    }

    private record Offer(Change by, Proposal proposal) {}

    private List<Offer> offers(Defect defect) {
        return changes.stream()
                .filter(change -> change.rules().contains(defect.rule()))
                .flatMap(change -> change.propose(defect).stream().map(proposal -> new Offer(change, proposal)))
                .sorted(Comparator.comparingDouble(offer -> offer.proposal().cost()))
                .toList();
    }

    /** The changed hookup; null if it is none, the same, or one that a change may not make. */
    private static @Nullable Hookup apply(Hookup before, Proposal proposal) {
        Hookup after = proposal.edit().hookup();
        return after == null
                        || after.document().equals(before.document())
                        || !RestoreInterlock.isKept(before, after)
                        || leavesMoreWaiting(before, after)
                ? null
                : after;
    }

    /** Whether a contact would now short a supply if it closed, or a relay has become dead. */
    private static boolean leavesMoreWaiting(Hookup before, Hookup after) {
        Set<String> waiting = Latent.of(after).faults();
        return !waiting.isEmpty() && !Latent.of(before).faults().containsAll(waiting);
    }

    /** Gone, and not merely told with other figures at the same terminals or by the same rule elsewhere. */
    private static boolean isGone(Finding finding, Report before, Report after) {
        return count(after, finding, Finding::fingerprint) < count(before, finding, Finding::fingerprint)
                && count(after, finding, Mending::atTerminals) < count(before, finding, Mending::atTerminals)
                && fresh(before, after).stream().noneMatch(one -> one.rule().equals(finding.rule()))
                && after.findings().stream()
                        .noneMatch(one -> isWithin(one, finding)
                                && before.findings().stream()
                                        .noneMatch(was -> was.fingerprint().equals(one.fingerprint())))
                // what can no longer be told is not mended
                && missing(before, finding.rule()).containsAll(missing(after, finding.rule()))
                && !(failed(after, finding.rule()) && !failed(before, finding.rule()));
    }

    /** Whether a rule went wrong itself. */
    private static boolean failed(Report report, String rule) {
        return report.outcomes().stream().anyMatch(outcome -> outcome.rule().equals(rule) && outcome.error() != null);
    }

    private static long count(Report report, Finding like, Function<Finding, String> by) {
        return report.findings().stream()
                .filter(one -> by.apply(one).equals(by.apply(like)))
                .count();
    }

    private static String atTerminals(Finding finding) {
        return finding.rule() + " " + new TreeSet<>(finding.terminals());
    }

    /** Whether there is an error or a danger that was not there before. */
    private static boolean isWorse(Report before, Report after) {
        return fresh(before, after).stream().anyMatch(one -> one.severity().compareTo(Severity.ERROR) <= 0);
    }

    /** Findings that were not there before; one whose figures alone have changed, or that is what is left of one, is not new. */
    private static List<Finding> fresh(Report before, Report after) {
        Map<String, Integer> left = new HashMap<>();
        before.findings().forEach(one -> left.merge(one.fingerprint(), 1, Integer::sum));
        Set<String> places = new HashSet<>();
        before.findings().forEach(one -> places.add(place(one)));
        List<Finding> fresh = new ArrayList<>();
        for (Finding one : after.findings()) {
            Integer count = left.get(one.fingerprint());
            if (count != null && count > 0) {
                left.put(one.fingerprint(), count - 1);
            } else if (!places.contains(place(one))
                    && before.findings().stream().noneMatch(other -> isWithin(one, other))) {
                fresh.add(one);
            }
        }
        return fresh;
    }

    /** Whether a finding tells no more than a part of another. */
    private static boolean isWithin(Finding one, Finding other) {
        if (!one.rule().equals(other.rule()) || !other.connections().containsAll(one.connections())) {
            return false;
        }
        // a conductor that is too thin is the same one wherever its ends are put
        boolean sameConductors =
                SIZES.contains(one.rule()) && !one.connections().isEmpty();
        return sameConductors
                || (other.terminals().containsAll(one.terminals())
                        && !(one.terminals().isEmpty() && one.connections().isEmpty()));
    }

    private static String place(Finding finding) {
        return atTerminals(finding) + " " + new TreeSet<>(finding.connections());
    }

    private static List<String> vanished(Report before, Report after) {
        Map<String, Integer> left = new LinkedHashMap<>();
        before.findings().forEach(one -> left.merge(one.fingerprint(), 1, Integer::sum));
        after.findings().forEach(one -> left.merge(one.fingerprint(), -1, Integer::sum));
        return left.entrySet().stream()
                .filter(entry -> entry.getValue() > 0)
                .map(Map.Entry::getKey)
                .sorted()
                .toList();
    }

    private static List<String> missing(Report report, String rule) {
        return report.outcomes().stream()
                .filter(outcome -> outcome.rule().equals(rule))
                .flatMap(outcome -> outcome.missing().stream())
                .toList();
    }

    /** What is left to spend. */
    private static final class Budget {

        private final Means means;
        private final long start = System.nanoTime();
        private int made;
        private long longest;
        private boolean spent;
        private boolean late;

        Budget(Means means) {
            this.means = means;
        }

        /** Whether one more check fits; what the longest took so far is set aside for it. */
        boolean allows() {
            spent |= made >= means.bounds().checks()
                    || System.nanoTime() - start + longest
                            > means.bounds().time().toNanos();
            return !spent;
        }

        /** Whether it is too late to look for something less costly. */
        boolean isLate() {
            late = System.nanoTime() - start >= means.bounds().timeOnceMended().toNanos();
            return late;
        }

        Report check(Hookup hookup) {
            long before = System.nanoTime();
            made++;
            Report report = means.check().apply(hookup);
            longest = Math.max(longest, System.nanoTime() - before);
            return report;
        }

        boolean isSpent() {
            return spent;
        }

        @Nullable
        String bound() {
            if (!spent) {
                return late
                        ? "found a mend, and looked for a less costly one until "
                                + means.bounds().timeOnceMended().toMillis() + " ms and " + made + " checks"
                        : null;
            }
            return made >= means.bounds().checks()
                    ? "ended after " + means.bounds().checks() + " checks"
                    : "ended after " + means.bounds().time().toMillis() + " ms and " + made + " checks";
        }
    }
}
