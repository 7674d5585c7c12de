package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Electrical;
import org.jspecify.annotations.Nullable;

/**
 * Facts as their records tell them, but for the names of other terminals. On Java 17 the records go through a formatter,
 * which takes too long for what is asked of every terminal.
 */
final class FactsText {

    private FactsText() {}

    static String of(@Nullable Electrical facts) {
        if (facts instanceof Electrical.Supply it) {
            return text(
                    "Supply",
                    "volts",
                    it.volts(),
                    "maxAmps",
                    it.maxAmps(),
                    "live",
                    it.live(),
                    "when",
                    it.when(),
                    "fuseAmps",
                    it.fuseAmps(),
                    "limited",
                    it.limited());
        }
        if (facts instanceof Electrical.Load it) {
            return text(
                    "Load",
                    "typicalAmps",
                    it.typicalAmps(),
                    "maxAmps",
                    it.maxAmps(),
                    "needs",
                    it.needs(),
                    "minVolts",
                    it.minVolts(),
                    "sleepAmps",
                    it.sleepAmps());
        }
        if (facts instanceof Electrical.Ground it) {
            return text("Ground", "maxAmps", it.maxAmps());
        }
        if (facts instanceof Electrical.ControlOut it) {
            return text(
                            "ControlOut",
                            "active",
                            it.active(),
                            "maxAmps",
                            it.maxAmps(),
                            "live",
                            it.live(),
                            "when",
                            it.when(),
                            "follows",
                            null)
                    + (it.follows() == null ? "" : " follows");
        }
        if (facts instanceof Electrical.ControlIn it) {
            return text("ControlIn", "active", it.active(), "amps", it.amps(), "minVolts", it.minVolts());
        }
        if (facts instanceof Electrical.SpeakerOut it) {
            return text(
                    "SpeakerOut",
                    "channel",
                    it.channel(),
                    "side",
                    it.side(),
                    "drive",
                    it.drive(),
                    "maxVolts",
                    it.maxVolts(),
                    "biasVolts",
                    it.biasVolts(),
                    "minOhms",
                    it.minOhms(),
                    "maxDetectOhms",
                    it.maxDetectOhms());
        }
        if (facts instanceof Electrical.SpeakerIn it) {
            return text(
                    "SpeakerIn",
                    "channel",
                    it.channel(),
                    "side",
                    it.side(),
                    "ohms",
                    it.ohms(),
                    "maxVolts",
                    it.maxVolts(),
                    "maxWatts",
                    it.maxWatts(),
                    "coil",
                    // the coils of a loudspeaker are alike but for their names
                    it.coil() == null ? null : "coil");
        }
        if (facts instanceof Electrical.LineOut it) {
            return text(
                    "LineOut",
                    "channel",
                    it.channel(),
                    "side",
                    it.side(),
                    "maxVolts",
                    it.maxVolts(),
                    "outputOhms",
                    it.outputOhms(),
                    "biasVolts",
                    it.biasVolts(),
                    "returns",
                    it.returns());
        }
        if (facts instanceof Electrical.LineIn it) {
            return text(
                    "LineIn",
                    "channel",
                    it.channel(),
                    "side",
                    it.side(),
                    "minVolts",
                    it.minVolts(),
                    "maxVolts",
                    it.maxVolts(),
                    "inputOhms",
                    it.inputOhms(),
                    "returns",
                    it.returns(),
                    "commonModeVolts",
                    it.commonModeVolts());
        }
        if (facts instanceof Electrical.VideoOut it) {
            return text("VideoOut", "side", it.side(), "format", it.format());
        }
        if (facts instanceof Electrical.VideoIn it) {
            return text("VideoIn", "side", it.side(), "format", it.format());
        }
        if (facts instanceof Electrical.Data it) {
            return text("Data", "bus", it.bus(), "line", it.line());
        }
        if (facts instanceof Electrical.Untouchable it) {
            return text("Untouchable", "reason", it.reason());
        }
        return String.valueOf(facts);
    }

    private static String text(String kind, @Nullable Object... namesAndValues) {
        StringBuilder text = new StringBuilder(128).append(kind);
        for (int at = 0; at < namesAndValues.length; at += 2) {
            text.append(at == 0 ? "[" : ", ")
                    .append(namesAndValues[at])
                    .append('=')
                    .append(namesAndValues[at + 1]);
        }
        return text.append(']').toString();
    }
}
