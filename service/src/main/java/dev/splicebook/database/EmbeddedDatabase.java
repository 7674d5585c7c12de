package dev.splicebook.database;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.Closeable;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.util.FileSystemUtils;

/**
 * A real PostgreSQL server of our own, on the loopback address and a free port, with its data in a folder. Started by
 * {@link #start}, watched while it runs, and stopped by {@link #close()}.
 */
final class EmbeddedDatabase implements Closeable {

    static final String NAME = "splicebook";
    static final String OWNER = "splicebook_owner";
    static final String APPLICATION = "splicebook_app";

    private static final Logger log = LoggerFactory.getLogger(EmbeddedDatabase.class);

    private static final String SUPERUSER = "postgres";
    private static final Duration START_PATIENCE = Duration.ofSeconds(60);
    private static final Duration STOP_PATIENCE = Duration.ofSeconds(30);
    private static final Duration WATCH_INTERVAL = Duration.ofSeconds(1);
    /** Long enough that whoever stopped the server on purpose can start it again first. */
    private static final Duration AWAY_BEFORE_RESTART = Duration.ofSeconds(5);

    private final DataFolder folder;
    private final Path programs;
    private final String ownerPassword = DataFolder.newPassword();
    private final String applicationPassword = DataFolder.newPassword();
    private final ScheduledExecutorService watchdog = Executors.newSingleThreadScheduledExecutor(task -> {
        Thread thread = new Thread(task, "embedded-database-watchdog");
        thread.setDaemon(true);
        return thread;
    });

    private EmbeddedPostgres server;
    private @Nullable Instant awaySince;
    private boolean closed;

    private EmbeddedDatabase(DataFolder folder, Path programs) throws IOException, SQLException {
        this.folder = folder;
        this.programs = programs;
        ServerProcess.findOn(folder.path()).ifPresent(orphan -> orphan.stop(STOP_PATIENCE));
        folder.beginMaking();
        folder.prepareLog();
        this.server = startServer(0);
        folder.endMaking();
        try {
            prepareRoles();
        } catch (SQLException | RuntimeException e) {
            stopServer();
            throw e;
        }
        ScheduledFuture<?> watching = watchdog.scheduleWithFixedDelay(
                this::watch, WATCH_INTERVAL.toMillis(), WATCH_INTERVAL.toMillis(), TimeUnit.MILLISECONDS);
        log.debug("watching the embedded database: {}", watching);
    }

    /**
     * Starts the server on a data folder, which is made if it is not there.
     *
     * @param dataFolder where the rows are kept
     * @param programsFolder where the server's programs are unpacked, shared by all data folders of this user
     * @throws StartRefusedException if the folder is in use or unusable, or the server does not start
     */
    static EmbeddedDatabase start(Path dataFolder, Path programsFolder) {
        DataFolder folder = DataFolder.lock(dataFolder);
        try {
            return new EmbeddedDatabase(folder, programsFolder.toAbsolutePath().normalize());
        } catch (IOException | SQLException | RuntimeException e) {
            release(folder);
            if (e instanceof StartRefusedException refused) {
                throw refused;
            }
            throw new StartRefusedException(
                    "The embedded database in " + folder.path() + " did not start: " + e.getMessage() + ".",
                    "Read " + folder.log() + ", or name a database server with SPRING_DATASOURCE_URL.",
                    e);
        }
    }

    String jdbcUrl() {
        return "jdbc:postgresql://127.0.0.1:" + server.getPort() + "/" + NAME;
    }

    String ownerPassword() {
        return ownerPassword;
    }

    String applicationPassword() {
        return applicationPassword;
    }

    Path dataFolder() {
        return folder.path();
    }

    /** Stops the server and frees the folder. */
    @Override
    public void close() {
        // an interrupted start of the server must not be taken for a finished one, so the watchdog ends its turn first
        watchdog.shutdown();
        synchronized (this) {
            if (closed) {
                return;
            }
            closed = true;
            stopServer();
            release(folder);
        }
    }

    private synchronized void watch() {
        if (closed) {
            return;
        }
        if (ServerProcess.findOn(folder.path()).isPresent()) {
            awaySince = null;
            return;
        }
        Instant now = Instant.now();
        if (awaySince == null) {
            log.warn("The embedded database has ended; it is started again unless somebody else does.");
            awaySince = now;
        } else if (Duration.between(awaySince, now).compareTo(AWAY_BEFORE_RESTART) >= 0) {
            try {
                server.close();
                server = startServer(server.getPort());
                log.warn("The embedded database is back.");
                awaySince = null;
            } catch (IOException | RuntimeException e) {
                log.error("The embedded database did not start again ({}); see {}", e.getMessage(), folder.log());
                awaySince = now;
            }
        }
    }

