package dev.splicebook.calculation;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Where a calculation notes what it assumes, how it works and what it relies on, while it works. */
public final class Worksheet {

    private final List<Assumption> assumptions = new ArrayList<>();
    private final List<Step> working = new ArrayList<>();
    private final Set<String> sources = new LinkedHashSet<>();
    private final Set<String> cautions = new LinkedHashSet<>();

    Worksheet(Collection<String> sources, Collection<String> cautions) {
        this.sources.addAll(sources);
        this.cautions.addAll(cautions);
    }

    /** The figure given, or else the usual one, noted as an assumption. */
    public double orAssume(@Nullable Double given, String name, double usual, String unit, String about) {
        return given == null ? assume(name, usual, unit, about) : given;
    }

    /** The choice given, or else the usual one, noted as an assumption. */
    public <T> T orAssume(@Nullable T given, String name, T usual, String about) {
        return given == null ? assume(name, usual, about) : given;
    }

    /** Notes a figure that nobody gave. */
    public double assume(String name, double value, String unit, String about) {
        assumptions.add(new Assumption(name, value, unit.isEmpty() ? null : unit, null, about));
        return value;
    }

    /** Notes a choice that nobody made; a constant of an enum by its name in JSON. */
    public <T> T assume(String name, T value, String about) {
        String choice = value instanceof Enum<?> constant
                ? constant.name().toLowerCase(Locale.ROOT).replace('_', '-')
                : String.valueOf(value);
        assumptions.add(new Assumption(name, null, null, choice, about));
        return value;
    }

    /**
     * Notes a step, and gives its value on, unrounded.
     *
     * @param formula as {@link Step} says
     * @param numbers one for each symbol in the expression
     */
    public double step(String words, String formula, double value, String unit, Step.Given... numbers) {
        working.add(new Step(words, formula, List.of(numbers), value, unit));
        return value;
    }

    /** A number put into a step. */
    public static Step.Given given(String symbol, double value, String unit) {
        return new Step.Given(symbol, value, unit);
    }

    /** A source beyond those that every answer names. */
    public void source(String source) {
        sources.add(source);
    }

    /** A caution beyond those that every answer carries. */
    public void caution(String caution) {
        cautions.add(caution);
    }

    public List<Assumption> assumptions() {
        return List.copyOf(assumptions);
    }

    public List<Step> working() {
        return List.copyOf(working);
    }

    public List<String> sources() {
        return List.copyOf(sources);
    }

    public List<String> cautions() {
        return List.copyOf(cautions);
    }
}
