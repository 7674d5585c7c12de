package dev.splicebook.hookup;

import com.fasterxml.jackson.annotation.JsonProperty;
import dev.splicebook.function.Colour;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the check of a hookup found.
 *
 * @param findings worst first
 * @param outcomes one for each rule of the running version
 * @param meterFirst the few terminals whose missing facts hold up most, that first; at most 5
 * @param order the connections as they should be made
 * @param power volts, amps and loss in every state
 * @param speakerLoads what each speaker output drives that the hookup loads
 * @param assumptions every default that was used
 * @param cautions what to heed while doing it
 */
public record Report(
        Verdict verdict,
        List<Finding> findings,
        List<Outcome> outcomes,
        List<Metering> meterFirst,
        List<Step> order,
        Power power,
        List<SpeakerLoad> speakerLoads,
        List<Assumption> assumptions,
        List<String> cautions) {

    /** The same with these findings, worst first, and these outcomes, and with the verdict that follows from them. */
    public Report with(List<Finding> newFindings, List<Outcome> newOutcomes) {
        return new Report(
                Verdict.of(newFindings, newOutcomes),
                List.copyOf(newFindings),
                List.copyOf(newOutcomes),
                meterFirst,
                order,
                power,
                speakerLoads,
                assumptions,
                cautions);
    }

    Report with(List<Finding> others) {
        return new Report(verdict, others, outcomes, meterFirst, order, power, speakerLoads, assumptions, cautions);
    }

    /** What follows from the findings. */
    public enum Verdict {
        READY,
        READY_WITH_CAUTIONS,
        NOT_READY;

        /** Not ready by a danger or an error; with cautions by a warning, or by a rule of weight that was not checked. */
        public static Verdict of(List<Finding> findings, List<Outcome> outcomes) {
            if (findings.stream().anyMatch(finding -> finding.severity().compareTo(Severity.ERROR) <= 0)) {
                return NOT_READY;
            }
            boolean warned = findings.stream().anyMatch(finding -> finding.severity() == Severity.WARNING);
            return warned || outcomes.stream().anyMatch(Outcome::leavesDoubt) ? READY_WITH_CAUTIONS : READY;
        }
    }

    /** How a rule ended. */
    public enum Result {
        PASSED,
        FAILED,
        NOT_APPLICABLE,
        NOT_CHECKED
    }

    /**
     * How one rule ended.
     *
     * @param missing the facts it lacked, like {@code CAR.C1-7.maxAmps}
     * @param meterFirst the few of them worth metering first
     * @param error what went wrong in the rule itself; absent for the rules of the service
     */
    public record Outcome(
            String rule,
            Severity severity,
            @JsonProperty("outcome") Result result,
            List<String> missing,
            List<String> meterFirst,
            @Nullable String error) {

        /** Whether it could have found a danger or an error, and was not checked. */
        boolean leavesDoubt() {
            return result == Result.NOT_CHECKED && severity.compareTo(Severity.ERROR) <= 0;
        }
    }

    /**
     * A terminal worth metering.
     *
     * @param facts that are missing, like {@code maxAmps}; {@code electrical} where nothing is known
     * @param rules that wait for them
     * @param test how to go about it
     */
    public record Metering(
            String terminal, @Nullable Colour colour, List<String> facts, List<String> rules, String test) {}

    /** A connection to be made, and why at this point. */
    public record Step(String connection, List<String> ends, String why) {}

    /**
     * What one speaker output drives, solved as one network of voice coils at their rated impedance, resistors and wires.
     *
     * @param output its terminals, plus and then minus, which is absent where the vehicle's ground takes its place
     * @param ohms between the two sides; absent where nothing closes the circuit
     * @param minOhms the least that the output drives; absent where unknown
     * @param maxVolts rms of the output, at which volts, amps and watts hold; absent where unknown
     * @param states in which it is so; empty for all
     */
    public record SpeakerLoad(
            List<String> output,
            @Nullable Double ohms,
            @Nullable Double minOhms,
            @Nullable Double maxVolts,
            List<State> states,
            List<DrivenCoil> coils) {}

    /**
     * What a voice coil gets while its output gives the most that it can.
     *
     * @param terminals its plus and its minus
     * @param ratedOhms its own impedance
     * @param volts rms, 0 or above, as amps and watts are; absent where the output's volts are unknown
     * @param polarity how its cone moves
     */
    public record DrivenCoil(
            List<String> terminals,
            double ratedOhms,
            @Nullable Double volts,
            @Nullable Double amps,
            @Nullable Double watts,
            Polarity polarity) {}

    /** How a cone moves, against the signal where that begins. */
    public enum Polarity {
        RIGHT,
        REVERSED,
        /** It does not move. */
        NONE
    }

    /**
     * A default that was used.
     *
     * @param name like {@code insulationCelsius}
     * @param value of the default, absent if it is no figure
     * @param about what it was used for, and where it comes from
     */
    public record Assumption(
            String name, @Nullable Double value, @Nullable String unit, String about) {}

    /**
     * The power as it was solved. Typical is what is drawn for long, worst what is drawn at most, from the least volts that
     * the state brings; figures are to the millionth.
     *
     * @param cases one for each way in which power flows
     * @param leftOut the facts without which something was left out, or taken as no resistance, like {@code connection W3.length}
     */
    public record Power(List<PowerCase> cases, List<String> leftOut) {}

    /**
     * One way in which power flows.
     *
     * @param states that share it
     * @param conditions any of which makes it so, empty if none must hold
     * @param together whether all of the conditions must hold at once
     * @param typicalVolts of the battery
     * @param worstVolts of the battery
     * @param loads loads, control inputs and coils that are fed
     * @param conductors connections that carry current
     * @param fuses that carry current
     * @param grounds the returns of parts at worst
     * @param largestOffset the two parts whose returns stand furthest apart at worst, absent with fewer than two
     */
    public record PowerCase(
            List<State> states,
            List<Condition> conditions,
            boolean together,
            double typicalVolts,
            double worstVolts,
            List<LoadPower> loads,
            List<ConductorPower> conductors,
            List<FusePower> fuses,
            List<GroundOffset> grounds,
            @Nullable OffsetBetween largestOffset) {}

    /**
     * What a load gets.
     *
     * @param terminal the load's; of a coil one end
     * @param typicalVolts across it
     * @param typicalAmps absent where unknown
     * @param worstVolts across it
     * @param worstAmps absent where unknown
     */
    public record LoadPower(
            String terminal,
            double typicalVolts,
            @Nullable Double typicalAmps,
            double worstVolts,
            @Nullable Double worstAmps) {}

    /**
     * What a connection carries.
     *
     * @param typicalLossWatts turned to heat in it, its fuse included
     * @param worstLossWatts likewise
     * @param worstCelsius of its conductor, absent where its size is unknown
     */
    public record ConductorPower(
            String connection,
            double typicalAmps,
            double typicalLossWatts,
            double worstAmps,
            double worstLossWatts,
            @Nullable Double worstCelsius) {}

    /**
     * What a fuse carries.
     *
     * @param at the connection that it is in, the two terminals in a part that it lies between, or the circuits of the
     *     vehicle that it lies upstream of
     */
    public record FusePower(List<String> at, double ratingAmps, double typicalAmps, double worstAmps) {}

    /** How far the return of a part stands above the chassis. */
    public record GroundOffset(String part, double worstVolts) {}

    /** Two parts whose returns differ. */
    public record OffsetBetween(List<String> parts, double worstVolts) {}
}
