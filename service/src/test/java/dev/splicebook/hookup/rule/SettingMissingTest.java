package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

class SettingMissingTest {

    private static final Told TOLD = Told.by("setting-missing");

    private static final String MAKER =
            "\"head-unit-maker\": {\"choices\": {\"1\": \"first maker\", \"2\": \"second maker\"}, \"required\": true}";

    private static Wiring module(String settings) {
        return new Wiring().inside("IFC", "\"settings\": {" + settings + "}");
    }

    @Test
    void reportsARequiredSettingThatIsNotGivenWithItsChoices() {
        Finding finding = TOLD.finding(module(MAKER));

        assertThat(finding.message())
                .isEqualTo(
                        "IFC requires the setting head-unit-maker, and none is given; its choices are 1 (first maker)"
                                + " and 2 (second maker)");
        assertThat(finding.help()).isEqualTo("choose head-unit-maker for IFC.");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
    }

    @Test
    void acceptsASettingThatIsGiven() {
        TOLD.passes(module(MAKER).settings("\"IFC\": {\"head-unit-maker\": \"1\"}"));
    }

    @Test
    void reportsASettingOfAnyValueThatIsGivenEmpty() {
        assertThat(TOLD.messages(module("\"code\": {\"required\": true}").settings("\"IFC\": {\"code\": \" \"}")))
                .containsExactly("IFC requires the setting code, and none is given");
    }

    @Test
    void isSilentWhereASettingIsNotRequired() {
        TOLD.doesNotApply(module("\"gain\": {\"required\": false}, \"mode\": {\"choices\": {\"a\": \"one\"}}"));
    }

    @Test
    void asksEachOfTwoLikeModulesForItsOwn() {
        Wiring two = module(MAKER).inside("IFC2", "\"settings\": {" + MAKER + "}");

        assertThat(TOLD.messages(two.settings("\"IFC\": {\"head-unit-maker\": \"1\"}")))
                .singleElement()
                .satisfies(message -> assertThat(message).startsWith("IFC2 requires"));
    }

    @Test
    void tellsTwoMissingSettingsOfOnePartApart() {
        Report report =
                module(MAKER + ", \"vehicle-type\": {\"required\": true}").check();

        assertThat(Hookups.findings(report, "setting-missing"))
                .extracting(Finding::fingerprint)
                .hasSize(2)
                .doesNotHaveDuplicates();
    }

    @Test
    void pointsAtALeadOfThePartThatIsConnected() {
        Wiring wired = module(MAKER)
                .lead("IFC", "ground", facts("\"kind\": \"ground\""))
                .join("IFC.ground CAR.chassis");

        assertThat(TOLD.finding(wired).terminals()).containsExactly("IFC.ground");
    }
}
