package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.splicebook.guard.InvalidValueException;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class WaivingTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    private static Finding finding(int fingerprint, Severity severity) {
        return Finding.of("some-rule", severity, "m", "h", List.of(), List.of(), "%016x".formatted(fingerprint));
    }

    private static Waiver waiver(int fingerprint, @Nullable LocalDate expiresOn) {
        return new Waiver("%016x".formatted(fingerprint), "Bench 2", "the customer knows", expiresOn);
    }

    @Test
    void takesOutEveryFindingOfTheFingerprint() {
        Finding one = finding(1, Severity.ERROR);
        Finding same = finding(1, Severity.ERROR);
        Finding other = finding(2, Severity.WARNING);

        Waiving waiving = Waiving.of(List.of(one, same, other), List.of(waiver(1, null)), TODAY);

        assertThat(waiving.findings()).containsExactly(other);
        assertThat(waiving.waived()).extracting(Waiving.Waived::finding).containsExactly(one, same);
        assertThat(waiving.lapsed()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"+999999998-12-31", "1999-12-31", "-0044-03-15"})
    void endsOnADayThatACalendarHas(String expiresOn) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> waiver(1, LocalDate.parse(expiresOn)))
                .satisfies(refused -> assertThat(refused.invalids())
                        .singleElement()
                        .satisfies(invalid -> assertThat(invalid.pointer()).isEqualTo("/expiresOn")));
    }

    @Test
    void holdsThroughItsLastDay() {
        List<Finding> findings = List.of(finding(1, Severity.ERROR));

        assertThat(Waiving.of(findings, List.of(waiver(1, TODAY)), TODAY).findings())
                .isEmpty();
        Waiving after = Waiving.of(findings, List.of(waiver(1, TODAY)), TODAY.plusDays(1));
        assertThat(after.findings()).isEqualTo(findings);
        assertThat(after.lapsed()).containsExactly(new Waiving.Lapsed(waiver(1, TODAY), Waiving.Why.EXPIRED));
    }

    @Test
    void lapsesWhereItsFindingIsNoMore() {
        Waiving waiving = Waiving.of(List.of(finding(2, Severity.ERROR)), List.of(waiver(1, null)), TODAY);

        assertThat(waiving.findings()).hasSize(1);
        assertThat(waiving.lapsed()).extracting(Waiving.Lapsed::why).containsExactly(Waiving.Why.NO_SUCH_FINDING);
    }

    @Test
    void neverWaivesADanger() {
        Finding danger = finding(1, Severity.DANGER);

        Waiving waiving = Waiving.of(List.of(danger), List.of(waiver(1, null)), TODAY);

        assertThat(waiving.findings()).containsExactly(danger);
        assertThat(waiving.waived()).isEmpty();
        assertThat(waiving.lapsed()).extracting(Waiving.Lapsed::why).containsExactly(Waiving.Why.DANGER);
    }

    @Test
    void letsOneThatHoldsStandForOneThatHasExpired() {
        Waiver expired = waiver(1, TODAY.minusDays(1));
        Waiver holding = waiver(1, null);

        Waiving waiving = Waiving.of(List.of(finding(1, Severity.NOTE)), List.of(expired, holding), TODAY);

        assertThat(waiving.waived()).extracting(Waiving.Waived::waiver).containsExactly(holding);
        assertThat(waiving.lapsed()).extracting(Waiving.Lapsed::waiver).containsExactly(expired);
    }

    /** A wish that is unmet is waived: another wish is another finding, and another name of a connection is not. */
    @Test
    void lapsesWhenAFactChanges() {
        String hookup = """
                {"parts": {"L": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 5, "maxAmps": 5, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "L.plus"], "conductor": {"size": "18 AWG"},
                          "length": {"value": 1, "unit": "m"}, "fuse": {"ratingAmps": 10, "fromSource": {"value": 10, "unit": "cm"}}},
                   "W2": {"ends": ["L.minus", "CAR.chassis"], "conductor": {"size": "18 AWG"},
                          "length": {"value": 1, "unit": "m"}}},
                 "wishes": [{"function": "audio.microphone", "want": "keep"}]}""";
        Finding wish = Hookups.findings(Hookups.check(hookup), "wish-unmet").get(0);
        List<Waiver> waivers = List.of(new Waiver(wish.fingerprint(), "Bench 2", "no microphone fitted", null));

        Report same = Hookups.check(hookup.replace("\"W1\"", "\"X9\""));
        Report changed = Hookups.check(hookup.replace("audio.microphone", "video.camera-rear"));

        assertThat(Waiving.of(same.findings(), waivers, TODAY).waived())
                .extracting(waived -> waived.finding().rule())
                .containsExactly("wish-unmet");
        assertThat(Waiving.of(changed.findings(), waivers, TODAY).lapsed())
                .extracting(Waiving.Lapsed::why)
                .containsExactly(Waiving.Why.NO_SUCH_FINDING);
        assertThat(same.with(Waiving.of(same.findings(), waivers, TODAY).findings(), same.outcomes())
                        .findings())
                .noneMatch(finding -> finding.rule().equals("wish-unmet"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "09AF5C3DE81B7246", "09af5c3de81b724", "09af5c3de81b72460", "some-rule"})
    void refusesWhatIsNoFingerprint(String fingerprint) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Waiver(fingerprint, "a", "r", null));
    }

    @Test
    void refusesTwoWaiversOfOneFindingInOneHookup() {
        String waiver = "{\"fingerprint\": \"09af5c3de81b7246\", \"author\": \"a\", \"reason\": \"r\"}";

        assertThat(Hookups.document("{\"waivers\": [" + waiver + "]}").waivers())
                .hasSize(1);
        assertThatExceptionOfType(RuntimeException.class)
                .isThrownBy(() -> Hookups.document("{\"waivers\": [" + waiver + "," + waiver + "]}"))
                .withMessageContaining("waived twice");
    }
}
