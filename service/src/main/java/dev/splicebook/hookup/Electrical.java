package dev.splicebook.hookup;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import dev.splicebook.guard.Guard;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The electrical facts of one terminal. A fact that is absent is unknown, never assumed. */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
@JsonSubTypes({
    @JsonSubTypes.Type(value = Electrical.Supply.class, name = "supply"),
    @JsonSubTypes.Type(value = Electrical.Load.class, name = "load"),
    @JsonSubTypes.Type(value = Electrical.Ground.class, name = "ground"),
    @JsonSubTypes.Type(value = Electrical.ControlOut.class, name = "control-out"),
    @JsonSubTypes.Type(value = Electrical.ControlIn.class, name = "control-in"),
    @JsonSubTypes.Type(value = Electrical.SpeakerOut.class, name = "speaker-out"),
    @JsonSubTypes.Type(value = Electrical.SpeakerIn.class, name = "speaker-in"),
    @JsonSubTypes.Type(value = Electrical.LineOut.class, name = "line-out"),
    @JsonSubTypes.Type(value = Electrical.LineIn.class, name = "line-in"),
    @JsonSubTypes.Type(value = Electrical.VideoOut.class, name = "video-out"),
    @JsonSubTypes.Type(value = Electrical.VideoIn.class, name = "video-in"),
    @JsonSubTypes.Type(value = Electrical.Data.class, name = "data"),
    @JsonSubTypes.Type(value = Electrical.Antenna.class, name = "antenna"),
    @JsonSubTypes.Type(value = Electrical.Passive.class, name = "passive"),
    @JsonSubTypes.Type(value = Electrical.Untouchable.class, name = "untouchable")
})
public sealed interface Electrical {

    /** The most amperes that any fact may state. */
    double MOST_AMPS = 2000;
    /** The most volts that any fact may state. */
    double MOST_VOLTS = 1000;
    /** The most ohms that any fact may state. */
    double MOST_OHMS = 1e9;
    /** The most watts that any fact may state. */
    double MOST_WATTS = 20_000;

    /** The most volts that a load or a control input takes without harm, null for one that states none and for all else. */
    static @Nullable Double mostTakenVolts(@Nullable Electrical facts) {
        return facts instanceof Load load ? load.maxVolts() : facts instanceof ControlIn in ? in.maxVolts() : null;
    }

    /** Whether a supply states more volts than what it would feed takes. */
    static boolean isTooMuch(@Nullable Electrical source, @Nullable Electrical taker) {
        Double most = mostTakenVolts(taker);
        return most != null && source instanceof Supply supply && supply.volts() != null && supply.volts() > most;
    }

    /**
     * Gives power.
     *
     * @param volts above 0
     * @param maxAmps the most that may be drawn, above 0
     * @param live the states in which it is live, given its condition
     * @param when conditions, any of which must hold beside the state; empty for none
     * @param fuseAmps rating of the fuse already upstream
     * @param limited whether it limits its current by itself
     * @param regulated whether it holds the stated volts while its part is fed, at a restart of the engine too
     */
    record Supply(
            @Nullable Double volts,
            @Nullable Double maxAmps,
            @Nullable List<State> live,

            @JsonFormat(with = JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY)
            List<Condition> when,

            @Nullable Double fuseAmps,
            @Nullable Boolean limited,
            @Nullable Boolean regulated)
            implements Electrical {
        public Supply {
            live = live == null ? null : live.stream().distinct().sorted().toList();
            when = when.stream().distinct().sorted().toList();
            new Guard()
                    .positive("volts", volts, MOST_VOLTS)
                    .positive("maxAmps", maxAmps, MOST_AMPS)
                    .positive("fuseAmps", fuseAmps, MOST_AMPS)
                    .check();
        }
    }

    /**
     * Takes power.
     *
     * @param typicalAmps drawn for long, 0 or above
     * @param maxAmps drawn at most, 0 or above
     * @param minVolts works down to, above 0
     * @param maxVolts takes without harm, not below {@code minVolts}
     * @param sleepAmps drawn while the vehicle sleeps, 0 or above
     */
    record Load(
            @Nullable Double typicalAmps,
            @Nullable Double maxAmps,
            @Nullable Need needs,
            @Nullable Double minVolts,
            @Nullable Double maxVolts,
            @Nullable Double sleepAmps)
            implements Electrical {
        public Load {
            new Guard()
                    .between("typicalAmps", typicalAmps, 0, MOST_AMPS)
                    .between("maxAmps", maxAmps, 0, MOST_AMPS)
                    .notAbove("typicalAmps", typicalAmps, "maxAmps", maxAmps)
                    .positive("minVolts", minVolts, MOST_VOLTS)
                    .positive("maxVolts", maxVolts, MOST_VOLTS)
                    .notAbove("minVolts", minVolts, "maxVolts", maxVolts)
                    .between("sleepAmps", sleepAmps, 0, MOST_AMPS)
                    .check();
        }
    }

