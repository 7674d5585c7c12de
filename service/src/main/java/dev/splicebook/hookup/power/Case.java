package dev.splicebook.hookup.power;

import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** One solution of the power, and the states that share it. It is solved when it is asked for. */
public final class Case {

    private final Grid grid;
    private final Level level;
    private final List<Scenario> scenarios = new ArrayList<>();
    private final Set<State> states = EnumSet.noneOf(State.class);
    private final Set<Condition> conditions = new TreeSet<>();
    private final Set<Condition> together = new TreeSet<>();
    private boolean unconditional;
    private @Nullable Layout layout;
    private @Nullable Solved typical;
    private @Nullable Solved worst;
    private @Nullable Solved highest;

    Case(Grid grid, Level level) {
        this.grid = grid;
        this.level = level;
    }

    void add(Scenario scenario) {
        scenarios.add(scenario);
        states.add(scenario.state());
        if (scenario.conditions().size() < 2) {
            unconditional |= scenario.conditions().isEmpty();
            conditions.addAll(scenario.conditions());
        } else {
            together.addAll(scenario.conditions());
        }
    }

    public Level level() {
        return level;
    }

    public Set<State> states() {
        return states;
    }

    /** Conditions any of which makes it so, or {@link #together} all; empty if none must hold. */
    public Set<Condition> conditions() {
        return unconditional ? Set.of() : isTogether() ? together : conditions;
    }

    /** Whether all of its conditions must hold at once. */
    public boolean isTogether() {
        return !unconditional && conditions.isEmpty() && !together.isEmpty();
    }

    List<Scenario> scenarios() {
        return scenarios;
    }

    /** One of those that share it. */
    public Scenario scenario() {
        return scenarios.get(0);
    }

    public Solved typical() {
        if (typical == null) {
            typical = solve(Extent.TYPICAL);
        }
        return typical;
    }

    public Solved worst() {
        if (worst == null) {
            worst = solve(Extent.WORST);
        }
        return worst;
    }

    /** Like {@link #worst}, where something takes more the more volts there are and a vehicle tells how many there may be. */
    public Solved highest() {
        if (highest == null) {
            highest = level == Level.RUNNING
                            && grid.isOhmic()
                            && grid.network.hookup().map().runningVolts() != null
                    ? solve(Extent.HIGHEST)
                    : worst();
        }
        return highest;
    }

    private Solved solve(Extent extent) {
        if (layout == null) {
            layout = new Layout(grid, scenario(), level);
        }
        return new Solved(layout, extent);
    }

    public Solved at(Extent extent) {
        return switch (extent) {
            case TYPICAL -> typical();
            case WORST -> worst();
            case HIGHEST -> highest();
        };
    }
}
