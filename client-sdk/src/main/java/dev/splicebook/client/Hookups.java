package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Stored hookups in immutable revisions, with their reports and waivers. */
public final class Hookups {

    private static final String PATH = "/v1/hookups";

    private final Transport transport;

    Hookups(Transport transport) {
        this.transport = transport;
    }

    /**
     * Stores a hookup with its first revision, and has it checked; {@link #report(UUID)} tells what was found. Sent again
     * only with an {@link IdempotencyKey}.
     *
     * @throws BadRequestException with every fault of the hookup; references that lead nowhere are among them
     * @throws SplicebookException if there is no answer, or another problem
     */
    public StoredHookup create(Hookup hookup) {
        return transport.send(Call.post(PATH, hookup), StoredHookup.class);
    }

    /**
     * Judges a hookup like {@link #create}, and stores nothing.
     *
     * @throws BadRequestException with every fault of the hookup; references that lead nowhere are among them
     * @throws SplicebookException if there is no answer, or another problem
     */
    public DryRun dryRunCreate(Hookup hookup) {
        return transport.send(Call.post(PATH, hookup).dryRun(), DryRun.class);
    }

    /**
     * The latest revision of a hookup.
     *
     * @throws NotFoundException if there is no such hookup, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public StoredHookup get(UUID id) {
        return transport.send(hookup(Call.get(PATH), id), StoredHookup.class);
    }

    /**
     * The latest revision of a hookup that is held already: the same object if it is the latest still, which the service
     * then says without sending it again.
     *
     * @throws NotFoundException if there is no such hookup, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public StoredHookup refresh(StoredHookup held) {
        return transport.refresh(
                hookup(Call.get(PATH), held.id()).ifNoneMatch(held.revision()), held, StoredHookup.class);
    }

    /**
     * One revision of a hookup, 1 or more.
     *
     * @throws NotFoundException if there is no such hookup or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public StoredHookup getRevision(UUID id, int revision) {
        return transport.send(revision(Call.get(PATH), id, revision), StoredHookup.class);
    }

    /**
     * Every hookup of the firm, oldest first.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<HookupSummary> list() {
        return list(HookupQuery.all());
    }

    /**
     * Hookups, oldest first.
     *
     * @throws BadRequestException if what is asked for cannot be
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<HookupSummary> list(HookupQuery query) {
        return transport.page(Call.get(PATH).query(query.filters().parameters()), query.paging(), HookupSummary.class);
    }

    /**
     * The revisions of a hookup, latest first.
     *
     * @throws NotFoundException if there is no such hookup, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<HookupSummary> listRevisions(UUID id) {
        return listRevisions(id, Paging.start());
    }

    /**
     * The revisions of a hookup, latest first.
     *
     * @throws NotFoundException if there is no such hookup, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<HookupSummary> listRevisions(UUID id, Paging paging) {
        return transport.page(hookup(Call.get(PATH), id).segment("revisions"), paging, HookupSummary.class);
    }

    /**
     * Adds a revision to a hookup, and has it checked. Sent again only with an {@link IdempotencyKey}.
     *
     * @param held what the hookup was made from; if it is not the latest revision any more, nothing is added
     * @throws PreconditionFailedException if another revision was added since
     * @throws BadRequestException with every fault of the hookup; references that lead nowhere are among them
     * @throws SplicebookException if there is no answer, or another problem
     */
    public StoredHookup addRevision(StoredHookup held, Hookup hookup) {
        return transport.send(adding(held, hookup), StoredHookup.class);
    }

    /**
     * Judges a revision like {@link #addRevision}, and stores nothing.
     *
     * @param held what the hookup was made from
     * @throws PreconditionFailedException if another revision was added since
     * @throws BadRequestException with every fault of the hookup; references that lead nowhere are among them
     * @throws SplicebookException if there is no answer, or another problem
     */
    public DryRun dryRunAddRevision(StoredHookup held, Hookup hookup) {
        return transport.send(adding(held, hookup).dryRun(), DryRun.class);
    }

