package dev.splicebook.hookup.pair;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Bus;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.Unused.Fate;
import dev.splicebook.hookup.Wish;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.rule.WishUnmet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** One hookup that the search has come to, with what its check says and what it costs. */
final class Solution {

    private static final double DANGER_POINTS = 1e9;
    private static final double ERROR_POINTS = 1e7;
    private static final double UNCHECKED_POINTS = 2e5;
    private static final double WARNING_POINTS = 3000;

    /** A channel of an amplifier that drives nothing: more than a loudspeaker that it may overpower, for which its gain is set. */
    private static final double IDLE_POINTS = 4000;

    private static final double ADDED_POINTS = 25;
    private static final double BROUGHT_POINTS = 60;
    private static final double HARD_POINTS = 1000;

    /** A wish that goes unmet, and one that sound by data serves in place of a socket. */
    private static final double UNMET_POINTS = 250;

    private static final double REPLACED_POINTS = 50;

    /** What the vehicle had and has no longer counts for more than what it never had. */
    private static final double LOST_POINTS = 400;

    /** The rule whose finding an isolator ends. */
    private static final String GROUND_LOOP = "ground-loop";

    /** A socket for whatever is brought along. */
    static final FunctionId AUXILIARY = new FunctionId("audio.line.auxiliary");

    private final Plan plan;
    private final Bench bench;
    private final Map<Want, List<Way>> ways = new LinkedHashMap<>();
    private final Map<Want, Way> chosen = new LinkedHashMap<>();
    private final Set<String> needs = new LinkedHashSet<>();
    private final Map<Way, List<String>> connectionsOf = new HashMap<>();
    private final HookupDocument document;
    private final Report report;

    Solution(
            Plan plan,
            Bench bench,
            List<Port> ports,
            Sound sound,
            Settings settings,
            Sizes sizes,
            Set<String> bans,
            Function<Hookup, Report> check) {
        this.plan = plan;
        this.bench = bench;
        Sound.Found found = sound.find(bans);
        add(found.ways(), found.chosen());
        needs.addAll(found.needs());
        Drivers.Found drivers = new Drivers(bench, ports, bans).find();
        add(drivers.ways(), drivers.chosen());
        Set<String> soundLinks = new HashSet<>();
        Set<String> places = new HashSet<>();
        chosen.values().stream()
                .flatMap(way -> way.sources().stream())
                .map(bench::place)
                .filter(Objects::nonNull)
                .map(String.class::cast)
                .forEach(places::add);
        chosen.values()
                .forEach(way -> soundLinks.add(way.sources().get(0).owner() + ">"
                        + way.want().nodes().get(0).owner()));
        Power.Found power = new Power(bench, sizes, soundLinks, places, bans).find();
        add(power.ways(), power.chosen());
        needs.addAll(power.needs());
        Lines.Found lines = new Lines(bench, power.controls(), bans).find();
        add(lines.ways(), lines.chosen());
        this.document = draw(settings, sizes, bans);
        Hookup hookup = Hookup.resolve(document, plan.bare().map(), plan.bare().devices(), List.of())
                .with(plan.bare().latest());
        this.report = check.apply(hookup);
        if (report.findings().stream().anyMatch(finding -> finding.rule().equals(GROUND_LOOP))) {
            needs.add(Lack.ISOLATOR);
        }
    }

    private void add(Map<Want, List<Way>> found, Map<Want, Way> taken) {
        found.forEach(ways::putIfAbsent);
        chosen.putAll(taken);
    }

    private HookupDocument draw(Settings settings, Sizes sizes, Set<String> bans) {
        Map<String, Connection> connections = new LinkedHashMap<>();
        Map<Set<String>, String> byEnds = new HashMap<>();
        Set<String> ends = new HashSet<>();
        List<Way> ordered = new ArrayList<>(chosen.values());
        for (Way way : ordered) {
            List<String> refs = new ArrayList<>();
            for (Join join : way.joins()) {
                if (join.from() == join.to()) {
                    continue;
                }
                Set<String> pair = Set.of(join.from().ref(), join.to().ref());
                String known = byEnds.get(pair);
                if (known == null) {
                    known = "W" + (connections.size() + 1);
                    connections.put(known, sizes.connection(join));
                    byEnds.put(pair, known);
                    ends.addAll(pair);
                }
                refs.add(known);
            }
            connectionsOf.put(way, refs);
        }
        Map<String, Unused> unused = new TreeMap<>();
        Set<String> idle = new HashSet<>();
        for (String owner : bench.owners()) {
            boolean used = bench.network().nodesOf(owner).stream()
                    .anyMatch(
                            node -> ends.contains(node.ref()) || bench.network().isMated(node));
            if (!used) {
                idle.add(owner);
            }
        }
        for (Node node : bench.nodes()) {
            boolean open = mustBeAccounted(node) && !ends.contains(node.ref());
            // what must be served and is not stays open, so that the check tells it
            boolean needless = idle.contains(node.owner()) && !isLoudspeaker(node);
            if (open && (needless || !isLacking(node))) {
                unused.put(node.ref(), fate(node, idle, bans));
            }
        }
        HookupDocument bare = plan.bare().document();
        return new HookupDocument(
                bare.vehicle(),
                bare.parts(),
                connections,
                bare.plugs(),
                unused,
                settings.values(plan.bare()),
                bare.wishes());
    }