    private EmbeddedPostgres startServer(int port) throws IOException {
        DataFolder.createPrivateFolders(programs);
        try (FileChannel channel = FileChannel.open(
                        programs.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                FileLock lock = channel.lock()) {
            log.debug("unpacking and starting under {}", lock);
            deleteHalfUnpacked();
            ServerProcess.forgetStrangerOn(folder.path());
            return newServer(port);
        }
    }

    private EmbeddedPostgres newServer(int port) throws IOException {
        // the library reads this one property for both its programs and a folder that it sweeps; the default of both
        // is a folder that every user of the machine can write
        System.setProperty("ot.epg.working-dir", programs.toString());
        EmbeddedPostgres.Builder builder = EmbeddedPostgres.builder()
                .setDataDirectory(folder.path())
                .setCleanDataDirectory(false)
                .setRegisterShutdownHook(false)
                .setPGStartupWait(START_PATIENCE)
                .setPort(port)
                .setConnectConfig("password", folder.password())
                // these go to initdb as options: a password from the first second on, and the same text order anywhere
                .setLocaleConfig("pwfile", folder.passwordFile().toString())
                .setLocaleConfig("auth-host", "scram-sha-256")
                .setLocaleConfig("auth-local", "scram-sha-256")
                .setLocaleConfig("locale-provider", "builtin")
                .setLocaleConfig("builtin-locale", "C.UTF-8")
                .setLocaleConfig("locale", "C")
                .setServerConfig("listen_addresses", "127.0.0.1")
                .setServerConfig("unix_socket_directories", "")
                .setServerConfig("fsync", "on")
                .setServerConfig("synchronous_commit", "on")
                .setServerConfig("max_connections", "50")
                .setServerConfig("log_checkpoints", "off")
                .setOutputRedirector(
                        ProcessBuilder.Redirect.appendTo(folder.log().toFile()))
                .setErrorRedirector(
                        ProcessBuilder.Redirect.appendTo(folder.log().toFile()));
        return builder.start();
    }

    /** The library keeps a file that an earlier process was killed while writing, so such folders go first. */
    private void deleteHalfUnpacked() throws IOException {
        List<Path> halfUnpacked = new ArrayList<>();
        try (Stream<Path> entries = Files.list(programs)) {
            entries.filter(Files::isDirectory)
                    .filter(entry -> !Files.exists(entry.resolve(".exists")))
                    .forEach(halfUnpacked::add);
        }
        for (Path entry : halfUnpacked) {
            FileSystemUtils.deleteRecursively(entry);
        }
    }

    private void prepareRoles() throws SQLException {
        try (Connection connection = server.getDatabase(SUPERUSER, "postgres").getConnection();
                Statement statement = connection.createStatement()) {
            prepareRole(statement, OWNER, ownerPassword);
            prepareRole(statement, APPLICATION, applicationPassword);
            if (!exists(statement, "select from pg_database where datname = '" + NAME + "'")) {
                statement.execute("create database " + NAME + " owner " + OWNER);
            }
            statement.execute("revoke all on database " + NAME + " from public");
            statement.execute("grant connect on database " + NAME + " to " + APPLICATION);
        }
    }

    private static void prepareRole(Statement statement, String role, String password) throws SQLException {
        if (!exists(statement, "select from pg_roles where rolname = '" + role + "'")) {
            statement.execute("create role " + role + " login");
        }
        statement.execute("alter role " + role + " password '" + password + "'");
    }

    private static boolean exists(Statement statement, String query) throws SQLException {
        try (ResultSet rows = statement.executeQuery(query)) {
            return rows.next();
        }
    }

    private void stopServer() {
        try {
            server.close();
        } catch (IOException | RuntimeException e) {
            log.debug("the library could not stop the server", e);
        }
        ServerProcess.findOn(folder.path()).ifPresent(left -> left.stop(STOP_PATIENCE));
    }

    private static void release(DataFolder folder) {
        try {
            folder.close();
        } catch (IOException e) {
            log.warn("The lock beside {} could not be closed", folder.path(), e);
        }
    }
}
