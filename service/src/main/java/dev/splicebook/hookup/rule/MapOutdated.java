package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.LatestRevisions;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The hookup names a revision of its vehicle or of a device that is not the latest. */
@AutoService(Rule.class)
@About(
        code = "map-outdated",
        severity = Severity.WARNING,
        since = "0.2",
        condition = "The hookup names a revision of its vehicle or of a device that is not the latest.",
        checks = "The revisions that the hookup names against the latest ones of book and catalogue.",
        why = "A later revision is there because somebody found a fault in the one before.",
        mend = "Compare the two revisions, then name the latest, or none, which means the latest.",
        source = "Common practice, no source.",
        fails = """
                {"parts": {"D1": {"device": "DIO-1", "revision": 1}},
                 "unused": {"D1.anode": {"as": "capped", "why": "a spare"}, "D1.cathode": {"as": "capped", "why": "a spare"}}}
                """,
        passes = """
                {"parts": {"D1": {"device": "DIO-1", "revision": 2}},
                 "unused": {"D1.anode": {"as": "capped", "why": "a spare"}, "D1.cathode": {"as": "capped", "why": "a spare"}}}
                """)
public final class MapOutdated implements Rule {

    /** A device at a revision, which several parts may be. */
    private record Named(String what, int revision, int latest) {}

    @Override
    public void check(Examination examination) {
        HookupDocument document = examination.network().hookup().document();
        LatestRevisions latest = examination.network().hookup().latest();
        HookupDocument.VehicleUse vehicle = document.vehicle();
        Map<String, Set<String>> partsOf = new TreeMap<>();
        Map<String, Named> named = new TreeMap<>();
        if (vehicle != null) {
            add(Names.VEHICLE, "the vehicle's map", vehicle.revision(), latest.vehicle(), partsOf, named, examination);
        }
        document.parts()
                .forEach((part, use) -> add(
                        part,
                        "the device " + use.device(),
                        use.revision(),
                        latest.parts().get(part),
                        partsOf,
                        named,
                        examination));
        named.forEach((key, one) -> {
            List<String> parts = List.copyOf(partsOf.getOrDefault(key, Set.of()));
            examination
                    .report(
                            "the hookup takes revision " + one.revision() + " of " + one.what()
                                    + (parts.contains(Names.VEHICLE) ? "" : " for " + Say.list(parts))
                                    + ", and revision " + one.latest() + " is the latest",
                            "see what the later revision changes, and name it.")
                    .about(one.revision() + " of " + one.latest())
                    .at(terminals(parts, examination))
                    .figures(one.revision(), one.latest(), "revision");
        });
    }

    private static void add(
            String part,
            String what,
            @Nullable Integer revision,
            @Nullable Integer latest,
            Map<String, Set<String>> partsOf,
            Map<String, Named> named,
            Examination examination) {
        if (revision == null) {
            return;
        }
        if (latest == null) {
            if (!examination.network().hookup().latest().equals(LatestRevisions.UNKNOWN)) {
                examination.missing(part, "latestRevision");
            }
            return;
        }
        examination.applies();
        if (revision < latest) {
            String key = what + " " + revision;
            partsOf.computeIfAbsent(key, ignored -> new TreeSet<>()).add(part);
            named.put(key, new Named(what, revision, latest));
        }
    }

    /** A terminal of each part that shows where it is: the first by facts. */
    private static List<Node> terminals(List<String> parts, Examination examination) {
        return parts.stream()
                .filter(part -> !part.equals(Names.VEHICLE))
                .flatMap(part -> examination.network().nodesOf(part).stream().min(Say.BY_FACTS).stream())
                .toList();
    }
}
