package dev.splicebook.job;

import dev.splicebook.check.CheckReport;
import dev.splicebook.check.Checks;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.FindingsChanges;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Waiver;
import dev.splicebook.hookup.Waiving;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.Fault;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.Problems;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StoredDocuments;
import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * The stored hookups of a firm. A revision keeps the report that the check made when it was added; waivers are applied
 * when it is read, and it is made anew where that is asked for.
 */
@Service
public class Jobs {

    private final Hookups hookups;
    private final Checks checks;
    private final JsonMapper mapper;

    Jobs(Hookups hookups, Checks checks, JsonMapper mapper) {
        this.hookups = hookups;
        this.checks = checks;
        this.mapper = mapper;
    }

    /**
     * Checks a hookup that is to be added. That may take long, so it is no part of what adds it.
     *
     * @throws ProblemException as {@link Checks#check} does
     */
    public Checks.Checked check(Caller caller, Sent<HookupDocument> hookup) {
        return checks.check(caller, hookup.value());
    }

    /**
     * Checks a hookup that is to be added as a revision, once it is sure that it can be.
     *
     * @throws ProblemException as {@link #addRevision} and {@link Checks#check} do
     */
    public Checks.Checked check(Caller caller, UUID id, @Nullable String ifMatch, Sent<HookupDocument> hookup) {
        requireLatest(caller, id, ifMatch);
        return check(caller, hookup);
    }

    /** Adds a hookup with its first revision, and with what {@link #check(Caller, Sent)} made of it. */
    @Transactional
    public StoredHookup create(Caller caller, Sent<HookupDocument> hookup, Checks.Checked checked) {
        UUID id = UUID.randomUUID();
        hookups.add(caller, id);
        return add(caller, id, 1, hookup, checked);
    }

    /**
     * Adds a revision, with what the check made of it.
     *
     * @param ifMatch tag of the latest revision
     * @throws ProblemException 404 for a hookup that is absent or another firm's, 428 without a tag, 412 if it is not the
     *     latest's
     */
    @Transactional
    public StoredHookup addRevision(
            Caller caller, UUID id, @Nullable String ifMatch, Sent<HookupDocument> hookup, Checks.Checked checked) {
        int latest = requireLatest(caller, id, ifMatch);
        if (!hookups.advanceFrom(caller, id, latest)) {
            throw Problems.preconditionFailed(latest + 1);
        }
        return add(caller, id, latest + 1, hookup, checked);
    }

    private StoredHookup add(
            Caller caller, UUID id, int revision, Sent<HookupDocument> hookup, Checks.Checked checked) {
        Instant now = now();
        CheckReport report =
                CheckReport.of(checked, List.of(), Checks.today(), new CheckReport.StoredAs(id, revision, now));
        StoredHookup added =
                new StoredHookup(id, revision, revision, now, hookup.json(), mapper.writeValueAsString(report));
        Checks.UsedRevision vehicle = checked.vehicle();
        hookups.addRevision(
                caller,
                added,
                hookup.value(),
                vehicle == null ? null : UUID.fromString(vehicle.id()),
                report.findings(),
                Report.Verdict.of(List.of(), report.outcomes()) != Report.Verdict.READY);
        return added;
    }

    /**
     * A revision of a hookup.
     *
     * @param revision absent for the latest
     * @throws ProblemException 404 if there is none, or it is another firm's
     */
    @Transactional(readOnly = true)
    public StoredHookup get(Caller caller, UUID id, @Nullable Integer revision) {
        StoredHookup found = hookups.find(caller, id, revision).orElse(null);
        if (found == null) {
            throw revision == null ? notFound(id) : Problems.notFound("revision " + revision + " of hookup " + id);
        }
        return found;
    }

    /** Hookups of the caller's firm, oldest first, by their latest revision. */
    @Transactional(readOnly = true)
    public PageOf<HookupSummary> list(Caller caller, HookupFilter filter, PageQuery page) {
        return hookups.list(caller, filter, Checks.today(), page);
    }

    /** Revisions of a hookup, latest first. */
    @Transactional(readOnly = true)
    public PageOf<HookupSummary> listRevisions(Caller caller, UUID id, PageQuery page) {
        requireKnown(caller, id);
        return hookups.listRevisions(caller, id, Checks.today(), page);
    }

