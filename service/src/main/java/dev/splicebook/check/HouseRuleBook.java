package dev.splicebook.check;

import dev.splicebook.check.house.HouseRule;
import dev.splicebook.check.house.HouseRules;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Report;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.Fault;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.ProblemType;
import dev.splicebook.web.Problems;
import dev.splicebook.web.Sent;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The rules of a firm's own. One that is saved can be used, and does what its tests say. */
@Service
public class HouseRuleBook {

    /** The most rules that one firm has. */
    static final int MOST_RULES = 100;

    private final StoredHouseRules rules;
    private final Checks checks;

    HouseRuleBook(StoredHouseRules rules, Checks checks) {
        this.rules = rules;
        this.checks = checks;
    }

    /** Rules in force, by code. */
    @Transactional(readOnly = true)
    public PageOf<StoredHouseRule> list(Caller caller, PageQuery page) {
        return rules.list(caller, page);
    }

    /**
     * A rule.
     *
     * @param revision absent for the latest
     * @throws ProblemException 404 if there is none, or it is withdrawn
     */
    @Transactional(readOnly = true)
    public StoredHouseRule get(Caller caller, String code, @Nullable Integer revision) {
        return rules.find(caller, code, revision).orElseThrow(() -> notFound(code));
    }

    /**
     * Runs the tests of a rule that is to be added. They may take long, so they are no part of what adds it.
     *
     * @throws ProblemException 400 for expressions that cannot be used and for faults in the hookups of its tests, 409 if
     *     there is a rule of that code, 422 if it does not do what its tests say
     */
    public void judgeNew(Caller caller, HouseRule rule) {
        if (rules.find(caller, rule.code(), null).isPresent()) {
            throw exists(rule.code());
        }
        judge(caller, rule);
    }

    /**
     * Adds a rule that was judged.
     *
     * @throws ProblemException 409 if there is a rule of that code, 422 if there are as many rules as may be
     */
    @Transactional
    public StoredHouseRule create(Caller caller, Sent<HouseRule> rule) {
        String code = rule.value().code();
        if (rules.find(caller, code, null).isPresent()) {
            throw exists(code);
        }
        rules.lock(caller);
        if (rules.listAll(caller).size() >= MOST_RULES) {
            throw Problems.unprocessable(
                    "there are " + MOST_RULES + " rules of the house already, which are as many as may be", List.of());
        }
        int revision = rules.latestRevision(caller, code) + 1;
        if (!rules.add(caller, code, revision, rule.json())) {
            throw exists(code);
        }
        return get(caller, code, revision);
    }

    /**
     * Puts another in the place of a rule, once its tests have run.
     *
     * @param ifMatch tag of its latest revision
     * @throws ProblemException as {@link #judgeNew} does but for the 409; 400 for another code, 404 for a rule that is absent,
     *     428 without a tag, 412 if it is not the latest's
     */
    public StoredHouseRule replace(Caller caller, String code, @Nullable String ifMatch, Sent<HouseRule> rule) {
        int latest = get(caller, code, null).revision();
        ETags.requireMatch(ifMatch, latest);
        if (!code.equals(rule.value().code())) {
            throw Problems.badBody(List.of(
                    Fault.at("/code", "inconsistent", "code is " + rule.value().code() + ", and the rule is " + code)));
        }
        judge(caller, rule.value());
        add(caller, code, latest, rule.json());
        return get(caller, code, latest + 1);
    }

    /**
     * Withdraws a rule; its revisions stay.
     *
     * @param ifMatch tag of its latest revision
     * @throws ProblemException 404 for a rule that is absent, 428 without a tag, 412 if it is not the latest's
     */
    @Transactional
    public void withdraw(Caller caller, String code, @Nullable String ifMatch) {
        int latest = get(caller, code, null).revision();
        ETags.requireMatch(ifMatch, latest);
        add(caller, code, latest, null);
    }

    private void add(Caller caller, String code, int latest, @Nullable String document) {
        if (!rules.add(caller, code, latest + 1, document)) {
            throw Problems.preconditionFailed(latest + 1);
        }
    }

    private void judge(Caller caller, HouseRule rule) {
        HouseRules.Compiled compiled;
        try {
            compiled = HouseRules.compile(rule);
        } catch (InvalidValueException refused) {
            throw Problems.badBody(refused.invalids().stream()
                    .map(each -> Fault.at(each.pointer(), each.code(), each.detail()))
                    .toList());
        }
        List<Fault> failed = new ArrayList<>();
        for (int at = 0; at < rule.tests().size(); at++) {
            HouseRule.Case test = rule.tests().get(at);
            Hookup hookup = hookup(caller, test, at);
            Report report = HouseRules.check(hookup, checks.ofService(caller, hookup), List.of(compiled));
            String wrong = wrong(rule, test, report);
            if (wrong != null) {
                failed.add(Fault.at("/tests/" + at + "/finds", "test-failed", wrong));
            }
        }
        if (!failed.isEmpty()) {
            throw Problems.unprocessable(
                    "the rule " + rule.code() + " does not do what " + failed.size() + " of its "
                            + rule.tests().size() + " tests say: "
                            + failed.get(0).detail(),
                    failed);
        }
    }

    /** A hookup of a test, whose faults are told at their place in the rule. */
    private Hookup hookup(Caller caller, HouseRule.Case test, int at) {
        try {
            return checks.resolve(caller, test.hookup()).hookup();
        } catch (ProblemException refused) {
            if (refused.type() != ProblemType.BAD_BODY) {
                throw refused;
            }
            throw Problems.badBody(refused.errors().stream()
                    .map(each -> Fault.at("/tests/" + at + "/hookup" + each.pointer(), each.code(), each.detail()))
                    .toList());
        }
    }

    private static @Nullable String wrong(HouseRule rule, HouseRule.Case test, Report report) {
        List<Finding> found = report.findings().stream()
                .filter(finding -> finding.rule().equals(rule.code()))
                .toList();
        Report.Outcome outcome = report.outcomes().get(report.outcomes().size() - 1);
        String name = test.name() == null ? "the hookup" : "\"" + test.name() + "\"";
        if (outcome.error() != null) {
            return "the rule fails in " + name + ": " + outcome.error();
        }
        if (found.size() == test.finds()) {
            return outcome.result() == Report.Result.NOT_CHECKED
                    ? "the rule finds nothing in " + name + " because it cannot tell without "
                            + String.join(", ", outcome.missing()) + "; give the facts, or ask for them with has(…)"
                    : null;
        }
        String missing =
                outcome.missing().isEmpty() ? "" : ", and cannot tell without " + String.join(", ", outcome.missing());
        String messages = found.isEmpty()
                ? ""
                : ": " + found.stream().map(Finding::message).limit(5).collect(Collectors.joining("; "));
        return "the rule finds " + found.size() + " in " + name + ", where " + test.finds() + " belong" + missing
                + messages;
    }

    private static ProblemException exists(String code) {
        return Problems.conflict("a rule of the house with the code " + code + " exists already");
    }

    private static ProblemException notFound(String code) {
        return Problems.notFound("rule of the house " + code);
    }
}
