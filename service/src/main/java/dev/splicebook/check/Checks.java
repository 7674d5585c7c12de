package dev.splicebook.check;

import dev.splicebook.check.house.HouseRule;
import dev.splicebook.check.house.HouseRules;
import dev.splicebook.device.Catalogue;
import dev.splicebook.device.StoredDevice;
import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.Checker;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.HookupDocument.PartUse;
import dev.splicebook.hookup.HookupDocument.VehicleUse;
import dev.splicebook.hookup.LatestRevisions;
import dev.splicebook.hookup.Mending;
import dev.splicebook.hookup.Pairing;
import dev.splicebook.hookup.PairingQuestion;
import dev.splicebook.hookup.Proposal;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.RulePage;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Thresholds;
import dev.splicebook.hookup.Waiver;
import dev.splicebook.hookup.Waiving;
import dev.splicebook.vehicle.Book;
import dev.splicebook.vehicle.StoredMap;
import dev.splicebook.web.Caller;
import dev.splicebook.web.Fault;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.Problems;
import dev.splicebook.web.StoredDocuments;
import dev.splicebook.web.StrictReader;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;

/** Resolves what a hookup refers to, and checks or proposes it. */
@Service
public class Checks {

    private static final int MOST_COMPILED = 2000;

    /** In all the checks of one search for mends or pairings, which make hundreds. */
    private static final Duration MOST_FOR_HOUSE_RULES = Duration.ofSeconds(3);

