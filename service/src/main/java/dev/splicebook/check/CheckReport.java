package dev.splicebook.check;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Mending;
import dev.splicebook.hookup.Remedy;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Waiver;
import dev.splicebook.hookup.Waiving;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What the check of a hookup found, as it is answered.
 *
 * @param verdict by the findings that are not waived
 * @param findings those that are not waived
 * @param waived those that are, each with its waiver
 * @param lapsedWaivers waivers that hold for nothing, and why
 * @param revisions that it was made from
 * @param stored which stored hookup it is of; absent for a check that stores nothing
 * @param remediesBound which bound cut the search for remedies short; absent if none did
 * @param fix absent unless it was asked for
 */
public record CheckReport(
        Report.Verdict verdict,
        List<Finding> findings,
        List<Waiving.Waived> waived,
        List<Waiving.Lapsed> lapsedWaivers,
        List<Report.Outcome> outcomes,
        List<Report.Metering> meterFirst,
        List<Report.Step> order,
        Report.Power power,
        List<Report.SpeakerLoad> speakerLoads,
        List<Report.Assumption> assumptions,
        List<String> cautions,
        Revisions revisions,
        @Nullable StoredAs stored,
        @Nullable String remediesBound,
        @Nullable FixView fix) {

    /**
     * The least costly changes found that make the hookup ready, or the nearest the search came.
     *
     * @param ready whether it is ready then
     * @param what is changed, a sentence each
     * @param patch of the hookup, all changes together
     * @param adds what it takes beside wire
     * @param report of the mended hookup, without what is waived
     * @param checks that were made
     * @param bound that ended the search; absent if it came to its end
     */
    public record FixView(
            boolean ready,
            List<String> what,
            List<Remedy.Operation> patch,
            List<Remedy.Added> adds,
            Report report,
            int checks,
            @Nullable String bound) {

        static FixView of(Mending.Fix fix) {
            return new FixView(
                    fix.isReady(), fix.what(), fix.patch(), fix.adds(), fix.report(), fix.checks(), fix.bound());
        }
    }

    /** Vehicle and devices as they were used; what was inline is absent. */
    public record Revisions(Checks.@Nullable UsedRevision vehicle, Map<String, Checks.UsedRevision> devices) {}

    /** A revision of a stored hookup, and when it was checked. */
    public record StoredAs(UUID id, int revision, Instant checkedAt) {}

    /** The answer to a check. */
    public static CheckReport of(
            Checks.Checked checked, List<Waiver> waivers, LocalDate today, @Nullable StoredAs stored) {
        Waiving waiving = Waiving.of(checked.report().findings(), waivers, today);
        Report report =
                checked.report().with(waiving.findings(), checked.report().outcomes());
        return new CheckReport(
                report.verdict(),
                report.findings(),
                waiving.waived(),
                waiving.lapsed(),
                report.outcomes(),
                report.meterFirst(),
                report.order(),
                report.power(),
                report.speakerLoads(),
                report.assumptions(),
                report.cautions(),
                new Revisions(checked.vehicle(), checked.devices()),
                stored,
                checked.remediesBound(),
                checked.fix() == null ? null : FixView.of(checked.fix()));
    }
}
