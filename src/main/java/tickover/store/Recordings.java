package tickover.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;

/**
 * The files of the visits in the log, one folder per visit under {@code recordings}.
 *
 * <p>A visit's files are first copied to a staging folder and flushed, then moved to their place in
 * one step. A staging folder has a lock file beside it that its process holds, so that another
 * process can tell an import under way from what a crash left.
 */
final class Recordings {
    private static final String STAGE_PREFIX = ".import-";
    private static final String LOCK_ENDING = ".lock";

    private final Path root;

    Recordings(Path root) throws IOException {
        this.root = Files.createDirectories(root);
    }

    Path of(UUID visitId) {
        return root.resolve(visitId.toString());
    }

    /** Where the bytes of a visit's files come from. */
    interface FileSource {
        InputStream open(KeptFile file) throws IOException;
    }

    /** A visit's files on their way in. Closing it removes whatever did not reach its place. */
    final class Stage implements AutoCloseable {
        private final Path dir;
        private final Path lockFile;
        private final FileChannel channel;

        private Stage(Path dir, Path lockFile, FileChannel channel) {
            this.dir = dir;
            this.lockFile = lockFile;
            this.channel = channel;
        }

        /**
         * Moves the files to their place. The caller holds the database's write lock and has seen
         * that there is no such visit, so a folder that stands there is what a crash left.
         */
        void promote(UUID visitId) throws IOException {
            delete(of(visitId));
            Files.move(dir, of(visitId), StandardCopyOption.ATOMIC_MOVE);
            flushFolder(root);
        }

        Path dir() {
            return dir;
        }

        @Override
        public void close() throws IOException {
            try (channel) {
                delete(dir);
            }
            Files.deleteIfExists(lockFile);
        }
    }

    /**
     * Copies a visit's files in.
     *
     * @throws VisitFolderException if a file is no longer as it was when the visit was read
     * @throws IOException if the copy cannot be written
     */
    Stage stage(Visit visit) throws IOException {
        return stage(
                visit.files(), file -> Files.newInputStream(visit.folder().resolve(file.name())));
    }

    /**
     * Copies files in.
     *
     * @throws VisitFolderException if a file's bytes are not the expected ones
     * @throws IOException if the copy cannot be written
     */
    Stage stage(List<KeptFile> files, FileSource source) throws IOException {
        Path dir = root.resolve(STAGE_PREFIX + UUID.randomUUID());
        Path lockFile = lockOf(dir);
        FileChannel channel =
                FileChannel.open(lockFile, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        Stage stage = new Stage(dir, lockFile, channel);
        boolean done = false;
        try {
            if (channel.tryLock() == null) {
                throw new IOException("another process holds " + lockFile);
            }
            Files.createDirectory(dir);
            for (KeptFile file : files) {
                if (!copy(source.open(file), dir, file)) {
                    throw new VisitFolderException(
                            file.name(), "changed while it was taken in; import the folder again");
                }
            }
            flushFolder(dir);
            done = true;
            return stage;
        } finally {
            if (!done) {
                stage.close();
            }
        }
    }

    private static Path lockOf(Path dir) {
        return dir.resolveSibling(dir.getFileName() + LOCK_ENDING);
    }

    /** Copies one file and says whether its bytes are the expected ones. */
    static boolean copy(Path fromDir, Path toDir, KeptFile file) throws IOException {
        return copy(Files.newInputStream(fromDir.resolve(file.name())), toDir, file);
    }

    private static boolean copy(InputStream from, Path toDir, KeptFile file) throws IOException {
        MessageDigest digest = KeptFile.newDigest();
        Path to = toDir.resolve(file.name());
        try (InputStream in = new DigestInputStream(from, digest);
                FileChannel channel =
                        FileChannel.open(
                                to, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                OutputStream out = Channels.newOutputStream(channel)) {
            in.transferTo(out);
            channel.force(true);
        }
        return HexFormat.of().formatHex(digest.digest()).equals(file.sha256());
    }

    /**
     * Copies a visit's files out, byte for byte.
     *
     * @throws StoreException if a file is no longer as it was taken in, or the folder holds
     *     something
     * @throws IOException if the copy cannot be written
     */
    void export(UUID visitId, List<KeptFile> files, Path dir) throws IOException {
        NewFolder.require(dir);
        boolean done = false;
        try {
            for (KeptFile file : files) {
                Path kept = of(visitId).resolve(file.name());
                if (!Files.isRegularFile(kept) || !copy(of(visitId), dir, file)) {
                    throw new StoreException(
                            StoreException.Reason.DAMAGED,
                            kept + " is not as it was imported; put a backup in its place");
                }
            }
            done = true;
        } finally {
            if (!done) {
                for (KeptFile file : files) {
                    Files.deleteIfExists(dir.resolve(file.name()));
                }
            }
        }
    }

    /**
     * Removes copies that a crash cut short. The caller holds the database's write lock. A visit's
     * folder that has no row stays: it is whole, and may belong to a newer database than this one.
     */
    void sweep() throws IOException {
        for (Path entry : entries()) {
            String name = entry.getFileName().toString();
            if (name.startsWith(STAGE_PREFIX)) {
                sweepStage(
                        name.endsWith(LOCK_ENDING)
                                ? entry.resolveSibling(
                                        name.substring(0, name.length() - LOCK_ENDING.length()))
                                : entry);
            }
        }
    }

    private void sweepStage(Path dir) throws IOException {
        Path lockFile = lockOf(dir);
        try (FileChannel channel =
                        FileChannel.open(
                                lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                FileLock lock = channel.tryLock()) {
            if (lock == null) {
                return;
            }
            delete(dir);
        } catch (OverlappingFileLockException e) {
            // Another import of this process is under way.
            return;
        }
        Files.deleteIfExists(lockFile);
    }

    List<Path> entries() throws IOException {
        try (Stream<Path> entries = Files.list(root)) {
            return entries.toList();
        }
    }

    /** Visit folders are flat, so one level is all there is. */
    static void delete(Path dir) throws IOException {
        if (!Files.isDirectory(dir)) {
            return;
        }
        List<Path> files = new ArrayList<>();
        try (Stream<Path> entries = Files.list(dir)) {
            entries.forEach(files::add);
        }
        for (Path file : files) {
            Files.delete(file);
        }
        Files.delete(dir);
    }

    static void flushFolder(Path dir) throws IOException {
        // Windows has no handle on folders to flush; its file system journals renames itself.
        if (dir.getFileSystem().supportedFileAttributeViews().contains("posix")) {
            try (FileChannel channel = FileChannel.open(dir, StandardOpenOption.READ)) {
                channel.force(true);
            }
        }
    }
}
