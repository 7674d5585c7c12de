package dev.splicebook.hookup.mend;

import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.lineIn;
import static dev.splicebook.hookup.Wiring.lineOut;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Mending;
import dev.splicebook.hookup.Remedy;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Wiring;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** What is offered where a wish is not met or a warning sound is lost, each applied and checked again. */
class JoinByFunctionTest {

    private static final String REAR = "audio.line.rear-entertainment.left";
    private static final String LAMPS = "power.illumination";

    private static List<String> offered(Hookup hookup, String rule) {
        Mending.Means means = new Mending.Means(
                Hookups.checker()::check, Stock.NONE, new Mending.Bounds(2000, Duration.ofSeconds(60)));
        return new Mending()
                .remedy(hookup, Hookups.checker().check(hookup), means).report().findings().stream()
                        .filter(finding -> finding.rule().equals(rule))
                        .flatMap(finding -> Objects.requireNonNull(finding.remedies()).stream())
                        .map(Remedy::what)
                        .toList();
    }

    /** The rear seats' sound in a connector that is off its unit, and a head unit with a pair of that function. */
    private static Wiring rearSeats(String signalAtUnit, String returnAtUnit) {
        return new Wiring()
                .car("C2-1", facts(REAR + ".signal", lineOut("left", "signal", "chassis")))
                .car("C2-2", facts(REAR + ".return", lineOut("left", "return", "chassis")))
                .unplug("C2")
                .lead("HU", "rear", facts(signalAtUnit, lineIn("left", "signal", "chassis")))
                .lead("HU", "rear-return", facts(returnAtUnit, lineIn("left", "return", "chassis")))
                .wish(REAR, "keep");
    }

    @Test
    void connectsBothSidesOfAPairThatIsToBeKept() {
        Hookup hookup = rearSeats(REAR + ".signal", REAR + ".return").hookup();

        assertThat(offered(hookup, "wish-unmet"))
                .containsExactly("Connect CAR.C2-1 to HU.rear and CAR.C2-2 to HU.rear-return.");
    }

    @Test
    void connectsWhatHasAWiderFunctionWhereNothingHasTheSame() {
        Hookup hookup = rearSeats("audio.line", "audio.line").hookup();

        assertThat(offered(hookup, "wish-unmet"))
                .containsExactly("Connect CAR.C2-1 to HU.rear and CAR.C2-2 to HU.rear-return.");
    }

    @Test
    void guessesNothingWhereTwoInputsAreAlike() {
        Hookup hookup = rearSeats(REAR + ".signal", REAR + ".return")
                .lead("HU", "more", facts(REAR + ".signal", lineIn("left", "signal", "chassis")))
                .lead("HU", "more-return", facts(REAR + ".return", lineIn("left", "return", "chassis")))
                .hookup();

        assertThat(offered(hookup, "wish-unmet")).isEmpty();
    }

    @Test
    void takesNothingThatIsConnectedOrOfAnotherFunction() {
        Hookup used = rearSeats(REAR + ".signal", REAR + ".return")
                .lead("PLAYER", "left", facts("audio.line.auxiliary.left.signal", lineOut("left", "signal", "chassis")))
                .lead("PLAYER", "back", facts("audio.line.auxiliary.left.return", lineOut("left", "return", "chassis")))
                .join("PLAYER.left HU.rear", "PLAYER.back HU.rear-return")
                .hookup();
        Hookup other = rearSeats("audio.microphone", "audio.microphone").hookup();

        assertThat(offered(used, "wish-unmet")).isEmpty();
        assertThat(offered(other, "wish-unmet")).isEmpty();
    }

    @Test
    void connectsTheLampsToAnInputThatListensForThem() {
        String listens = "\"kind\": \"control-in\", \"active\": \"%s\", \"amps\": 0.01";
        Wiring wiring = new Wiring()
                .car("C1-3", facts(LAMPS, supply("running") + ", \"when\": \"lamps\""))
                .unplug("C1")
                .wish(LAMPS, "keep");

        assertThat(offered(
                        wiring.lead("HU", "dim", facts(LAMPS, listens.formatted("12V")))
                                .hookup(),
                        "wish-unmet"))
                .containsExactly("Connect CAR.C1-3 to HU.dim.");
    }

