package dev.splicebook.hookup.rule;

/**
 * Who speaks first of a net or terminal. A finding is dropped where one of a lower rank has claimed its net or one of
 * its terminals, so that one cause is one finding.
 */
public final class Rank {

    /** Neither claims nor yields: the rule is about something of its own. */
    public static final int OUTSIDE = 0;

    static final int UNTOUCHABLE = 10;
    static final int SHORTED = 20;
    static final int SUPPLIES_TIED = 30;
    static final int OUTPUTS_TIED = 40;
    static final int RETURNS_TIED = 50;
    static final int SPEAKER_GROUNDED = 60;
    static final int BUS = 65;
    static final int SIGNAL_TYPE = 70;
    static final int LEVEL = 80;
    static final int HALF_PAIR = 90;
    static final int CHANNELS = 100;
    static final int POLARITY = 110;
    static final int CONTENDED = 112;
    static final int INTERLOCK = 114;
    static final int CONTROL_TYPE = 116;
    static final int FEED = 118;
    static final int FUNCTION = 120;
    static final int BOOKKEEPING = 200;

    private Rank() {}
}