    private Unused fate(Node node, Set<String> idle, Set<String> bans) {
        if (idle.contains(node.owner())) {
            return new Unused(Fate.REMOVED, "the part is not needed here");
        }
        String untouchable = bench.whyUntouchable(node);
        return untouchable == null
                ? new Unused(Fate.CAPPED, why(node, bans))
                : new Unused(Fate.LEFT_PLUGGED, untouchable);
    }

    private boolean isIdleInEveryMode(Node node) {
        Device device = plan.bare().devices().get(node.owner());
        Device.Terminal lead = device == null ? null : device.terminals().get(node.name());
        return lead != null && lead.electrical() instanceof Electrical.Passive;
    }

    private String whyLeft(Want want, Way nearest, Set<String> bans) {
        Way taken = chosen.get(want);
        if (taken != null) {
            return taken.sourceKey() + " serves without it: " + Explanation.worst(taken, null);
        }
        String other = user(nearest);
        return other != null
                ? nearest.sourceKey() + " serves " + other
                : nearest.sourceKey() + " is left: "
                        + (bans.contains(nearest.key())
                                ? "the whole comes out better without it"
                                : Explanation.worst(nearest, null));
    }

    /** What the source of a way serves instead, null if nothing. */
    @Nullable
    String user(Way way) {
        return chosen.entrySet().stream()
                .filter(entry -> !entry.getKey().equals(way.want())
                        && entry.getValue().sources().get(0) == way.sources().get(0))
                .map(entry -> entry.getKey().nodes().get(0).ref())
                .findFirst()
                .orElse(null);
    }

    private boolean mustBeAccounted(Node node) {
        return switch (node.role()) {
            case REFERENCE, INSIDE -> false;
            case LEAD -> !bench.network().isMated(node);
            case CIRCUIT -> bench.isOff(node) && !bench.network().isMated(node);
            case CUT_END -> true;
        };
    }

    private String why(Node node, Set<String> bans) {
        for (Map.Entry<Want, List<Way>> entry : ways.entrySet()) {
            if (entry.getKey().nodes().contains(node)) {
                return entry.getValue().isEmpty()
                        ? "nothing here gives " + entry.getKey().what()
                        : whyLeft(entry.getKey(), entry.getValue().get(0), bans);
            }
        }
        if (bench.network().linksOf(node).stream().anyMatch(link -> link.kind().isContact())) {
            return "this contact is not needed";
        }
        Electrical facts = node.facts();
        PartUse use = plan.bare().document().parts().get(node.owner());
        if (facts instanceof Electrical.Passive && use != null && use.mode() != null && !isIdleInEveryMode(node)) {
            return "it does nothing in the mode " + use.mode();
        }
        boolean gives = facts instanceof Electrical.Supply
                || facts instanceof Electrical.ControlOut
                || facts instanceof Electrical.VideoOut
                || (facts instanceof Electrical.Audio audio && audio.isOutput());
        if (gives || node.isVehicle()) {
            return "nothing here takes it";
        }
        return node.function() == null ? "nothing here wants it" : "nothing here wants " + node.function();
    }

    Plan plan() {
        return plan;
    }

    Bench bench() {
        return bench;
    }

    Map<Want, List<Way>> ways() {
        return ways;
    }

    Map<Want, Way> chosen() {
        return chosen;
    }

    Set<String> needs() {
        return needs;
    }

    HookupDocument document() {
        return document;
    }

    Report report() {
        return report;
    }

    /** Findings of a severity. */
    long count(Severity severity) {
        return report.findings().stream()
                .filter(finding -> finding.severity() == severity)
                .count();
    }