    /**
     * A ground. On a part: where its loads return; only the vehicle's grounds are a reference.
     *
     * @param maxAmps above 0
     */
    record Ground(@Nullable Double maxAmps) implements Electrical {
        public Ground {
            new Guard().positive("maxAmps", maxAmps, MOST_AMPS).check();
        }
    }

    /**
     * Drives a control line, only while its part is fed.
     *
     * @param maxAmps the most that may be drawn, above 0
     * @param live the states in which it can be active
     * @param when conditions, any of which must hold beside the state; empty for none
     * @param follows a terminal of the part that turns it on: an input by its signal, a control input while it is active, or a load while it is fed
     */
    record ControlOut(
            @Nullable Active active,
            @Nullable Double maxAmps,
            @Nullable List<State> live,

            @JsonFormat(with = JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY)
            List<Condition> when,

            @Nullable String follows)
            implements Electrical {
        public ControlOut {
            live = live == null ? null : live.stream().distinct().sorted().toList();
            when = when.stream().distinct().sorted().toList();
            new Guard()
                    .positive("maxAmps", maxAmps, MOST_AMPS)
                    .matches("follows", follows, Names.NAME, Names.FORM)
                    .check();
        }
    }

    /**
     * Listens to a control line.
     *
     * @param amps drawn, 0 or above
     * @param minVolts taken as active from, above 0
     * @param maxVolts takes without harm, not below {@code minVolts}
     */
    record ControlIn(
            @Nullable Active active,
            @Nullable Double amps,
            @Nullable Double minVolts,
            @Nullable Double maxVolts) implements Electrical {
        public ControlIn {
            new Guard()
                    .between("amps", amps, 0, MOST_AMPS)
                    .positive("minVolts", minVolts, MOST_VOLTS)
                    .positive("maxVolts", maxVolts, MOST_VOLTS)
                    .notAbove("minVolts", minVolts, "maxVolts", maxVolts)
                    .check();
        }
    }

    /**
     * Drives a loudspeaker.
     *
     * @param side plus or minus
     * @param maxVolts rms at full output, above 0
     * @param biasVolts direct voltage on it, 0 or above
     * @param minOhms the least load, above 0
     * @param maxDetectOhms mutes when nothing below this is connected, above 0
     */
    record SpeakerOut(
            @Nullable Channel channel,
            @Nullable Side side,
            @Nullable Drive drive,
            @Nullable Double maxVolts,
            @Nullable Double biasVolts,
            @Nullable Double minOhms,
            @Nullable Double maxDetectOhms)
            implements Audio {
        public SpeakerOut {
            speakerSide(side)
                    .positive("maxVolts", maxVolts, MOST_VOLTS)
                    .between("biasVolts", biasVolts, 0, MOST_VOLTS)
                    .positive("minOhms", minOhms, MOST_OHMS)
                    .positive("maxDetectOhms", maxDetectOhms, MOST_OHMS)
                    .check();
        }
    }

    /**
     * A loudspeaker, or an input that takes speaker level.
     *
     * @param side plus or minus
     * @param ohms rated impedance, above 0; absent for a high-impedance input
     * @param maxVolts rms taken at most, above 0
     * @param maxWatts taken at most, above 0
     * @param coil which voice coil of its channel it is an end of, like {@code 1}; absent where the channel has one
     */
    record SpeakerIn(
            @Nullable Channel channel,
            @Nullable Side side,
            @Nullable Double ohms,
            @Nullable Double maxVolts,
            @Nullable Double maxWatts,
            @Nullable String coil)
            implements Audio {
        public SpeakerIn {
            speakerSide(side)
                    .positive("ohms", ohms, MOST_OHMS)
                    .positive("maxVolts", maxVolts, MOST_VOLTS)
                    .positive("maxWatts", maxWatts, MOST_WATTS)
                    .text("coil", coil, 40)
                    .check();
        }
    }

