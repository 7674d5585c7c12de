package dev.splicebook.database;

import java.io.Closeable;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.util.FileSystemUtils;

/**
 * The folder that holds the embedded server's data, locked for one service. Lock, password and log stand beside it,
 * because the server wants to find its folder empty when it makes it.
 */
final class DataFolder implements Closeable {

    private static final SecureRandom RANDOM = new SecureRandom();
    private static final int PASSWORD_BYTES = 24;
    private static final long LOG_MOST_BYTES = 4L << 20;

    private final Path folder;
    private final FileChannel lockChannel;

    private DataFolder(Path folder, FileChannel lockChannel) {
        this.folder = folder;
        this.lockChannel = lockChannel;
    }

    /**
     * Locks the folder, which need not exist yet, until {@link #close()} or the end of the process.
     *
     * @throws StartRefusedException if another service holds it, or it cannot be written
     */
    static DataFolder lock(Path path) {
        Path folder = path.toAbsolutePath().normalize();
        try {
            createPrivateFolders(folder.getParent() == null ? folder : folder.getParent());
            FileChannel channel = FileChannel.open(
                    beside(folder, ".lock"),
                    Set.<OpenOption>of(StandardOpenOption.CREATE, StandardOpenOption.WRITE),
                    privately(folder, "rw-------"));
            FileLock lock = tryLock(channel);
            if (lock == null) {
                channel.close();
                throw new StartRefusedException(
                        "Another running Splicebook holds the data folder " + folder + ".",
                        "Stop the other one, or give this one a folder of its own with splicebook.data-folder, or a "
                                + "database server with SPRING_DATASOURCE_URL.");
            }
            return new DataFolder(folder, channel);
        } catch (IOException e) {
            throw new StartRefusedException(
                    "The data folder " + folder + " cannot be used: " + e + ".",
                    "Name a folder that this user may write with splicebook.data-folder.",
                    e);
        }
    }

    Path path() {
        return folder;
    }

    Path log() {
        return beside(folder, ".log");
    }

    Path passwordFile() {
        return beside(folder, ".password");
    }

    /** The database superuser's password, generated the first time; only this user can read the file. */
    String password() throws IOException {
        try {
            Path fresh = Files.createFile(passwordFile(), privately(folder, "rw-------"));
            Files.writeString(fresh, newPassword());
        } catch (FileAlreadyExistsException e) {
            if (Files.size(passwordFile()) == 0) {
                Files.writeString(passwordFile(), newPassword());
            }
        }
        return Files.readString(passwordFile()).strip();
    }

    static String newPassword() {
        byte[] bytes = new byte[PASSWORD_BYTES];
        RANDOM.nextBytes(bytes);
        return HexFormat.of().formatHex(bytes);
    }

    /**
     * Empties the folder if an earlier start was killed while making it: nothing can have been stored by then, and the
     * server would refuse what is half made.
     *
     * @throws StartRefusedException if the folder holds something that is not a database
     */
    void beginMaking() throws IOException {
        if (Files.exists(making())) {
            FileSystemUtils.deleteRecursively(folder);
        }
        if (isMade()) {
            return;
        }
        if (Files.isDirectory(folder) && !isEmpty()) {
            throw new StartRefusedException(
                    "The data folder " + folder + " is not empty and holds no database.",
                    "Empty it, or name another one with splicebook.data-folder.");
        }
        Files.writeString(making(), "");
        Files.deleteIfExists(passwordFile());
    }

    void endMaking() throws IOException {
        Files.deleteIfExists(making());
    }

    boolean isMade() {
        return Files.exists(folder.resolve("PG_VERSION")) && !Files.exists(making());
    }

    /** Leaves a log that only this user can read, empty if it had grown large. */
    void prepareLog() throws IOException {
        if (Files.exists(log()) && Files.size(log()) > LOG_MOST_BYTES) {
            Files.delete(log());
        }
        if (!Files.exists(log())) {
            Files.createFile(log(), privately(folder, "rw-------"));
        }
    }

    @Override
    public void close() throws IOException {
        lockChannel.close();
    }

    /** Creates what is missing, for this user only. */
    static void createPrivateFolders(Path path) throws IOException {
        if (!Files.isDirectory(path)) {
            Files.createDirectories(path, privately(path, "rwx------"));
        }
    }

    private Path making() {
        return beside(folder, ".making");
    }

    private boolean isEmpty() throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.findAny().isEmpty();
        } catch (NoSuchFileException e) {
            return true;
        }
    }

    private static Path beside(Path folder, String suffix) {
        return folder.resolveSibling(folder.getFileName() + suffix);
    }

    private static FileAttribute<?>[] privately(Path path, String permissions) {
        return path.getFileSystem().supportedFileAttributeViews().contains("posix")
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString(permissions))
                }
                : new FileAttribute<?>[0];
    }

    private static @Nullable FileLock tryLock(FileChannel channel) throws IOException {
        try {
            return channel.tryLock();
        } catch (OverlappingFileLockException e) {
            return null;
        }
    }
}
