package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Mending.Fix;
import dev.splicebook.hookup.Report.Verdict;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The jobs' first drafts, mended by search. */
class MendingTest {

    private static final String REAR_DRAFT = "rear-entertainment/check-1-first-draft";
    private static final String REAR_LATE = "rear-entertainment/check-2-isolator-after-sleeve";
    private static final String BASS_DRAFT = "amplifier-and-subwoofers/check-1-first-draft";

    private static final Mending MENDING = new Mending();

    /** The demo catalogue. */
    static final Stock STOCK = kind -> DemoFiles.devices().values().stream()
            .filter(device -> kind.equals(device.kind()))
            .map(device -> new Stock.Item(device, 1))
            .toList();

    static Mending.Means means(Mending.Bounds bounds) {
        return new Mending.Means(Hookups.checker()::check, STOCK, bounds);
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR_DRAFT, REAR_LATE, BASS_DRAFT})
    void makesEveryDraftReady(String job) {
        Hookup draft = DemoFiles.example(job);
        for (int i = 0; i < 3; i++) {
        Report report = Hookups.checker().check(draft);
        long t = System.nanoTime();
        Mending.Remedied r = MENDING.remedy(draft, report, means(Mending.FOR_REMEDIES));
        System.out.println("remedies " + (System.nanoTime() - t) / 1e6 + " ms " + r.checks() + " " + r.bound());
        if (i == 0) r.report().findings().forEach(f -> { System.out.println(f.message()); f.remedies().forEach(x -> System.out.println("    " + x.what() + " " + x.adds() + " -" + x.removes().size())); });
        t = System.nanoTime();
        Fix fix = MENDING.fix(draft, report, means(Mending.FOR_FIX));
        System.out.println("fix " + (System.nanoTime() - t) / 1e6 + " ms " + fix.checks() + " " + fix.bound());
        if (i == 0) {
        System.out.println(fix.isReady()+" "+fix.what());
        fix.patch().forEach(System.out::println);
        fix.adds().forEach(System.out::println);
        fix.report().findings().forEach(System.out::println);
        }
        assertThat(fix.report().verdict()).isEqualTo(Verdict.READY);
        }
    }
}
