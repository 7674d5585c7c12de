package dev.splicebook.check;

import dev.splicebook.check.StoredThresholds.Setting;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.RulePage;
import dev.splicebook.hookup.Thresholds;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.Fault;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.Problems;
import dev.splicebook.web.Sent;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The figures that a firm has set in place of those that rules come with. */
@Service
public class ThresholdBook {

    private final StoredThresholds thresholds;
    private final Checks checks;

    ThresholdBook(StoredThresholds thresholds, Checks checks) {
        this.thresholds = thresholds;
        this.checks = checks;
    }

    /**
     * All figures that may be set.
     *
     * @param revision grows with each change; 1 where nothing was set yet
     */
    public record ThresholdList(int revision, List<ThresholdView> items) {}

    /**
     * A figure that may be set.
     *
     * @param name of rule and figure, like {@code fuse-too-far.mostMetres}
     * @param value in force, in {@code unit}
     * @param isSet whether the firm has set it
     * @param ownValue what the rule comes with
     * @param unit absent for a ratio
     * @param least that may be set
     * @param most that may be set
     * @param reason why the rule comes with its figure
     */
    public record ThresholdView(
            String name,
            String rule,
            double value,
            boolean isSet,
            double ownValue,
            @Nullable String unit,
            double least,
            double most,
            String reason) {}

    /** Every figure, as it is in force for the firm. */
    @Transactional(readOnly = true)
    public ThresholdList list(Caller caller) {
        Map<String, RulePage.Parameter> known = checks.listThresholds();
        Setting setting = thresholds.find(caller);
        Map<String, Double> set = setting.inForce(known).values();
        return new ThresholdList(
                setting.revision(),
                known.entrySet().stream()
                        .map(entry -> view(entry.getKey(), entry.getValue(), set.get(entry.getKey())))
                        .toList());
    }

    private static ThresholdView view(String name, RulePage.Parameter parameter, @Nullable Double set) {
        return new ThresholdView(
                name,
                name.substring(0, name.indexOf('.')),
                set == null ? parameter.value() : set,
                set != null,
                parameter.value(),
                parameter.unit().isEmpty() ? null : parameter.unit(),
                parameter.least(),
                parameter.most(),
                parameter.reason());
    }

    /**
     * Sets figures in place of all that were set before.
     *
     * @param ifMatch tag of the latest revision
     * @throws ProblemException 400 for names that no rule has and values outside their range, 428 without a tag, 412 if it
     *     is not the latest's
     */
    @Transactional
    public ThresholdList set(Caller caller, @Nullable String ifMatch, Sent<Thresholds> wanted) {
        int latest = thresholds.find(caller).revision();
        ETags.requireMatch(ifMatch, latest);
        try {
            checks.require(wanted.value());
        } catch (InvalidValueException refused) {
            throw Problems.badBody(refused.invalids().stream()
                    .map(each -> Fault.at("/values" + each.pointer(), each.code(), each.detail()))
                    .toList());
        }
        if (!thresholds.add(caller, latest + 1, wanted.json())) {
            throw Problems.preconditionFailed(latest + 1);
        }
        return list(caller);
    }
}
