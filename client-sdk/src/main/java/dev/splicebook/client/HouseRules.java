package dev.splicebook.client;

/** A firm's own rules, as expressions over a hookup; every check of the firm heeds them. */
public final class HouseRules {

    private static final String PATH = "/v1/house-rules";

    private final Transport transport;

    HouseRules(Transport transport) {
        this.transport = transport;
    }

    /**
     * Every rule, by code.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<HouseRule> list() {
        return list(Paging.start());
    }

    /**
     * Rules, by code.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<HouseRule> list(Paging paging) {
        return transport.page(Call.get(PATH), paging, HouseRule.class);
    }

    /**
     * A rule.
     *
     * @throws NotFoundException if there is no such rule
     * @throws SplicebookException if there is no answer, or another problem
     */
    public HouseRule get(String code) {
        return transport.send(rule(Call.get(PATH), code), HouseRule.class);
    }

    /**
     * A rule that is held already: the same object if it has not changed, which the service then says without sending it
     * again.
     *
     * @throws NotFoundException if there is no such rule
     * @throws SplicebookException if there is no answer, or another problem
     */
    public HouseRule refresh(HouseRule held) {
        return transport.refresh(rule(Call.get(PATH), held.code()).ifNoneMatch(held.revision()), held, HouseRule.class);
    }

    /**
     * Adds a rule, which is tried on the hookups of its tests first. Sent again only with an {@link IdempotencyKey}.
     *
     * @throws BadRequestException with every fault of the rule, of its expressions and of the hookups of its tests
     * @throws ConflictException if there is a rule of that code already
     * @throws ApiException with the status 422 if it does not do what its tests say
     * @throws SplicebookException if there is no answer, or another problem
     */
    public HouseRule create(Document rule) {
        return transport.send(Call.post(PATH, rule), HouseRule.class);
    }

    /**
     * Judges a rule like {@link #create}, and stores nothing.
     *
     * @throws BadRequestException with every fault of the rule, of its expressions and of the hookups of its tests
     * @throws ConflictException if there is a rule of that code already
     * @throws ApiException with the status 422 if it does not do what its tests say
     * @throws SplicebookException if there is no answer, or another problem
     */
    public DryRun dryRunCreate(Document rule) {
        return transport.send(Call.post(PATH, rule).dryRun(), DryRun.class);
    }

    /**
     * Puts another in the place of a rule. Sent once.
     *
     * @param held the rule as it was read; if it has changed since, nothing is changed
     * @throws PreconditionFailedException if it has changed since
     * @throws BadRequestException with every fault of the rule, of its expressions and of the hookups of its tests
     * @throws ApiException with the status 422 if it does not do what its tests say
     * @throws SplicebookException if there is no answer, or another problem
     */
    public HouseRule replace(HouseRule held, Document rule) {
        return transport.send(
                rule(Call.put(PATH), held.code())
                        .ifMatch(held.revision())
                        .body(Call.JSON, Source.json(Require.present("rule", rule))),
                HouseRule.class);
    }

    /**
     * Withdraws a rule. Sent once.
     *
     * @param held the rule as it was read; if it has changed since, nothing is changed
     * @throws PreconditionFailedException if it has changed since
     * @throws NotFoundException if there is no such rule any more
     * @throws SplicebookException if there is no answer, or another problem
     */
    public void withdraw(HouseRule held) {
        transport.run(rule(Call.delete(PATH), held.code()).ifMatch(held.revision()));
    }

    private static Call rule(Call call, String code) {
        return call.segment("code", Require.present("code", code));
    }
}
