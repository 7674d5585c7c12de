package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.OutputLoad.Share;
import dev.splicebook.hookup.net.OutputLoad.VoiceCoil;
import dev.splicebook.hookup.net.OutputLoads;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The coils on an output are wired anew: in strings of equal length, as many side by side as make use of all. */
@AutoService(Change.class)
public final class RewireCoils implements Change {

    private static final double COST = 4;

    @Override
    public Set<String> rules() {
        return Set.of("load-below-rating", "coils-unequal", "speaker-overpowered");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        OutputLoads loads =
                new OutputLoads(defect.network(), defect.network().scenarios().get(0));
        OutputLoad load = defect.terminals().stream()
                .map(loads::findLoad)
                .filter(found -> found != null)
                .findFirst()
                .orElse(null);
        Node minus = load == null ? null : load.minus();
        if (load == null || minus == null) {
            return List.of();
        }
        List<VoiceCoil> coils = load.shares().stream().map(Share::coil).toList();
        if (coils.stream().anyMatch(VoiceCoil::within)) {
            return List.of();
        }
        List<Proposal> proposals = new ArrayList<>();
        addRewirings(load.plus(), minus, coils, defect, proposals);
        List<VoiceCoil> all = withIdle(coils, loads);
        if (all.size() > coils.size()) {
            addRewirings(load.plus(), minus, all, defect, proposals);
        }
        return proposals;
    }

    /** With the coils of the same loudspeakers that hang on nothing, those of each loudspeaker together. */
    private static List<VoiceCoil> withIdle(List<VoiceCoil> coils, OutputLoads loads) {
        Map<String, List<VoiceCoil>> byPart = new LinkedHashMap<>();
        coils.forEach(coil -> byPart.computeIfAbsent(coil.plus().owner(), key -> new ArrayList<>())
                .add(coil));
        byPart.forEach((part, own) -> own.addAll(loads.idleCoils(part).stream()
                .filter(idle -> own.stream().anyMatch(coil -> isLike(idle, coil)))
                .toList()));
        return byPart.values().stream().flatMap(List::stream).toList();
    }

    /** Whether two coils are for one channel. */
    private static boolean isLike(VoiceCoil one, VoiceCoil other) {
        return one.plus().audio() != null
                && other.plus().audio() != null
                && Objects.equals(
                        one.plus().audio().channel(), other.plus().audio().channel());
    }

    private static void addRewirings(
            Node plus, Node minus, List<VoiceCoil> coils, Defect defect, List<Proposal> proposals) {
        for (int length = 1; length <= coils.size(); length++) {
            if (coils.size() % length == 0) {
                proposals.add(rewire(plus, minus, coils, length, defect));
            }
        }
    }

    private static Proposal rewire(Node plus, Node minus, List<VoiceCoil> coils, int length, Defect defect) {
        Set<Node> ends = new HashSet<>(List.of(plus, minus));
        coils.forEach(coil -> ends.addAll(coil.ends()));
        Edit edit = defect.edit();
        Connection like = null;
        for (Link link : defect.network().links()) {
            Connection connection = link.connection();
            if (connection != null && ends.contains(link.from()) && ends.contains(link.to())) {
                like = like == null ? connection : like;
                edit.without(String.valueOf(link.ref()));
            }
        }
        for (int first = 0; first < coils.size(); first += length) {
            Node from = plus;
            for (VoiceCoil coil : coils.subList(first, first + length)) {
                join(from, coil.plus(), like, edit);
                from = coil.minus();
            }
            join(from, minus, like, edit);
        }
        int strings = coils.size() / length;
        String how = length == 1
                ? "side by side"
                : strings == 1 ? "in series" : "in " + strings + " strings of " + length + " in series, side by side";
        return new Proposal(
                "Wire the " + coils.size() + " coils at " + plus + " and " + minus + " " + how + ".", COST, edit);
    }

    private static void join(Node one, Node other, @Nullable Connection like, Edit edit) {
        if (like == null) {
            edit.light(one.ref(), other.ref());
        } else {
            edit.join(one.ref(), other.ref(), like.conductor(), like.length(), null);
        }
    }
}
