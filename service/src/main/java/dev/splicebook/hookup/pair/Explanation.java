package dev.splicebook.hookup.pair;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Proposal.Choice;
import dev.splicebook.hookup.Proposal.GivenUp;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.VoltRange;
import dev.splicebook.hookup.Wish;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Says why a solution is as it is. */
final class Explanation {

    /** Of two batteries in series. */
    private static final double LORRY_VOLTS = 24;

    private static final FunctionId AUDIO = new FunctionId("audio");
    private static final FunctionId SPEAKERS = new FunctionId("audio.speaker");
    private static final String NO_BETTER = "nothing is gained by it";
    private static final int MOST_REASONS = 3;
    private static final int MOST_DEVICES = 3;

    private final Solution solution;
    private final Map<String, String> forbiddenFor;
    private final Stock stock;

    Explanation(Solution solution, Map<String, String> forbiddenFor, Stock stock) {
        this.solution = solution;
        this.forbiddenFor = forbiddenFor;
        this.stock = stock;
    }

    List<Choice> choices() {
        List<Choice> choices = new ArrayList<>();
        solution.chosen()
                .forEach((want, way) -> choices.add(new Choice(
                        refs(want.nodes()), refs(way.sources()), way.through(), why(way), against(want, way))));
        solution.ways().forEach((want, ways) -> {
            if (!solution.chosen().containsKey(want)) {
                choices.add(new Choice(refs(want.nodes()), List.of(), List.of(), lacking(want, ways), null));
            }
        });
        return choices;
    }

    private static List<String> refs(List<Node> nodes) {
        return nodes.stream().map(Node::ref).toList();
    }

    private static String why(Way way) {
        return way.terms().stream()
                .sorted(Comparator.comparingDouble(Term::points))
                .map(Term::why)
                .filter(why -> !why.isEmpty())
                .limit(MOST_REASONS)
                .distinct()
                .collect(Collectors.joining("; "));
    }

    private String lacking(Want want, List<Way> ways) {
        if (ways.isEmpty()) {
            return "nothing here gives " + want.what() + tooMuch(want)
                    + solution.bench().leftAlone();
        }
        Way nearest = ways.get(0);
        String reason = forbiddenFor.get(nearest.key());
        if (reason != null) {
            return nearest.sourceKey() + " is left: " + reason + tooMuch(want);
        }
        String other = solution.user(nearest);
        if (other != null) {
            return nearest.sourceKey() + " serves " + other;
        }
        return nearest.sourceKey() + " is left: " + worst(nearest, null);
    }

    /** That the feeds of a lorry want a converter before what takes fewer volts. */
    private String tooMuch(Want want) {
        Network network = solution.bench().network();
        VoltRange running = network.hookup().map().runningVolts();
        for (Node node : want.nodes()) {
            Double most = Electrical.mostTakenVolts(node.facts());
            if (most == null) {
                continue;
            }
            boolean of24 = most < LORRY_VOLTS && running != null && running.isOf24Volts();
            List<Node> feeds = network.sources().stream()
                    .filter(source -> source.isVehicle() && source.role() != Node.Role.REFERENCE)
                    .toList();
            if (of24
                    || (!feeds.isEmpty()
                            && feeds.stream().allMatch(feed -> Electrical.isTooMuch(feed.facts(), node.facts())))) {
                return "; the feeds here give more than the " + Say.figure(most) + " V that " + node
                        + " takes, and want a converter before it";
            }
        }
        return "";
    }

    private @Nullable String against(Want want, Way way) {
        return solution.ways().getOrDefault(want, List.of()).stream()
                .filter(other -> !other.sourceKey().equals(way.sourceKey()))
                .min(Comparator.comparingDouble(Way::points))
                .map(next -> next.sourceKey() + ": " + against(next, way))
                .orElse(null);
    }

    private String against(Way next, Way way) {
        String reason = forbiddenFor.get(next.key());
        if (reason != null) {
            return reason;
        }
        if (next.points() >= way.points()) {
            return worst(next, way);
        }
        if (!next.through().containsAll(way.through())) {
            List<String> idle = new ArrayList<>(way.through());
            idle.removeAll(next.through());
            // a part that the search added is no reason of its own
            idle.removeAll(solution.plan().added());
            if (!idle.isEmpty()) {
                return "it would leave " + Names.list(idle) + " unused";
            }
        }
        String other = solution.user(next);
        return other != null
                ? "it serves " + other
                : (next.draws().isEmpty() ? "" : "it has not enough left, or ") + "the whole comes out worse with it";
    }

