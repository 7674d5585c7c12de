package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * A calculation's page.
 *
 * @param name like {@code voltage-drop}; never changes
 * @param purpose what it is for
 * @param method how it goes about it, and what it leaves out
 * @param inputs what a question holds
 * @param results what an answer holds beside assumptions, working, sources and cautions
 * @param sources where formulas and tables come from
 * @param cautions what to mind before acting on the figures
 * @param example a question that can be sent as it is
 * @param more fields that this version does not know
 */
public record Calculation(
        String name,
        String purpose,
        String method,
        List<CalculationField> inputs,
        List<CalculationField> results,
        List<String> sources,
        List<String> cautions,
        Document example,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Calculation {
        Require.text("name", name);
        Require.present("purpose", purpose);
        Require.present("method", method);
        inputs = Require.listOrEmpty(inputs);
        results = Require.listOrEmpty(results);
        sources = Require.listOrEmpty(sources);
        cautions = Require.listOrEmpty(cautions);
        Require.present("example", example);
        more = Require.mapOrEmpty(more);
    }
}
