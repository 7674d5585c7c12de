package dev.splicebook.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.circuit.RandomNetworks.Sample;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The general circuit simulator of that name, asked for many networks in one process. */
final class Ngspice {

    private static final int MOST_SECONDS = 60;
    private static final String NEXT = "next network";
    private static final Pattern VALUE = Pattern.compile("(\\S+) = ([^,\\s]+)(?:,([^,\\s]+))?");
    private static final Pattern NODE = Pattern.compile("[nsxy][0-9]*");

    private Ngspice() {}

    static boolean installed() {
        return Arrays.stream(System.getenv().getOrDefault("PATH", "").split(File.pathSeparator))
                .anyMatch(folder -> Files.isExecutable(Path.of(folder, "ngspice")));
    }

    /**
     * What ngspice makes of the networks: by {@code volts NODE} and {@code amps ELEMENT}, for all nodes but ground, sources
     * of voltage, inductors and transformers.
     */
    static List<Map<String, Phasor>> solve(List<Sample> samples, Path folder) {
        try {
            StringBuilder control = new StringBuilder("* all\n.control\nset numdgt=16\n");
            for (int at = 0; at < samples.size(); at++) {
                Sample sample = samples.get(at);
                Files.writeString(folder.resolve(at + ".cir"), deck(sample.network()));
                control.append("echo ").append(NEXT).append('\n');
                control.append("source ").append(at).append(".cir\n");
                control.append(
                        sample.hertz() == 0 ? "op\n" : "ac lin 1 " + sample.hertz() + " " + sample.hertz() + "\n");
                control.append("print all\n").append("remcirc\n").append("destroy all\n");
            }
            Files.writeString(folder.resolve("all.cir"), control.append("quit\n.endc\n.end\n"));
            return answers(run(folder), samples.size());
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    private static String run(Path folder) throws IOException {
        Path output = folder.resolve("output.txt");
        Process process = new ProcessBuilder("ngspice", "-b", "all.cir")
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(output.toFile())
                .start();
        try {
            assertThat(process.waitFor(MOST_SECONDS, TimeUnit.SECONDS))
                    .as("ngspice ends within %s s", MOST_SECONDS)
                    .isTrue();
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(interrupted);
        } finally {
            process.destroy();
        }
        return Files.readString(output, StandardCharsets.ISO_8859_1);
    }

    private static List<Map<String, Phasor>> answers(String output, int count) {
        List<Map<String, Phasor>> answers = new ArrayList<>();
        for (String part : output.split(NEXT, -1)) {
            Map<String, Phasor> answer = new TreeMap<>();
            for (String line : part.split("\n", -1)) {
                Matcher value = VALUE.matcher(line.strip());
                if (value.matches()) {
                    put(answer, value);
                }
            }
            answers.add(answer);
        }
        answers.remove(0);
        assertThat(answers).as("networks that ngspice told of").hasSize(count);
        return answers;
    }

    private static void put(Map<String, Phasor> answer, Matcher value) {
        Phasor phasor = new Phasor(
                Double.parseDouble(value.group(2)), value.group(3) == null ? 0 : Double.parseDouble(value.group(3)));
        String name = value.group(1);
        if (name.endsWith("#branch")) {
            String element = name.substring(0, name.indexOf('#')).toUpperCase(Locale.ROOT);
            if (element.startsWith("VT")) {
                answer.put("amps " + element.substring(1), phasor);
            } else if (element.startsWith("V") || element.startsWith("L")) {
                answer.put("amps " + element, phasor);
            }
        } else if (NODE.matcher(name).matches()) {
            answer.put("volts " + name, phasor);
        }
    }

    private static String deck(Network network) {
        StringBuilder deck = new StringBuilder("* one\n");
        for (Element element : network.elements()) {
            deck.append(line(element));
        }
        return deck.append(".options reltol=1e-9 abstol=1e-15 vntol=1e-12 itl1=1000\n.end\n")
                .toString();
    }

    private static String line(Element element) {
        String name = element.name();
        String ends = " " + element.from() + " " + element.to() + " ";
        if (element instanceof Element.Resistor resistor) {
            return name + ends + resistor.ohms() + "\n";
        }
        if (element instanceof Element.VoltageSource source) {
            return name + ends + source.volts() + " ac " + source.acVolts() + " " + source.acPhaseDegrees() + "\n";
        }
        if (element instanceof Element.CurrentSource source) {
            return name + ends + source.amps() + " ac " + source.acAmps() + " " + source.acPhaseDegrees() + "\n";
        }
        if (element instanceof Element.Capacitor capacitor) {
            return name + ends + capacitor.farads() + "\n";
        }
        if (element instanceof Element.Inductor inductor) {
            return name + ends + inductor.henries() + "\n";
        }
        if (element instanceof Element.Diode diode) {
            return name + ends + "m" + name + "\n.model m" + name + " d is=" + diode.saturationAmps() + " n="
                    + diode.emission() + "\n";
        }
        if (element instanceof Element.IdealTransformer transformer) {
            return "V" + name + " " + element.from() + " in" + name + " 0\n"
                    + "E" + name + " in" + name + " " + element.to() + " " + transformer.secondaryFrom() + " "
                    + transformer.secondaryTo() + " " + transformer.ratio() + "\n"
                    + "F" + name + " " + transformer.secondaryFrom() + " " + transformer.secondaryTo() + " V" + name
                    + " " + -transformer.ratio() + "\n";
        }
        String volts = "V(" + element.from() + "," + element.to() + ")";
        if (element instanceof Element.ConstantPowerLoad load) {
            // below 5 V as a resistance, for a start from nothing
            return "B" + name + ends + "I=" + volts + ">5 ? " + load.watts() + "/" + volts + " : " + load.watts()
                    + "/25*" + volts + "\n";
        }
        if (element instanceof Element.ConstantCurrentLoad load) {
            return "B" + name + ends + "I=" + load.amps() + "*tanh(" + volts + "/0.01)\n";
        }
        throw new IllegalArgumentException("no line for " + element);
    }
}
