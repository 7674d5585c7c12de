package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.lineIn;
import static dev.splicebook.hookup.Wiring.lineOut;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.RulePage;
import dev.splicebook.hookup.Wiring;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Where several rules could speak of one net, the first in the chain does, and the others keep silent. */
class OwnershipTest {

    private static final List<String> CHAIN = List.of(
            "airbag-circuit-touched",
            "supply-shorted-to-ground",
            "supplies-tied",
            "outputs-tied",
            "returns-tied",
            "speaker-minus-grounded",
            "level-too-high",
            "pair-half-connected",
            "channels-swapped",
            "polarity-reversed",
            "function-mismatched");

    /** For each rule of the chain, what brings its fault onto the net of {@code NET.x}. */
    private static final Map<String, Brings> FAULTS = new LinkedHashMap<>();

    private interface Brings {
        Wiring onto(Wiring wiring);
    }

    static {
        FAULTS.put(
                "airbag-circuit-touched",
                wiring -> wiring.car("C9-1", facts("\"kind\": \"untouchable\", \"reason\": \"airbag\""))
                        .join("CAR.C9-1 NET.x"));
        FAULTS.put(
                "supply-shorted-to-ground",
                wiring -> wiring.car("C1-7", facts(constant())).join("CAR.C1-7 NET.x", "CAR.chassis NET.x"));
        FAULTS.put(
                "supplies-tied",
                wiring -> wiring.car("C4-1", facts(constant()))
                        .car("C4-2", facts(supply("running")))
                        .join("CAR.C4-1 NET.x", "CAR.C4-2 NET.x"));
        FAULTS.put(
                "outputs-tied",
                wiring -> wiring.car("A5-1", facts(floating("rear-left", "plus")))
                        .car("A6-1", facts(floating("rear-right", "plus")))
                        .join("CAR.A5-1 NET.x", "CAR.A6-1 NET.x"));
        FAULTS.put(
                "returns-tied",
                wiring -> wiring.car("C2-2", facts(lineOut("left", "return", "driven")))
                        .car("C2-4", facts(lineOut("right", "return", "driven")))
                        .join("CAR.C2-2 NET.x", "CAR.C2-4 NET.x"));
        FAULTS.put(
                "speaker-minus-grounded",
                wiring -> wiring.car("A2-2", facts(floating("front-left", "minus")))
                        .lead("GND", "return", facts(lineIn("left", "return", "chassis")))
                        .join("CAR.A2-2 NET.x", "GND.return NET.x"));
        FAULTS.put(
                "level-too-high",
                wiring -> wiring.car("A3-1", facts(floating("front-left", "plus")))
                        .lead("LOW", "in", facts(lineIn("left", "signal", "differential")))
                        .join("CAR.A3-1 NET.x", "LOW.in NET.x"));
        FAULTS.put(
                "function-mismatched",
                wiring -> wiring.car("C5-1", facts("power.accessory", supply("running")))
                        .lead(
                                "HU",
                                "reverse",
                                facts(
                                        "control.reverse",
                                        "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"))
                        .join("CAR.C5-1 NET.x", "HU.reverse NET.x"));
    }

    static Stream<Arguments> pairsOnOneNet() {
        List<String> names = List.copyOf(FAULTS.keySet());
        List<Arguments> pairs = new ArrayList<>();
        for (int first = 0; first < names.size(); first++) {
            for (int second = first + 1; second < names.size(); second++) {
                pairs.add(Arguments.of(names.get(first), names.get(second)));
            }
        }
        return pairs.stream();
    }

    private static Wiring net() {
        return new Wiring().inside("NET", "\"conducts\": [[\"x\", \"y\"]]");
    }

    @ParameterizedTest
    @MethodSource("pairsOnOneNet")
    void leavesTheNetToTheFirstOfTwo(String first, String second) {
        Brings one = FAULTS.getOrDefault(first, wiring -> wiring);
        Brings other = FAULTS.getOrDefault(second, wiring -> wiring);
        assertThat(rulesOf(one.onto(net()))).as("alone").contains(first);
        assertThat(rulesOf(other.onto(net()))).as("alone").contains(second);

        Set<String> both = rulesOf(other.onto(one.onto(net())));

        // the two together may be the fault of a rule that stands before both
        String owner = CHAIN.stream().filter(both::contains).findFirst().orElseThrow();
        assertThat(CHAIN.indexOf(owner)).isLessThanOrEqualTo(CHAIN.indexOf(first));
        assertThat(both).doesNotContain(second);
    }

    @Test
    void leavesASwapAndAReversalToTheHalfPair() {
        Wiring one = doors().join("CAR.A2-1 AMP.r-minus", "CAR.A2-4 AMP.r-plus");

        assertThat(rulesOf(one))
                .contains("pair-half-connected")
                .doesNotContain("channels-swapped", "polarity-reversed");
    }

    @Test
    void leavesAReversalToTheSwapOfChannels() {
        Wiring one = doors().join("CAR.A2-1 AMP.r-minus", "CAR.A2-2 AMP.r-plus");

        assertThat(rulesOf(one)).contains("channels-swapped").doesNotContain("polarity-reversed");
    }

    @Test
    void leavesAReversedPairAtALineInputToTheLevel() {
        Wiring one = new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .lineInput("AMP", "in", "in-return", "left")
                .join("CAR.A2-1 AMP.in-return", "CAR.A2-2 AMP.in");

        assertThat(rulesOf(one)).containsExactly("level-too-high");
    }

    @Test
    void leavesAHalfPairAtALineInputToTheLevel() {
        Wiring one = new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .lineInput("AMP", "in", "in-return", "left")
                .join("CAR.A2-1 AMP.in");

        assertThat(rulesOf(one)).contains("level-too-high").doesNotContain("pair-half-connected");
    }

    @Test
    void speaksOfFaultsOnDifferentNetsApart() {
        Wiring two = doors().join("CAR.A2-1 AMP.l-minus", "CAR.A2-2 AMP.l-plus")
                .car("C4-1", facts(constant()))
                .car("C4-2", facts(supply("running")))
                .join("CAR.C4-1 CAR.C4-2");

        assertThat(rulesOf(two)).contains("polarity-reversed", "supplies-tied");
    }

    @Test
    void ranksTheRulesAsTheChainDoes() {
        Map<String, Integer> ranks =
                Hookups.checker().listPages().stream().collect(Collectors.toMap(RulePage::code, RulePage::rank));

        assertThat(CHAIN).isSortedAccordingTo(Comparator.comparing(ranks::get));
        assertThat(ranks.get("high-voltage-circuit-touched")).isEqualTo(ranks.get("airbag-circuit-touched"));
        assertThat(CHAIN).extracting(ranks::get).doesNotHaveDuplicates().doesNotContain(Rank.OUTSIDE);
    }

    private static Wiring doors() {
        return new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .carFloating("A2-3", "A2-4", "front-right")
                .speakerInput("AMP", "l-plus", "l-minus", "left")
                .speakerInput("AMP", "r-plus", "r-minus", "right");
    }

    private static Set<String> rulesOf(Wiring wiring) {
        Report report = wiring.check();
        return report.findings().stream()
                .map(Finding::rule)
                .filter(CHAIN::contains)
                .collect(Collectors.toSet());
    }
}
