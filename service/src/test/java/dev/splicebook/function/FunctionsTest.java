package dev.splicebook.function;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FunctionsTest {

    private final Functions functions = Functions.vocabulary();

    @Test
    void hasAtLeastAHundredFunctions() {
        assertThat(functions.listFunctions()).hasSizeGreaterThanOrEqualTo(100);
        assertThat(functions.listFunctions()).extracting(Function::id).doesNotHaveDuplicates();
    }

    @Test
    void everyKindIsTheFirstPartOfItsIdsAndHasSome() {
        assertThat(functions.listFunctions())
                .allSatisfy(function -> assertThat(function.id().value())
                        .startsWith(
                                function.kind().name().toLowerCase(Locale.ROOT).replace('_', '-') + "."));
        assertThat(functions.listFunctions()).extracting(Function::kind).contains(FunctionKind.values());
    }

    @Test
    void everyFunctionSaysInASentenceWhatItIsAndHowItIsTested() {
        assertThat(functions.listFunctions()).allSatisfy(function -> {
            assertThat(function.what()).endsWith(".").hasSizeGreaterThan(10);
            assertThat(function.test()).endsWith(".").hasSizeGreaterThan(20);
        });
    }

    @Test
    void safetyCircuitsAreNeverProbed() {
        assertThat(functions.listFunctions())
                .filteredOn(function -> function.kind() == FunctionKind.SAFETY)
                .isNotEmpty()
                .allSatisfy(function -> {
                    assertThat(function.test()).startsWith("Never probed").contains("Leave alone");
                    assertThat(function.caution()).isNotBlank();
                });
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"front-left", "front-right", "rear-left", "rear-right", "centre", "subwoofer", "left", "right"})
    void everyChannelHasBothSidesAtBothLevels(String channel) {
        for (String id : List.of(
                "audio.speaker." + channel + ".plus",
                "audio.speaker." + channel + ".minus",
                "audio.line." + channel + ".signal",
                "audio.line." + channel + ".return")) {
            assertThat(functions.findFunction(new FunctionId(id))).as(id).isPresent();
        }
    }

    @Test
    void aGroupIsKnownAndIsNoFunction() {
        assertThat(Functions.isKnown("audio.line.rear-entertainment")).isTrue();
        assertThat(Functions.isKnown("audio.line.rear")).isFalse();
        assertThat(functions.findFunction(new FunctionId("audio.line.rear-entertainment")))
                .isEmpty();
    }

    /** DIN 72552: 30, 31, 31b, 50 as published; 15, 54, 56a, 56b, 58, 75, 85, 86 from memory. */
    @ParameterizedTest
    @CsvSource({
        "power.battery,30",
        "power.ignition,15",
        "power.start,50",
        "power.illumination,58",
        "power.accessory,75",
        "power.relay-coil,86",
        "control.relay-coil,85",
        "ground.chassis,31",
        "ground.switched,31b",
        "lighting.brake,54",
        "lighting.high-beam,56a",
        "lighting.low-beam,56b"
    })
    void bearsItsNumberOfDin72552(String id, String number) {
        assertThat(functionOf(id).din72552()).isEqualTo(number);
    }

    /** ISO 10487 pins in a secondary copy, which says that they are convention. */
    @ParameterizedTest
    @CsvSource({
        "control.vehicle-speed,A1",
        "control.mute,A2",
        "power.battery,A4",
        "control.antenna-on,A5",
        "power.illumination,A6",
        "power.ignition,A7",
        "ground.chassis,A8",
        "audio.speaker.rear-right.plus,B1",
        "audio.speaker.rear-right.minus,B2",
        "audio.speaker.front-right.plus,B3",
        "audio.speaker.front-right.minus,B4",
        "audio.speaker.front-left.plus,B5",
        "audio.speaker.front-left.minus,B6",
        "audio.speaker.rear-left.plus,B7",
        "audio.speaker.rear-left.minus,B8"
    })
    void bearsItsPinOfIso10487(String id, String pin) {
        assertThat(functionOf(id).iso10487()).isEqualTo(pin);
    }

    /** Aftermarket lead colours: common practice, no source. */
    @ParameterizedTest
    @CsvSource({
        "audio.speaker.front-left.plus,WH",
        "audio.speaker.front-left.minus,WH/BK",
        "audio.speaker.front-right.plus,GY",
        "audio.speaker.front-right.minus,GY/BK",
        "audio.speaker.rear-left.plus,GN",
        "audio.speaker.rear-left.minus,GN/BK",
        "audio.speaker.rear-right.plus,VT",
        "audio.speaker.rear-right.minus,VT/BK",
        "power.battery,YE",
        "power.accessory,RD",
        "ground.chassis,BK",
        "power.illumination,OG/WH",
        "control.antenna-on,BU",
        "control.amplifier-on,BU/WH",
        "control.reverse,VT/WH",
        "control.parking-brake,GN"
    })
    void bearsItsCustomaryLeadColour(String id, String colour) {
        assertThat(functionOf(id).leadColour()).isEqualTo(new Colour(colour));
    }

    /** What installers join as a matter of course: common practice, no source. */
    @ParameterizedTest
    @CsvSource({
        "power.accessory,power.accessory",
        "power.ignition,power.accessory",
        "power.accessory,control.amplifier-on",
        "control.antenna-on,control.amplifier-on",
        "lighting.reverse,control.reverse",
        "control.reverse,control.camera-on",
        "lighting.brake,control.brake",
        "control.illumination-dim,power.illumination",
        "audio.line.rear-entertainment.left.signal,audio.line.auxiliary.left.signal",
        "audio.speaker.front-left.plus,audio.line.left.signal",
        "audio.speaker.rear-left.minus,audio.speaker.subwoofer.minus",
        "video.rear-entertainment.signal,video.auxiliary.signal",
        "control.steering-wheel,control.wired-remote",
        "ground.battery,control.steering-wheel-return"
    })
    void mayFeedWhatTheTradeJoins(String source, String sink) {
        assertThat(functions.mayFeed(new FunctionId(source), new FunctionId(sink)))
                .isTrue();
    }

    @ParameterizedTest
    @CsvSource({
        "power.illumination,control.reverse",
        "audio.speaker.rear-left.plus,control.reverse",
        "control.reverse,control.brake",
        "control.vehicle-speed,control.reverse",
        "control.reverse,power.illumination",
        "power.accessory,control.parking-brake",
        "audio.line.left.signal,video.camera-rear.signal",
        "video.camera-rear.signal,audio.line.left.signal",
        "data.can.high,data.can.low",
        "data.usb.power,power.accessory",
        "antenna.position,antenna.radio"
    })
    void mayNotFeedWhatDoesNotBelongTogether(String source, String sink) {
        assertThat(functions.mayFeed(new FunctionId(source), new FunctionId(sink)))
                .isFalse();
    }

    @ParameterizedTest
    @CsvSource({"power.battery,control.reverse", "ground.chassis,control.mute", "audio.line,control.brake"})
    void mayFeedWhereOneOfTheTwoStatesNothing(String source, String sink) {
        assertThat(functions.mayFeed(new FunctionId(source), new FunctionId(sink)))
                .isTrue();
    }

    private Function functionOf(String id) {
        return functions.findFunction(new FunctionId(id)).orElseThrow();
    }
}
