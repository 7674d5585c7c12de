package dev.splicebook.hookup.pair;

import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.PairingQuestion.Preferences;
import dev.splicebook.hookup.Proposal;
import dev.splicebook.hookup.Proposal.Alternative;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Stock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Looks for the best hookup: it solves, checks, forbids what the check finds fault with, and solves again; tries what else
 * could be unplugged and what the catalogue could add; and keeps what the check likes best and costs least.
 */
public final class Search {

    private static final int MOST_REPAIRS = 12;
    private static final int MOST_SUSPECTS = 6;
    private static final int MOST_ADDED = 4;
    private static final int MOST_POLISHED = 4;
    private static final int MOST_DEVICES_TRIED = 3;
    private static final int MOST_ALTERNATIVES_TRIED = 12;
    private static final int ALTERNATIVES = 3;

    /** How much dearer a way may be that makes an alternative. */
    private static final double ALTERNATIVE_POINTS = 70;

    /** How much dearer an alternative may be altogether. */
    private static final double MOST_DEARER_POINTS = 200;

    private static final int MOST_DIFFERENCES = 6;

    private final Function<Hookup, Report> check;
    private final Hookup asked;
    private final Stock stock;
    private final Sizes sizes;
    private final Settings settings;
    private final int alternatives;
    private final IdentityHashMap<Plan, Setup> setups = new IdentityHashMap<>();

    /** What was lacking before a way round it was found, which may be dearer than the part. */
    private final Set<String> needs = new LinkedHashSet<>();

    /** Why ways were forbidden. */
    private final Map<String, String> forbiddenFor = new HashMap<>();

    public Search(Function<Hookup, Report> check, Hookup asked, Preferences preferences, Stock stock) {
        this.check = check;
        this.asked = asked;
        this.stock = stock;
        this.sizes = new Sizes(preferences);
        this.settings = new Settings(asked.document().settings());
        this.alternatives = preferences.alternatives() == null ? ALTERNATIVES : preferences.alternatives();
    }

    /** What does not depend on what is forbidden. */
    private record Setup(Bench bench, List<Port> ports, Sound sound) {}

    /** A solution with what was forbidden on the way to it. */
    private record Reached(Solution solution, Set<String> bans) {
        double score() {
            return solution.score();
        }
    }

    /** The best proposal. */
    public Proposal propose() {
        Plan first = Plan.of(asked);
        Reached best = repair(first, Set.of());
        List<Reached> others = new ArrayList<>();
        for (Plan plan : Plan.withoutAUnit(asked, first)) {
            Reached other = repair(plan, Set.of());
            if (other.score() < best.score()) {
                others.add(best);
                best = other;
            } else {
                others.add(other);
            }
        }
        best = withMoreParts(best, others);
        List<Reached> turned = turn(best);
        for (int round = 0; round < MOST_POLISHED; round++) {
            Reached least = turned.stream()
                    .min(Comparator.comparingDouble(Reached::score))
                    .orElse(best);
            if (least.score() >= best.score() - 1e-6) {
                break;
            }
            best = least;
            turned = turn(best);
        }
        Explanation explanation = new Explanation(best.solution(), forbiddenFor, stock);
        return new Proposal(
                best.solution().document(),
                best.solution().report(),
                best.solution().costPoints(),
                explanation.choices(),
                settings.toMake(best.solution().plan().bare()),
                explanation.gaveUp(),
                best.solution().plan().added(),
                listAlternatives(best, turned, others),
                sizes.assumptions());
    }

    private Solution solve(Plan plan, Set<String> bans) {
        Setup setup = setups.computeIfAbsent(plan, key -> {
            Bench bench = new Bench(key.bare());
            List<Port> ports = Ports.of(bench);
            return new Setup(
                    bench, ports, new Sound(bench, ports, asked.document().wishes()));
        });
        return new Solution(plan, setup.bench(), setup.ports(), setup.sound(), settings, sizes, bans, check);
    }

    /** Solves, and forbids one way after the other as long as that makes it better. */
    private Reached repair(Plan plan, Set<String> bans) {
        Reached at = new Reached(solve(plan, bans), bans);
        for (int round = 0; round < MOST_REPAIRS; round++) {
            needs.addAll(at.solution().needs());
            Reached better = mend(at);
            if (better == null) {
                return at;
            }
            at = better;
        }
        return at;
    }

