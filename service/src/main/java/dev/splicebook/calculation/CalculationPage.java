package dev.splicebook.calculation;

import dev.splicebook.web.Fact;
import java.util.List;

/** What the catalogue says of a calculation. */
public record CalculationPage(
        @Fact("name, which is the last part of its address; never changes")
        String name,

        @Fact("what it is for") String purpose,

        @Fact("how it goes about it, and what it leaves out")
        String method,

        @Fact("what a question holds") List<FieldPage> inputs,

        @Fact("what an answer holds beside assumptions, working, sources and cautions")
        List<FieldPage> results,

        @Fact("where formulas and tables come from") List<String> sources,
        @Fact("what to mind before acting on the figures") List<String> cautions) {

    public CalculationPage {
        inputs = List.copyOf(inputs);
        results = List.copyOf(results);
        sources = List.copyOf(sources);
        cautions = List.copyOf(cautions);
    }
}
