package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HookupTest {

    private static final UUID ID = UUID.fromString("5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10");

    @Test
    void writesEveryPartOfAHookup() {
        Hookup hookup = Hookup.builder()
                .unplug("C1")
                .vehicle(ID, 3)
                .cut("C2-4")
                .part("HU", "HU-A", 1)
                .part("AMP", Part.device("AMP-4").inMode("bridged"))
                .part("K1", Document.parse("{\"terminals\": {}}"))
                .connect(
                        "W1",
                        "CAR.C1-7",
                        "HU.memory",
                        Wire.of(ConductorSize.awg(18))
                                .madeOf(Material.COPPER)
                                .insulated(105)
                                .withLength(Length.metres(1.5))
                                .fused(10, Length.centimetres(10)))
                .connect("W2", "HU.usb", "K1.usb")
                .plug("CAR.C1", "HAR.C1")
                .unused("HU.camera-plus", Fate.CAPPED, "no camera fitted")
                .set("IFC", "head-unit-maker", "2")
                .set("IFC", "head-unit-maker", "3")
                .keep("audio.line.rear-entertainment")
                .add("data.usb")
                .build();

        assertThat(hookup).isEqualTo(Hookup.parse("""
                {"vehicle": {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 3, "unplugged": ["C1"], "cuts": ["C2-4"]},
                 "parts": {"HU": {"device": "HU-A", "revision": 1}, "AMP": {"device": "AMP-4", "mode": "bridged"},
                           "K1": {"inline": {"terminals": {}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.C1-7", "HU.memory"],
                          "conductor": {"size": "18 AWG", "material": "copper", "insulationCelsius": 105.0},
                          "length": {"value": 1.5, "unit": "m"},
                          "fuse": {"ratingAmps": 10.0, "fromSource": {"value": 10.0, "unit": "cm"}}},
                   "W2": {"ends": ["HU.usb", "K1.usb"]}},
                 "plugs": [["CAR.C1", "HAR.C1"]],
                 "unused": {"HU.camera-plus": {"as": "capped", "why": "no camera fitted"}},
                 "settings": {"IFC": {"head-unit-maker": "3"}},
                 "wishes": [{"function": "audio.line.rear-entertainment", "want": "keep"},
                            {"function": "data.usb", "want": "add"}]}"""));
    }

    @Test
    void takesAVehicleInline() {
        Hookup hookup = Hookup.builder()
                .vehicle(Document.parse("{\"circuits\": {\"C1-7\": {}}}"))
                .unplug("C1")
                .build();

        assertThat(hookup)
                .isEqualTo(Hookup.parse(
                        "{\"vehicle\": {\"inline\": {\"circuits\": {\"C1-7\": {}}}, \"unplugged\": [\"C1\"]}}"));
    }

    @Test
    void isChangedWithoutChangingWhatItCameFrom() {
        Hookup draft = Hookup.builder()
                .part("HU", "HU-A")
                .connect("W1", "A.x", "HU.x")
                .unused("HU.y", Fate.TAPED_BACK, "not needed")
                .build();

        Hookup changed = draft.toBuilder()
                .disconnect("W1")
                .connect("W1", "A.x", "HU.y")
                .use("HU.y")
                .removePart("HU")
                .build();

        assertThat(draft.json().at("/connections/W1/ends/1").asString()).isEqualTo("HU.x");
        assertThat(draft.json().at("/unused").has("HU.y")).isTrue();
        assertThat(changed.json().at("/connections/W1/ends/1").asString()).isEqualTo("HU.y");
        assertThat(changed.json().at("/unused")).isEmpty();
        assertThat(changed.json().at("/parts")).isEmpty();
    }

    @Test
    void refusesWhatIsThereAlready() {
        Hookup.Builder hookup = Hookup.builder()
                .part("HU", "HU-A")
                .connect("W1", "A.x", "HU.x")
                .unused("HU.y", Fate.CAPPED, "not needed");

        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() -> hookup.part("HU", "HU-B"))
                .withMessage("part HU is there already");
        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() -> hookup.connect("W1", "A.y", "HU.z"))
                .withMessage("connection W1 is there already");
        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() -> hookup.unused("HU.y", Fate.REMOVED, "not needed"))
                .withMessage("unused lead HU.y is there already");
    }

    @Test
    void refusesToTakeOutWhatIsNotThere() {
        Hookup.Builder hookup = Hookup.builder();

        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() -> hookup.disconnect("W9"))
                .withMessage("there is no connection W9");
    }

    @Test
    void sendsFieldsThatItKnowsNothingOf(@TempDir Path folder) throws Exception {
        String json = "{\"parts\":{},\"newer\":{\"figure\":12.60}}";
        Path file = Files.writeString(folder.resolve("hookup.json"), json);

        assertThat(Hookup.read(file).toBuilder().build()).hasToString(json);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "[]", "null", "{\"a\": NaN}", "{} {}", "{\"a\": 1, \"a\": 2}"})
    void refusesWhatIsNoHookup(String text) {
        assertThatExceptionOfType(IllegalArgumentException.class).isThrownBy(() -> Hookup.parse(text));
    }

    @Test
    void refusesQuantitiesThatAreNone() {
        assertThatExceptionOfType(IllegalArgumentException.class).isThrownBy(() -> Length.feet(0));
        assertThatExceptionOfType(IllegalArgumentException.class).isThrownBy(() -> Length.inches(Double.NaN));
        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() -> Wire.of("18 AWG").fused(-1));
        assertThatExceptionOfType(IllegalArgumentException.class).isThrownBy(() -> Wire.of(" "));
        assertThatExceptionOfType(IllegalStateException.class)
                .isThrownBy(() -> Wire.of(Length.millimetres(5)).insulated(105));
    }

    @Test
    void writesSizesAsTheTradeDoes() {
        assertThat(ConductorSize.awg(8)).hasToString("8 AWG");
        assertThat(ConductorSize.noughts(1)).hasToString("1/0 AWG");
        assertThat(ConductorSize.squareMillimetres(2.5)).hasToString("2.5 mm2");
        assertThat(ConductorSize.squareMillimetres(10)).hasToString("10 mm2");
        assertThat(Length.feet(18)).hasToString("18 ft");
    }
}
