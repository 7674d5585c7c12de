package dev.splicebook.hookup.net;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Bus;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Hazard;
import dev.splicebook.hookup.InputReturn;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.State;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class FactsTextTest {

    private static final List<State> LIVE = List.of(State.ASLEEP, State.RUNNING);
    private static final List<Condition> WHEN = List.of(Condition.REVERSE, Condition.LAMPS);

    static Stream<Electrical> facts() {
        return Stream.of(
                new Electrical.Supply(12.5, 3.0, LIVE, WHEN, 10.0, true, true),
                new Electrical.Load(1.0, 2.0, Need.SWITCHED, 9.0, 16.0, 0.001),
                new Electrical.Ground(30.0),
                new Electrical.ControlOut(Active.GROUND, 0.3, LIVE, WHEN, null),
                new Electrical.ControlIn(Active.TWELVE_VOLTS, 0.02, 8.0, 16.0),
                new Electrical.SpeakerOut(Channel.LEFT, Side.PLUS, Drive.FLOATING, 9.0, 6.0, 2.0, 20.0),
                new Electrical.SpeakerIn(Channel.RIGHT, Side.MINUS, 4.0, 10.0, 60.0, null),
                new Electrical.LineOut(Channel.LEFT, Side.SIGNAL, 2.0, 100.0, 2.5, OutputReturn.CHASSIS),
                new Electrical.LineIn(Channel.RIGHT, Side.RETURN, 0.2, 4.0, 10_000.0, InputReturn.ISOLATED, 1.0),
                new Electrical.VideoOut(Side.SIGNAL, "composite"),
                new Electrical.VideoIn(Side.SIGNAL, "composite"),
                new Electrical.Data(Bus.CAN, "high"),
                new Electrical.Antenna(),
                new Electrical.Passive(),
                new Electrical.Untouchable(Hazard.AIRBAG),
                new Electrical.Load(null, null, null, null, 16.0, null),
                new Electrical.Supply(null, null, null, List.of(), null, null, false));
    }

    @ParameterizedTest
    @MethodSource("facts")
    void isWhatTheRecordSays(Electrical facts) {
        assertThat(FactsText.of(facts)).isEqualTo(facts.toString());
    }

    @Test
    void tellsNoNameOfAnotherTerminal() {
        Electrical follower = new Electrical.ControlOut(Active.GROUND, 0.3, LIVE, WHEN, "front");
        Electrical coil = new Electrical.SpeakerIn(Channel.RIGHT, Side.MINUS, 4.0, 10.0, 60.0, "1");

        assertThat(FactsText.of(follower))
                .isEqualTo(new Electrical.ControlOut(Active.GROUND, 0.3, LIVE, WHEN, null) + " follows");
        assertThat(FactsText.of(coil))
                .isEqualTo(new Electrical.SpeakerIn(Channel.RIGHT, Side.MINUS, 4.0, 10.0, 60.0, "coil").toString());
    }

    @Test
    void triesEveryKindOfFacts() {
        List<Class<?>> kinds = Arrays.stream(Electrical.class.getDeclaredClasses())
                .filter(Class::isRecord)
                .toList();
        assertThat(kinds).isNotEmpty();
        assertThat(facts().map(Electrical::getClass).distinct()).containsExactlyInAnyOrderElementsOf(castAll(kinds));
    }

    @Test
    void keepsWhatItSaidOfFactsThatStateNothingNew() {
        // fingerprints of waivers given earlier are made of these
        assertThat(FactsText.of(new Electrical.Load(1.0, 2.0, Need.SWITCHED, 9.0, null, 0.001)))
                .isEqualTo("Load[typicalAmps=1.0, maxAmps=2.0, needs=SWITCHED, minVolts=9.0, sleepAmps=0.001]");
        assertThat(FactsText.of(new Electrical.ControlIn(Active.GROUND, null, null, null)))
                .isEqualTo("ControlIn[active=ground, amps=null, minVolts=null]");
        assertThat(FactsText.of(new Electrical.Supply(null, null, null, List.of(), null, true, null)))
                .isEqualTo("Supply[volts=null, maxAmps=null, live=null, when=[], fuseAmps=null, limited=true]");
    }

    @Test
    void saysThatNothingIsKnown() {
        assertThat(FactsText.of(null)).isEqualTo("null");
    }

    private static List<Class<? extends Electrical>> castAll(List<Class<?>> kinds) {
        return kinds.stream()
                .<Class<? extends Electrical>>map(kind -> kind.asSubclass(Electrical.class))
                .toList();
    }
}