    private @Nullable Reached mend(Reached at) {
        Set<String> tried = new HashSet<>();
        for (Finding finding : at.solution().report().findings()) {
            if (finding.severity().compareTo(Severity.WARNING) > 0) {
                continue;
            }
            Reached best = null;
            Way forbidden = null;
            for (Way suspect : at.solution().suspects(finding).stream()
                    .limit(MOST_SUSPECTS)
                    .toList()) {
                if (!tried.add(suspect.key())) {
                    continue;
                }
                Set<String> bans = new HashSet<>(at.bans());
                bans.addAll(at.solution().together(suspect));
                Reached next = new Reached(solve(at.solution().plan(), bans), bans);
                if (next.score() < (best == null ? at.score() : best.score()) - 1e-6) {
                    best = next;
                    forbidden = suspect;
                }
            }
            if (best != null && forbidden != null) {
                forbiddenFor.putIfAbsent(forbidden.key(), reason(forbidden, finding, at.solution(), best.solution()));
                return best;
            }
        }
        return null;
    }

    /** Names the rule only if the finding is about the way and goes with it; a better score may be a matter of cost alone. */
    private static String reason(Way way, Finding finding, Solution with, Solution without) {
        boolean gone = without.report().findings().stream()
                .noneMatch(other ->
                        other.rule().equals(finding.rule()) && other.terminals().equals(finding.terminals()));
        return gone && with.isAbout(finding, way)
                ? "the check finds " + finding.rule()
                : "it was tried, and the whole came out worse";
    }

    private Reached withMoreParts(Reached start, List<Reached> others) {
        Reached best = start;
        for (int added = 0; added < MOST_ADDED; added++) {
            Reached better = null;
            Set<String> open = new LinkedHashSet<>(best.solution().needs());
            if (added == 0) {
                open.addAll(needs);
            }
            for (String need : open) {
                String kind = Lack.kind(need);
                for (Stock.Item item : stock.listDevices(kind).stream()
                        .sorted(Comparator.comparing((Stock.Item item) ->
                                String.valueOf(item.device().code())))
                        .limit(MOST_DEVICES_TRIED)
                        .toList()) {
                    Device device = item.device();
                    PartUse use = device.code() == null
                            ? new PartUse(null, null, device, null)
                            : new PartUse(device.code(), item.revision(), null, null);
                    Plan plan = best.solution()
                            .plan()
                            .with(asked, freeRef(kind, best.solution().plan()), use, device);
                    Reached next = repair(plan, Set.of());
                    if (next.score() < (better == null ? best.score() : better.score()) - 1e-6) {
                        better = next;
                    }
                }
            }
            if (better == null) {
                return best;
            }
            others.add(best);
            best = better;
        }
        return best;
    }

    private static String freeRef(String kind, Plan plan) {
        // the initials of its kind, or how it begins
        String[] words = kind.toUpperCase(Locale.ROOT).split("-", -1);
        String stem = words.length > 1
                ? Stream.of(words).map(word -> word.substring(0, 1)).collect(Collectors.joining())
                : words[0].substring(0, Math.min(3, words[0].length()));
        int number = 1;
        while (plan.bare().devices().containsKey(stem + number)) {
            number++;
        }
        return stem + number;
    }

    private List<Alternative> listAlternatives(Reached best, List<Reached> turned, List<Reached> others) {
        if (alternatives == 0) {
            return List.of();
        }
        List<Solution> found =
                new ArrayList<>(turned.stream().map(Reached::solution).toList());
        others.forEach(other -> found.add(other.solution()));
        long grave = grave(best.solution());
        Set<List<String>> told = new HashSet<>();
        told.add(best.solution().facts());
        List<Alternative> all = new ArrayList<>();
        found.stream()
                .filter(solution -> grave(solution) <= grave
                        && solution.lacking() <= best.solution().lacking()
                        && solution.costPoints() <= best.solution().costPoints() + MOST_DEARER_POINTS)
                .sorted(Comparator.comparing(
                                (Solution solution) -> solution.report().verdict())
                        .thenComparing(solution -> solution.unmet().size())
                        .thenComparing(solution -> !differsInParts(best.solution(), solution))
                        .thenComparingDouble(Solution::score))
                .forEach(solution -> {
                    if (all.size() < alternatives && told.add(solution.facts())) {
                        all.add(new Alternative(
                                differences(best.solution(), solution),
                                solution.document(),
                                solution.report().verdict(),
                                solution.costPoints()));
                    }
                });
        return all;
    }

