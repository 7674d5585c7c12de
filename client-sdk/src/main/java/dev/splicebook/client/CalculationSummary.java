package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * A calculation in a list.
 *
 * @param name like {@code voltage-drop}; never changes, and more may come
 * @param purpose what it is for
 * @param method how it goes about it, and what it leaves out
 * @param inputs what a question holds
 * @param results what an answer holds beside assumptions, working, sources and cautions
 * @param sources where formulas and tables come from
 * @param cautions what to mind before acting on the figures
 * @param more fields that this version does not know
 */
public record CalculationSummary(
        String name,
        String purpose,
        String method,
        List<CalculationField> inputs,
        List<CalculationField> results,
        List<String> sources,
        List<String> cautions,
        @JsonAnySetter Map<String, JsonNode> more) {

    public CalculationSummary {
        Require.text("name", name);
        Require.present("purpose", purpose);
        Require.present("method", method);
        inputs = Require.listOrEmpty(inputs);
        results = Require.listOrEmpty(results);
        sources = Require.listOrEmpty(sources);
        cautions = Require.listOrEmpty(cautions);
        more = Require.mapOrEmpty(more);
    }
}