    /** What work, parts and lost things cost, without what the check finds. */
    double costPoints() {
        double points = ADDED_POINTS * plan.added().size();
        for (Want want : ways.keySet()) {
            Way way = chosen.get(want);
            points += way == null ? want.lackPoints() : way.costPoints();
        }
        long removed = document.unused().entrySet().stream()
                .filter(entry -> entry.getValue().fate() == Fate.REMOVED)
                .map(entry -> entry.getKey().substring(0, entry.getKey().indexOf('.')))
                .distinct()
                .count();
        points += bench.lostPoints(document.connections().values());
        points += unmet().stream().mapToDouble(this::unmetPoints).sum();
        return points + BROUGHT_POINTS * removed;
    }

    private double unmetPoints(Wish wish) {
        if (wish.function().isAtOrBelow(AUXILIARY) && player() != null) {
            return REPLACED_POINTS;
        }
        return wish.want() == Wish.Want.KEEP ? LOST_POINTS : UNMET_POINTS;
    }

    /** Wishes that the check finds unmet. */
    List<Wish> unmet() {
        return plan.bare().document().wishes().stream()
                .filter(wish -> findUnmet(wish) != null)
                .toList();
    }

    /** What the check says of a wish that is not met, null if it is. */
    @Nullable
    Finding findUnmet(Wish wish) {
        return report.findings().stream()
                .filter(finding -> WishUnmet.isAbout(wish, finding))
                .findFirst()
                .orElse(null);
    }

    /** A terminal by which a part plays sound that comes as data, null if none does. */
    @Nullable
    Node player() {
        return bench.nodes().stream()
                .filter(node -> !node.isVehicle()
                        && node.facts() instanceof Electrical.Data data
                        && data.bus() == Bus.USB
                        && bench.network().nodesOf(node.owner()).stream()
                                .anyMatch(other ->
                                        other.audio() != null && other.audio().isOutput()))
                .min(bench.order)
                .orElse(null);
    }

    /** Wants that must be served and are not. */
    long lacking() {
        return ways.keySet().stream().filter(this::isLacking).count();
    }

    private static boolean isLoudspeaker(Node node) {
        return node.facts() instanceof Electrical.SpeakerIn in && in.ohms() != null;
    }

    private boolean isLacking(Want want) {
        return want.lackPoints() >= HARD_POINTS && !chosen.containsKey(want);
    }

    private boolean isLacking(Node node) {
        return ways.keySet().stream()
                .anyMatch(want -> isLacking(want) && want.nodes().contains(node));
    }

    /** Less is better: what the check finds first, then what it costs. */
    double score() {
        long unchecked = report.outcomes().stream()
                .filter(outcome -> outcome.result() == Result.NOT_CHECKED
                        && outcome.severity().compareTo(Severity.ERROR) <= 0)
                .count();
        return DANGER_POINTS * count(Severity.DANGER)
                + ERROR_POINTS * count(Severity.ERROR)
                + UNCHECKED_POINTS * unchecked
                + WARNING_POINTS * (count(Severity.WARNING) - overpowered())
                + IDLE_POINTS * (idleChannels() + silentPlayers())
                + costPoints();
    }

    /** Loudspeakers that get more than they take and had better play all the same, which {@link Drivers} weighs. */
    private long overpowered() {
        return report.findings().stream()
                .filter(finding -> finding.rule().equals("speaker-overpowered")
                        && finding.severity() == Severity.WARNING
                        && finding.measured() != null
                        && finding.limit() != null
                        && finding.measured() <= Drivers.MOST_OVERPOWER * finding.limit())
                .count();
    }

    /** Outputs of amplifiers that go nowhere, while something else drives the loudspeaker of their channel. */
    private long idleChannels() {
        Set<Channel> driven = EnumSet.noneOf(Channel.class);
        Set<String> ends = new HashSet<>();
        for (Connection connection : document.connections().values()) {
            for (String end : connection.ends()) {
                ends.add(end);
                Node node = bench.network().findNode(end);
                if (node != null
                        && node.facts() instanceof Electrical.SpeakerOut out
                        && out.channel() != null
                        && !node.isVehicle()
                        && !bench.isAmplifier(node.owner())
                        && isForALoudspeaker(connection, end)) {
                    driven.add(out.channel());
                }
            }
        }
        return bench.nodes().stream()
                .filter(side -> side.facts() instanceof Electrical.SpeakerOut out
                        && out.side() == Side.PLUS
                        && out.channel() != null
                        && driven.contains(out.channel())
                        && bench.isAmplifier(side.owner())
                        && !ends.contains(side.ref())
                        && !bench.network().isMated(side))
                .count();
    }