    /** Whether other parts carry something, or something else is unplugged. */
    private static boolean differsInParts(Solution one, Solution other) {
        return !one.plan()
                        .bare()
                        .document()
                        .parts()
                        .keySet()
                        .equals(other.plan().bare().document().parts().keySet())
                || !one.plan().bare().unplugged().equals(other.plan().bare().unplugged())
                || !carriers(one).equals(carriers(other));
    }

    private static Set<String> carriers(Solution solution) {
        Set<String> carriers = new LinkedHashSet<>();
        solution.chosen().values().forEach(way -> carriers.addAll(way.through()));
        return carriers;
    }

    /** What comes out when one decision is made otherwise, each in turn. */
    private List<Reached> turn(Reached best) {
        record Turn(Way from, double points) {}
        List<Turn> turns = new ArrayList<>();
        best.solution()
                .chosen()
                .forEach((want, way) -> best.solution().ways().getOrDefault(want, List.of()).stream()
                        .filter(other -> !other.sourceKey().equals(way.sourceKey())
                                && !best.bans().contains(other.key()))
                        .filter(other -> way.joins().stream().noneMatch(join -> join.run() == Join.Run.GROUND)
                                && !want.what().startsWith(Lines.LINE))
                        .min(Comparator.comparingDouble(Way::points))
                        .ifPresent(other -> turns.add(new Turn(way, other.points() - way.points()))));
        turns.sort(Comparator.comparing((Turn turn) -> turn.from().through().isEmpty())
                .thenComparingDouble(Turn::points));
        List<Reached> turned = new ArrayList<>();
        turns.stream()
                .filter(turn -> turn.points() <= ALTERNATIVE_POINTS)
                .limit(MOST_ALTERNATIVES_TRIED)
                .forEach(turn -> {
                    Set<String> bans = new HashSet<>(best.bans());
                    bans.addAll(best.solution().otherwise(turn.from()));
                    turned.add(new Reached(solve(best.solution().plan(), bans), bans));
                });
        return turned;
    }

    private static long grave(Solution solution) {
        return solution.count(Severity.DANGER) + solution.count(Severity.ERROR);
    }

    private static void compare(Set<String> ours, Set<String> theirs, String more, String less, List<String> told) {
        List<String> further =
                theirs.stream().filter(each -> !ours.contains(each)).sorted().toList();
        List<String> missing =
                ours.stream().filter(each -> !theirs.contains(each)).sorted().toList();
        if (!further.isEmpty()) {
            told.add(more + Names.list(further));
        }
        if (!missing.isEmpty()) {
            told.add(less + Names.list(missing));
        }
    }

    private static List<String> differences(Solution best, Solution other) {
        Map<String, String> ours = best.substance();
        Map<String, String> theirs = other.substance();
        Map<String, String> differences = new LinkedHashMap<>();
        Set<String> wants = new LinkedHashSet<>(ours.keySet());
        wants.addAll(theirs.keySet());
        for (String want : wants) {
            String our = ours.getOrDefault(want, "");
            String their = theirs.getOrDefault(want, "");
            if (!our.equals(their)) {
                differences.put(
                        want,
                        want
                                + (their.isEmpty() ? " stays without" : " from " + their)
                                + (our.isEmpty() ? "" : their.isEmpty() ? " " + our : " instead of " + our));
            }
        }
        List<String> told = new ArrayList<>();
        compare(
                best.plan().bare().devices().keySet(),
                other.plan().bare().devices().keySet(),
                "with ",
                "without ",
                told);
        compare(best.plan().bare().unplugged(), other.plan().bare().unplugged(), "unplugs ", "leaves plugged ", told);
        told.addAll(differences.values());
        if (told.size() > MOST_DIFFERENCES) {
            int more = told.size() - MOST_DIFFERENCES;
            told = new ArrayList<>(told.subList(0, MOST_DIFFERENCES));
            told.add("and " + more + " more");
        }
        return told;
    }
}
