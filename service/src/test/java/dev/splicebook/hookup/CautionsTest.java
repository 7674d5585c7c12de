package dev.splicebook.hookup;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Each work on a vehicle's wiring carries the cautions that belong to it, and no others. */
class CautionsTest {

    private static final String GENERAL = "come first";
    private static final String BATTERY = "a wrench across a battery burns";
    private static final String POWER = "before joining power wires";
    private static final String SAFETY = "airbag or high-voltage circuits";
    private static final String BRAKE = "moving pictures";

    private static void assertCautions(Wiring wiring, String... parts) {
        List<String> cautions = wiring.check().cautions();

        assertThat(cautions).hasSize(parts.length);
        for (int at = 0; at < parts.length; at++) {
            assertThat(cautions.get(at)).contains(parts[at]).endsWith(".");
        }
    }

    @Test
    void defersToTheMakerTheLawAndQualifiedPeopleWhateverIsChecked() {
        assertCautions(new Wiring(), GENERAL);
    }

    @Test
    void warnsOfThePowerWiresWhereAnythingIsConnected() {
        assertCautions(
                new Wiring()
                        .car("C1-7", facts(constant()))
                        .inside("Y", "\"conducts\": [[\"a\", \"b\"]]")
                        .join("CAR.C1-7 Y.a"),
                GENERAL,
                POWER);
    }

    @Test
    void warnsOfTheBatteryInsteadWhereAWireGoesToIt() {
        assertCautions(
                new Wiring()
                        .lead("AMP", "plus", facts("\"kind\": \"load\", \"maxAmps\": 10"))
                        .join("CAR.battery-plus AMP.plus"),
                GENERAL,
                BATTERY);
    }

    @Test
    void warnsOfCircuitsThatTheMapMarksThoughNothingTouchesThem() {
        assertCautions(new Wiring().car("C9-1", facts("safety.airbag", "")), GENERAL, SAFETY);
        assertCautions(
                new Wiring().car("H1-1", facts("\"kind\": \"untouchable\", \"reason\": \"high-voltage\"")),
                GENERAL,
                SAFETY);
    }

    @Test
    void warnsOfTheParkingBrakeInput() {
        assertCautions(
                new Wiring()
                        .lead(
                                "HU",
                                "brake",
                                facts("control.parking-brake", "\"kind\": \"control-in\", \"active\": \"ground\"")),
                GENERAL,
                BRAKE);
    }

    @Test
    void proposesNowhereToConnectAParkingBrakeInputButToItsOwnCircuit() {
        Report report = new Wiring()
                .lead("HU", "brake", facts("control.parking-brake", "\"kind\": \"control-in\", \"active\": \"ground\""))
                .join("CAR.chassis HU.brake")
                .check();

        assertThat(Hookups.findings(report, "interlock-defeated").get(0).help()).contains("to nothing else");
    }
}
