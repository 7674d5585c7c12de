package dev.splicebook.hookup.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is live, fed and energised in each state follows from what is connected to what. */
class ScenariosTest {

    private static final String RELAY = """
            {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87", "closed": "87a"}]}}
            """;

    /** Takes 12 V on {@code acc}, returns by {@code ground} and gives 12 V on {@code remote} in whatever state. */
    private static final String HEAD_UNIT = """
            {"inline": {"terminals": {
              "acc": {"electrical": {"kind": "load", "maxAmps": 5, "needs": "switched"}},
              "ground": {"electrical": {"kind": "ground"}},
              "remote": {"electrical": {"kind": "control-out", "active": "12V", "maxAmps": 0.3}}}}}
            """;

    @Test
    void givesEachStateOnceWhereNothingWaitsForACondition() {
        Network network = network("", "");

        assertThat(network.scenarios()).extracting(Scenario::state).containsExactly(State.values());
        assertThat(network.scenarios()).extracting(Scenario::conditions).containsOnly(Set.of());
    }

    @Test
    void pullsARelayOnlyInTheStatesInWhichItsCoilIsFed() {
        Network network = network(part("K1", RELAY), joins("CAR.C1-8 K1.86", "CAR.chassis K1.85"));

        assertThat(statesIn(network, scenario -> isPulled(scenario, network, "K1")))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @ParameterizedTest
    @CsvSource({"CAR.C1-8, CAR.C1-7", "CAR.chassis, CAR.battery-minus", "CAR.C1-8, HU.nothing"})
    void leavesARelayReleasedWhoseCoilHasNotFeedOnOneEndAndGroundOnTheOther(String one, String other) {
        Network network = network(
                part("K1", RELAY) + part("HU", "{\"inline\": {\"conducts\": [[\"nothing\", \"more\"]]}}"),
                joins(one + " K1.86", other + " K1.85"));

        assertThat(statesIn(network, scenario -> isPulled(scenario, network, "K1")))
                .isEmpty();
    }

    @Test
    void pullsARelayWhicheverWayRoundItsCoilIsFed() {
        Network network = network(part("K1", RELAY), joins("CAR.C1-8 K1.85", "CAR.chassis K1.86"));

        assertThat(isPulled(network.scenario(State.RUNNING), network, "K1")).isTrue();
    }

    @Test
    void joinsCommonToTheClosedContactWhileReleasedAndToTheOpenOneWhileEnergised() {
        Network network = network(part("K1", RELAY), joins("CAR.C1-8 K1.86", "CAR.chassis K1.85"));
        Node common = node(network, "K1.30");

        for (Scenario scenario : network.scenarios()) {
            boolean pulled = isPulled(scenario, network, "K1");
            assertThat(scenario.netOf(common) == scenario.netOf(node(network, "K1.87")))
                    .isEqualTo(pulled);
            assertThat(scenario.netOf(common) == scenario.netOf(node(network, "K1.87a")))
                    .isEqualTo(!pulled);
        }
    }

    @Test
    void holdsALatchingRelayThatAConditionHasPulled() {
        Network network = network(
                part("K1", RELAY),
                joins("CAR.battery-plus K1.30", "K1.87 K1.86", "CAR.C5-3 K1.86", "CAR.chassis K1.85"));

        assertThat(isPulled(under(network, State.RUNNING, Condition.REVERSE), network, "K1"))
                .isTrue();
        assertThat(isPulled(network.scenario(State.RUNNING), network, "K1")).isFalse();
        assertThat(network.scenarios())
                .allSatisfy(scenario -> assertThat(scenario.restless()).isEmpty());
    }

    @Test
    void holdsARelayAsleepThatPulledWhileRunningAndFeedsItselfFromWhatStaysLive() {
        Network network = network(
                part("K1", RELAY),
                joins("CAR.battery-plus K1.30", "K1.87 K1.86", "CAR.C1-8 K1.86", "CAR.chassis K1.85"));
        assertThat(statesIn(network, scenario -> isPulled(scenario, network, "K1")))
                .contains(State.ASLEEP);

        Network lit = network(
                part("K1", RELAY),
                joins(
                        "CAR.battery-plus K1.30",
                        "K1.87 K1.86",
                        "CAR.C1-8 K1.86",
                        "CAR.chassis K1.85",
                        "CAR.C5-10 CAR.C5-1"));
        assertThat(lit.scenarios())
                .filteredOn(scenario -> scenario.state() == State.ASLEEP)
                .hasSize(2)
                .allMatch(scenario -> isPulled(scenario, lit, "K1"));

        Network switched = network(
                part("K1", RELAY), joins("CAR.C1-8 K1.30", "K1.87 K1.86", "CAR.C1-8 K1.86", "CAR.chassis K1.85"));
        assertThat(statesIn(switched, scenario -> isPulled(scenario, switched, "K1")))
                .doesNotContain(State.ASLEEP);
    }

    @Test
    void letsOneOfTwoRelaysWinThatLockEachOtherOut() {
        Network two = network(
                part("K1", RELAY) + part("K2", RELAY),
                joins(
                        "CAR.C1-8 K1.30",
                        "CAR.C1-8 K2.30",
                        "K1.87a K2.86",
                        "K2.87a K1.86",
                        "CAR.chassis K1.85",
                        "CAR.chassis K2.85"));
        Scenario running = two.scenario(State.RUNNING);
        assertThat(running.restless()).isEmpty();
        assertThat(isPulled(running, two, "K1")).isNotEqualTo(isPulled(running, two, "K2"));

        Network three = network(
                part("K1", RELAY) + part("K2", RELAY) + part("K3", RELAY),
                joins(
                        "CAR.C1-8 K1.30",
                        "CAR.C1-8 K2.30",
                        "CAR.C1-8 K3.30",
                        "K1.87a K2.86",
                        "K2.87a K3.86",
                        "K3.87a K1.86",
                        "CAR.chassis K1.85",
                        "CAR.chassis K2.85",
                        "CAR.chassis K3.85"));
        assertThat(three.scenario(State.RUNNING).restless()).containsExactly("K1", "K2", "K3");
    }

    @Test
    void holdsARelayAsleepThatAConditionPulledWhileRunningOrAsleep() {
        for (String trigger : List.of("C5-3", "C5-10")) {
            Network network = network(
                    part("K1", RELAY),
                    joins("CAR.battery-plus K1.30", "K1.87 K1.86", "CAR." + trigger + " K1.86", "CAR.chassis K1.85"));
            assertThat(isPulled(network.scenario(State.ASLEEP), network, "K1"))
                    .as(trigger)
                    .isTrue();
        }
        Network released = network(
                part("K1", RELAY), joins("CAR.C1-8 K1.30", "K1.87 K1.86", "CAR.C5-3 K1.86", "CAR.chassis K1.85"));
        assertThat(isPulled(released.scenario(State.ASLEEP), released, "K1")).isFalse();
    }

    @Test
    void holdsARelayWhileRunningThatTheFeedOfTheStarterPulled() {
        Network held = network(
                part("K1", RELAY), joins("CAR.C4-2 K1.30", "K1.87 K1.86", "CAR.C4-1 K1.86", "CAR.chassis K1.85"));
        assertThat(statesIn(held, scenario -> isPulled(scenario, held, "K1")))
                .containsExactly(State.CRANKING, State.RUNNING, State.RESTARTING);

        Network always = network(
                part("K1", RELAY),
                joins("CAR.battery-plus K1.30", "K1.87 K1.86", "CAR.C4-1 K1.86", "CAR.chassis K1.85"));
        assertThat(statesIn(always, scenario -> isPulled(scenario, always, "K1")))
                .containsExactly(State.ASLEEP, State.CRANKING, State.RUNNING, State.RESTARTING);
    }

    @Test
    void letsNoPartThatRanKeepItselfFedAsleepByItsOwnOutput() {
        String part = """
                {"inline": {"terminals": {
                  "plus": {"electrical": {"kind": "load", "needs": "switched"}},
                  "remote": {"electrical": {"kind": "control-out", "active": "12V"}}}}}
                """;
        Network network = network(
                part("LOC", part) + part("K1", RELAY),
                joins("CAR.C1-8 LOC.plus", "LOC.remote LOC.plus", "LOC.plus K1.86", "CAR.chassis K1.85"));

        assertThat(statesIn(network, scenario -> isPulled(scenario, network, "K1")))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @Test
    void neverPullsARelayThatOnlyItsOwnContactWouldFeed() {
        Network network =
                network(part("K1", RELAY), joins("CAR.battery-plus K1.30", "K1.87 K1.86", "CAR.chassis K1.85"));

        assertThat(statesIn(network, scenario -> isPulled(scenario, network, "K1")))
                .isEmpty();
        assertThat(network.scenario(State.RUNNING).hasFeed(node(network, "K1.86")))
                .isEqualTo(Sure.NO);
    }

    @Test
    void reportsARelayThatCutsOffItsOwnCoilInTheStatesInWhichItIsFed() {
        Network network = network(part("K1", RELAY), joins("CAR.C1-8 K1.30", "K1.87a K1.86", "CAR.chassis K1.85"));

        assertThat(statesIn(network, scenario -> scenario.restless().contains("K1")))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 10, 50})
    void reportsEveryRelayOfARingThatNeverRests(int relays) {
        Network network = network(relays(relays), ring(relays));

        assertThat(network.scenario(State.RUNNING).restless()).hasSize(relays);
        assertThat(network.scenario(State.ASLEEP).restless()).isEmpty();
    }

    @Test
    void givesUpARingThatRepeatsOnlyAfterThousandsOfRounds() {
        int relays = 700;

        Network network =
                assertTimeoutPreemptively(Duration.ofSeconds(60), () -> network(relays(relays), ring(relays)));

        assertThat(network.scenario(State.RUNNING).restless()).isNotEmpty();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void comesToAnEndForAnyTangleOfRelays(long seed) {
        Random random = new Random(seed);
        List<String> joins = new ArrayList<>();
        List<String> ends = List.of("30", "85", "86", "87", "87a");
        for (int join = 0; join < 60; join++) {
            String one = "K" + random.nextInt(20) + "." + ends.get(random.nextInt(5));
            String other = random.nextInt(4) > 0
                    ? "K" + random.nextInt(20) + "." + ends.get(random.nextInt(5))
                    : List.of("CAR.C1-8", "CAR.battery-plus", "CAR.chassis").get(random.nextInt(3));
            if (!one.equals(other)) {
                joins.add(one + " " + other);
            }
        }

        Network network = assertTimeoutPreemptively(
                Duration.ofSeconds(20), () -> network(relays(20), joins(joins.toArray(String[]::new))));

        assertThat(network.scenarios()).allSatisfy(scenario -> {
            for (Coil coil : network.coils()) {
                boolean oneNet = scenario.netOf(coil.one()) == scenario.netOf(coil.other());
                boolean driven = !oneNet
                        && ((isAtSurely(scenario.hasFeed(coil.one())) && isAtSurely(scenario.hasGround(coil.other())))
                                || (isAtSurely(scenario.hasFeed(coil.other()))
                                        && isAtSurely(scenario.hasGround(coil.one()))));
                assertThat(scenario.restless().isEmpty() && driven != scenario.isEnergised(coil))
                        .as("a relay at rest that is not where its coil puts it: %s in %s", coil, scenario.state())
                        .isFalse();
            }
        });
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 25})
    void pullsOneRelayAfterAnotherAlongAChain(int relays) {
        List<String> joins = new ArrayList<>(List.of("CAR.C1-8 K0.86"));
        for (int relay = 0; relay < relays; relay++) {
            joins.add("CAR.chassis K" + relay + ".85");
            joins.add("CAR.battery-plus K" + relay + ".30");
            if (relay > 0) {
                joins.add("K" + (relay - 1) + ".87 K" + relay + ".86");
            }
        }
        Network network = network(relays(relays), joins(joins.toArray(String[]::new)));
        Node last = node(network, "K" + (relays - 1) + ".87");

        assertThat(network.scenario(State.RUNNING).hasFeed(last)).isEqualTo(Sure.YES);
        assertThat(network.scenario(State.ASLEEP).hasFeed(last)).isEqualTo(Sure.NO);
    }

    @Test
    void pullsARelayThatAnOutputSwitchesToGround() {
        Network network = network(part("K1", RELAY), joins("CAR.battery-plus K1.86", "CAR.C6-4 K1.85"));

        assertThat(isPulled(under(network, State.RUNNING, Condition.DOOR_OPEN), network, "K1"))
                .isTrue();
        assertThat(isPulled(network.scenario(State.RUNNING), network, "K1")).isFalse();
    }

    @Test
    void findsAnOutputLiveOnlyWhileItsPartIsFedAndGrounded() {
        Network fed = network(part("HU", HEAD_UNIT), joins("CAR.C1-8 HU.acc", "CAR.chassis HU.ground"));
        Network ungrounded = network(part("HU", HEAD_UNIT), joins("CAR.C1-8 HU.acc"));
        Network unfed = network(part("HU", HEAD_UNIT), joins("CAR.chassis HU.ground"));

        assertThat(liveStates(fed, "HU.remote"))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
        assertThat(liveStates(ungrounded, "HU.remote")).isEmpty();
        assertThat(liveStates(unfed, "HU.remote")).isEmpty();
    }

    @Test
    void findsNoOutputLiveThatHangsOnAPartWhoseGroundIsAnotherPartsGround() {
        Network network = network(
                part("HU", HEAD_UNIT)
                        + part(
                                "AMP",
                                "{\"inline\": {\"terminals\": {\"ground\": {\"electrical\":"
                                        + " {\"kind\": \"ground\"}}}}}"),
                joins("CAR.C1-8 HU.acc", "AMP.ground HU.ground"));

        assertThat(liveStates(network, "HU.remote")).isEmpty();
    }

    @Test
    void needsEveryLoadOfAPartFedButThoseLeftUnused() {
        String twoFeeds = HEAD_UNIT.replace(
                "\"ground\":",
                "\"memory\": {\"electrical\": {\"kind\": \"load\", \"needs\": \"constant\"}}, \"ground\":");
        String joins = joins("CAR.C1-8 HU.acc", "CAR.chassis HU.ground");

        assertThat(liveStates(network(part("HU", twoFeeds), joins), "HU.remote"))
                .isEmpty();
        assertThat(liveStates(
                        network(part("HU", twoFeeds), joins + ", \"unused\": {\"HU.memory\": {\"as\": \"capped\"}}"),
                        "HU.remote"))
                .contains(State.RUNNING);
    }

    @Test
    void findsAnOutputLiveWhosePartIsFedThroughARelay() {
        Network network = network(
                part("HU", HEAD_UNIT) + part("K1", RELAY),
                joins(
                        "CAR.C1-8 K1.86",
                        "CAR.chassis K1.85",
                        "CAR.battery-plus K1.30",
                        "K1.87 HU.acc",
                        "CAR.chassis HU.ground"));

        assertThat(liveStates(network, "HU.remote"))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @Test
    void followsOutputsThroughPartsAndRelaysInTurn() {
        Network network = network(
                part("HU", HEAD_UNIT) + part("K1", RELAY) + part("DSP", HEAD_UNIT) + part("K2", RELAY),
                joins(
                        "CAR.C1-8 HU.acc",
                        "CAR.chassis HU.ground",
                        "HU.remote K1.86",
                        "CAR.chassis K1.85",
                        "CAR.battery-plus K1.30",
                        "K1.87 DSP.acc",
                        "CAR.chassis DSP.ground",
                        "DSP.remote K2.86",
                        "CAR.chassis K2.85"));

        assertThat(statesIn(network, scenario -> isPulled(scenario, network, "K2")))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @Test
    void turnsAnOutputOnThatFollowsAFeedWhileThatIsLive() {
        String radio = """
                {"inline": {"terminals": {
                  "memory": {"electrical": {"kind": "load", "maxAmps": 5, "needs": "constant"}},
                  "acc": {"electrical": {"kind": "load", "maxAmps": 1, "needs": "switched"}},
                  "ground": {"electrical": {"kind": "ground"}},
                  "remote": {"electrical": {"kind": "control-out", "active": "12V", "follows": "acc"}}}}}
                """;
        Network network = network(
                part("HU", radio), joins("CAR.battery-plus HU.memory", "CAR.C1-8 HU.acc", "CAR.chassis HU.ground"));

        assertThat(liveStates(network, "HU.remote"))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
        Network open = network(part("HU", radio), joins("CAR.battery-plus HU.memory", "CAR.chassis HU.ground"));
        assertThat(liveStates(open, "HU.remote")).isEmpty();
    }

    @Test
    void neverLetsAPartStartItselfByItsOwnOutput() {
        Network network = network(part("HU", HEAD_UNIT), joins("HU.remote HU.acc", "CAR.chassis HU.ground"));

        assertThat(liveStates(network, "HU.remote")).isEmpty();
    }

    @Test
    void turnsAnOutputOnThatFollowsASignalWhileTheSignalIsThere() {
        String converter = """
                {"inline": {"terminals": {
                  "acc": {"electrical": {"kind": "load"}}, "ground": {"electrical": {"kind": "ground"}},
                  "in": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "plus"}},
                  "remote": {"electrical": {"kind": "control-out", "active": "12V", "follows": "in"}}}}}
                """;
        String feed = "CAR.battery-plus LOC.acc";
        Network playing = network(part("LOC", converter), joins(feed, "CAR.chassis LOC.ground", "CAR.C2-1 LOC.in"));
        Network silent = network(part("LOC", converter), joins(feed, "CAR.chassis LOC.ground"));
        Network unfed = network(part("LOC", converter), joins("CAR.chassis LOC.ground", "CAR.C2-1 LOC.in"));

        assertThat(liveStates(playing, "LOC.remote"))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
        assertThat(liveStates(silent, "LOC.remote")).isEmpty();
        assertThat(liveStates(unfed, "LOC.remote")).isEmpty();
    }

    @Test
    void hearsAFollowedSignalThroughACouplingOnlyWhileThePartThatGivesItIsFed() {
        String source = """
                {"inline": {"terminals": {
                  "acc": {"electrical": {"kind": "load"}},
                  "plus": {"electrical": {"kind": "speaker-out", "channel": "left", "side": "plus"}},
                  "minus": {"electrical": {"kind": "speaker-out", "channel": "left", "side": "minus"}}}}}
                """;
        String isolator = """
                {"inline": {"couples": [{"from": ["in", "in-return"], "to": ["out", "out-return"]}]}}
                """;
        String converter = """
                {"inline": {"terminals": {
                  "acc": {"electrical": {"kind": "load"}},
                  "in": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "plus"}},
                  "remote": {"electrical": {"kind": "control-out", "active": "12V", "follows": "in"}}}}}
                """;
        Network network = network(
                part("HU", source) + part("ISO", isolator) + part("LOC", converter),
                joins(
                        "CAR.C1-8 HU.acc",
                        "CAR.battery-plus LOC.acc",
                        "HU.plus ISO.in",
                        "HU.minus ISO.in-return",
                        "ISO.out LOC.in"));

        assertThat(liveStates(network, "LOC.remote"))
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @Test
    void makesASourceLiveUnderAnyOneOfItsConditions() {
        Network network = network("", joins("CAR.C5-3 CAR.C5-9"));
        Node lamps = node(network, "CAR.C5-9");

        assertThat(network.scenario(State.RUNNING).isLive(lamps)).isEqualTo(Sure.NO);
        assertThat(under(network, State.RUNNING, Condition.LAMPS).isLive(lamps)).isEqualTo(Sure.YES);
        assertThat(under(network, State.RUNNING, Condition.BRAKE).isLive(lamps)).isEqualTo(Sure.YES);
        assertThat(under(network, State.RUNNING, Condition.REVERSE).isLive(lamps))
                .isEqualTo(Sure.NO);
    }

    @Test
    void leavesOutConditionsThatMakeNoDifferenceInAState() {
        Network network = network("", joins("CAR.C5-3 CAR.C5-1"));

        assertThat(network.scenarios().stream()
                        .filter(scenario -> scenario.conditions().contains(Condition.REVERSE))
                        .map(Scenario::state))
                .containsExactly(State.IGNITION, State.RUNNING);
    }

    @Test
    void letsAllConditionsHoldAtOnceWhereARelayOfOneSwitchesWhatAnotherMakesLive() {
        Network network = network(
                part("K1", RELAY), joins("CAR.C5-3 K1.86", "CAR.chassis K1.85", "CAR.C5-9 K1.30", "K1.87 CAR.C5-1"));

        assertThat(network.scenarios().stream()
                        .filter(scenario -> scenario.hasFeed(node(network, "CAR.C5-1")) == Sure.YES)
                        .map(Scenario::toString))
                .containsExactly(
                        "ignition with reverse and lamps and brake", "running with reverse and lamps and brake");
    }

    @Test
    void letsAllConditionsHoldAtOnceWhereAPartNeedsTwo() {
        String camera = """
                {"inline": {"terminals": {
                  "one": {"electrical": {"kind": "load", "needs": "switched"}},
                  "other": {"electrical": {"kind": "load", "needs": "switched"}}}}}
                """;
        Network network = network(part("CAM", camera), joins("CAR.C5-3 CAM.one", "CAR.C5-9 CAM.other"));

        assertThat(network.scenarios().stream()
                        .filter(scenario -> scenario.isFed("CAM") == Sure.YES)
                        .map(Scenario::toString))
                .containsExactly(
                        "ignition with reverse and lamps and brake", "running with reverse and lamps and brake");
    }

    @Test
    void letsAllConditionsHoldAtOnceWhereWhatIsFedUnderTwoSharesALeadToGround() {
        String load = """
                {"inline": {"terminals": {
                  "feed": {"electrical": {"kind": "load", "needs": "switched"}},
                  "ground": {"electrical": {"kind": "ground"}}}}}
                """;
        String parts = part("CAM", load) + part("LED", load);
        Network shared = network(
                parts,
                joins("CAR.C5-3 CAM.feed", "CAR.C5-9 LED.feed", "CAM.ground LED.ground", "LED.ground CAR.chassis"));
        Network apart = network(
                parts,
                joins("CAR.C5-3 CAM.feed", "CAR.C5-9 LED.feed", "CAM.ground CAR.chassis", "LED.ground CAR.chassis"));

        assertThat(underAllConditions(shared))
                .containsExactly(
                        "ignition with reverse and lamps and brake", "running with reverse and lamps and brake");
        assertThat(underAllConditions(apart)).isEmpty();
    }

    private static List<String> underAllConditions(Network network) {
        return network.scenarios().stream()
                .filter(scenario -> scenario.conditions().size() > 1)
                .map(Scenario::toString)
                .toList();
    }

    @Test
    void letsAllConditionsHoldAtOnceWhereDiodesBringTheirSourcesTogether() {
        String diodes = """
                {"inline": {"diodes": [{"anode": "a", "cathode": "c"}, {"anode": "b", "cathode": "c"}]}}
                """;
        Network apart = network("", joins("CAR.C5-3 CAR.C5-1", "CAR.C5-9 CAR.C1-2"));
        Network together = network(part("OR", diodes), joins("CAR.C5-3 OR.a", "CAR.C5-9 OR.b", "OR.c CAR.C5-1"));

        assertThat(apart.scenarios()).allMatch(scenario -> scenario.conditions().size() < 2);
        assertThat(together.scenarios().stream()
                        .filter(scenario -> scenario.conditions().size() > 1)
                        .map(Scenario::state))
                .containsExactly(State.IGNITION, State.RUNNING);
    }

    @Test
    void letsTwelveVoltsThroughADiodeFromAnodeToCathodeAndGroundTheOtherWay() {
        String diode = "{\"inline\": {\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]}}";
        Network network = network(
                part("D1", diode) + part("D2", diode) + part("D3", diode) + part("D4", diode),
                joins("CAR.C1-8 D1.a", "CAR.C1-8 D2.c", "CAR.chassis D3.a", "CAR.chassis D4.c"));
        Scenario running = network.scenario(State.RUNNING);

        assertThat(running.hasFeed(node(network, "D1.c"))).isEqualTo(Sure.YES);
        assertThat(running.hasFeed(node(network, "D2.a"))).isEqualTo(Sure.NO);
        assertThat(running.hasGround(node(network, "D3.c"))).isEqualTo(Sure.NO);
        assertThat(running.hasGround(node(network, "D4.a"))).isEqualTo(Sure.YES);
    }

    @Test
    void keepsTwoTriggersApartThatDiodesBringTogether() {
        String diodes = """
                {"inline": {"diodes": [{"anode": "a", "cathode": "out"}, {"anode": "b", "cathode": "out"}]}}
                """;
        Network network = network(
                part("D", diodes) + part("K1", RELAY),
                joins("CAR.C1-8 D.a", "CAR.C5-3 D.b", "D.out K1.86", "CAR.chassis K1.85"));

        assertThat(isPulled(network.scenario(State.ACCESSORY), network, "K1")).isTrue();
        assertThat(isPulled(network.scenario(State.ASLEEP), network, "K1")).isFalse();
        assertThat(network.scenario(State.RUNNING).reaches(node(network, "CAR.C5-3")))
                .extracting(reach -> reach.source().ref())
                .containsExactly("CAR.C5-3");
    }

    @Test
    void leavesTheClampAcrossACoilOutOfTheWay() {
        String clamped = """
                {"inline": {"relays": [{"coil": ["85", "86"], "common": "30", "open": "87"}],
                            "diodes": [{"anode": "85", "cathode": "86"}]}}
                """;
        Network network = network(part("K1", clamped), joins("CAR.C1-8 K1.86", "CAR.chassis K1.85"));
        Scenario running = network.scenario(State.RUNNING);

        assertThat(isPulled(running, network, "K1")).isTrue();
        assertThat(running.hasGround(node(network, "K1.86"))).isEqualTo(Sure.NO);
        assertThat(running.hasFeed(node(network, "K1.85"))).isEqualTo(Sure.NO);
    }

    @Test
    void reachesThroughAResistorBothWaysButNotHard() {
        String resistor = "{\"inline\": {\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 330}]}}";
        Network network = network(part("R", resistor), joins("CAR.chassis R.b"));
        Scenario running = network.scenario(State.RUNNING);
        Node end = node(network, "R.a");

        assertThat(running.hasGround(end)).isEqualTo(Sure.YES);
        assertThat(running.isGrounded(end)).isFalse();
        assertThat(running.isGrounded(node(network, "R.b"))).isTrue();
        assertThat(running.netOf(end)).isNotEqualTo(running.netOf(node(network, "R.b")));
    }

    @Test
    void countsANetAsReachedHardThatAConductorAndAResistorBothReach() {
        String resistor = """
                {"inline": {"resistors": [{"between": ["a", "b"], "ohms": 330}], "diodes": [{"anode": "a", "cathode": "b"}]}}
                """;
        Network network = network(part("R", resistor), joins("CAR.C1-8 R.a"));

        assertThat(network.scenario(State.RUNNING).reaches(node(network, "R.b")))
                .containsExactly(new Reach(node(network, "CAR.C1-8"), true));
    }

    @Test
    void cannotTellWhatHangsOnASupplyOfWhichTheStatesAreUnknown() {
        Network network = network(part("HU", HEAD_UNIT), joins("CAR.C1-9 HU.acc", "CAR.chassis HU.ground"));

        for (Scenario scenario : network.scenarios()) {
            assertThat(scenario.isFed("HU")).isEqualTo(Sure.UNKNOWN);
            assertThat(scenario.isLive(node(network, "HU.remote"))).isEqualTo(Sure.UNKNOWN);
        }
    }

    @Test
    void cannotTellWhatHangsOnACircuitOfWhichNothingElectricalIsKnown() {
        Network network = network(part("HU", HEAD_UNIT), joins("CAR.C1-2 HU.acc", "CAR.chassis HU.ground"));

        assertThat(network.scenario(State.RUNNING).isFed("HU")).isEqualTo(Sure.UNKNOWN);
        assertThat(network.scenario(State.RUNNING).isLive(node(network, "HU.remote")))
                .isEqualTo(Sure.UNKNOWN);
    }

    @Test
    void findsAPartFedSurelyWhereAKnownSupplyReachesItBesideAnUnknownOne() {
        Network network =
                network(part("HU", HEAD_UNIT), joins("CAR.C1-8 HU.acc", "CAR.C1-9 HU.acc", "CAR.chassis HU.ground"));

        assertThat(network.scenario(State.RUNNING).isFed("HU")).isEqualTo(Sure.YES);
        assertThat(network.scenario(State.ASLEEP).isFed("HU")).isEqualTo(Sure.UNKNOWN);
    }

    private interface Question {
        boolean holdsIn(Scenario scenario);
    }

    private static Network network(String parts, String connectionsAndMore) {
        String tidy = parts.strip().replaceAll(",$", "");
        String connections = connectionsAndMore.isEmpty() ? "\"connections\": {}" : connectionsAndMore;
        return new Network(Hookups.hookup("""
                {"vehicle": {"inline": {"circuits": {
                   "C1-2": {},
                   "C1-7": {"electrical": {"kind": "supply", "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-8": {"electrical": {"kind": "supply", "live": ["accessory", "ignition", "running", "restarting"]}},
                   "C1-9": {"electrical": {"kind": "supply"}},
                   "C2-1": {"electrical": {"kind": "speaker-out", "channel": "left", "side": "plus"}},
                   "C4-1": {"electrical": {"kind": "supply", "live": ["cranking"]}},
                   "C4-2": {"electrical": {"kind": "supply", "live": ["ignition", "cranking", "running", "restarting"]}},
                   "C5-1": {"electrical": {"kind": "passive"}},
                   "C5-3": {"electrical": {"kind": "supply", "live": ["ignition", "running"], "when": "reverse"}},
                   "C5-9": {"electrical": {"kind": "supply", "live": ["ignition", "running"], "when": ["lamps", "brake"]}},
                   "C5-10": {"electrical": {"kind": "supply", "live": ["asleep"], "when": "lamps"}},
                   "C6-4": {"electrical": {"kind": "control-out", "active": "ground", "live": ["running"], "when": "door-open"}}}}},
                 "parts": {%s}, %s}
                """.formatted(tidy, connections)));
    }

    private static String part(String ref, String use) {
        return "\"%s\": %s,".formatted(ref, use);
    }

    private static String relays(int count) {
        StringBuilder parts = new StringBuilder();
        for (int relay = 0; relay < count; relay++) {
            parts.append(part("K" + relay, RELAY));
        }
        return parts.toString();
    }

    /** Each relay pulls the next, and the last releases the first. */
    private static String ring(int relays) {
        List<String> joins = new ArrayList<>();
        for (int relay = 0; relay < relays; relay++) {
            boolean last = relay == relays - 1;
            joins.add("CAR.C1-8 K" + relay + ".30");
            joins.add("CAR.chassis K" + relay + ".85");
            joins.add("K" + relay + (last ? ".87a" : ".87") + " K" + (last ? 0 : relay + 1) + ".86");
        }
        return joins(joins.toArray(String[]::new));
    }

    /** Connections, each given as its two ends. */
    private static String joins(String... pairs) {
        StringBuilder connections = new StringBuilder("\"connections\": {");
        for (int at = 0; at < pairs.length; at++) {
            String[] ends = pairs[at].split(" ", -1);
            connections.append(String.format(
                    Locale.ROOT, "%s\"W%d\": {\"ends\": [\"%s\", \"%s\"]}", at == 0 ? "" : ", ", at, ends[0], ends[1]));
        }
        return connections.append("}").toString();
    }

    private static Node node(Network network, String ref) {
        return Objects.requireNonNull(network.findNode(ref), ref);
    }

    private static Scenario under(Network network, State state, Condition condition) {
        return network.scenarios().stream()
                .filter(scenario ->
                        scenario.state() == state && scenario.conditions().equals(Set.of(condition)))
                .findFirst()
                .orElseThrow();
    }

    private static boolean isPulled(Scenario scenario, Network network, String part) {
        return network.coils().stream().anyMatch(coil -> coil.part().equals(part) && scenario.isEnergised(coil));
    }

    private static boolean isAtSurely(Sure sure) {
        return sure == Sure.YES;
    }

    private static Set<State> statesIn(Network network, Question question) {
        Set<State> states = new TreeSet<>();
        for (State state : State.values()) {
            if (question.holdsIn(network.scenario(state))) {
                states.add(state);
            }
        }
        return states;
    }

    private static Set<State> liveStates(Network network, String source) {
        return statesIn(network, scenario -> scenario.isLive(node(network, source)) == Sure.YES);
    }
}