    /**
     * The report of the latest revision, as it was made when that was added, with the waivers in force today.
     *
     * @throws NotFoundException if there is no such hookup, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Report report(UUID id) {
        return transport.send(hookup(Call.get(PATH), id).segment("report"), Report.class);
    }

    /**
     * The report of one revision, 1 or more, as it was made when that was added, with the waivers in force today.
     *
     * @throws NotFoundException if there is no such hookup or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Report report(UUID id, int revision) {
        return transport.send(revision(Call.get(PATH), id, revision).segment("report"), Report.class);
    }

    /**
     * The report of the latest revision, made anew by the rules, the vehicle and the devices of today, with remedies.
     *
     * @throws NotFoundException if there is no such hookup, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Report freshReport(UUID id) {
        return transport.send(hookup(Call.get(PATH), id).segment("report").query("fresh", true), Report.class);
    }

    /**
     * The report of one revision, 1 or more, made anew by the rules, the vehicle and the devices of today, with remedies.
     *
     * @throws NotFoundException if there is no such hookup or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Report freshReport(UUID id, int revision) {
        return transport.send(
                revision(Call.get(PATH), id, revision).segment("report").query("fresh", true), Report.class);
    }

    /**
     * As {@link #freshReport(UUID)}, with the least costly changes that make the hookup ready: {@link Report#fix()} of the
     * answer. What is waived needs no change.
     *
     * @throws NotFoundException if there is no such hookup, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Report fix(UUID id) {
        return transport.send(hookup(Call.get(PATH), id).segment("report").query("fix", true), Report.class);
    }

    /**
     * As {@link #fix(UUID)}, of one revision, 1 or more.
     *
     * @throws NotFoundException if there is no such hookup or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Report fix(UUID id, int revision) {
        return transport.send(
                revision(Call.get(PATH), id, revision).segment("report").query("fix", true), Report.class);
    }

    /**
     * What became of the findings since the revision before; the first is compared with no findings.
     *
     * @throws NotFoundException if there is no such hookup or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public FindingsChanges compareFindings(UUID id, int revision) {
        return transport.send(
                revision(Call.get(PATH), id, revision).segment("findings-changes"), FindingsChanges.class);
    }

    /**
     * What became of the findings from one revision to another, whichever is the later.
     *
     * @param from 1 or more, or 0 for no findings
     * @param to 1 or more
     * @throws NotFoundException if there is no such hookup or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public FindingsChanges compareFindings(UUID id, int from, int to) {
        return transport.send(changes(id, from, to), FindingsChanges.class);
    }

    /**
     * The same with both revisions checked anew, so that only what changed in the hookup makes a difference.
     *
     * @param from 1 or more, or 0 for no findings
     * @param to 1 or more
     * @throws NotFoundException if there is no such hookup or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public FindingsChanges compareFreshFindings(UUID id, int from, int to) {
        return transport.send(changes(id, from, to).query("fresh", true), FindingsChanges.class);
    }

    private static Call changes(UUID id, int from, int to) {
        return revision(Call.get(PATH), id, to)
                .segment("findings-changes")
                .query("from", Require.notNegative("from", from));
    }

    /**
     * The waivers of a hookup, oldest first; its report says which hold.
     *
     * @throws NotFoundException if there is no such hookup, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<StoredWaiver> listWaivers(UUID id) {
        return transport.page(hookup(Call.get(PATH), id).segment("waivers"), Paging.start(), StoredWaiver.class);
    }

    /**
     * Accepts the findings of a fingerprint in the latest revision as they are, in place of any waiver before. Sent once.
     *
     * @param held the hookup as it was read; if it is not the latest revision any more, nothing is waived
     * @throws PreconditionFailedException if another revision was added since
     * @throws ApiException with the status 422 if there is no such finding, or if it is a danger
     * @throws SplicebookException if there is no answer, or another problem
     */
    public StoredWaiver waive(StoredHookup held, Waiver waiver) {
        return transport.send(
                waiver(Call.put(PATH), held, waiver.fingerprint())
                        .body(Call.JSON, Source.json(new Given(waiver.author(), waiver.reason(), waiver.expiresOn()))),
                StoredWaiver.class);
    }

    /**
     * Withdraws a waiver. Sent once.
     *
     * @param held the hookup as it was read; if it is not the latest revision any more, nothing is withdrawn
     * @throws PreconditionFailedException if another revision was added since
     * @throws NotFoundException if there is no such waiver
     * @throws SplicebookException if there is no answer, or another problem
     */
    public void withdrawWaiver(StoredHookup held, String fingerprint) {
        transport.run(waiver(Call.delete(PATH), held, fingerprint));
    }

    /** A waiver but for what its path says. */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record Given(String author, String reason, @Nullable LocalDate expiresOn) {}

    private static Call adding(StoredHookup held, Hookup hookup) {
        return hookup(Call.post(PATH, hookup), held.id()).segment("revisions").ifMatch(held.revision());
    }

    private static Call waiver(Call call, StoredHookup held, String fingerprint) {
        return hookup(call, held.id())
                .segment("waivers")
                .segment("fingerprint", Require.present("fingerprint", fingerprint))
                .ifMatch(held.revision());
    }

    private static Call hookup(Call call, UUID id) {
        return call.segment("id", Require.present("id", id));
    }

    private static Call revision(Call call, UUID id, int revision) {
        return hookup(call, id).segment("revisions").segment("revision", Require.atLeastOne("revision", revision));
    }
}
