package dev.splicebook.testing;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.stream.Collectors;

/** The service as a process of its own, so that it can be refused, stopped and killed like one. */
public final class ServiceProcess implements AutoCloseable {

    private static final int START_SECONDS = 120;
    private static final int STOP_SECONDS = 60;
    private static final String LISTENS_AT = "Splicebook listens at ";

    private final Process process;
    private final List<String> lines = new CopyOnWriteArrayList<>();
    private final CompletableFuture<String> url = new CompletableFuture<>();
    private final Thread reader;

    private ServiceProcess(Process process) {
        this.process = process;
        this.reader = new Thread(this::read, "output of a service process");
        reader.setDaemon(true);
        reader.start();
    }

    /** Starts on an embedded database in the folder. */
    public static ServiceProcess startOn(Path dataFolder) {
        return start(Map.of(), List.of("--splicebook.data-folder=" + dataFolder));
    }

    public static ServiceProcess start(Map<String, String> environment, List<String> arguments) {
        return start(List.of("-XX:TieredStopAtLevel=1"), environment, arguments);
    }

    /** Starts with options for the Java machine. */
    public static ServiceProcess start(List<String> options, Map<String, String> environment, List<String> arguments) {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(options);
        command.addAll(List.of(
                "-cp",
                classPathWithoutTests(),
                "dev.splicebook.SplicebookApplication",
                "--server.port=0",
                "--splicebook.programs-folder=" + TestDatabase.programsFolder()));
        command.addAll(arguments);
        ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
        builder.environment().putAll(environment);
        try {
            return new ServiceProcess(builder.start());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Calls without a key, as soon as the service says where it listens. */
    public Calls calls() {
        try {
            return Calls.to(url.get(START_SECONDS, TimeUnit.SECONDS));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        } catch (ExecutionException | TimeoutException e) {
            throw new IllegalStateException("the service did not start; it said: " + output(), e);
        }
    }

    public String output() {
        return String.join("\n", lines);
    }

    public boolean isAlive() {
        return process.isAlive();
    }

    /** Waits for the process to end by itself. */
    public int exitCode() {
        try {
            if (!process.waitFor(START_SECONDS, TimeUnit.SECONDS)) {
                throw new IllegalStateException("the service still runs; it said: " + output());
            }
            reader.join(TimeUnit.SECONDS.toMillis(STOP_SECONDS));
            return process.exitValue();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** SIGKILL: nothing of the process runs any more. */
    public void kill() {
        process.destroyForcibly();
        exitCode();
    }

    /** SIGTERM, and what the service does then. */
    @Override
    public void close() {
        process.destroy();
        exitCode();
    }

    private void read() {
        try (BufferedReader output = process.inputReader(StandardCharsets.UTF_8)) {
            output.lines().forEach(line -> {
                lines.add(line);
                if (line.startsWith(LISTENS_AT)) {
                    url.complete(line.substring(LISTENS_AT.length()));
                }
            });
        } catch (IOException e) {
            lines.add(e.toString());
        } finally {
            url.completeExceptionally(new IllegalStateException("the process ended"));
        }
    }

    private static String classPathWithoutTests() {
        String whole = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        return Arrays.stream(whole.split(File.pathSeparator, -1))
                .filter(entry -> !entry.endsWith("test-classes"))
                .collect(Collectors.joining(File.pathSeparator));
    }
}