    /** Head units that drive loudspeakers and of which no output goes anywhere: somebody bought them to be heard. */
    private long silentPlayers() {
        Set<String> players = new HashSet<>();
        Set<String> heard = new HashSet<>();
        Set<String> ends = new HashSet<>();
        document.connections().values().forEach(connection -> ends.addAll(connection.ends()));
        for (Node node : bench.nodes()) {
            if (node.isVehicle() || node.audio() == null) {
                continue;
            }
            if (bench.isAmplifier(node.owner())
                    || (node.audio().isOutput()
                            && (ends.contains(node.ref()) || bench.network().isMated(node)))) {
                heard.add(node.owner());
            } else if (node.facts() instanceof Electrical.SpeakerOut) {
                players.add(node.owner());
            }
        }
        bench.network()
                .couplings()
                .forEach(coupling -> heard.add(coupling.to().get(0).owner()));
        players.removeAll(heard);
        return players.size();
    }

    /** Whether the other end is a loudspeaker or leads on to one, and no input of an amplifier. */
    private boolean isForALoudspeaker(Connection connection, String end) {
        return connection.ends().stream()
                .filter(other -> !other.equals(end))
                .map(bench.network()::findNode)
                .anyMatch(other -> other != null
                        && !(other.facts() instanceof Electrical.LineIn)
                        && bench.network().couplings().stream()
                                .noneMatch(coupling -> coupling.from().contains(other)));
    }

    /** What is forbidden to see how it goes otherwise: a way and what goes with it, or the part that it goes through. */
    Set<String> otherwise(Way way) {
        if (way.through().isEmpty()) {
            return together(way);
        }
        Set<String> keys = new LinkedHashSet<>();
        way.through().forEach(part -> keys.add(Power.THROUGH + part));
        return keys;
    }

    /** The keys of a way and of those that stand or fall with it: the other channels from the same owner to the same. */
    Set<String> together(Way way) {
        Set<String> keys = new LinkedHashSet<>();
        keys.add(way.key());
        if (way.joins().stream().allMatch(join -> join.run() == Join.Run.SIGNAL)) {
            chosen.values().stream()
                    .filter(other -> other.joins().stream().allMatch(join -> join.run() == Join.Run.SIGNAL)
                            && owner(other.sources()).equals(owner(way.sources()))
                            && owner(other.want().nodes())
                                    .equals(owner(way.want().nodes())))
                    .forEach(other -> keys.add(other.key()));
        }
        return keys;
    }

    private static String owner(List<Node> nodes) {
        return nodes.get(0).owner();
    }

    /** The chosen ways that a finding may be about, those that it names by connection first. */
    List<Way> suspects(Finding finding) {
        return chosen.values().stream()
                .filter(way -> rank(way, finding) < 3)
                .sorted(Comparator.comparingInt((Way way) -> rank(way, finding)))
                .toList();
    }

    /** Whether a finding names what a way feeds or a connection of it. */
    boolean isAbout(Finding finding, Way way) {
        return rank(way, finding) < 2;
    }

    private int rank(Way way, Finding finding) {
        boolean wanting =
                way.want().nodes().stream().anyMatch(node -> finding.terminals().contains(node.ref()));
        if (wanting) {
            return 0;
        }
        if (connectionsOf.getOrDefault(way, List.of()).stream().anyMatch(finding.connections()::contains)) {
            return 1;
        }
        return way.joins().stream()
                        .anyMatch(join -> finding.terminals()
                                        .contains(join.from().ref())
                                || finding.terminals().contains(join.to().ref()))
                ? 2
                : 3;
    }

    /** What serves each want, by its terminals. */
    Map<String, String> substance() {
        Map<String, String> substance = new TreeMap<>();
        ways.keySet().forEach(want -> substance.put(want.key(), nothing(chosen.get(want))));
        chosen.forEach((want, way) -> substance.put(want.key(), way.sourceKey()));
        return substance;
    }

    /** The same without names: what differs only in these is no other hookup. */
    List<String> facts() {
        List<String> facts = new ArrayList<>();
        chosen.forEach((want, way) -> facts.add(facts(want.nodes()) + " from " + facts(way.sources())
                + (way.through().isEmpty() ? "" : " through " + way.through())));
        ways.keySet().stream()
                .filter(want -> !chosen.containsKey(want))
                .forEach(want -> facts.add(facts(want.nodes()) + " without"));
        facts.sort(null);
        facts.add(plan.bare().unplugged().toString());
        return facts;
    }

    private String facts(List<Node> nodes) {
        return nodes.stream()
                .map(node -> bench.ownerKey(node.owner()) + node.function() + node.facts() + node.source())
                .toList()
                .toString();
    }

    private static String nothing(@Nullable Way way) {
        return way == null ? "" : way.sourceKey();
    }
}