    /**
     * Gives line level.
     *
     * @param side signal or return
     * @param maxVolts rms at full output, above 0
     * @param outputOhms source impedance, 0 or above
     * @param biasVolts direct voltage on it, 0 or above
     * @param returns what its return is
     */
    record LineOut(
            @Nullable Channel channel,
            @Nullable Side side,
            @Nullable Double maxVolts,
            @Nullable Double outputOhms,
            @Nullable Double biasVolts,
            @JsonProperty("return") @Nullable OutputReturn returns)
            implements Audio {
        public LineOut {
            lineSide(side)
                    .positive("maxVolts", maxVolts, MOST_VOLTS)
                    .between("outputOhms", outputOhms, 0, MOST_OHMS)
                    .between("biasVolts", biasVolts, 0, MOST_VOLTS)
                    .check();
        }
    }

    /**
     * Takes line level.
     *
     * @param side signal or return
     * @param minVolts rms for full output, above 0
     * @param maxVolts rms taken at most, above 0
     * @param inputOhms input impedance, above 0
     * @param returns what its return is
     * @param commonModeVolts the most between its return and ground, 0 or above
     */
    record LineIn(
            @Nullable Channel channel,
            @Nullable Side side,
            @Nullable Double minVolts,
            @Nullable Double maxVolts,
            @Nullable Double inputOhms,
            @JsonProperty("return") @Nullable InputReturn returns,
            @Nullable Double commonModeVolts)
            implements Audio {
        public LineIn {
            lineSide(side)
                    .positive("minVolts", minVolts, MOST_VOLTS)
                    .positive("maxVolts", maxVolts, MOST_VOLTS)
                    .notAbove("minVolts", minVolts, "maxVolts", maxVolts)
                    .positive("inputOhms", inputOhms, MOST_OHMS)
                    .between("commonModeVolts", commonModeVolts, 0, MOST_VOLTS)
                    .check();
        }
    }

    /** Gives a picture; {@code format} like {@code composite}. */
    record VideoOut(@Nullable Side side, @Nullable String format) implements Video {
        public VideoOut {
            lineSide(side).text("format", format, 40).check();
        }
    }

    /** Takes a picture; {@code format} like {@code composite}. */
    record VideoIn(@Nullable Side side, @Nullable String format) implements Video {
        public VideoIn {
            lineSide(side).text("format", format, 40).check();
        }
    }

    /** A line of a data bus; {@code line} like {@code high}. */
    record Data(@Nullable Bus bus, @Nullable String line) implements Electrical {
        public Data {
            new Guard().text("line", line, 40).check();
        }
    }

    /** An antenna lead. */
    record Antenna() implements Electrical {}

    /** Neither gives nor takes anything by itself. */
    record Passive() implements Electrical {}

    /** A circuit that must be left alone. */
    record Untouchable(@Nullable Hazard reason) implements Electrical {}

    /** The kind as in JSON, like {@code speaker-out}. */
    default String kind() {
        return getClass().getSimpleName().replaceAll("(?<=[a-z])(?=[A-Z])", "-").toLowerCase(Locale.ROOT);
    }

    /** What the audio kinds share. */
    sealed interface Audio extends Electrical permits SpeakerOut, SpeakerIn, LineOut, LineIn {
        @Nullable
        Channel channel();

        @Nullable
        Side side();

        /** Whether it gives a signal; else it takes one. */
        default boolean isOutput() {
            return this instanceof SpeakerOut || this instanceof LineOut;
        }
    }

    /** What the kinds of a picture share. */
    sealed interface Video extends Electrical permits VideoOut, VideoIn {
        @Nullable
        Side side();

        /** Whether it is the signal itself, not its return. */
        default boolean isSignal() {
            return side() == Side.SIGNAL;
        }

        default boolean isReturn() {
            return side() == Side.RETURN;
        }
    }

    private static Guard speakerSide(@Nullable Side side) {
        return new Guard()
                .refuseIf(
                        side == Side.SIGNAL || side == Side.RETURN,
                        "side",
                        "unknown-value",
                        () -> "a speaker terminal's side is plus or minus");
    }

    private static Guard lineSide(@Nullable Side side) {
        return new Guard()
                .refuseIf(
                        side == Side.PLUS || side == Side.MINUS,
                        "side",
                        "unknown-value",
                        () -> "a line or video terminal's side is signal or return");
    }
}
