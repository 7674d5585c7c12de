package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What the check of a hookup found.
 *
 * @param verdict what follows from the findings
 * @param findings worst first, but for those that are waived
 * @param waived findings that are accepted as they are; the verdict does not go by them
 * @param lapsedWaivers waivers that hold for nothing
 * @param outcomes one for each rule of the service's version
 * @param meterFirst the few facts worth metering first, where the vehicle's map leaves much unknown
 * @param order the connections as they should be made
 * @param power volts, amps and loss in every state; absent from services before 0.2
 * @param speakerLoads what each speaker output drives that the hookup loads
 * @param assumptions every default that was used
 * @param cautions what to heed while doing it
 * @param revisions what it was made from
 * @param stored which stored hookup it is of; absent for a check that stores nothing
 * @param remediesBound which bound cut the search for remedies short; absent if none did
 * @param fix changes that make the hookup ready; absent unless asked for with {@link Checks#fix}
 * @param more fields that this version does not know
 */
public record Report(
        Verdict verdict,
        List<Finding> findings,
        List<Waived> waived,
        List<LapsedWaiver> lapsedWaivers,
        List<Outcome> outcomes,
        List<Reading> meterFirst,
        List<Step> order,
        @Nullable Power power,
        List<SpeakerLoad> speakerLoads,
        List<Assumption> assumptions,
        List<String> cautions,
        Revisions revisions,
        @Nullable Stored stored,
        @Nullable String remediesBound,
        @Nullable Fix fix,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Report {
        Require.present("verdict", verdict);
        findings = Require.listOrEmpty(findings);
        waived = Require.listOrEmpty(waived);
        lapsedWaivers = Require.listOrEmpty(lapsedWaivers);
        outcomes = Require.listOrEmpty(outcomes);
        meterFirst = Require.listOrEmpty(meterFirst);
        order = Require.listOrEmpty(order);
        speakerLoads = Require.listOrEmpty(speakerLoads);
        assumptions = Require.listOrEmpty(assumptions);
        cautions = Require.listOrEmpty(cautions);
        Require.present("revisions", revisions);
        more = Require.mapOrEmpty(more);
    }

    /** True for {@link Verdict#READY} alone; a verdict with cautions is for a person to weigh. */
    public boolean isReady() {
        return verdict.equals(Verdict.READY);
    }

    /** The findings of one rule, like {@code returns-tied}; empty if it found nothing. */
    public List<Finding> findingsOf(String rule) {
        return findings.stream().filter(finding -> finding.rule().equals(rule)).toList();
    }

    /**
     * One violation of a rule.
     *
     * @param rule code of the rule; {@link Rules#get} has its page
     * @param severity how bad it is
     * @param message what is wrong, standing alone
     * @param help what to do
     * @param terminals involved, like {@code HU.memory}
     * @param connections involved, by ref
     * @param measured what was found, in {@code unit}; absent if it is no figure
     * @param limit what is allowed, in {@code unit}; absent if it is no figure
     * @param unit of measured and limit, like {@code A}
     * @param states of the vehicle in which it holds; empty if in all or if states do not matter
     * @param fingerprint of the rule and the facts, the same whatever the names are
     * @param remedies changes that mend it, already checked again, least costly first
     * @param more fields that this version does not know
     */
    public record Finding(
            String rule,
            Severity severity,
            String message,
            String help,
            List<String> terminals,
            List<String> connections,
            @Nullable Double measured,
            @Nullable Double limit,
            @Nullable String unit,
            List<State> states,
            String fingerprint,
            List<Remedy> remedies,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Finding {
            Require.text("rule", rule);
            Require.present("severity", severity);
            Require.text("message", message);
            Require.present("help", help);
            terminals = Require.listOrEmpty(terminals);
            connections = Require.listOrEmpty(connections);
            states = Require.listOrEmpty(states);
            Require.text("fingerprint", fingerprint);
            remedies = Require.listOrEmpty(remedies);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A change that mends a finding.
     *
     * @param what is changed, in one sentence
     * @param patch of the hookup
     * @param adds what it takes beside wire
     * @param removes fingerprints of the findings that vanish
     * @param more fields that this version does not know
     */
    public record Remedy(
            String what,
            List<Operation> patch,
            List<Added> adds,
            List<String> removes,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Remedy {
            Require.text("what", what);
            patch = Require.listOrEmpty(patch);
            adds = Require.listOrEmpty(adds);
            removes = Require.listOrEmpty(removes);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * One operation of a JSON Patch (RFC 6902) of a hookup.
     *
     * @param op {@code add}, {@code remove} or {@code replace}
     * @param path a JSON pointer into the hookup
     * @param value absent for {@code remove}
     * @param more fields that this version does not know
     */
    public record Operation(
            String op,
            String path,
            @Nullable JsonNode value,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Operation {
            Require.text("op", op);
            Require.present("path", path);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * Something that a change adds.
     *
     * @param part its ref; absent for a fuse in a connection
     * @param connection that the fuse is in; absent for a part
     * @param device its code in the catalogue; absent for a plain component
     * @param what it is
     * @param more fields that this version does not know
     */
    public record Added(
            @Nullable String part,
            @Nullable String connection,
            @Nullable String device,
            String what,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Added {
            Require.text("what", what);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * The least costly changes found that make a hookup ready, or the nearest the search came.
     *
     * @param ready whether it is ready then
     * @param what is changed, a sentence each
     * @param patch of the hookup, all changes together
     * @param adds what it takes beside wire
     * @param report of the mended hookup
     * @param checks that were made
     * @param bound that ended the search; absent if it came to its end
     * @param more fields that this version does not know
     */
    public record Fix(
            boolean ready,
            List<String> what,
            List<Operation> patch,
            List<Added> adds,
            Mended report,
            int checks,
            @Nullable String bound,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Fix {
            what = Require.listOrEmpty(what);
            patch = Require.listOrEmpty(patch);
            adds = Require.listOrEmpty(adds);
            Require.present("report", report);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * What the check of the mended hookup found.
     *
     * @param verdict what follows from the findings
     * @param findings what remains, worst first
     * @param outcomes one for each rule
     * @param meterFirst the few facts worth metering first
     * @param order the connections as they should be made
     * @param power volts, amps and loss in every state; absent from services before 0.2
     * @param speakerLoads what each speaker output drives
     * @param assumptions every default that was used
     * @param cautions what to heed while doing it
     * @param more fields that this version does not know
     */
    public record Mended(
            Verdict verdict,
            List<Finding> findings,
            List<Outcome> outcomes,
            List<Reading> meterFirst,
            List<Step> order,
            @Nullable Power power,
            List<SpeakerLoad> speakerLoads,
            List<Assumption> assumptions,
            List<String> cautions,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Mended {
            Require.present("verdict", verdict);
            findings = Require.listOrEmpty(findings);
            outcomes = Require.listOrEmpty(outcomes);
            meterFirst = Require.listOrEmpty(meterFirst);
            order = Require.listOrEmpty(order);
            speakerLoads = Require.listOrEmpty(speakerLoads);
            assumptions = Require.listOrEmpty(assumptions);
            cautions = Require.listOrEmpty(cautions);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A finding that is accepted as it is.
     *
     * @param finding what was found
     * @param waiver who accepts it, and why
     * @param more fields that this version does not know
     */
    public record Waived(
            Finding finding, Waiver waiver, @JsonAnySetter Map<String, JsonNode> more) {

        public Waived {
            Require.present("finding", finding);
            Require.present("waiver", waiver);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A waiver that holds for nothing.
     *
     * @param waiver as it was given
     * @param why it holds for nothing
     * @param more fields that this version does not know
     */
    public record LapsedWaiver(
            Waiver waiver, LapseReason why, @JsonAnySetter Map<String, JsonNode> more) {

        public LapsedWaiver {
            Require.present("waiver", waiver);
            Require.present("why", why);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * The revision of a stored hookup that a report is of.
     *
     * @param id of the hookup
     * @param revision 1 or more
     * @param checkedAt when it was checked
     * @param more fields that this version does not know
     */
    public record Stored(
            UUID id,
            int revision,
            Instant checkedAt,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Stored {
            Require.present("id", id);
            Require.present("checkedAt", checkedAt);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * How one rule ended.
     *
     * @param rule code of the rule
     * @param severity of what it looks for
     * @param outcome how it ended
     * @param missing the facts it lacked, like {@code CAR.C1-7.maxAmps}
     * @param meterFirst the few of them worth metering first
     * @param error what went wrong in the rule itself, which only a shop's own rule can; absent if nothing did
     * @param more fields that this version does not know
     */
    public record Outcome(
            String rule,
            Severity severity,
            Result outcome,
            List<String> missing,
            List<String> meterFirst,
            @Nullable String error,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Outcome {
            Require.text("rule", rule);
            Require.present("severity", severity);
            Require.present("outcome", outcome);
            missing = Require.listOrEmpty(missing);
            meterFirst = Require.listOrEmpty(meterFirst);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A terminal that is worth metering.
     *
     * @param terminal like {@code CAR.C1-7}
     * @param facts that are unknown of it, like {@code maxAmps}
     * @param rules that could be checked if they were known
     * @param test how such a wire is tested; absent if nothing is known of that
     * @param more fields that this version does not know
     */
    public record Reading(
            String terminal,
            List<String> facts,
            List<String> rules,
            @Nullable String test,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Reading {
            Require.text("terminal", terminal);
            facts = Require.listOrEmpty(facts);
            rules = Require.listOrEmpty(rules);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A connection to be made.
     *
     * @param connection its ref
     * @param ends the two terminals
     * @param why it stands at this point of the order
     * @param more fields that this version does not know
     */
    public record Step(
            String connection,
            List<String> ends,
            String why,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Step {
            Require.text("connection", connection);
            ends = Require.listOrEmpty(ends);
            Require.present("why", why);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * The power as it was solved. Typical is what is drawn for long, worst what is drawn at most, from the least volts that
     * the state brings.
     *
     * @param cases one for each way in which power flows
     * @param leftOut the facts without which something was left out, or taken as no resistance, like {@code connection
     *     W3.length}
     * @param more fields that this version does not know
     */
    public record Power(
            List<PowerCase> cases,
            List<String> leftOut,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Power {
            cases = Require.listOrEmpty(cases);
            leftOut = Require.listOrEmpty(leftOut);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * One way in which power flows.
     *
     * @param states that share it
     * @param conditions any of which makes it so, like {@code reverse}; empty if none must hold
     * @param together whether all of the conditions must hold at once; false if the service does not say
     * @param typicalVolts of the battery
     * @param worstVolts of the battery
     * @param loads loads, control inputs and coils that are fed
     * @param conductors connections that carry current
     * @param fuses that carry current
     * @param grounds the returns of parts
     * @param largestOffset the two parts whose returns stand furthest apart; absent with fewer than two
     * @param more fields that this version does not know
     */
    public record PowerCase(
            List<State> states,
            List<String> conditions,
            Boolean together,
            double typicalVolts,
            double worstVolts,
            List<LoadPower> loads,
            List<ConductorPower> conductors,
            List<FusePower> fuses,
            List<GroundOffset> grounds,
            @Nullable OffsetBetween largestOffset,
            @JsonAnySetter Map<String, JsonNode> more) {

        public PowerCase {
            states = Require.listOrEmpty(states);
            conditions = Require.listOrEmpty(conditions);
            together = Boolean.TRUE.equals(together);
            loads = Require.listOrEmpty(loads);
            conductors = Require.listOrEmpty(conductors);
            fuses = Require.listOrEmpty(fuses);
            grounds = Require.listOrEmpty(grounds);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * What a load gets.
     *
     * @param terminal the load's; of a coil one end
     * @param typicalVolts across it
     * @param typicalAmps absent where unknown
     * @param worstVolts across it
     * @param worstAmps absent where unknown
     * @param more fields that this version does not know
     */
    public record LoadPower(
            String terminal,
            double typicalVolts,
            @Nullable Double typicalAmps,
            double worstVolts,
            @Nullable Double worstAmps,
            @JsonAnySetter Map<String, JsonNode> more) {

        public LoadPower {
            Require.text("terminal", terminal);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * What a connection carries.
     *
     * @param connection its ref
     * @param typicalAmps in it
     * @param typicalLossWatts turned to heat in it, its fuse included
     * @param worstAmps in it
     * @param worstLossWatts turned to heat in it, its fuse included
     * @param worstCelsius of its conductor; absent where its size is unknown
     * @param more fields that this version does not know
     */
    public record ConductorPower(
            String connection,
            double typicalAmps,
            double typicalLossWatts,
            double worstAmps,
            double worstLossWatts,
            @Nullable Double worstCelsius,
            @JsonAnySetter Map<String, JsonNode> more) {

        public ConductorPower {
            Require.text("connection", connection);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * What a fuse carries.
     *
     * @param at the connection that it is in, the two terminals in a part that it lies between, or the circuits of the
     *     vehicle that it lies upstream of
     * @param ratingAmps of the fuse
     * @param typicalAmps in it
     * @param worstAmps in it
     * @param more fields that this version does not know
     */
    public record FusePower(
            List<String> at,
            double ratingAmps,
            double typicalAmps,
            double worstAmps,
            @JsonAnySetter Map<String, JsonNode> more) {

        public FusePower {
            at = Require.listOrEmpty(at);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * How far the return of a part stands above the chassis.
     *
     * @param part its ref
     * @param worstVolts above the chassis
     * @param more fields that this version does not know
     */
    public record GroundOffset(
            String part, double worstVolts, @JsonAnySetter Map<String, JsonNode> more) {

        public GroundOffset {
            Require.text("part", part);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * Two parts whose returns differ.
     *
     * @param parts the lower, then the higher
     * @param worstVolts between them
     * @param more fields that this version does not know
     */
    public record OffsetBetween(
            List<String> parts,
            double worstVolts,
            @JsonAnySetter Map<String, JsonNode> more) {

        public OffsetBetween {
            parts = Require.listOrEmpty(parts);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * What one speaker output drives.
     *
     * @param output its terminals, plus and then minus; minus is absent where the vehicle's ground takes its place
     * @param ohms of the coils, resistors and wires between the two; absent where nothing closes the circuit
     * @param minOhms the least that the output drives; absent where unknown
     * @param maxVolts rms of the output, at which the volts, amps and watts of the coils hold; absent where unknown
     * @param states of the vehicle in which it is so; empty if in all
     * @param coils what each voice coil gets
     * @param more fields that this version does not know
     */
    public record SpeakerLoad(
            List<String> output,
            @Nullable Double ohms,
            @Nullable Double minOhms,
            @Nullable Double maxVolts,
            List<State> states,
            List<DrivenCoil> coils,
            @JsonAnySetter Map<String, JsonNode> more) {

        public SpeakerLoad {
            output = Require.listOrEmpty(output);
            states = Require.listOrEmpty(states);
            coils = Require.listOrEmpty(coils);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * What a voice coil gets while its output gives the most that it can.
     *
     * @param terminals its plus and its minus
     * @param ratedOhms its own impedance
     * @param volts rms; absent, as amps and watts are, where the output's volts are unknown
     * @param amps rms
     * @param watts of both
     * @param polarity how its cone moves
     * @param more fields that this version does not know
     */
    public record DrivenCoil(
            List<String> terminals,
            double ratedOhms,
            @Nullable Double volts,
            @Nullable Double amps,
            @Nullable Double watts,
            Polarity polarity,
            @JsonAnySetter Map<String, JsonNode> more) {

        public DrivenCoil {
            terminals = Require.listOrEmpty(terminals);
            Require.present("polarity", polarity);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A default that was used.
     *
     * @param name like {@code insulationCelsius}
     * @param value of the default, in {@code unit}; absent if it is no figure
     * @param unit of the value; absent if it is no figure or a bare one
     * @param about what it was used for, and where it comes from
     * @param more fields that this version does not know
     */
    public record Assumption(
            String name,
            @Nullable Double value,
            @Nullable String unit,
            String about,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Assumption {
            Require.text("name", name);
            Require.present("about", about);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * The stored vehicle and devices that a report was made from.
     *
     * @param vehicle absent if it was inline, or if the hookup has none
     * @param devices by the part's ref; inline parts are absent
     * @param more fields that this version does not know
     */
    public record Revisions(
            @Nullable UsedVehicle vehicle,
            Map<String, UsedDevice> devices,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Revisions {
            devices = Require.mapOrEmpty(devices);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A vehicle of the book at the revision that was used.
     *
     * @param id of the vehicle
     * @param revision 1 or more
     * @param more fields that this version does not know
     */
    public record UsedVehicle(
            UUID id, int revision, @JsonAnySetter Map<String, JsonNode> more) {

        public UsedVehicle {
            Require.present("id", id);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * A device of the catalogue at the revision that was used.
     *
     * @param id its code
     * @param revision 1 or more
     * @param more fields that this version does not know
     */
    public record UsedDevice(
            String id, int revision, @JsonAnySetter Map<String, JsonNode> more) {

        public UsedDevice {
            Require.text("id", id);
            more = Require.mapOrEmpty(more);
        }
    }
}