    /** What costs most in a way and not in another. */
    static String worst(Way way, @Nullable Way other) {
        Set<String> shared = new TreeSet<>();
        if (other != null) {
            other.terms().forEach(term -> shared.add(term.against()));
        }
        return way.terms().stream()
                .filter(term -> !shared.contains(term.against()) && term.points() > 0)
                .max(Comparator.comparingDouble(Term::points))
                .map(Term::against)
                .orElseGet(() -> other == null ? NO_BETTER : better(way, other));
    }

    /** What speaks for the other way alone. */
    private static String better(Way way, Way other) {
        return other.terms().stream()
                .filter(term -> term.points() < 0
                        && term.why().isEmpty()
                        && !way.terms().contains(term))
                .map(Term::against)
                .findFirst()
                .orElse("just as good");
    }

    List<GivenUp> gaveUp() {
        List<GivenUp> all = new ArrayList<>();
        for (Wish wish : solution.unmet()) {
            Finding finding = solution.findUnmet(wish);
            if (finding != null) {
                all.add(new GivenUp(wish, why(wish, finding), instead(wish)));
            }
        }
        return all;
    }

    private String why(Wish wish, Finding finding) {
        Way could = could(wish);
        Way taken = could == null ? null : solution.chosen().get(could.want());
        if (could == null || (taken == null && worst(could, null).equals(NO_BETTER))) {
            return finding.message();
        }
        String input = Names.list(refs(could.want().nodes()));
        return taken == null
                ? input + " could take it from " + could.sourceKey() + ": " + worst(could, null)
                : input + " could take it, and " + (could.want().nodes().size() > 1 ? "take " : "takes ")
                        + taken.sourceKey() + " (" + taken.sources().get(0).function() + ")";
    }

    /** An input that takes just what is wished shows nothing of why the wish is not met. */
    private boolean takesWished(Want want, Wish wish) {
        Way taken = solution.chosen().get(want);
        return taken != null
                && taken.sources().get(0).isVehicle()
                && taken.sources().get(0).isFor(wish.function());
    }

    /** The cheapest way that would use something of a wish, among those that were not taken. */
    private @Nullable Way could(Wish wish) {
        return solution.ways().values().stream()
                .flatMap(List::stream)
                .filter(way -> way.sources().get(0).isFor(wish.function())
                        || way.want().nodes().get(0).isFor(wish.function()))
                .filter(way -> !takesWished(way.want(), wish))
                .min(Comparator.comparingDouble(Way::points)
                        .thenComparing(way -> way.sources().get(0), solution.bench().order))
                .orElse(null);
    }

    /** What would serve: another input for sound, or where nothing that was brought can, a device that can be added. */
    private @Nullable String instead(Wish wish) {
        String usb = usb(wish);
        if (usb != null || could(wish) != null) {
            return usb;
        }
        // another of what was brought would serve no better
        Set<String> brought = new HashSet<>();
        solution.bench()
                .network()
                .hookup()
                .devices()
                .values()
                .forEach(device -> brought.add(String.valueOf(device.kind())));
        List<String> codes = stock.listDevices(wish.function()).stream()
                .filter(device -> !brought.contains(String.valueOf(device.kind())))
                .map(Stock.Listed::code)
                .limit(MOST_DEVICES)
                .toList();
        return codes.isEmpty() ? null : "a part that has it, like " + String.join(" or ", codes);
    }

    /** Data in place of a line. */
    private @Nullable String usb(Wish wish) {
        if (wish.function().isAtOrBelow(SPEAKERS)
                || !(wish.function().isAtOrBelow(AUDIO) || AUDIO.isAtOrBelow(wish.function()))) {
            return null;
        }
        Node player = solution.player();
        if (player == null) {
            return null;
        }
        boolean used = solution.document().connections().values().stream()
                .anyMatch(connection -> connection.ends().contains(player.ref()));
        List<String> sockets = used
                ? List.of()
                : stock.listDevices("usb-socket").stream()
                        .map(item -> item.device().code())
                        .filter(Objects::nonNull)
                        .map(String.class::cast)
                        .sorted()
                        .toList();
        return "sound by USB at " + player.ref() + " in place of the line"
                + (used
                        ? ", which is connected already"
                        : sockets.isEmpty() ? ", by a socket within reach" : ", by " + sockets.get(0));
    }
}
