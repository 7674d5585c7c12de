package dev.splicebook.hookup;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Report.Assumption;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Every default that a report rests on is told with it, and none that it does not rest on. */
class AssumptionsTest {

    private static final String TURN_ON = "\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 0.3";

    private static List<Assumption> of(Wiring wiring) {
        return wiring.check().assumptions();
    }

    private static void assertNames(Wiring wiring, String... names) {
        assertThat(of(wiring)).extracting(Assumption::name).containsExactly(names);
    }

    @Test
    void assumesNothingWhereEverythingIsStated() {
        assertNames(new Wiring().car("C1-7", facts(constant())).unplug("C1").unused("CAR.C1-7", "capped"));
    }

    @Test
    void tellsThatAnOutputWithoutStatesIsLiveWithItsPart() {
        assertNames(new Wiring().lead("HU", "on", facts(TURN_ON)), "live");
        assertNames(new Wiring().lead("HU", "on", facts(TURN_ON + ", \"live\": [\"running\"]")));
    }

    @Test
    void tellsWhenTheFactoryUnitIsTakenToPlay() {
        Wiring follows = new Wiring()
                .lead("LOC", "in", facts(Wiring.speakerIn("left", "plus")))
                .lead("LOC", "on", facts(TURN_ON + ", \"follows\": \"in\""));

        assertNames(follows, "playing");
    }

    @Test
    void tellsWhichConnectorsAreTakenToBeOffByTheirPlugs() {
        Wiring mated = new Wiring()
                .car("C1-1", facts("\"kind\": \"antenna\""))
                .lead("HU", "A-1", facts("\"kind\": \"antenna\""))
                .plug("CAR.C1", "HU.A");

        assertThat(of(mated)).singleElement().satisfies(assumption -> {
            assertThat(assumption.name()).isEqualTo("unplugged");
            assertThat(assumption.about()).endsWith(": C1");
        });
        assertNames(mated.unplug("C1"));
    }

    @Test
    void tellsTheGainOfACouplingThatStatesNone() {
        Wiring isolator = new Wiring().inside("ISO", "\"couples\": [" + couple("a", "b", "c", "d", "") + "]");

        assertThat(of(isolator)).singleElement().satisfies(assumption -> {
            assertThat(assumption.name()).isEqualTo("gain");
            assertThat(assumption.value()).isEqualTo(1.0);
        });
        assertNames(new Wiring().inside("ISO", "\"couples\": [" + couple("a", "b", "c", "d", "\"gain\": 1.0") + "]"));
    }

    @Test
    void tellsTheInsulationThatAnAmpacityRestsOn() {
        Wiring fused = new Wiring()
                .lead("AMP", "plus", facts("\"kind\": \"load\", \"maxAmps\": 10"))
                .joinBy(
                        "CAR.battery-plus AMP.plus",
                        "\"conductor\": {\"size\": \"18 AWG\"}, \"fuse\": {\"ratingAmps\": 15}");

        assertThat(of(fused)).anySatisfy(assumption -> {
            assertThat(assumption.name()).isEqualTo("insulationCelsius");
            assertThat(assumption.value()).isEqualTo(105);
        });
    }
}
