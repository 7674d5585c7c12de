package dev.splicebook.hookup;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.rule.Examination;
import dev.splicebook.hookup.rule.Threshold;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class ThresholdsTest {

    private static final String SHARE = "fuse-below-load.continuousShare";
    private static final String NINE_OF_TEN = """
            {"parts": {"AMP": {"inline": {"terminals": {
               "plus": {"electrical": {"kind": "load", "typicalAmps": 9, "maxAmps": 12, "needs": "constant"}},
               "minus": {"electrical": {"kind": "ground"}}}}}},
             "connections": {
               "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "14 AWG"},
                      "fuse": {"ratingAmps": 10, "fromSource": {"value": 10, "unit": "cm"}}},
               "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "14 AWG"}}}}
            """;

    @Test
    void takesTheShopsFigureInPlaceOfTheRulesAndListsIt() {
        Hookup hookup = Hookups.hookup(NINE_OF_TEN);
        Report own = Hookups.checker().check(hookup);
        Report shops = Hookups.checker().check(hookup, new Thresholds(Map.of(SHARE, 0.95)));

        assertThat(own.findings()).extracting(Finding::rule).contains("fuse-below-load");
        assertThat(shops.findings()).extracting(Finding::rule).doesNotContain("fuse-below-load");
        assertThat(own.assumptions()).extracting(Report.Assumption::name).doesNotContain(SHARE);
        assertThat(shops.assumptions())
                .contains(new Report.Assumption(SHARE, 0.95, null, "set by the shop in place of 0.75"));
    }

    @Test
    void tellsTheShopsLimitInTheFinding() {
        Report strict = Hookups.checker().check(Hookups.hookup(NINE_OF_TEN), new Thresholds(Map.of(SHARE, 0.5)));

        assertThat(Hookups.findings(strict, "fuse-below-load").get(0).message())
                .endsWith("above the 5.0 A (50 % of its rating) that it bears");
    }

    @Test
    void listsNothingWhereTheFigureIsTheRulesOwn() {
        Hookup hookup = Hookups.hookup(NINE_OF_TEN);

        assertThat(Hookups.checker().check(hookup, new Thresholds(Map.of(SHARE, 0.75))))
                .isEqualTo(Hookups.checker().check(hookup));
    }

    @Test
    void refusesWhatNoRuleHasAndWhatIsOutOfRange() {
        Map<String, Double> bad = new LinkedHashMap<>();
        bad.put("fuse-too-far.colour", 1.0);
        bad.put("fuse-too-far.mostMetres", 5.0);
        bad.put(SHARE, Double.NaN);

        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> Hookups.checker().require(new Thresholds(bad)))
                .satisfies(thrown -> assertThat(thrown.invalids())
                        .extracting(Invalid::code)
                        .containsExactlyInAnyOrder("unknown-threshold", "out-of-range", "out-of-range"));
    }

    @Test
    void acceptsBothEndsOfEveryRange() {
        Hookups.checker().listThresholds().forEach((name, threshold) -> {
            assertThat(threshold.value()).as(name).isBetween(threshold.least(), threshold.most());
            for (double value : List.of(threshold.least(), threshold.most())) {
                Hookups.checker().require(new Thresholds(Map.of(name, value)));
            }
        });
        assertThat(Hookups.checker().listThresholds()).containsKeys(SHARE, "fuse-too-far.mostMetres");
    }

    /** A rule that reads its own figure would not hear of the shop's: read it by {@code examination.value(…)}. */
    @Test
    void isReadThroughTheExaminationByEveryRule() {
        noClasses()
                .that()
                .resideInAPackage("dev.splicebook.hookup.rule..")
                .and()
                .areNotAssignableTo(Examination.class)
                .and()
                .areNotAssignableTo(Threshold.class)
                .should()
                .callMethod(Threshold.class, "value")
                .allowEmptyShould(false)
                .check(new ClassFileImporter()
                        .withImportOption(new ImportOption.DoNotIncludeTests())
                        .importPackages("dev.splicebook.hookup.rule"));
    }
}
