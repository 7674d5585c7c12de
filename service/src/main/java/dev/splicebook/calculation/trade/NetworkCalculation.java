package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.Cautions;
import dev.splicebook.calculation.NoAnswerException;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.circuit.AcResult;
import dev.splicebook.circuit.DcResult;
import dev.splicebook.circuit.Element;
import dev.splicebook.circuit.IterationLimit;
import dev.splicebook.circuit.Network;
import dev.splicebook.circuit.NoOperatingPoint;
import dev.splicebook.circuit.Phasor;
import dev.splicebook.circuit.Singular;
import dev.splicebook.circuit.Solver;
import dev.splicebook.guard.Guard;
import dev.splicebook.guard.Invalid;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** The volts and amps of any network, at DC or at given frequencies. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "network",
        purpose = "Volts at every node and amps through every element of any circuit, at DC or AC.",
        method =
                "Kirchhoff's laws for the whole network at once (modified nodal analysis), with damped Newton steps for"
                        + " diodes and constant loads, re-checked on every answer. At AC, diodes and constant loads are taken"
                        + " by their slope at the DC operating point.",
        sources = {
            "Kirchhoff's laws",
            "Ho, Ruehli, Brennan: The modified nodal approach to network analysis, IEEE 1975, from memory"
        },
        cautions = Cautions.BATTERY)
