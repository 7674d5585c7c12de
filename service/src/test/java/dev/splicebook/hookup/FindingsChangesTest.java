package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class FindingsChangesTest {

    private static Finding finding(int fingerprint, String message) {
        return Finding.of(
                "some-rule", Severity.ERROR, message, "h", List.of(), List.of(), "%016x".formatted(fingerprint));
    }

    @Test
    void tellsWhatAppearedWentAndStayed() {
        Finding gone = finding(1, "one");
        Finding before = finding(2, "two, as it was called");
        Finding after = finding(2, "two, as it is called");
        Finding appeared = finding(3, "three");

        FindingsChanges changes = FindingsChanges.between(List.of(gone, before), List.of(after, appeared));

        assertThat(changes.gone()).containsExactly(gone);
        assertThat(changes.stayed()).containsExactly(after);
        assertThat(changes.appeared()).containsExactly(appeared);
    }

    @Test
    void countsEachOfThoseThatShareAFingerprint() {
        List<Finding> two = List.of(finding(1, "left"), finding(1, "right"));
        List<Finding> one = List.of(finding(1, "left"));

        assertThat(FindingsChanges.between(two, one).gone()).hasSize(1);
        assertThat(FindingsChanges.between(two, one).stayed()).hasSize(1);
        assertThat(FindingsChanges.between(one, two).appeared()).hasSize(1);
    }

    @Test
    void losesNoFindingAndMakesNone() {
        Random random = new Random(5);
        for (int round = 0; round < 200; round++) {
            List<Finding> was = some(random);
            List<Finding> is = some(random);

            FindingsChanges changes = FindingsChanges.between(was, is);
            FindingsChanges back = FindingsChanges.between(is, was);

            assertThat(Stream.concat(changes.appeared().stream(), changes.stayed().stream()))
                    .containsExactlyInAnyOrderElementsOf(is);
            assertThat(changes.gone().size() + changes.stayed().size()).isEqualTo(was.size());
            assertThat(back.gone()).hasSameSizeAs(changes.appeared());
            assertThat(back.stayed()).hasSameSizeAs(changes.stayed());
            assertThat(FindingsChanges.between(is, is).stayed()).isEqualTo(is);
        }
    }

    private static List<Finding> some(Random random) {
        List<Finding> findings = new ArrayList<>();
        for (int at = random.nextInt(6); at > 0; at--) {
            findings.add(finding(random.nextInt(4), "m" + at));
        }
        return findings;
    }
}
