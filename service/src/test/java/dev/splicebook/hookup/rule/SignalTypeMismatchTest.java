package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.lineIn;
import static dev.splicebook.hookup.Wiring.lineOut;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

class SignalTypeMismatchTest {

    private static final Told TOLD = Told.by("signal-type-mismatch");

    private static final String ANTENNA = facts("\"kind\": \"antenna\"");

    private static String video(String kind, String side, String format) {
        return facts("\"kind\": \"" + kind + "\", \"side\": \"" + side + "\""
                + (format.isEmpty() ? "" : ", \"format\": \"" + format + "\""));
    }

    /** A camera and a head unit with inputs for sound and pictures; the pairs are all that is joined. */
    private static Wiring camera(String... pairs) {
        return new Wiring()
                .lead("CAM", "video", video("video-out", "signal", "composite"))
                .lead("HU", "video", video("video-in", "signal", "composite"))
                .lead("HU", "left", facts(lineIn("left", "signal", "chassis")))
                .join(pairs);
    }

    @Test
    void reportsAPictureInASoundInput() {
        Finding finding = TOLD.finding(camera("CAM.video HU.left"));

        assertThat(finding.message()).isEqualTo("CAM.video gives a picture and goes into HU.left, which is for sound");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAM.video", "HU.left");
    }

    @Test
    void speaksForTheReturnsThatMeetWithTheSignals() {
        Wiring pair = camera("CAM.video HU.left", "CAM.video-return HU.left-return")
                .lead(
                        "CAM",
                        "video-return",
                        video("video-out", "return", "composite")
                                .replaceFirst("\\{", "{\"function\": \"video.camera-rear.return\", "))
                .lead("HU", "left-return", facts("audio.line.left.return", lineIn("left", "return", "chassis")));

        assertThat(TOLD.messages(pair)).hasSize(1);
        assertThat(Told.by("function-mismatched").messages(pair)).isEmpty();
    }

    @Test
    void reportsSoundInAPictureInputAndOnAnAntennaLead() {
        Wiring player = camera().lead("P", "out", facts(lineOut("left", "signal", "isolated")));

        assertThat(TOLD.messages(
                        player.lead("TUNER", "antenna", ANTENNA).join("P.out HU.video", "P.out TUNER.antenna")))
                .containsExactlyInAnyOrder(
                        "P.out gives sound and goes into HU.video, which is for a picture",
                        "P.out gives sound and goes into TUNER.antenna, which is for an antenna signal",
                        "TUNER.antenna gives an antenna signal and goes into HU.video, which is for a picture");
    }

    @Test
    void reportsALineOutputStraightOnAVoiceCoil() {
        Wiring player = new Wiring()
                .lead("P", "out", facts(lineOut("left", "signal", "isolated")))
                .lead("P", "out-return", facts(lineOut("left", "return", "isolated")))
                .join("P.out SP.plus", "P.out-return SP.minus");

        Finding finding = TOLD.finding(player.lead("SP", "plus", facts(speakerIn("plus", ", \"ohms\": 4")))
                .lead("SP", "minus", facts(speakerIn("minus", ", \"ohms\": 4"))));
        assertThat(finding.message())
                .isEqualTo("P.out gives line level and goes into SP.plus, a voice coil of 4.0 Ω, which needs an"
                        + " amplifier's speaker output");
        assertThat(finding.help()).startsWith("put an amplifier between the two");
        TOLD.passes(player.lead("SP", "plus", facts(speakerIn("plus", "")))
                .lead("SP", "minus", facts(speakerIn("minus", ""))));
    }

    private static String speakerIn(String side, String more) {
        return "\"kind\": \"speaker-in\", \"channel\": \"left\", \"side\": \"" + side + "\"" + more;
    }

    @Test
    void reportsAPictureThatAnIsolatorPassesOn() {
        Wiring isolated = camera("CAM.video ISO.in", "ISO.out HU.left")
                .inside("ISO", "\"couples\": [" + couple("in", "in-return", "out", "out-return", "") + "]");

        assertThat(TOLD.finding(isolated).terminals()).containsExactlyInAnyOrder("CAM.video", "HU.left");
    }

    @Test
    void acceptsAPictureInAPictureInput() {
        TOLD.passes(camera("CAM.video HU.video"));
    }

    @Test
    void comparesFormatsWithoutRegardToCase() {
        TOLD.passes(camera().lead("MON", "in", video("video-in", "signal", "Composite"))
                .join("CAM.video MON.in"));
        assertThat(TOLD.finding(camera().lead("MON", "in", video("video-in", "signal", "s-video"))
                                .join("CAM.video MON.in"))
                        .message())
                .isEqualTo("CAM.video gives a picture in composite and goes into MON.in, which takes s-video");
    }

    @Test
    void acceptsReturnsOfDifferentKindsOnOneSleeve() {
        TOLD.passes(camera("CAM.video HU.video", "CAM.return PLUG.v", "PLUG.a HU.sleeve")
                .lead("CAM", "return", video("video-out", "return", "composite"))
                .lead("HU", "sleeve", facts(lineIn("left", "return", "chassis")))
                .inside("PLUG", "\"conducts\": [[\"v\", \"a\"]]"));
    }

    @Test
    void isSilentWhereNothingMeets() {
        TOLD.doesNotApply(camera());
    }

    @Test
    void leavesAFeedOnASoundInputToTheFunctions() {
        TOLD.leavesTo(
                "function-mismatched",
                camera().car("C1-8", facts(Wiring.supply("running"))).join("CAR.C1-8 HU.left"));
    }

    @Test
    void isNotCheckedWhereOneOfTwoFormatsIsUnknown() {
        TOLD.lacks(
                camera().lead("MON", "in", video("video-in", "signal", "")).join("CAM.video MON.in"), "MON.in.format");
        TOLD.lacks(camera().lead("X", "out", video("video-out", "signal", "")).join("X.out HU.video"), "X.out.format");
    }

    @Test
    void reportsAPictureOnAReturn() {
        Wiring turned = camera().lead("CAM", "return", video("video-out", "return", "composite"))
                .lead("HU", "return", video("video-in", "return", "composite"))
                .join("CAM.video HU.return", "CAM.return HU.video");

        assertThat(TOLD.finding(turned).message())
                .isEqualTo("CAM.video gives a picture and goes into HU.return, which is a return");
    }

    @Test
    void reportsAReturnOnAPictureInput() {
        Wiring turned = camera().lead("CAM", "return", video("video-out", "return", "composite"))
                .join("CAM.return HU.video");

        assertThat(TOLD.finding(turned).message())
                .isEqualTo("CAM.return gives no picture, being a return, and goes into HU.video, which takes one");
        // with the picture on the same input the two are tied, and no return alone
        TOLD.passes(turned.join("CAM.video HU.video"));
    }
}