    /**
     * The report of a revision, with the waivers in force today, as a {@link CheckReport} in JSON.
     *
     * @param revision absent for the latest
     * @param fresh whether the hookup is checked anew, by the rules, the vehicle and the devices of today, remedies included
     * @param fix whether the least costly changes that make it ready are looked for too; it is checked anew then
     * @throws ProblemException 404 if there is none; with {@code fresh} or {@code fix} as {@link Checks#check} does
     */
    public JsonNode getReport(Caller caller, UUID id, @Nullable Integer revision, boolean fresh, boolean fix) {
        StoredHookup stored = get(caller, id, revision);
        List<Waiver> waivers = waivers(caller, stored);
        if (fresh || fix) {
            return mapper.valueToTree(CheckReport.of(
                    checkAnew(caller, stored, new Checks.Wanted(true, fix), waivers),
                    waivers,
                    Checks.today(),
                    new CheckReport.StoredAs(id, stored.revision(), now())));
        }
        ObjectNode report = (ObjectNode) mapper.readTree(stored.report());
        Waiving waiving = Waiving.of(findings(report), waivers, Checks.today());
        List<Report.Outcome> outcomes = report.path("outcomes")
                .valueStream()
                .map(outcome -> StrictReader.shape(outcome, Report.Outcome.class))
                .toList();
        report.set("verdict", mapper.valueToTree(Report.Verdict.of(waiving.findings(), outcomes)));
        report.set("findings", mapper.valueToTree(waiving.findings()));
        report.set("waived", mapper.valueToTree(waiving.waived()));
        report.set("lapsedWaivers", mapper.valueToTree(waiving.lapsed()));
        return report;
    }

    /** What became of the findings, waived or not, from one revision to another. */
    public record Comparison(int from, int to, List<Finding> appeared, List<Finding> gone, List<Finding> stayed) {}

    /**
     * Compares the findings of two revisions.
     *
     * @param from absent for the revision before {@code to}; 0 for no findings
     * @param fresh whether both are checked anew, so that only what changed in the hookup makes a difference
     * @throws ProblemException 400 for a {@code from} below 0, 404 if there is no such revision
     */
    public Comparison compareFindings(Caller caller, UUID id, @Nullable Integer from, int to, boolean fresh) {
        List<Finding> is = findings(caller, id, to, fresh);
        int base = from == null ? to - 1 : from;
        if (base < 0) {
            throw Problems.badParameter(
                    "from", "out-of-range", "from is " + base + ", below 0, which stands for no findings");
        }
        List<Finding> was = base == 0 ? List.of() : findings(caller, id, base, fresh);
        FindingsChanges changes = FindingsChanges.between(was, is);
        return new Comparison(base, to, changes.appeared(), changes.gone(), changes.stayed());
    }

    /** Waivers of a hookup that are not withdrawn, oldest first. */
    @Transactional(readOnly = true)
    public List<StoredWaiver> listWaivers(Caller caller, UUID id) {
        requireKnown(caller, id);
        return hookups.listWaivers(caller, id);
    }

    /**
     * Waives the findings of a fingerprint in the latest revision, in place of any waiver before.
     *
     * @param ifMatch tag of the latest revision, whose report was read
     * @throws ProblemException 404 for a hookup that is absent or another firm's, 428 without a tag, 412 if it is not the
     *     latest's, 422 if there is no such finding, if it is a danger, or if the waiver would not hold today
     */
    @Transactional
    public StoredWaiver waive(Caller caller, UUID id, @Nullable String ifMatch, Waiver waiver) {
        int latest = requireLatest(caller, id, ifMatch);
        List<Finding> found = findingsOf(waiver, findings(caller, id, latest, false));
        if (found.isEmpty()) {
            // a rule of the house may be newer than the report
            found = findingsOf(waiver, findings(caller, id, latest, true));
        }
        if (found.isEmpty()) {
            throw Problems.unprocessable(
                    "revision " + latest + " has no finding with the fingerprint " + waiver.fingerprint(), List.of());
        }
        Finding finding = found.get(0);
        if (finding.severity() == Severity.DANGER) {
            throw Problems.unprocessable(
                    "a danger cannot be waived: " + finding.rule() + ", " + finding.message(), List.of());
        }
        if (waiver.expiresOn() != null && waiver.expiresOn().isBefore(Checks.today())) {
            throw Problems.unprocessable(
                    "expiresOn is " + waiver.expiresOn() + ", which is over",
                    List.of(Fault.at(
                            "/expiresOn", "out-of-range", "expiresOn is " + waiver.expiresOn() + ", which is over")));
        }
        hookups.lock(caller, id);
        List<StoredWaiver> before = hookups.listWaivers(caller, id);
        boolean isFurther =
                before.stream().noneMatch(each -> each.waiver().fingerprint().equals(waiver.fingerprint()));
        if (isFurther && before.size() >= HookupDocument.MOST_WAIVERS) {
            throw Problems.unprocessable(
                    "the hookup has " + HookupDocument.MOST_WAIVERS + " waivers, which are as many as may be",
                    List.of());
        }
        if (!hookups.addWaiver(caller, id, new StoredWaiver(waiver, finding.rule(), finding.message(), now()))) {
            throw Problems.contended();
        }
        return findWaiver(caller, id, waiver.fingerprint()).orElseThrow();
    }

