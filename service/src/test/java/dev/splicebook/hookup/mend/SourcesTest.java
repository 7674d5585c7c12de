package dev.splicebook.hookup.mend;

import static dev.splicebook.hookup.mend.Proposing.defect;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.LengthUnit;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Connection.WireFuse;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Wiring;
import dev.splicebook.hookup.mend.Defect.Place;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class SourcesTest {

    private static final List<State> ALWAYS = List.of(State.values());
    private static final List<State> AWAKE =
            List.of(State.ACCESSORY, State.IGNITION, State.CRANKING, State.RUNNING, State.RESTARTING);

    private static Place place(@Nullable Electrical facts) {
        return new Place("CAR.C1-1", facts, null, false);
    }

    private static Electrical supply(@Nullable List<State> live, Condition... when) {
        return new Electrical.Supply(null, 5.0, live, List.of(when), null, null, null);
    }

    private static Electrical out(
            Active active, @Nullable List<State> live, @Nullable String follows, Condition... when) {
        return new Electrical.ControlOut(active, 0.5, live, List.of(when), follows);
    }

    @Test
    void areConstantIfLiveInEveryStateWhateverHolds() {
        assertThat(Sources.isConstant(place(supply(ALWAYS)))).isTrue();
        assertThat(Sources.isConstant(place(supply(AWAKE)))).isFalse();
        assertThat(Sources.isConstant(place(supply(null)))).isFalse();
        assertThat(Sources.isConstant(place(supply(ALWAYS, Condition.LAMPS)))).isFalse();
        assertThat(Sources.isConstant(place(out(Active.TWELVE_VOLTS, ALWAYS, null))))
                .isFalse();
    }

    @Test
    void areSwitchedIfLiveWhileRunningAndDeadAsleep() {
        assertThat(Sources.isSwitched(place(supply(AWAKE)))).isTrue();
        assertThat(Sources.isSwitched(place(supply(ALWAYS)))).isFalse();
        assertThat(Sources.isSwitched(place(supply(List.of(State.ACCESSORY))))).isFalse();
        assertThat(Sources.isSwitched(place(supply(null)))).isFalse();
        assertThat(Sources.isSwitched(place(supply(AWAKE, Condition.LAMPS)))).isFalse();
        assertThat(Sources.isSwitched(place(null))).isFalse();
        assertThat(Sources.isSwitched(place(out(Active.TWELVE_VOLTS, AWAKE, null))))
                .isTrue();
        assertThat(Sources.isSwitched(place(out(Active.GROUND, AWAKE, null)))).isFalse();
        assertThat(Sources.isSwitched(place(out(Active.TWELVE_VOLTS, AWAKE, null, Condition.REVERSE))))
                .isFalse();
        assertThat(Sources.isSwitched(place(out(Active.TWELVE_VOLTS, null, null))))
                .isFalse();
    }

    @Test
    void areSwitchedIfTheyFollowWhatSleeps() {
        assertThat(Sources.isSwitched(place(out(Active.TWELVE_VOLTS, null, "speaker"))))
                .isTrue();
        assertThat(Sources.isSwitched(place(out(Active.TWELVE_VOLTS, ALWAYS, "speaker"))))
                .isFalse();
        assertThat(Sources.isSwitched(place(out(Active.GROUND, null, "speaker"))))
                .isFalse();
    }

    @Test
    void giveWhatTheyStateAndTheBatteryAnything() {
        assertThat(Sources.gives(place(supply(ALWAYS)), 5)).isTrue();
        assertThat(Sources.gives(place(supply(ALWAYS)), 5.1)).isFalse();
        assertThat(Sources.gives(place(new Electrical.Supply(null, null, ALWAYS, List.of(), 15.0, null, null)), 15))
                .isTrue();
        assertThat(Sources.gives(place(new Electrical.Supply(null, null, ALWAYS, List.of(), null, null, null)), 0))
                .isFalse();
        assertThat(Sources.gives(place(out(Active.TWELVE_VOLTS, AWAKE, null)), 0.5))
                .isTrue();
        assertThat(Sources.gives(place(out(Active.TWELVE_VOLTS, AWAKE, null)), 0.6))
                .isFalse();
        assertThat(Sources.gives(new Place("CAR.battery-plus", null, null, false), 500))
                .isTrue();
    }

    /** One constant, one switched, a weak one, one that waits for the lamps; C3 is at work already, and so is HU. */
    private static Wiring vehicle() {
        return new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C2-1", Wiring.facts(Wiring.supply("accessory", "running")))
                .car("C2-2", Wiring.facts(Wiring.supply("running") + ", \"when\": \"lamps\""))
                .car("C3-1", Wiring.facts(Wiring.constant()))
                .car("C3-2", Wiring.facts("power.battery", Wiring.constant().replace("10", "1")))
                .car("C3-3", Wiring.facts("\"kind\": \"ground\""))
                .car("C4-1", Wiring.facts("power.accessory", Wiring.supply("accessory", "running")))
                .lead("HU", "minus", Wiring.facts("\"kind\": \"ground\""))
                .lead(
                        "HU",
                        "out",
                        Wiring.facts(
                                "\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 20, \"live\": [\"running\"]"))
                .join("CAR.C3-3 HU.minus");
    }

    private static List<String> forLoad(Need needs, @Nullable Double maxAmps, @Nullable String function) {
        Electrical.Load load = new Electrical.Load(2.0, maxAmps, needs, null, null, null);
        return Sources.forLoad(
                        load,
                        function == null ? null : new FunctionId(function),
                        defect("load-without-supply", vehicle(), Stock.NONE, "", ""))
                .stream()
                .map(Place::ref)
                .toList();
    }

    @Test
    void suitALoadWhereWorkGoesOnFirstAndTheBatteryLast() {
        assertThat(forLoad(Need.CONSTANT, 5.0, null)).containsExactly("CAR.C3-1", "CAR.C1-1", "CAR.battery-plus");
        assertThat(forLoad(Need.SWITCHED, 5.0, null)).containsExactly("CAR.C2-1", "CAR.C4-1");
        assertThat(forLoad(Need.EITHER, 5.0, null)).containsExactly("CAR.C3-1", "CAR.C1-1", "CAR.C2-1", "CAR.C4-1");
        assertThat(forLoad(Need.CONSTANT, 11.0, null)).containsExactly("CAR.battery-plus");
    }

    @Test
    void areGaugedByWhatIsDrawnForLongWhereTheMostIsUnknown() {
        assertThat(forLoad(Need.CONSTANT, null, null)).containsExactly("CAR.C3-1", "CAR.C1-1", "CAR.battery-plus");
        assertThat(Sources.amps(new Electrical.Load(2.0, null, null, null, null, null)))
                .isEqualTo(2);
        assertThat(Sources.amps(new Electrical.Load(2.0, 3.0, null, null, null, null)))
                .isEqualTo(3);
        assertThat(Sources.amps(new Electrical.Load(null, null, null, null, null, null)))
                .isZero();
    }

    @Test
    void ofTheSameFunctionComeFirst() {
        assertThat(forLoad(Need.SWITCHED, 5.0, "power.accessory")).containsExactly("CAR.C4-1", "CAR.C2-1");
    }

    private static final Conductor THIN = new Conductor(new ConductorSize("18 AWG"), ConductorMaterial.COPPER, 105.0);
    private static final Length METRE = new Length(1, LengthUnit.M);

    private static @Nullable WireFuse fuseAt(Electrical supply, double ratingAmps) {
        return Sources.fuseFor(place(supply), ratingAmps, THIN, METRE);
    }

    @Test
    void needNoFuseWhereOneUpstreamIsSmallEnough() {
        assertThat(fuseAt(new Electrical.Supply(null, 10.0, ALWAYS, List.of(), 10.0, null, null), 10))
                .isNull();
        assertThat(fuseAt(new Electrical.Supply(null, 1.0, ALWAYS, List.of(), null, true, null), 10))
                .isNull();
        assertThat(fuseAt(out(Active.TWELVE_VOLTS, AWAKE, null), 1)).isNull();
        assertThat(Objects.requireNonNull(
                                fuseAt(new Electrical.Supply(null, 20.0, ALWAYS, List.of(), 20.0, null, null), 10))
                        .ratingAmps())
                .isEqualTo(10);
        assertThat(Objects.requireNonNull(fuseAt(supply(ALWAYS), 10)).ratingAmps())
                .isEqualTo(10);
    }

    @Test
    void protectTheConductorBeforeTheLoad() {
        // 18 AWG of 105 °C carries less than 50 A by any table
        double rating = Objects.requireNonNull(fuseAt(supply(ALWAYS), 50)).ratingAmps();
        assertThat(rating).isEqualTo(Sizing.ampacity(THIN)).isLessThan(30);
    }

    @Test
    void haveTheFuseWithinTenCentimetresOrWithinTheWire() {
        Length short6 = new Length(6, LengthUnit.CM);
        assertThat(Objects.requireNonNull(Sizing.fuse(5, METRE).fromSource()).metres())
                .isEqualTo(0.1);
        assertThat(Objects.requireNonNull(Sizing.fuse(5, short6).fromSource()).metres())
                .isEqualTo(0.06);
        assertThat(Objects.requireNonNull(Sizing.fuse(5, null).fromSource()).metres())
                .isEqualTo(0.1);
    }

    @Test
    void areJoinedByTheThinnestConductorThatTheFuseProtects() {
        for (double rating : List.of(1.0, 10.0, 20.0, 40.0, 100.0)) {
            Conductor chosen = Sizing.conductorFor(rating, Sizing.NEAR);
            assertThat(Sizing.ampacity(chosen)).isGreaterThanOrEqualTo(rating);
            assertThat(chosen.size().areaMm2()).isGreaterThanOrEqualTo(0.8);
            assertThat(Sizing.thicker(THIN).stream()
                            .filter(one -> one.size().areaMm2() < chosen.size().areaMm2() * 0.999)
                            .filter(one -> Sizing.ampacity(one) >= rating))
                    .isEmpty();
        }
        assertThat(Sizing.conductorFor(1, METRE).size().value()).isEqualTo("18 AWG");
    }

    @Test
    void areJoinedOverALongWayByAConductorThatTakesFewVolts() {
        // handbook tables, copper at 20 °C: 6 AWG 1.296, 4 AWG 0.815, 2 AWG 0.513 ohms a km, 8 % more at 40 °C;
        // 0.25 V at 60 A over 4 m are 1.04 ohms a km, at 100 A 0.63
        Length long4 = new Length(4, LengthUnit.M);
        assertThat(Sizing.conductorFor(60, long4).size().value()).isEqualTo("4 AWG");
        assertThat(Sizing.conductorFor(100, long4).size().value()).isEqualTo("2 AWG");
    }

    @Test
    void takeTheLeastRatingThatBearsALoadAndTheGreatestThatAConductorBears() {
        // 12 A for long want 16 A, at 75 % of the rating
        assertThat(Sizing.ratingFor(12, 12)).isEqualTo(20);
        assertThat(Sizing.ratingFor(3, 10)).isEqualTo(10);
        assertThat(Sizing.ratingFor(11.25, 15)).isEqualTo(15);
        double most = Sizing.ratingOf(THIN);
        assertThat(most).isLessThanOrEqualTo(Sizing.ampacity(THIN));
        assertThat(Sizing.ratingFor(0, most + 0.01)).isGreaterThan(Sizing.ampacity(THIN));
    }
}
