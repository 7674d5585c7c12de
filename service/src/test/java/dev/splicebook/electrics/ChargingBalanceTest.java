package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.ChargingBalance.Battery;
import dev.splicebook.electrics.ChargingBalance.Load;
import dev.splicebook.electrics.ChargingBalance.Phase;
import dev.splicebook.electrics.ChargingBalance.Shedding;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ChargingBalanceTest {

    private static final Battery BATTERY = new Battery(60, 20, 0.85);

    @Test
    void takesLoadsByDuty() {
        List<Load> loads = List.of(new Load("fan", 20, 0.5, true, 1), new Load("lamps", 10, 1, false, 9));

        assertThat(ChargingBalance.loadAmps(loads)).isCloseTo(20, within(1e-12));
        assertThat(ChargingBalance.balanceAmps(45, 20)).isEqualTo(25);
        assertThat(ChargingBalance.meanAmps(List.of(new Phase(-10, 0.25), new Phase(30, 0.75))))
                .isCloseTo(20, within(1e-12));
    }

    @Test
    void dischargesByTheAmpereHour() {
        // 12 A out of 60 Ah from 80 % to 60 %: one hour
        assertThat(ChargingBalance.minutes(List.of(new Phase(-12, 1)), BATTERY, 0.8, 0.6)
                        .orElseThrow())
                .isCloseTo(60, within(1e-9));
    }

    @Test
    void takesNoMoreThanItAccepts() {
        assertThat(ChargingBalance.storedAmps(50, BATTERY, 0.5)).isCloseTo(17, within(1e-12));
        assertThat(ChargingBalance.storedAmps(50, BATTERY, 0.9)).isCloseTo(8.5, within(1e-12));
        assertThat(ChargingBalance.storedAmps(50, BATTERY, 1)).isZero();
        assertThat(ChargingBalance.storedAmps(10, BATTERY, 0.5)).isCloseTo(8.5, within(1e-12));
        assertThat(ChargingBalance.storedAmps(-10, BATTERY, 0.5)).isEqualTo(-10);
    }

    @Test
    void agreesWithSmallSteps() {
        Random random = new Random(4);
        int answered = 0;
        for (int round = 0; round < 200; round++) {
            double share = random.nextDouble();
            List<Phase> phases = List.of(
                    new Phase(60 * random.nextDouble() - 30, share),
                    new Phase(60 * random.nextDouble() - 20, 1 - share));
            double from = random.nextDouble();
            double to = 0.98 * random.nextDouble();
            double minutes = ChargingBalance.minutes(phases, BATTERY, from, to).orElse(Double.NaN);
            if (Double.isNaN(minutes)) {
                double sign = Math.signum(to - from);
                assertThat(Math.min(
                                sign * ChargingBalance.storedAmps(phases, BATTERY, from),
                                sign * ChargingBalance.storedAmps(phases, BATTERY, to)))
                        .as("no time is told only where the charge does not get there")
                        .isLessThanOrEqualTo(0);
            } else if (minutes < 3000) {
                answered++;
                double charge = from;
                int steps = 20_000;
                for (int step = 0; step < steps; step++) {
                    double middle = charge + rate(phases, charge) * minutes / steps / 2;
                    charge += rate(phases, middle) * minutes / steps;
                }
                assertThat(charge)
                        .as("charge after " + minutes + " min of " + phases)
                        .isCloseTo(to, within(1e-5));
            }
        }
        assertThat(answered).isGreaterThan(40);
    }

    private static double rate(List<Phase> phases, double charge) {
        return ChargingBalance.storedAmps(phases, BATTERY, charge) / BATTERY.ampereHours() / 60;
    }

    @Test
    void neverGetsQuiteFull() {
        List<Phase> surplus = List.of(new Phase(30, 1));

        assertThat(ChargingBalance.minutes(surplus, BATTERY, 0.5, 1)).isEmpty();
        // 15 Ah·60/17 A to 80 %, then the tail: 0.2·60/17·ln(0.2/0.01) h, worked by hand
        assertThat(ChargingBalance.minutes(surplus, BATTERY, 0.55, ChargingBalance.FULL_CHARGE)
                        .orElseThrow())
                .isCloseTo(60 * (15 / 17.0 + 12 / 17.0 * Math.log(20)), within(1e-6));
    }

    @Test
    void comesToRestWhereIdlingTakesWhatCruisingGives() {
        // half the time −5 A, half the time what is accepted: 0.85·20·(1−q)/0.2 = 5 at q = 0.941
        List<Phase> phases = List.of(new Phase(-5, 0.5), new Phase(40, 0.5));

        double rest = ChargingBalance.restingCharge(phases, BATTERY);
        assertThat(rest).isCloseTo(1 - 0.2 * 5 / 17, within(1e-9));
        assertThat(ChargingBalance.restingCharge(List.of(new Phase(-1, 1)), BATTERY))
                .isZero();
        assertThat(ChargingBalance.restingCharge(List.of(new Phase(1, 1)), BATTERY))
                .isEqualTo(1);
        assertThat(ChargingBalance.minutes(phases, BATTERY, 0.6, 0.93)).isPresent();
        assertThat(ChargingBalance.minutes(phases, BATTERY, 0.6, 0.95)).isEmpty();
        assertThat(ChargingBalance.minutes(phases, BATTERY, 0.6, 0.5)).isEmpty();
        assertThat(ChargingBalance.minutes(phases, BATTERY, 0.6, 0.6)).hasValue(0);
    }

    @Test
    void shedsTheLeastImportantFirst() {
        Load seat = new Load("seat heater", 5, 1, true, 1);
        Load rear = new Load("rear screen", 15, 1, true, 2);
        Load fan = new Load("fan", 10, 1, true, 3);
        Load pump = new Load("fuel pump", 8, 1, false, 0);
        List<Load> loads = List.of(pump, fan, rear, seat);

        assertThat(ChargingBalance.shed(loads, 4).loads()).containsExactly(seat);
        assertThat(ChargingBalance.shed(loads, 5).loads()).containsExactly(seat);
        // the rear screen alone will do
        assertThat(ChargingBalance.shed(loads, 12).loads()).containsExactly(rear);
        assertThat(ChargingBalance.shed(loads, 18).loads()).containsExactly(seat, rear);
        Shedding all = ChargingBalance.shed(loads, 40);
        assertThat(all.loads()).containsExactly(seat, rear, fan);
        assertThat(all.remainingAmps()).isCloseTo(10, within(1e-12));
        assertThat(ChargingBalance.shed(loads, -3).loads()).isEmpty();
    }

    @Test
    void shedsNothingInVainAndNothingMoreImportantThanMust() {
        Random random = new Random(77);
        for (int round = 0; round < 300; round++) {
            List<Load> loads = new ArrayList<>();
            int count = 1 + random.nextInt(8);
            for (int load = 0; load < count; load++) {
                loads.add(new Load("L" + load, random.nextInt(20), 1, random.nextInt(4) > 0, random.nextInt(4)));
            }
            double deficit = 1 + random.nextInt(40);
            Shedding shedding = ChargingBalance.shed(loads, deficit);
            double sheddable = loads.stream()
                    .filter(Load::sheddable)
                    .mapToDouble(Load::meanAmps)
                    .sum();
            assertThat(shedding.remainingAmps()).isCloseTo(Math.max(0, deficit - sheddable), within(1e-9));
            if (shedding.remainingAmps() > 0) {
                continue;
            }
            assertThat(shedding.reliefAmps()).isGreaterThanOrEqualTo(deficit - 1e-9);
            for (Load load : shedding.loads()) {
                assertThat(shedding.reliefAmps() - load.meanAmps())
                        .as("without " + load)
                        .isLessThan(deficit);
            }
            int most = shedding.loads().stream().mapToInt(Load::priority).max().orElseThrow();
            assertThat(loads.stream()
                            .filter(load -> load.sheddable() && load.priority() < most)
                            .mapToDouble(Load::meanAmps)
                            .sum())
                    .as("what all less important loads would bring")
                    .isLessThan(deficit);
        }
    }
}
