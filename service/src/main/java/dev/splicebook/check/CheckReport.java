package dev.splicebook.check;

import dev.splicebook.hookup.Finding;
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
 */
public record CheckReport(
        Report.Verdict verdict,
        List<Finding> findings,
        List<Waiving.Waived> waived,
        List<Waiving.Lapsed> lapsedWaivers,
        List<Report.Outcome> outcomes,
        List<Report.Metering> meterFirst,
        List<Report.Step> order,
        List<Report.Assumption> assumptions,
        List<String> cautions,
        Revisions revisions,
        @Nullable StoredAs stored) {

    /** Vehicle and devices as they were used; what was inline is absent. */
    public record Revisions(
            Checks.@Nullable UsedRevision vehicle, Map<String, Checks.UsedRevision> devices) {}

    /** A revision of a stored hookup, and when it was checked. */
    public record StoredAs(UUID id, int revision, Instant checkedAt) {}

    /** The answer to a check. */
    public static CheckReport of(
            Checks.Checked checked, List<Waiver> waivers, LocalDate today, @Nullable StoredAs stored) {
        Waiving waiving = Waiving.of(checked.report().findings(), waivers, today);
        Report report = checked.report().with(waiving.findings(), checked.report().outcomes());
        return new CheckReport(
                report.verdict(),
                report.findings(),
                waiving.waived(),
                waiving.lapsed(),
                report.outcomes(),
                report.meterFirst(),
                report.order(),
                report.assumptions(),
                report.cautions(),
                new Revisions(checked.vehicle(), checked.devices()),
                stored);
    }
}
