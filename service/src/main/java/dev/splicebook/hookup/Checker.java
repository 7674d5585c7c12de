package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.Report.Assumption;
import dev.splicebook.hookup.Report.Outcome;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Report.Verdict;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.rule.About;
import dev.splicebook.hookup.rule.Examination;
import dev.splicebook.hookup.rule.Rank;
import dev.splicebook.hookup.rule.Reading;
import dev.splicebook.hookup.rule.Rule;
import dev.splicebook.hookup.rule.Threshold;
import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.ServiceLoader;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Checks hookups by every rule of the running version. Holds no state and may be shared. */
public final class Checker {

    private final List<Installed> installed;

    /** With every rule that is found on the class path. */
    public Checker() {
        installed = ServiceLoader.load(Rule.class, Rule.class.getClassLoader()).stream()
                .map(provider -> new Installed(provider.get(), describe(provider.type()), thresholds(provider.type())))
                .sorted(Comparator.comparing(entry -> entry.page().code()))
                .toList();
    }

    private record Installed(Rule rule, RulePage page, List<Threshold> thresholds) {}

    /** A finding with the rule that made it. */
    private record Spoken(Installed by, Examination.Draft draft) {}

    /** The pages of all rules, by code. */
    public List<RulePage> listPages() {
        return installed.stream().map(Installed::page).toList();
    }

    /** The figures that a shop may set, by rule and name, like {@code fuse-below-load.continuousShare}. */
    public Map<String, RulePage.Parameter> listThresholds() {
        Map<String, RulePage.Parameter> all = new TreeMap<>();
        installed.forEach(entry -> entry.page()
                .parameters()
                .forEach(parameter -> all.put(entry.page().code() + "." + parameter.name(), parameter)));
        return all;
    }

    /**
     * Refuses what a shop may not set.
     *
     * @throws InvalidValueException with every name that no rule has and every value outside its range
     */
    public void require(Thresholds thresholds) {
        Map<String, RulePage.Parameter> known = listThresholds();
        Guard guard = new Guard();
        thresholds.values().forEach((name, value) -> {
            RulePage.Parameter parameter = known.get(name);
            if (parameter == null) {
                guard.refuseIf(
                        true,
                        name.replace("~", "~0").replace("/", "~1"),
                        "unknown-threshold",
                        () -> "no rule has the threshold " + name);
            } else {
                guard.between(name, value, parameter.least(), parameter.most());
            }
        });
        guard.check();
    }

    /** Checks a hookup by every rule's own thresholds. */
    public Report check(Hookup hookup) {
        return check(hookup, Thresholds.NONE);
    }

    /**
     * Checks a hookup by a shop's thresholds, which the report lists among its assumptions where they differ.
     *
     * @throws InvalidValueException as {@link #require} does
     */
    public Report check(Hookup hookup, Thresholds thresholds) {
        if (!thresholds.values().isEmpty()) {
            require(thresholds);
        }
        Set<Assumption> assumptions = new LinkedHashSet<>();
        Network network = new Network(hookup);
        Reading reading = new Reading(network);
        List<Spoken> spoken = new ArrayList<>();
        List<Examination> examinations = new ArrayList<>(installed.size());
        Meterings meterings = new Meterings(network);
        for (Installed entry : installed) {
            Examination examination = new Examination(reading, set(entry, thresholds, assumptions));
            entry.rule().check(examination);
            meterings.add(entry.page(), examination.missing());
            examinations.add(examination);
            examination.drafts().forEach(draft -> spoken.add(new Spoken(entry, draft)));
        }
        List<Spoken> kept = withoutOwned(spoken);
        List<Finding> findings = kept.stream()
                .map(one -> finding(one, network))
                .sorted(Finding.WORST_FIRST)
                .toList();
        Set<String> failed = findings.stream().map(Finding::rule).collect(Collectors.toSet());
        List<Outcome> outcomes = new ArrayList<>();
        for (int rule = 0; rule < examinations.size(); rule++) {
            RulePage page = installed.get(rule).page();
            Examination examination = examinations.get(rule);
            outcomes.add(outcome(page, examination, failed.contains(page.code()), meterings));
            assumptions.addAll(examination.assumptions());
        }
        Assumptions.addGeneral(network, assumptions);
        Assumptions.addPower(network, reading.power(), assumptions);
        return new Report(
                Verdict.of(findings, outcomes),
                findings,
                outcomes,
                meterings.first(),
                Order.of(network),
                reading.power().report(),
                SpeakerLoads.of(reading),
                assumptions.stream()
                        .sorted(Comparator.comparing(Assumption::name).thenComparing(Assumption::about))
                        .toList(),
                Cautions.of(network, findings));
    }