    private final Checker checker = new Checker();
    private final Mending mending = new Mending();
    private final Book book;
    private final Catalogue catalogue;
    private final StoredHouseRules houseRules;
    private final StoredThresholds thresholds;
    private final Map<String, HouseRules.Compiled> compiled = Collections.synchronizedMap(new LinkedHashMap<>() {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, HouseRules.Compiled> eldest) {
            return size() > MOST_COMPILED;
        }
    });

    Checks(Book book, Catalogue catalogue, StoredHouseRules houseRules, StoredThresholds thresholds) {
        this.book = book;
        this.catalogue = catalogue;
        this.houseRules = houseRules;
        this.thresholds = thresholds;
    }

    /** The day by which waivers expire. */
    public static LocalDate today() {
        return LocalDate.now(ZoneOffset.UTC);
    }

    /** The pages of all rules, by code. */
    public List<RulePage> listRules() {
        return checker.listPages();
    }

    /** The page of a rule; empty if there is none of that code. */
    public Optional<RulePage> findRule(String code) {
        return checker.listPages().stream()
                .filter(page -> page.code().equals(code))
                .findFirst();
    }

    /**
     * A report with the revisions that it was made from.
     *
     * @param vehicle absent if it was inline
     * @param devices by part; inline parts are absent
     * @param remediesBound which bound cut the search for remedies short; absent if none did
     * @param fix absent if none was asked for
     */
    public record Checked(
            Report report,
            @Nullable UsedRevision vehicle,
            Map<String, UsedRevision> devices,
            @Nullable String remediesBound,
            Mending.@Nullable Fix fix) {}

    /** What is looked for beside findings: remedies of each, and changes that mend them all. */
    public record Wanted(boolean remedies, boolean fix) {

        /** Findings alone. */
        public static final Wanted NOTHING = new Wanted(false, false);
    }

    /** A stored vehicle or device at the revision used; {@code id} is the vehicle's id or the device's code. */
    public record UsedRevision(String id, int revision) {}

    /**
     * Checks a hookup by the rules of the service and by those of the caller's firm; waivers are not looked at.
     *
     * @throws dev.splicebook.web.ProblemException 400 with every reference that leads nowhere, 422 for a stored vehicle or
     *     device whose document is refused today
     */
    public Checked check(Caller caller, HookupDocument document) {
        return check(caller, document, Wanted.NOTHING, List.of());
    }

    /** As {@link #check(Caller, HookupDocument)}, with more that is wanted. What the waivers take out needs no mending. */
    public Checked check(Caller caller, HookupDocument document, Wanted wanted, List<Waiver> waivers) {
        Resolved resolved = resolve(caller, document);
        Hookup hookup = resolved.hookup();
        Function<Hookup, Report> check = checkOf(caller);
        Stock stock = stock(caller);
        Report report = check.apply(hookup);
        Mending.Fix fix = null;
        if (wanted.fix()) {
            LocalDate today = today();
            Function<Report, Report> unwaived = each ->
                    each.with(Waiving.of(each.findings(), waivers, today).findings(), each.outcomes());
            fix = mending.fix(
                    hookup, unwaived.apply(report), new Mending.Means(check.andThen(unwaived), stock, Mending.FOR_FIX));
        }
        if (!wanted.remedies()) {
            return new Checked(report, resolved.vehicle(), resolved.devices(), null, fix);
        }
        Mending.Remedied remedied =
                mending.remedy(hookup, report, new Mending.Means(check, stock, Mending.FOR_REMEDIES));
        return new Checked(remedied.report(), resolved.vehicle(), resolved.devices(), remedied.bound(), fix);
    }

    /**
     * A proposal with the check of its hookup, remedies included.
     *
     * @param checked its devices are those that the proposal adds too
     */
    public record Proposed(Proposal proposal, Checked checked) {}

    /**
     * Proposes a hookup.
     *
     * @throws dev.splicebook.web.ProblemException as {@link #check} does
     */
    public Proposed propose(Caller caller, PairingQuestion question) {
        Hookup asked = resolve(caller, question.document()).hookup();
        String tooLarge = Pairing.tooLarge(asked);
        if (tooLarge != null) {
            throw Problems.unprocessable(tooLarge, List.of());
        }
        Proposal proposal = new Pairing(checkOf(caller)).propose(asked, question.preferences(), stock(caller));
        return new Proposed(proposal, check(caller, proposal.hookup(), new Wanted(true, false), List.of()));
    }

    /** The check by the rules of the service, with the firm's thresholds, and by those of the firm. */
    private Function<Hookup, Report> checkOf(Caller caller) {
        Thresholds inForce = thresholds.find(caller).inForce(checker.listThresholds());
        House house = house(caller);
        return each -> house.check(each, checker.check(each, inForce));
    }

    /** What the rules of the service alone say, by the firm's thresholds. */
    Report ofService(Caller caller, Hookup hookup) {
        return checker.check(hookup, thresholds.find(caller).inForce(checker.listThresholds()));
    }

    /** The figures that a firm may set, by rule and name. */
    Map<String, RulePage.Parameter> listThresholds() {
        return checker.listThresholds();
    }

    /** @throws InvalidValueException for what a firm may not set */
    void require(Thresholds wanted) {
        checker.require(wanted);
    }

    /** The rules of a firm, and how those end that cannot be used any more; for one request, with what they may take in it. */
    private static final class House {

        private final List<HouseRules.Compiled> usable;
        private final List<Report.Outcome> unusable;
        private Duration left = MOST_FOR_HOUSE_RULES;

        House(List<HouseRules.Compiled> usable, List<Report.Outcome> unusable) {
            this.usable = usable;
            this.unusable = unusable;
        }

        Report check(Hookup hookup, Report report) {
            long before = System.nanoTime();
            Report checked = HouseRules.check(hookup, report, usable, left);
            left = left.minusNanos(System.nanoTime() - before);
            if (unusable.isEmpty()) {
                return checked;
            }
            List<Report.Outcome> outcomes = new ArrayList<>(checked.outcomes());
            outcomes.addAll(unusable);
            return checked.with(checked.findings(), outcomes);
        }
    }

    private House house(Caller caller) {
        List<HouseRules.Compiled> usable = new ArrayList<>();
        List<Report.Outcome> unusable = new ArrayList<>();
        for (StoredHouseRule stored : houseRules.listAll(caller)) {
            HouseRules.Compiled known = compiled.get(stored.document());
            if (known == null) {
                try {
                    known = HouseRules.compile(StrictReader.read(stored.document(), HouseRule.class));
                    compiled.put(stored.document(), known);
                } catch (InvalidValueException | ProblemException refused) {
                    unusable.add(HouseRules.unusable(stored.code(), String.valueOf(refused.getMessage())));
                    continue;
                }
            }
            usable.add(known);
        }
        return new House(usable, unusable);
    }

    /** A hookup with the revisions of what it refers to. */
    record Resolved(Hookup hookup, @Nullable UsedRevision vehicle, Map<String, UsedRevision> devices) {}

    Resolved resolve(Caller caller, HookupDocument document) {
        List<Invalid> invalids = new ArrayList<>();
        Map<String, UsedRevision> used = new LinkedHashMap<>();
        VehicleUse vehicle = document.vehicle();
        FunctionMap map = FunctionMap.of(Map.of());
        UsedRevision usedVehicle = null;
        Integer latestMap = null;
        Map<String, Integer> latestDevices = new HashMap<>();
        if (vehicle != null) {
            map = vehicle.inline();
            if (vehicle.id() != null) {
                StoredMap stored =
                        findMap(caller, vehicle.id(), vehicle.revision()).orElse(null);
                if (stored == null) {
                    invalids.add(new Invalid(
                            vehicle.revision() == null ? "/vehicle/id" : "/vehicle",
                            "unknown-vehicle",
                            "there is no vehicle " + vehicle.id() + ofRevision(vehicle.revision())));
                } else {
                    map = StoredDocuments.read(
                            stored.document(),
                            FunctionMap.class,
                            "revision " + stored.revision() + " of vehicle " + stored.id());
                    latestMap = stored.latestRevision();
                    usedVehicle = new UsedRevision(stored.id().toString(), stored.revision());
                }
            }
        }
        Map<String, Device> devices = new LinkedHashMap<>();
        Map<PartUse, Optional<StoredDevice>> looked = new HashMap<>();
        Map<StoredDevice, Device> read = new HashMap<>();
        document.parts().forEach((ref, part) -> {
            if (part.inline() != null) {
                devices.put(ref, part.inline());
                return;
            }
            String code = String.valueOf(part.device());
            PartUse key = new PartUse(code, part.revision(), null, null);
            Optional<StoredDevice> stored =
                    looked.computeIfAbsent(key, ignored -> catalogue.findDevice(caller, code, part.revision()));
            if (stored.isEmpty()) {
                invalids.add(new Invalid(
                        Fault.pointerTo("parts", ref, "device"),
                        "unknown-device",
                        "there is no device " + code + ofRevision(part.revision())));
            } else {
                devices.put(
                        ref,
                        read.computeIfAbsent(
                                stored.get(),
                                found -> StoredDocuments.read(
                                        found.document(),
                                        Device.class,
                                        "revision " + found.revision() + " of device " + found.code())));
                latestDevices.put(ref, stored.get().latestRevision());
                used.put(ref, new UsedRevision(code, stored.get().revision()));
            }
        });
        try {
            Hookup hookup = Hookup.resolve(document, map, devices, invalids)
                    .with(new LatestRevisions(latestMap, latestDevices));
            return new Resolved(hookup, usedVehicle, used);
        } catch (InvalidValueException e) {
            throw Problems.badBody(e.invalids().stream()
                    .map(invalid -> Fault.at(invalid.pointer(), invalid.code(), invalid.detail()))
                    .toList());
        }
    }

    private Stock stock(Caller caller) {
        return new CatalogueStock(catalogue, caller, id -> findMap(caller, id, null));
    }

    private Optional<StoredMap> findMap(Caller caller, String id, @Nullable Integer revision) {
        UUID uuid;
        try {
            uuid = UUID.fromString(id);
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
        return book.findMap(caller, uuid, revision);
    }

    private static String ofRevision(@Nullable Integer revision) {
        return revision == null ? "" : " of revision " + revision;
    }
}
