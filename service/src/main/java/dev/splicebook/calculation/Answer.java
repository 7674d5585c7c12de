package dev.splicebook.calculation;

import java.util.List;

/** What every answer holds beside its results. */
public interface Answer {

    /** Every default that was used, by name. */
    List<Assumption> assumptions();

    /** How the results came about, step by step. */
    List<Step> working();

    /** Where formulas and tables come from. */
    List<String> sources();

    /** What to mind before acting on the figures. */
    List<String> cautions();
}
