package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A hookup that the service proposes.
 *
 * @param hookup whole: it can be checked as it is
 * @param report what its check found
 * @param cost in points: what work, parts and quality it takes; only to compare proposals of one question
 * @param choices why each terminal goes where it goes
 * @param settingsToMake settings that are still to be made or to be decided
 * @param gaveUp wishes that it does not meet
 * @param added refs of the parts that it adds to those of the question
 * @param alternatives that differ in substance, best first
 * @param assumptions lengths and sizes that were used for want of better ones
 * @param more fields that this version does not know
 */
public record Pairing(
        Hookup hookup,
        Report report,
        double cost,
        List<Choice> choices,
        List<SettingToMake> settingsToMake,
        List<GivenUp> gaveUp,
        List<String> added,
        List<Alternative> alternatives,
        List<Report.Assumption> assumptions,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Pairing {
        Require.present("hookup", hookup);
        Require.present("report", report);
        choices = Require.listOrEmpty(choices);
        settingsToMake = Require.listOrEmpty(settingsToMake);
        gaveUp = Require.listOrEmpty(gaveUp);
        added = Require.listOrEmpty(added);
        alternatives = Require.listOrEmpty(alternatives);
        assumptions = Require.listOrEmpty(assumptions);
        more = Require.mapOrEmpty(more);
    }

    /**
     * One decision.
     *
     * @param terminals what wanted something
     * @param to what serves it; empty where nothing does
     * @param through parts between the two
     * @param why it was chosen
     * @param against what speaks against the next best; absent where there is none
     * @param more fields that this version does not know
     */
    public record Choice(
            List<String> terminals,
            List<String> to,
            List<String> through,
            String why,
            @Nullable String against,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Choice {
            terminals = Require.listOrEmpty(terminals);
            to = Require.listOrEmpty(to);
            through = Require.listOrEmpty(through);
            Require.present("why", why);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A setting of a part.
     *
     * @param part its ref
     * @param setting its name
     * @param what it does; absent if the device does not say
     * @param choices that it has, and what they mean; empty for any value
     * @param required whether the device works without it
     * @param value that the hookup gives it; absent where it is to be decided
     * @param why that value
     * @param more fields that this version does not know
     */
    public record SettingToMake(
            String part,
            String setting,
            @Nullable String what,
            Map<String, String> choices,
            boolean required,
            @Nullable String value,
            @Nullable String why,
            @JsonAnySetter Map<String, JsonNode> more) {

        public SettingToMake {
            Require.text("part", part);
            Require.text("setting", setting);
            choices = Require.mapOrEmpty(choices);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A wish that the hookup does not meet.
     *
     * @param wish as it was asked
     * @param why it does not
     * @param instead what would serve the customer; absent if nothing is known to
     * @param more fields that this version does not know
     */
    public record GivenUp(
            Wish wish,
            String why,
            @Nullable String instead,
            @JsonAnySetter Map<String, JsonNode> more) {

        public GivenUp {
            Require.present("wish", wish);
            Require.text("why", why);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * What the customer wants.
     *
     * @param function or a group of functions
     * @param want whether it is there already
     * @param more fields that this version does not know
     */
    public record Wish(
            String function, Want want, @JsonAnySetter Map<String, JsonNode> more) {

        public Wish {
            Require.text("function", function);
            Require.present("want", want);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * Another hookup.
     *
     * @param differs in what, a sentence each
     * @param hookup that can be checked as it is
     * @param verdict of its check
     * @param cost as that of the proposal
     * @param more fields that this version does not know
     */
    public record Alternative(
            List<String> differs,
            Hookup hookup,
            Verdict verdict,
            double cost,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Alternative {
            differs = Require.listOrEmpty(differs);
            Require.present("hookup", hookup);
            Require.present("verdict", verdict);
            more = Require.mapOrEmpty(more);
        }
    }
}
