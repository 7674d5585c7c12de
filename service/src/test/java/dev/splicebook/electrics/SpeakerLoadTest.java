package dev.splicebook.electrics;

import static dev.splicebook.electrics.SpeakerLoad.SpeakerHazard.COIL_LEFT_OPEN;
import static dev.splicebook.electrics.SpeakerLoad.SpeakerHazard.COIL_OVERLOADED;
import static dev.splicebook.electrics.SpeakerLoad.SpeakerHazard.LOAD_TOO_LOW;
import static dev.splicebook.electrics.SpeakerLoad.SpeakerHazard.POLARITY;
import static dev.splicebook.electrics.SpeakerLoad.SpeakerHazard.UNBALANCED;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.AmplifierOutput.LoadWatts;
import dev.splicebook.electrics.SpeakerDriver.Coil;
import dev.splicebook.electrics.SpeakerLoad.Assessed;
import dev.splicebook.electrics.SpeakerLoad.CoilDrive;
import dev.splicebook.electrics.SpeakerLoad.Found;
import dev.splicebook.guard.InvalidValueException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class SpeakerLoadTest {

    private static final int ALL = 1000;

    private static final AmplifierOutput ONE_OHM =
            output(1, new LoadWatts(4, 350), new LoadWatts(2, 600), new LoadWatts(1, 1000));

    @Test
    void findsOneFourAndSixteenOhmsForTwoDriversWithTwoFourOhmCoils() {
        Found found = SpeakerLoad.wirings(twoDuals(4, 250.0), ONE_OHM, null, ALL);
        assertThat(found.total()).isEqualTo(10);
        assertThat(found.listed()).hasSize(10);
        assertThat(found.listed())
                .extracting(each -> Math.round(each.ohms() * 1000) / 1000.0)
                .containsExactlyInAnyOrder(1.0, 1.6, 2.4, 3.0, 4.0, 4.0, 5.333, 6.667, 10.0, 16.0);
        assertThat(best(found).wiring().text()).isEqualTo("A.1 | A.2 | B.1 | B.2");
        assertThat(best(found).single().usableWatts()).isEqualTo(1000);
    }

    @Test
    void keepsToTheLeastLoadOfTheAmplifier() {
        Found found = SpeakerLoad.wirings(
                twoDuals(4, null), output(2, new LoadWatts(4, 350), new LoadWatts(2, 600)), null, ALL);
        assertThat(best(found).wiring().text()).isEqualTo("(A.1 + A.2) | (B.1 + B.2)");
        assertThat(best(found).ohms()).isEqualTo(4);
        assertThat(best(found).minimumOhms()).as("80 %, after IEC 60268-5").isCloseTo(3.2, within(1e-12));
        for (Assessed each : found.listed()) {
            assertThat(each.single().hazards().contains(LOAD_TOO_LOW)).isEqualTo(each.ohms() < 2 - 1e-6);
        }
    }

    @Test
    void judgesTheBridgedModeByItsOwnLeastLoad() {
        Found found = SpeakerLoad.wirings(twoDuals(4, 400.0), ONE_OHM, output(4, new LoadWatts(4, 1200)), ALL);
        assertThat(best(found).ohms()).isEqualTo(1);
        assertThat(Objects.requireNonNull(best(found).bridged()).hazards()).contains(LOAD_TOO_LOW);
        Assessed bridged = Objects.requireNonNull(found.bestBridged());
        assertThat(bridged.ohms()).isEqualTo(4);
        assertThat(Objects.requireNonNull(bridged.bridged()).usableWatts()).isEqualTo(1200);
    }

    @Test
    void givesBothCoilsOfADriverTheSame() {
        for (Assessed each :
                SpeakerLoad.wirings(twoDuals(4, null), ONE_OHM, null, ALL).listed()) {
            assertThat(each.single().safe())
                    .as(each.wiring().text())
                    .isEqualTo(each.unbalancedDrivers().isEmpty());
        }
        Assessed unbalanced = assess("(A.1 + A.2 + B.1) | B.2", twoDuals(4, null));
        assertThat(unbalanced.single().hazards()).containsExactly(UNBALANCED);
        assertThat(unbalanced.unbalancedDrivers()).containsExactly("B");
        // of the same pattern, another choice of coils is balanced
        assertThat(assess("(A.1 | B.1) + A.2 + B.2", twoDuals(4, null)).unbalancedDrivers())
                .containsExactly("A", "B");
        Assessed choice = assess("(A.1 | A.2) + B.1 + B.2", twoDuals(4, null));
        assertThat(choice.single().hazards()).isEmpty();
        assertThat(choice.unevenDrivers()).containsExactly("A", "B");
    }

    @Test
    void prefersToServeLikeDriversAlike() {
        // three of 4 Ω on 2 Ω: 1.33 is too low, 6 Ω gives most but four times as much to one driver as to the others
        List<SpeakerDriver> three = List.of(single("A", 4), single("B", 4), single("C", 4));
        Found found = SpeakerLoad.wirings(three, output(2, new LoadWatts(4, 100)), null, ALL);
        assertThat(found.total()).isEqualTo(4);
        assertThat(best(found).wiring().text()).isEqualTo("A + B + C");
    }

    @Test
    void turnsDownRatherThanUp() {
        // 4 × 60 W of coils on an amplifier of 350 W into 4 Ω: as it is only 16 Ω is safe, at 240 W 4 Ω would be
        Found found = SpeakerLoad.wirings(twoDuals(4, 60.0), output(4, new LoadWatts(4, 350)), null, ALL);
        assertThat(best(found).ohms()).isEqualTo(16);
        Assessed limited = Objects.requireNonNull(found.limited());
        assertThat(limited.ohms()).isEqualTo(4);
        assertThat(limited.single().hazards()).containsExactly(COIL_OVERLOADED);
        assertThat(limited.single().usableWatts()).isNotNull().isCloseTo(240, within(1e-9));
        assertThat(limited.single().coils())
                .allSatisfy(each -> assertThat(each.watts()).isEqualTo(87.5));
    }

    @Test
    void acceptsACoilAtExactlyItsRating() {
        assertThat(assess("A.1 | A.2 | B.1 | B.2", twoDuals(4, 250.0)).single().safe())
                .isTrue();
        assertThat(assess("A.1 | A.2 | B.1 | B.2", twoDuals(4, 249.9)).single().hazards())
                .containsExactly(COIL_OVERLOADED);
    }

    @Test
    void tellsOpenCoilsAndWrongPolarity() {
        Assessed open = assess("A.1 + B.1", twoDuals(4, null));
        assertThat(open.unusedCoils()).containsExactly("A.2", "B.2");
        assertThat(open.single().hazards()).containsExactly(COIL_LEFT_OPEN);
        // a driver that is not there at all is no hazard
        assertThat(assess("A.1 + A.2", twoDuals(4, null)).single().hazards()).isEmpty();
        assertThat(assess("A.1 + A.2 + B.1 + -B.2", twoDuals(4, null)).single().hazards())
                .containsExactly(POLARITY);
    }

    @Test
    void accountsForAllWattsInEveryWiring() {
        Random random = new Random(8);
        for (int round = 0; round < 20; round++) {
            List<SpeakerDriver> drivers = new ArrayList<>();
            for (int each = 0; each <= round % 3; each++) {
                double ohms = 1 + random.nextInt(8);
                drivers.add(new SpeakerDriver(
                        "D" + each, List.of(new Coil(ohms, null), new Coil(ohms + random.nextInt(2), null))));
            }
            Found found = SpeakerLoad.wirings(drivers, ONE_OHM, null, 50);
            for (Assessed each : found.listed()) {
                double mostWatts = Objects.requireNonNull(each.single().mostWatts());
                double sum = 0;
                for (CoilDrive coil : each.single().coils()) {
                    double amps = Objects.requireNonNull(coil.amps());
                    double watts = Objects.requireNonNull(coil.watts());
                    assertThat(watts / amps / amps).as("ohms of the coil").isBetween(0.999, 9.001);
                    sum += watts;
                }
                assertThat(sum).as("watts").isCloseTo(mostWatts, within(mostWatts * 1e-9));
                assertThat(each.wiring().coils()).doesNotHaveDuplicates();
                assertThat(each.unusedCoils()).isEmpty();
            }
        }
    }

    @Test
    void listsTheBestOfVeryMany() {
        // eight coils that all differ: 1 320 064 wirings with labels, OEIS A006351 (from memory)
        List<SpeakerDriver> drivers = new ArrayList<>();
        for (int each = 0; each < 4; each++) {
            drivers.add(new SpeakerDriver("D" + each, List.of(new Coil(2 + each, null), new Coil(7.5 + each, null))));
        }
        Found found = SpeakerLoad.wirings(drivers, output(2, new LoadWatts(4, 100)), null, 20);
        assertThat(found.total()).isEqualTo(1_320_064);
        assertThat(found.listed()).hasSize(20);
        assertThat(best(found)).isEqualTo(found.listed().get(0));
        // its two coils in series are all that gives both of a driver the same amperes
        assertThat(best(found).wiring().text()).contains("D0.1 + D0.2", "D1.1 + D1.2", "D2.1 + D2.2", "D3.1 + D3.2");
    }

    @Test
    void ranksByLoadAloneWhereNoWattsAreKnown() {
        Found found = SpeakerLoad.wirings(twoDuals(4, 100.0), output(2), null, ALL);
        assertThat(best(found).ohms()).isEqualTo(4);
        assertThat(best(found).single().usableWatts()).isNull();
        assertThat(best(found).single().coils())
                .allSatisfy(each -> assertThat(each.amps()).isNull());
    }

    @Test
    void findsNoneWhereEveryLoadIsTooLow() {
        Found found = SpeakerLoad.wirings(List.of(single("A", 4)), output(8, new LoadWatts(8, 10)), null, ALL);
        assertThat(found.best()).isNull();
        assertThat(found.limited()).isNull();
        assertThat(found.listed()).hasSize(1);
    }

    @Test
    void refusesTooManyCoilsAndNamesUsedTwice() {
        List<SpeakerDriver> nine = new ArrayList<>(twoDuals(4, null));
        for (int each = 0; each < 5; each++) {
            nine.add(single("S" + each, 4));
        }
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> SpeakerLoad.wirings(nine, ONE_OHM, null, ALL))
                .withMessageContaining("9 coils");
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> SpeakerLoad.wirings(List.of(), ONE_OHM, null, ALL));
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> SpeakerLoad.wirings(List.of(single("A", 4), single("A", 8)), ONE_OHM, null, ALL))
                .withMessageContaining("/1/name");
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new SpeakerDriver("A B", List.of()));
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new Coil(0, -1.0));
    }

    private static Assessed best(Found found) {
        assertThat(found.best()).isNotNull();
        return Objects.requireNonNull(found.best());
    }

    private static Assessed assess(String wiring, List<SpeakerDriver> drivers) {
        return SpeakerLoad.assess(Wiring.parse(new WiringText(wiring), drivers), drivers, ONE_OHM, null);
    }

    private static AmplifierOutput output(double minOhms, LoadWatts... wattsByLoad) {
        return new AmplifierOutput(minOhms, List.of(wattsByLoad));
    }

    private static SpeakerDriver single(String name, double ohms) {
        return new SpeakerDriver(name, List.of(new Coil(ohms, null)));
    }

    private static List<SpeakerDriver> twoDuals(double ohms, @Nullable Double ratedWatts) {
        Coil coil = new Coil(ohms, ratedWatts);
        return List.of(new SpeakerDriver("A", List.of(coil, coil)), new SpeakerDriver("B", List.of(coil, coil)));
    }
}
