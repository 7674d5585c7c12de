package dev.splicebook.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The PostgreSQL process that works on a data folder, whoever started it. */
record ServerProcess(ProcessHandle handle) {

    private static final Logger log = LoggerFactory.getLogger(ServerProcess.class);

    private static final long LOOK_AGAIN_MILLIS = 100;

    /** The live process that the folder's {@code postmaster.pid} names, if its command line names the folder. */
    static Optional<ServerProcess> findOn(Path dataFolder) {
        return findNamedIn(pidFile(dataFolder))
                .filter(handle -> worksOn(dataFolder, handle))
                .map(ServerProcess::new);
    }

    /**
     * Deletes a {@code postmaster.pid} whose number now belongs to a process that is no server of this folder; the
     * server would take that process for itself and refuse to start.
     */
    static void forgetStrangerOn(Path dataFolder) throws IOException {
        Optional<ProcessHandle> named = findNamedIn(pidFile(dataFolder));
        if (named.isPresent() && named.get().info().commandLine().isPresent() && !worksOn(dataFolder, named.get())) {
            Files.deleteIfExists(pidFile(dataFolder));
        }
    }

    /** Asks for a fast shutdown, which ends sessions and writes everything; forces it when that takes too long. */
    void stop(Duration patience) {
        if (!interrupt()) {
            handle.destroy();
        }
        if (!endsWithin(patience)) {
            handle.destroyForcibly();
            endsWithin(patience);
        }
    }

    private boolean endsWithin(Duration patience) {
        long deadline = System.nanoTime() + patience.toNanos();
        while (isWorking(handle) && System.nanoTime() < deadline) {
            try {
                handle.onExit().get(LOOK_AGAIN_MILLIS, TimeUnit.MILLISECONDS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                break;
            } catch (ExecutionException | TimeoutException e) {
                log.debug("process {} has not ended yet", handle.pid(), e);
            }
        }
        return !isWorking(handle);
    }

    private boolean interrupt() {
        try {
            // SIGTERM would wait for clients to leave; only SIGINT is the fast shutdown
            return new ProcessBuilder("kill", "-INT", Long.toString(handle.pid()))
                            .redirectErrorStream(true)
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .start()
                            .waitFor()
                    == 0;
        } catch (IOException e) {
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    private static Path pidFile(Path dataFolder) {
        return dataFolder.resolve("postmaster.pid");
    }

    private static Optional<ProcessHandle> findNamedIn(Path pidFile) {
        try {
            List<String> lines = Files.readAllLines(pidFile);
            return lines.isEmpty()
                    ? Optional.empty()
                    : ProcessHandle.of(Long.parseLong(lines.get(0).strip())).filter(ServerProcess::isWorking);
        } catch (IOException | NumberFormatException e) {
            return Optional.empty();
        }
    }

    private static boolean worksOn(Path dataFolder, ProcessHandle handle) {
        ProcessHandle.Info info = handle.info();
        return info.commandLine()
                .map(line -> (line + " ").contains(" " + dataFolder + " "))
                .orElseGet(() ->
                        info.command().filter(name -> name.contains("postgres")).isPresent());
    }

    /** A dead process that its parent has not collected still counts as alive, but has no command any more. */
    private static boolean isWorking(ProcessHandle handle) {
        return handle.isAlive() && handle.info().command().isPresent();
    }
}