    @Test
    void connectsWhatIsToBeAddedToTheVehicle() {
        Hookup hookup = new Wiring()
                .car("C7-1", facts("control.reverse", supply("running") + ", \"when\": \"reverse\""))
                .lead("HU", "reverse", facts("control.reverse", "\"kind\": \"control-in\", \"active\": \"12V\""))
                .wish("control.reverse", "add")
                .hookup();

        assertThat(offered(hookup, "wish-unmet")).containsExactly("Connect HU.reverse to CAR.C7-1.");
    }

    @Test
    void connectsALostSoundToTheInterfaceThatKeepsIt() {
        Wiring wiring = new Wiring().car("C1-6", """
                        {"function": "audio.chime", "electrical": {"kind": "passive"}, "carries": ["warning chimes"]}""").unplug("C1");

        assertThat(offered(wiring.hookup(), "safety-sound-lost")).isEmpty();
        assertThat(offered(
                        wiring.lead("IFC", "chime", facts("audio.chime", "\"kind\": \"passive\""))
                                .hookup(),
                        "safety-sound-lost"))
                .containsExactly("Connect CAR.C1-6 to IFC.chime.");
    }

    @Test
    void feedsNoLoad() {
        Hookup hookup = new Wiring()
                .car("C1-3", facts(LAMPS, supply("running") + ", \"when\": \"lamps\""))
                .unplug("C1")
                .lead("BULB", "plus", facts(LAMPS, "\"kind\": \"load\", \"maxAmps\": 0.2, \"needs\": \"either\""))
                .wish(LAMPS, "keep")
                .hookup();

        assertThat(offered(hookup, "wish-unmet")).isEmpty();
    }

    @Test
    void matesTheConnectorThatFits() {
        String harness = """
                {"vehicle": {"inline": {
                    "connectors": {"C2": {"mates": ["rear-2"]}},
                    "circuits": {
                      "C2-1": {"function": "audio.line.rear-entertainment.left.signal", "electrical": {"kind": "line-out",
                        "channel": "left", "side": "signal", "maxVolts": 1, "return": "chassis", "biasVolts": 0}},
                      "C2-2": {"function": "audio.line.rear-entertainment.left.return", "electrical": {"kind": "line-out",
                        "channel": "left", "side": "return", "maxVolts": 1, "return": "chassis", "biasVolts": 0}}}},
                  "unplugged": ["C2"]},
                 "parts": {"HU": {"inline": {
                    "connectors": {"P1": {"mates": ["%s"]}},
                    "terminals": {
                      "P1-1": {"electrical": {"kind": "line-in", "channel": "left", "side": "signal", "return": "chassis"}},
                      "P1-2": {"electrical": {"kind": "line-in", "channel": "left", "side": "return",
                        "return": "chassis"}}}}}},
                 "wishes": [{"function": "audio.line.rear-entertainment.left", "want": "keep"}]}""";

        assertThat(offered(Hookups.hookup(harness.formatted("rear-2")), "wish-unmet"))
                .contains("Mate CAR.C2 with HU.P1.");
        assertThat(offered(Hookups.hookup(harness.formatted("front-1")), "wish-unmet"))
                .isEmpty();
    }

    @Test
    void joinsNothingToWhatMustBeLeftAlone() {
        Hookup hookup = new Wiring()
                .car("C1-6", facts("safety.airbag", "\"kind\": \"untouchable\", \"reason\": \"airbag\""))
                .unplug("C1")
                .lead("IFC", "input", facts("safety.airbag", "\"kind\": \"passive\""))
                .inside("ISO", "\"couples\": [" + couple("l", "lr", "lo", "lor", "") + "]")
                .wish("safety.airbag", "keep")
                .hookup();

        assertThat(offered(hookup, "wish-unmet")).isEmpty();
    }
}