    /**
     * Withdraws a waiver.
     *
     * @throws ProblemException 404 for a hookup or waiver that is absent or another firm's, 428 without a tag, 412 if it
     *     is not that of the latest revision, 422 for one that the document of the latest revision has
     */
    @Transactional
    public void withdraw(Caller caller, UUID id, @Nullable String ifMatch, String fingerprint) {
        requireKnown(caller, id);
        StoredWaiver given = findWaiver(caller, id, fingerprint).orElseThrow(() -> noWaiver(caller, id, fingerprint));
        requireLatest(caller, id, ifMatch);
        if (!hookups.withdrawWaiver(caller, id, given)) {
            throw Problems.contended();
        }
    }

    private static List<Finding> findingsOf(Waiver waiver, List<Finding> findings) {
        return findings.stream()
                .filter(finding -> finding.fingerprint().equals(waiver.fingerprint()))
                .toList();
    }

    private Optional<StoredWaiver> findWaiver(Caller caller, UUID id, String fingerprint) {
        return hookups.listWaivers(caller, id).stream()
                .filter(each -> each.waiver().fingerprint().equals(fingerprint))
                .findFirst();
    }

    /** Tells a waiver that the document has, and that no call takes out of it, from none at all. */
    private ProblemException noWaiver(Caller caller, UUID id, String fingerprint) {
        StoredHookup latest = get(caller, id, null);
        return documentWaivers(latest).anyMatch(each -> each.fingerprint().equals(fingerprint))
                ? Problems.unprocessable(
                        "the waiver of " + fingerprint + " stands in the document of " + what(latest)
                                + "; add a revision without it",
                        List.of())
                : Problems.notFound("waiver of " + fingerprint + " in hookup " + id);
    }

    private List<Finding> findings(Caller caller, UUID id, int revision, boolean fresh) {
        StoredHookup stored = get(caller, id, revision);
        return fresh
                ? checkAnew(caller, stored, Checks.Wanted.NOTHING, List.of())
                        .report()
                        .findings()
                : findings(mapper.readTree(stored.report()));
    }

    private static List<Finding> findings(JsonNode report) {
        return report.path("findings")
                .valueStream()
                .map(finding -> StrictReader.shape(finding, Finding.class))
                .toList();
    }

    /** By the vehicle and the devices of today, which may lack what the hookup names. */
    private Checks.Checked checkAnew(Caller caller, StoredHookup stored, Checks.Wanted wanted, List<Waiver> waivers) {
        HookupDocument document = document(stored);
        try {
            return checks.check(caller, document, wanted, waivers);
        } catch (ProblemException refused) {
            throw StoredDocuments.refusal(
                    refused, what(stored) + " cannot be checked anew, as the vehicle or a device has changed since:");
        }
    }

    private static String what(StoredHookup stored) {
        return "revision " + stored.revision() + " of hookup " + stored.id();
    }

    /** Those of the hookup, before those that its document has: of two for one finding the first counts. */
    private List<Waiver> waivers(Caller caller, StoredHookup stored) {
        return Stream.concat(
                        hookups.listWaivers(caller, stored.id()).stream().map(StoredWaiver::waiver),
                        documentWaivers(stored))
                .toList();
    }

    private static Stream<Waiver> documentWaivers(StoredHookup stored) {
        return parse(stored.document())
                .path("waivers")
                .valueStream()
                .map(waiver -> StrictReader.shape(waiver, Waiver.class));
    }

    private static HookupDocument document(StoredHookup stored) {
        return StoredDocuments.read(stored.document(), HookupDocument.class, what(stored));
    }

    private int requireKnown(Caller caller, UUID id) {
        return hookups.findLatestRevision(caller, id).orElseThrow(() -> notFound(id));
    }

    private int requireLatest(Caller caller, UUID id, @Nullable String ifMatch) {
        int latest = requireKnown(caller, id);
        ETags.requireMatch(ifMatch, latest);
        return latest;
    }

    private static JsonNode parse(String json) {
        return StrictReader.parse(json.getBytes(StandardCharsets.UTF_8));
    }

    /** As precise as the database keeps it, so that an answer is the same before and after it is stored. */
    private static Instant now() {
        return Instant.now().truncatedTo(ChronoUnit.MICROS);
    }

    private static RuntimeException notFound(UUID id) {
        return Problems.notFound("hookup " + id);
    }
}
