package dev.splicebook.calculation;

/** The usual cautions, in words that stand alone. */
public final class Cautions {

    /** Carried by every answer. */
    public static final String GENERAL =
            "A calculation is no leave to work: the vehicle maker's service information, local law and codes, and qualified"
                    + " people come first.";

    public static final String BATTERY =
            "A battery gives hundreds of amperes into a short and can start a fire or burst: take its ground cable off before"
                    + " work, and fuse every conductor at its source.";

    public static final String FUSE =
            "A fuse protects the conductor behind it: never fit a larger one than the thinnest conductor behind it bears.";

    public static final String HEAT =
            "Conductors and equipment get hot under load: keep them clear of what burns, and of fuel and brake lines.";

    public static final String AIRBAG =
            "Never probe or load an airbag or high-voltage circuit: yellow connectors and orange cables are left alone.";

    public static final String HEARING =
            "Levels that a large amplifier makes harm hearing, and drown warnings on the road.";

    public static final String DISTRACTION =
            "What a driver can watch or handle while driving is limited by law, and an interlock is never defeated.";

    public static final String SPEAKER_OUTPUT =
            "A speaker output that is shorted, loaded too heavily or tied to the chassis can be destroyed: measure the finished"
                    + " wiring with a meter before the amplifier is switched on.";

    private Cautions() {}
}