public final class NetworkCalculation
        extends Worked<NetworkCalculation.NetworkQuestion, NetworkCalculation.NetworkAnswer> {

    /** Elements times frequencies: about a second's work. */
    private static final int MOST_WORK = 100_000;

    /** Elements of a network with constant-power loads, for which finding the most that can be fed solves it many times. */
    private static final int MOST_WITH_POWER_LOADS = 1000;

    private static final int MOST_NODES_SHOWN = 3;
    private static final int MOST_ELEMENTS_SHOWN = 3;
    private static final int MOST_TERMS = 8;

    public NetworkCalculation() {
        super(NetworkQuestion.class, NetworkAnswer.class);
    }

    /** A network, at DC unless frequencies are given. */
    public record NetworkQuestion(
            @Fact(value = "what joins the nodes", leastEntries = 1, mostEntries = 20_000)
            List<NetworkElement> elements,

            @Fact("node whose volts are zero") String ground,

            @Fact(
                    value = "frequencies of an AC question",
                    unit = "Hz",
                    least = 0,
                    aboveLeast = true,
                    most = 1e9,
                    mostEntries = 1000,
                    usual = "DC")
            List<Double> frequenciesHertz) {

        public NetworkQuestion {
            elements = List.copyOf(elements);
            frequenciesHertz = List.copyOf(frequenciesHertz);
            int count = elements.size();
            int work = count * frequenciesHertz.size();
            List<NetworkElement> given = elements;
            new Guard()
                    .refuseIf(
                            work > MOST_WORK,
                            "frequenciesHertz",
                            "too-many",
                            () -> "elements times frequencies is " + work + ", above " + MOST_WORK)
                    .refuseIf(
                            count > MOST_WITH_POWER_LOADS
                                    && given.stream()
                                            .anyMatch(NetworkElement.NetworkConstantPowerLoad.class::isInstance),
                            "elements",
                            "too-many",
                            () -> "elements has " + count + " entries, above " + MOST_WITH_POWER_LOADS
                                    + " for a network with constant-power loads")
                    .check();
            // says itself where names are given twice, or ground is no node
            network(elements, ground, !frequenciesHertz.isEmpty());
        }

        Network network() {
            return network(elements, ground, !frequenciesHertz.isEmpty());
        }

        private static Network network(List<NetworkElement> elements, String ground, boolean ac) {
            return new Network(elements.stream().map(each -> each.element(ac)).toList(), ground);
        }
    }

    /** Volts of a node against ground. */
    public record NodeVolts(
            @Fact(value = "volts against ground; at AC the effective value", unit = "V")
            double volts,

            @Fact(value = "phase, at AC", unit = "°") @Nullable
            Double phaseDegrees) {}

    /** What flows through an element. */
    public record BranchAmps(
            @Fact(value = "amps from from to to; at AC the effective value", unit = "A")
            double amps,

            @Fact(value = "phase, at AC", unit = "°") @Nullable
            Double phaseDegrees,

            @Fact(value = "power it takes, negative where it delivers", unit = "W")
            double watts,

            @Fact(value = "reactive power at AC, positive for an inductor", unit = "var") @Nullable
            Double reactiveVars) {}

    /** The network at one frequency. */
    public record NetworkAtFrequency(
            @Fact(value = "frequency", unit = "Hz") double hertz,
            @Fact("each node by name") Map<String, NodeVolts> nodes,
            @Fact("each element by name") Map<String, BranchAmps> branches,

            @Fact("how far Kirchhoff's laws are missed, relative")
            double residual) {}

    /** Nodes and branches, at DC or the one frequency asked for; else each frequency's. */
    public record NetworkAnswer(
            @Fact("each node by name; absent where several frequencies were asked for") @Nullable
            Map<String, NodeVolts> nodes,

            @Fact("each element by name; absent where several frequencies were asked for") @Nullable
            Map<String, BranchAmps> branches,

            @Fact("the network at each frequency, as asked; none at DC")
            List<NetworkAtFrequency> frequencies,

            @Fact("how far Kirchhoff's laws are missed, relative, at worst")
            double residual,

            @Fact("linear solutions that it took, at DC") @Nullable
            Integer iterations,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected NetworkAnswer work(NetworkQuestion asked, Worksheet sheet) {
        assume(asked, sheet);
        Network network = asked.network();
        return asked.frequenciesHertz().isEmpty() ? dc(network, sheet) : ac(network, asked, sheet);
    }

    private static void assume(NetworkQuestion asked, Worksheet sheet) {
        boolean saturation = false;
        boolean emission = false;
        boolean bent = false;
        for (NetworkElement element : asked.elements()) {
            if (element instanceof NetworkElement.NetworkDiode diode) {
                saturation |= diode.saturationAmps() == null;
                emission |= diode.emission() == null;
            }
            bent |= element instanceof NetworkElement.NetworkDiode;
        }
        if (saturation) {
            sheet.assume(
                    "saturationAmps",
                    NetworkElement.NetworkDiode.USUAL_SATURATION_AMPS,
                    "A",
                    "diodes that state none; default of Berkeley SPICE, from memory");
        }
        if (emission) {
            sheet.assume(
                    "emission",
                    NetworkElement.NetworkDiode.USUAL_EMISSION,
                    "",
                    "diodes that state none; default of Berkeley SPICE, from memory");
        }
        if (bent) {
            sheet.assume("junctionCelsius", 27, "°C", "diodes, whose volts fall as they warm");
        }
    }

    private static NetworkAnswer dc(Network network, Worksheet sheet) {
        DcResult result = Solver.dc(network);
        if (!(result instanceof DcResult.Solved solved)) {
            throw none(result, "");
        }
        Map<String, NodeVolts> nodes = new LinkedHashMap<>();
        solved.volts().forEach((node, volts) -> nodes.put(node, new NodeVolts(volts, null)));
        Map<String, BranchAmps> branches = new LinkedHashMap<>();
        solved.branches()
                .forEach((name, branch) ->
                        branches.put(name, new BranchAmps(branch.amps(), null, branch.watts(), null)));
        show(network, solved, sheet);
        return new NetworkAnswer(
                nodes,
                branches,
                List.of(),
                solved.residual(),
                solved.iterations(),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static NetworkAnswer ac(Network network, NetworkQuestion asked, Worksheet sheet) {
        List<NetworkAtFrequency> frequencies = new ArrayList<>();
        double residual = 0;
        for (double hertz : asked.frequenciesHertz()) {
            AcResult result = Solver.ac(network, hertz);
            if (!(result instanceof AcResult.Solved solved)) {
                throw none(result, " at " + figure(hertz) + " Hz");
            }
            Map<String, NodeVolts> nodes = new LinkedHashMap<>();
            solved.volts()
                    .forEach((node, volts) -> nodes.put(node, new NodeVolts(volts.magnitude(), volts.phaseDegrees())));
            Map<String, BranchAmps> branches = new LinkedHashMap<>();
            solved.branches()
                    .forEach((name, branch) -> branches.put(
                            name,
                            new BranchAmps(
                                    branch.amps().magnitude(),
                                    branch.amps().phaseDegrees(),
                                    branch.watts(),
                                    branch.reactiveVoltAmperes())));
            if (frequencies.isEmpty()) {
                show(network, solved, sheet);
            }
            residual = Math.max(residual, solved.residual());
            frequencies.add(new NetworkAtFrequency(hertz, nodes, branches, solved.residual()));
        }
        boolean one = frequencies.size() == 1;
        return new NetworkAnswer(
                one ? frequencies.get(0).nodes() : null,
                one ? frequencies.get(0).branches() : null,
                frequencies,
                residual,
                null,
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    /** Ohm's law for the first resistors, Kirchhoff's for the first nodes, and the balance of power, where short enough. */
    private static void show(Network network, DcResult.Solved solved, Worksheet sheet) {
        int shown = 0;
        for (Element element : network.elements()) {
            if (element instanceof Element.Resistor resistor && shown < MOST_ELEMENTS_SHOWN) {
                shown++;
                sheet.step(
                        "amps through " + resistor.name() + " are the volts between its ends by its ohms",
                        "I = (Ufrom - Uto) / R",
                        of(solved.branches(), resistor.name()).amps(),
                        "A",
                        given("Ufrom", of(solved.volts(), resistor.from()), "V"),
                        given("Uto", of(solved.volts(), resistor.to()), "V"),
                        given("R", resistor.ohms(), "Ω"));
            }
        }
        shown = 0;
        for (String node : network.nodes()) {
            List<Element> at = network.elements().stream()
                    .filter(element -> !(element instanceof Element.IdealTransformer))
                    .filter(element ->
                            element.from().equals(node) != element.to().equals(node))
                    .toList();
            boolean whole = network.elements().stream()
                    .noneMatch(element -> element instanceof Element.IdealTransformer transformer
                            && List.of(
                                            transformer.from(),
                                            transformer.to(),
                                            transformer.secondaryFrom(),
                                            transformer.secondaryTo())
                                    .contains(node));
            if (whole && at.size() > 1 && at.size() <= MOST_TERMS && shown < MOST_NODES_SHOWN) {
                shown++;
                StringBuilder sum = new StringBuilder("S = 0");
                List<Step.Given> amps = new ArrayList<>();
                for (Element element : at) {
                    String symbol = "I" + (amps.size() + 1);
                    sum.append(element.from().equals(node) ? " + " : " - ").append(symbol);
                    amps.add(given(symbol, of(solved.branches(), element.name()).amps(), "A"));
                }
                sheet.step(
                        "amps that leave node " + node + " through "
                                + String.join(
                                        ", ", at.stream().map(Element::name).toList())
                                + " sum to zero",
                        sum.toString(),
                        0,
                        "A",
                        amps.toArray(Step.Given[]::new));
            }
        }
        showPower(
                network.elements().stream()
                        .map(element -> of(solved.branches(), element.name()).watts())
                        .toList(),
                sheet);
    }

    private static void show(Network network, AcResult.Solved solved, Worksheet sheet) {
        int shown = 0;
        for (Element element : network.elements()) {
            if (element instanceof Element.Resistor resistor && shown < MOST_ELEMENTS_SHOWN) {
                shown++;
                Phasor from = of(solved.volts(), resistor.from());
                Phasor to = of(solved.volts(), resistor.to());
                sheet.step(
                        "amps through " + resistor.name() + " at " + figure(solved.hertz())
                                + " Hz are the volts between its ends, real and imaginary part, by its ohms",
                        "I = sqrt((Uf1 - Ut1)^2 + (Uf2 - Ut2)^2) / R",
                        of(solved.branches(), resistor.name()).amps().magnitude(),
                        "A",
                        given("Uf1", from.real(), "V"),
                        given("Ut1", to.real(), "V"),
                        given("Uf2", from.imaginary(), "V"),
                        given("Ut2", to.imaginary(), "V"),
                        given("R", resistor.ohms(), "Ω"));
            }
        }
        showPower(
                network.elements().stream()
                        .map(element -> of(solved.branches(), element.name()).watts())
                        .toList(),
                sheet);
    }

    private static void showPower(List<Double> watts, Worksheet sheet) {
        double taken = watts.stream()
                .filter(each -> each > 0)
                .mapToDouble(each -> each)
                .sum();
        double delivered = -watts.stream()
                .filter(each -> each < 0)
                .mapToDouble(each -> each)
                .sum();
        sheet.step(
                "watts that some elements deliver less watts that the others take",
                "B = Pdelivered - Ptaken",
                delivered - taken,
                "W",
                given("Pdelivered", delivered, "W"),
                given("Ptaken", taken, "W"));
    }

    private static NoAnswerException none(Object result, String where) {
        if (result instanceof AcResult.NotBiased biased) {
            return none(biased.dc(), " at DC, which the elements of an AC question rest on");
        }
        if (result instanceof Singular singular) {
            return singular(singular, where);
        }
        if (result instanceof NoOperatingPoint unfed) {
            return unfed(unfed, where);
        }
        if (result instanceof IterationLimit limit) {
            return new NoAnswerException(
                    "the network was not solved" + where + " within " + limit.iterations() + " steps",
                    "/elements",
                    "iteration-limit",
                    limit.iterations() + " steps did not come to rest");
        }
        throw new IllegalStateException("unknown result " + result);
    }

    private static NoAnswerException singular(Singular singular, String where) {
        String nodes = "nodes " + String.join(", ", singular.nodes());
        String elements = String.join(", ", singular.elements());
        String detail = switch (singular.cause()) {
            case FLOATING_NODES -> nodes + " float" + where + ": no conducting path joins them to ground";
            case CURRENT_SOURCES_ONLY ->
                nodes + " float" + where + ": only the current sources " + elements
                        + " join them to ground, and they fix no volts";
            case SOURCE_LOOP ->
                elements + " form a loop of voltage sources and inductors" + where + ", in which any current may flow";
            case DEPENDENT ->
                elements + " at " + nodes + " have no single solution" + where
                        + ", as through a transformer without a path to ground, or by resonance without loss";
        };
        String code = singular.cause().name().toLowerCase(Locale.ROOT).replace('_', '-');
        return new NoAnswerException(detail, "/elements", code, detail);
    }

    private static NoAnswerException unfed(NoOperatingPoint unfed, String where) {
        String detail = "the network cannot feed its constant-power loads" + where + ": " + unfed.load()
                + " gives way at " + figure(unfed.volts()) + " V, where all of them together get "
                + figure(100 * unfed.share()) + " % of their watts";
        return new NoAnswerException(detail, List.of(new Invalid("/elements", "no-operating-point", detail)));
    }

    /** What a result says of a node or an element that the network has. */
    private static <T> T of(Map<String, T> results, String name) {
        return Objects.requireNonNull(results.get(name), name);
    }

    private static String figure(double value) {
        return String.format(Locale.ROOT, "%.4g", value);
    }
}
