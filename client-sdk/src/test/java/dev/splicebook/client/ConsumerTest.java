package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A program of somebody else's compiles and runs, with nothing but the client and Jackson beside it. */
class ConsumerTest {

    private static final String PROGRAM = """
            package consumer;

            import dev.splicebook.client.*;
            import java.util.stream.Stream;

            public class Main {
                public static void main(String[] arguments) {
                    Splicebook client = Splicebook.builder().baseUrl(arguments[0]).key("k").build();
                    Wire wire = Wire.of("16 AWG").withLength(Length.metres(3));
                    Hookup hookup = Hookup.builder().connect("W1", "CAR.battery-plus", "A.b", wire).build();
                    System.out.println(client.checks().check(hookup).verdict());
                    try (Stream<Entry> entries = client.exports().stream(ExportQuery.all())) {
                        entries.forEach(entry -> System.out.println(entry.kind() + " " + entry.more().get("newer")));
                    }
                    System.out.println(Main.class.getModule().isNamed() + " "
                            + Splicebook.class.getModule().isNamed());
                }
            }
            """;

    @TempDir
    private Path folder;

    private final FakeService service = new FakeService();

    @AfterEach
    void closeService() {
        service.close();
    }

    @Test
    void runsOnTheClassPath() throws Exception {
        Path source = source("consumer/Main.java", PROGRAM);

        compile("-cp", path(), "-d", folder.resolve("out").toString(), source.toString());

        assertThat(run("-cp", folder.resolve("out") + File.pathSeparator + path(), "consumer.Main", answering()))
                .containsExactly("ready", "device 1", "false false");
    }

    @Test
    void runsAsAModule() throws Exception {
        Path source = source("consumer/Main.java", PROGRAM);
        Path module = source("module-info.java", "module consumer { requires dev.splicebook.client; }");

        compile("-p", path(), "-d", folder.resolve("out").toString(), source.toString(), module.toString());

        assertThat(run(
                        "-p",
                        folder.resolve("out") + File.pathSeparator + path(),
                        "-m",
                        "consumer/consumer.Main",
                        answering()))
                .containsExactly("ready", "device 1", "true true");
    }

    private Path source(String name, String text) throws IOException {
        Path file = folder.resolve("src").resolve(name);
        Files.createDirectories(file.getParent());
        return Files.writeString(file, text);
    }

    /** The address of a service that gives the two answers that the program asks for. */
    private String answering() {
        service.answers(200, "{\"verdict\": \"ready\", \"revisions\": {}}")
                .answers(200, "{\"kind\": \"device\", \"document\": {\"code\": \"A\"}, \"newer\": 1}\n");
        return service.url();
    }

    private static void compile(String... arguments) {
        List<String> all = new ArrayList<>(List.of("-proc:none", "-Xlint:-options"));
        all.addAll(Arrays.asList(arguments));
        assertThat(ToolProvider.getSystemJavaCompiler().run(null, null, null, all.toArray(String[]::new)))
                .as("javac's exit status; what it says stands above")
                .isZero();
    }

    private List<String> run(String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(Arrays.asList(arguments));
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(1, TimeUnit.MINUTES)).isTrue();
        assertThat(process.exitValue()).as(output).isZero();
        return output.lines().toList();
    }

    /** Where the client and Jackson are, and nothing else that the tests have. */
    private static String path() throws Exception {
        Path client = Path.of(Splicebook.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
        String whole = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        Stream<String> jackson = Arrays.stream(whole.split(File.pathSeparator, -1))
                .filter(entry ->
                        Path.of(entry).getFileName().toString().matches("jackson-(core|databind|annotations)-.*"));
        return Stream.concat(Stream.of(client.toString()), jackson).collect(Collectors.joining(File.pathSeparator));
    }
}
