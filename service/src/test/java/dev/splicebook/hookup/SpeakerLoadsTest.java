package dev.splicebook.hookup;

import static dev.splicebook.hookup.Speakers.amplifier;
import static dev.splicebook.hookup.Speakers.dual;
import static dev.splicebook.hookup.Speakers.inSeries;
import static dev.splicebook.hookup.Speakers.output;
import static dev.splicebook.hookup.Speakers.single;
import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Report.DrivenCoil;
import dev.splicebook.hookup.Report.Polarity;
import dev.splicebook.hookup.Report.SpeakerLoad;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Volts, amps and watts by Ohm's law. */
class SpeakerLoadsTest {

    @Test
    void tellsWhatEachCoilOfASeriesGets() {
        assertThat(inSeries(dual(amplifier(), "SUB"), "SUB").check().speakerLoads())
                .containsExactly(new SpeakerLoad(
                        List.of("AMP.plus", "AMP.minus"),
                        8.0,
                        2.0,
                        20.0,
                        List.of(),
                        List.of(
                                new DrivenCoil(
                                        List.of("SUB.1-plus", "SUB.1-minus"), 4.0, 10.0, 2.5, 25.0, Polarity.RIGHT),
                                new DrivenCoil(
                                        List.of("SUB.2-plus", "SUB.2-minus"), 4.0, 10.0, 2.5, 25.0, Polarity.RIGHT))));
    }

    @Test
    void tellsWhichCoilIsTurned() {
        Wiring turned =
                dual(amplifier(), "SUB").join("AMP.plus SUB.1-plus", "SUB.1-minus SUB.2-minus", "SUB.2-plus AMP.minus");

        assertThat(turned.check().speakerLoads().get(0).coils())
                .extracting(DrivenCoil::polarity)
                .containsExactly(Polarity.RIGHT, Polarity.REVERSED);
    }

    @Test
    void leavesOutWhatNeedsTheVoltsOfTheOutput() {
        Wiring unknown =
                single(amplifier("\"drive\": \"floating\""), "SPK").join("AMP.plus SPK.plus", "AMP.minus SPK.minus");

        assertThat(unknown.check().speakerLoads())
                .containsExactly(new SpeakerLoad(
                        List.of("AMP.plus", "AMP.minus"),
                        4.0,
                        null,
                        null,
                        List.of(),
                        List.of(new DrivenCoil(
                                List.of("SPK.plus", "SPK.minus"), 4.0, null, null, null, Polarity.RIGHT))));
    }

    @Test
    void tellsThatNothingClosesTheCircuit() {
        SpeakerLoad load = single(amplifier(), "SPK")
                .join("AMP.plus SPK.plus")
                .check()
                .speakerLoads()
                .get(0);

        assertThat(load.ohms()).isNull();
        assertThat(load.coils())
                .containsExactly(new DrivenCoil(List.of("SPK.plus", "SPK.minus"), 4.0, 0.0, 0.0, 0.0, Polarity.NONE));
    }

    @Test
    void listsOutputsByTheirNames() {
        Wiring two = output(amplifier(), "ABC", "\"drive\": \"floating\", \"maxVolts\": 8, \"minOhms\": 4");
        single(single(two, "SPK"), "TWEETER", "\"ohms\": 8, \"maxWatts\": 100")
                .join("AMP.plus SPK.plus", "AMP.minus SPK.minus", "ABC.plus TWEETER.plus", "ABC.minus TWEETER.minus");

        assertThat(two.check().speakerLoads())
                .extracting(SpeakerLoad::output)
                .containsExactly(List.of("ABC.plus", "ABC.minus"), List.of("AMP.plus", "AMP.minus"));
        assertThat(two.check().speakerLoads().get(0).coils().get(0).watts()).isEqualTo(8);
    }

    @Test
    void saysInWhichStatesARelayConnectsALoudspeaker() {
        Wiring switched = single(amplifier(), "SPK")
                .inside(
                        "K",
                        "\"relays\": [{\"coil\": [\"85\", \"86\"], \"common\": \"30\", \"open\": \"87\", \"coilOhms\": 90}]")
                .car("C1-1", facts("power.ignition", Wiring.supply("running")))
                .join("CAR.C1-1 K.85", "K.86 CAR.chassis", "AMP.plus K.30", "K.87 SPK.plus", "AMP.minus SPK.minus");

        List<SpeakerLoad> loads = switched.check().speakerLoads();

        assertThat(loads).hasSize(2);
        assertThat(loads)
                .filteredOn(load -> load.ohms() != null)
                .singleElement()
                .satisfies(load -> assertThat(load.states()).containsExactly(State.RUNNING));
        assertThat(loads)
                .filteredOn(load -> load.ohms() == null)
                .singleElement()
                .satisfies(load -> assertThat(load.states()).hasSize(5).doesNotContain(State.RUNNING));
    }
}
