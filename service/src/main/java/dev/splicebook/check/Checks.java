package dev.splicebook.check;

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
import dev.splicebook.hookup.Pairing;
import dev.splicebook.hookup.PairingQuestion;
import dev.splicebook.hookup.Proposal;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.RulePage;
import dev.splicebook.vehicle.Book;
import dev.splicebook.vehicle.StoredMap;
import dev.splicebook.web.Caller;
import dev.splicebook.web.Fault;
import dev.splicebook.web.Problems;
import dev.splicebook.web.StoredDocuments;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;

/** Resolves what a hookup refers to, and checks or proposes it. */
@Service
public class Checks {

    private final Checker checker = new Checker();
    private final Pairing pairing = new Pairing(checker);
    private final Book book;
    private final Catalogue catalogue;

    Checks(Book book, Catalogue catalogue) {
        this.book = book;
        this.catalogue = catalogue;
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
     */
    public record Checked(Report report, @Nullable UsedRevision vehicle, Map<String, UsedRevision> devices) {}

    /** A stored vehicle or device at the revision used; {@code id} is the vehicle's id or the device's code. */
    public record UsedRevision(String id, int revision) {}

    /**
     * Checks a hookup.
     *
     * @throws dev.splicebook.web.ProblemException 400 with every reference that leads nowhere, 422 for a stored vehicle or
     *     device whose document is refused today
     */
    public Checked check(Caller caller, HookupDocument document) {
        Resolved resolved = resolve(caller, document);
        return new Checked(checker.check(resolved.hookup()), resolved.vehicle(), resolved.devices());
    }

    /**
     * A proposal with the revisions that it was made from.
     *
     * @param vehicle absent if it was inline
     * @param devices by part, those that the proposal adds among them; inline parts are absent
     */
    public record Proposed(Proposal proposal, @Nullable UsedRevision vehicle, Map<String, UsedRevision> devices) {}

    /**
     * Proposes a hookup.
     *
     * @throws dev.splicebook.web.ProblemException as {@link #check} does
     */
    public Proposed propose(Caller caller, PairingQuestion question) {
        Resolved resolved = resolve(caller, question.document());
        Proposal proposal =
                pairing.propose(resolved.hookup(), question.preferences(), new CatalogueStock(catalogue, caller));
        Map<String, UsedRevision> devices = new LinkedHashMap<>(resolved.devices());
        for (String ref : proposal.added()) {
            PartUse part = proposal.hookup().parts().get(ref);
            if (part != null && part.device() != null && part.revision() != null) {
                devices.put(ref, new UsedRevision(part.device(), part.revision()));
            }
        }
        return new Proposed(proposal, resolved.vehicle(), devices);
    }

    /** A hookup with what it was resolved from. */
    private record Resolved(Hookup hookup, @Nullable UsedRevision vehicle, Map<String, UsedRevision> devices) {}

    private Resolved resolve(Caller caller, HookupDocument document) {
        List<Invalid> invalids = new ArrayList<>();
        Map<String, UsedRevision> used = new LinkedHashMap<>();
        VehicleUse vehicle = document.vehicle();
        FunctionMap map = FunctionMap.of(Map.of());
        UsedRevision usedVehicle = null;
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
                used.put(ref, new UsedRevision(code, stored.get().revision()));
            }
        });
        try {
            return new Resolved(Hookup.resolve(document, map, devices, invalids), usedVehicle, used);
        } catch (InvalidValueException e) {
            throw Problems.badBody(e.invalids().stream()
                    .map(invalid -> Fault.at(invalid.pointer(), invalid.code(), invalid.detail()))
                    .toList());
        }
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