    /** What a shop has set of one rule's thresholds, listed among the assumptions. */
    private static Map<Threshold, Double> set(Installed entry, Thresholds thresholds, Set<Assumption> assumptions) {
        if (thresholds.values().isEmpty()) {
            return Map.of();
        }
        Map<Threshold, Double> set = new HashMap<>();
        for (Threshold threshold : entry.thresholds()) {
            String name = entry.page().code() + "." + threshold.name();
            Double value = thresholds.values().get(name);
            if (value != null && value != threshold.value()) {
                set.put(threshold, value);
                assumptions.add(new Assumption(
                        name,
                        value,
                        threshold.unit().isEmpty() ? null : threshold.unit(),
                        "set by the shop in place of " + threshold.value()));
            }
        }
        return set;
    }

    /** Drops what a rule of lower rank has claimed already, so that one cause is one finding. */
    private static List<Spoken> withoutOwned(List<Spoken> spoken) {
        Map<Node, Integer> rankOf = new HashMap<>();
        for (Spoken one : spoken) {
            int rank = one.by().page().rank();
            if (rank != Rank.OUTSIDE) {
                one.draft().claimed().forEach(node -> rankOf.merge(node, rank, Math::min));
            }
        }
        List<Spoken> kept = new ArrayList<>();
        for (Spoken one : spoken) {
            int rank = one.by().page().rank();
            boolean owned = rank != Rank.OUTSIDE
                    && Stream.concat(one.draft().terminals().stream(), one.draft().related().stream())
                            .anyMatch(node -> rankOf.getOrDefault(node, rank) < rank);
            if (!owned) {
                kept.add(one);
            }
        }
        return kept;
    }

    private static Finding finding(Spoken one, Network network) {
        Examination.Draft draft = one.draft();
        RulePage page = one.by().page();
        List<Node> nodes = draft.terminals().stream()
                .sorted(Node.BY_FACTS.thenComparing(Node::ref))
                .toList();
        List<State> states = draft.states().size() == State.values().length
                ? List.of(State.values())
                : draft.states().stream().sorted().toList();
        return new Finding(
                page.code(),
                draft.severity() == null ? page.severity() : draft.severity(),
                draft.message(),
                draft.help(),
                nodes.stream().map(Node::ref).toList(),
                List.copyOf(draft.connections()),
                draft.measured(),
                draft.limit(),
                draft.unit(),
                states,
                Fingerprint.of(page.code(), draft, nodes, states, network),
                null);
    }

    private static Outcome outcome(RulePage page, Examination examination, boolean failed, Meterings meterings) {
        List<String> missing = List.copyOf(examination.missing());
        Result result = failed
                ? Result.FAILED
                : !missing.isEmpty()
                        ? Result.NOT_CHECKED
                        : examination.applied() ? Result.PASSED : Result.NOT_APPLICABLE;
        return new Outcome(page.code(), page.severity(), result, missing, meterings.first(missing), null);
    }

    private static RulePage describe(Class<? extends Rule> type) {
        About about = type.getAnnotation(About.class);
        if (about == null) {
            throw new IllegalStateException("the rule " + type.getName() + " has no @About");
        }
        return new RulePage(
                about.code(),
                about.severity(),
                about.since(),
                about.rank(),
                about.condition(),
                about.checks(),
                about.why(),
                about.mend(),
                about.source(),
                thresholds(type).stream()
                        .map(threshold -> new RulePage.Parameter(
                                threshold.name(),
                                threshold.value(),
                                threshold.unit(),
                                threshold.reason(),
                                threshold.least(),
                                threshold.most()))
                        .toList(),
                about.fails().strip(),
                about.passes().strip());
    }

    private static List<Threshold> thresholds(Class<? extends Rule> type) {
        Set<String> names = new HashSet<>();
        List<Threshold> thresholds = new ArrayList<>();
        for (Field field : type.getDeclaredFields()) {
            Threshold threshold = Modifier.isStatic(field.getModifiers()) ? threshold(field) : null;
            if (threshold != null && names.add(threshold.name())) {
                thresholds.add(threshold);
            }
        }
        return thresholds;
    }

    private static @Nullable Threshold threshold(Field field) {
        if (field.getType() != Threshold.class) {
            return null;
        }
        try {
            field.setAccessible(true);
            return (Threshold) field.get(null);
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("the threshold " + field + " cannot be read", e);
        }
    }
}
