package dev.splicebook.hookup;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What became of the findings of a hookup from one revision to another, told by their fingerprints: a finding of which a
 * fact has changed is gone, and another has appeared.
 *
 * @param appeared findings of the later one alone
 * @param gone findings of the earlier one alone
 * @param stayed findings of both, as the later one tells them
 */
public record FindingsChanges(List<Finding> appeared, List<Finding> gone, List<Finding> stayed) {

    public FindingsChanges {
        appeared = List.copyOf(appeared);
        gone = List.copyOf(gone);
        stayed = List.copyOf(stayed);
    }

    /** The changes from {@code was} to {@code is}; of findings that share a fingerprint, each counts once. */
    public static FindingsChanges between(List<Finding> was, List<Finding> is) {
        Map<String, Deque<Finding>> before = new HashMap<>();
        was.forEach(finding -> before.computeIfAbsent(finding.fingerprint(), none -> new ArrayDeque<>())
                .add(finding));
        List<Finding> appeared = new ArrayList<>();
        List<Finding> stayed = new ArrayList<>();
        for (Finding finding : is) {
            Deque<Finding> same = before.get(finding.fingerprint());
            if (same == null || same.pollFirst() == null) {
                appeared.add(finding);
            } else {
                stayed.add(finding);
            }
        }
        List<Finding> gone = before.values().stream()
                .flatMap(Deque::stream)
                .sorted(Finding.WORST_FIRST)
                .toList();
        return new FindingsChanges(appeared, gone, stayed);
    }
}
