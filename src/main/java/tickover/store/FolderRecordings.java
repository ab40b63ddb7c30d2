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
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;

/**
 * Files of visits in a folder {@code recordings} beside the database, one folder per visit.
 *
 * <p>A visit's files are first copied to a staging folder and flushed, then moved to their place in
 * one step. A staging folder has a lock file beside it that its process holds, so that another
 * process can tell an import under way from what a crash left.
 */
final class FolderRecordings implements Recordings {
    private static final String STAGE_PREFIX = ".import-";
    private static final String LOCK_ENDING = ".lock";

    /**
     * Staging folders of this process. Only opening and closing the lock file a second time would
     * already give the process's lock on it away.
     */
    private static final Set<Path> UNDER_WAY = ConcurrentHashMap.newKeySet();

    private final Path root;

    FolderRecordings(Path root) throws IOException {
        this.root = Files.createDirectories(root);
    }

    Path of(UUID visitId) {
        return root.resolve(visitId.toString());
    }

    /** A visit's files on their way in. Closing it removes whatever did not reach its place. */
    final class FolderStage implements Stage {
        private final Path dir;
        private final Path lockFile;
        private final FileChannel channel;
        private boolean promoted;

        private FolderStage(Path dir, Path lockFile, FileChannel channel) {
            this.dir = dir;
            this.lockFile = lockFile;
            this.channel = channel;
        }

        @Override
        public Path dir() {
            return dir;
        }

        @Override
        public void send(Connection c, UUID visitId) {
            // They are on this disk already.
        }

        /** A folder that stands there already is what a crash left, for there is no such visit. */
        @Override
        public void promote(UUID visitId) throws IOException {
            delete(of(visitId));
            Files.move(dir, of(visitId), StandardCopyOption.ATOMIC_MOVE);
            promoted = true;
            flushFolder(root);
        }

        @Override
        public void putBack(Connection c, UUID visitId, List<KeptFile> files) throws IOException {
            Path folder = of(visitId);
            for (KeptFile file : files) {
                Files.move(
                        dir.resolve(file.name()),
                        folder.resolve(file.name()),
                        StandardCopyOption.ATOMIC_MOVE,
                        StandardCopyOption.REPLACE_EXISTING);
            }
            flushFolder(folder);
        }

        @Override
        public void abandon(Connection c) {
            // Closing it removes the copies.
        }

        @Override
        public void undo(UUID visitId) throws IOException {
            if (promoted) {
                delete(of(visitId));
            }
        }

        @Override
        public void close() throws IOException {
            try (channel) {
                delete(dir);
                Files.deleteIfExists(lockFile);
            } finally {
                UNDER_WAY.remove(dir);
            }
        }
    }

    @Override
    public Stage stage(List<KeptFile> files, FileSource source) throws IOException {
        FolderStage stage = begin();
        boolean done = false;
        try {
            Files.createDirectory(stage.dir());
            for (KeptFile file : files) {
                if (!copy(source.open(file), stage.dir(), file)) {
                    throw new VisitFolderException(
                            file.name(), "changed while it was taken in; import the folder again");
                }
            }
            flushFolder(stage.dir());
            done = true;
            return stage;
        } finally {
            if (!done) {
                stage.close();
            }
        }
    }

    /** Names a staging folder and holds its lock. */
    private FolderStage begin() throws IOException {
        while (true) {
            Path dir = root.resolve(STAGE_PREFIX + UUID.randomUUID()).toAbsolutePath();
            Path lockFile = lockOf(dir);
            UNDER_WAY.add(dir);
            boolean held = false;
            FileChannel channel =
                    FileChannel.open(
                            lockFile, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
            try {
                // Another process that sweeps may have taken the fresh file for what a crash left.
                // It removes the file while it holds the lock, so what is there now will stay.
                held = channel.tryLock() != null && Files.exists(lockFile);
                if (held) {
                    return new FolderStage(dir, lockFile, channel);
                }
            } finally {
                if (!held) {
                    UNDER_WAY.remove(dir);
                    channel.close();
                }
            }
        }
    }

    private static Path lockOf(Path dir) {
        return dir.resolveSibling(dir.getFileName() + LOCK_ENDING);
    }

    /** Copies one file and says whether its bytes are the expected ones. */
    static boolean copy(InputStream from, Path toDir, KeptFile file) throws IOException {
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

    @Override
    public boolean holds(UUID visitId, String name) {
        return Files.isRegularFile(of(visitId).resolve(name));
    }

    @Override
    public InputStream open(UUID visitId, KeptFile file) throws IOException {
        return Files.newInputStream(of(visitId).resolve(file.name()));
    }

    @Override
    public Path folder(UUID visitId, List<KeptFile> wanted) {
        return of(visitId);
    }

    @Override
    public String shown(UUID visitId, String name) {
        return root.getFileName() + "/" + visitId + "/" + name;
    }

    @Override
    public void remove(Connection c, UUID visitId, Set<String> names) throws IOException {
        for (String name : names) {
            Files.deleteIfExists(of(visitId).resolve(name));
        }
    }

    @Override
    public Map<UUID, List<String>> removedButThere(Connection c) throws SQLException {
        Map<UUID, List<String>> left = new HashMap<>();
        for (Removals.Named gone : Removals.all(c)) {
            if (Files.exists(of(gone.visitId()).resolve(gone.name()))) {
                left.computeIfAbsent(gone.visitId(), v -> new ArrayList<>()).add(gone.name());
            }
        }
        return left;
    }

    /** With the write lock, so that no import is half way between its folder and its rows. */
    @Override
    public Map<String, Set<String>> leftovers(Database database) {
        return database.write(this::leftovers);
    }

    private Map<String, Set<String>> leftovers(Connection c) throws SQLException, IOException {
        Set<String> ids = new HashSet<>(VisitRows.ids(c));
        Map<String, Set<String>> found = new HashMap<>();
        for (Path entry : entries()) {
            String name = entry.getFileName().toString();
            if (name.startsWith(".")) {
                continue;
            }
            Set<String> extra = new HashSet<>();
            if (ids.contains(name)) {
                try (Stream<Path> inside = Files.list(entry)) {
                    inside.forEach(p -> extra.add(p.getFileName().toString()));
                }
                VisitRows.files(c, UUID.fromString(name)).forEach(f -> extra.remove(f.name()));
            }
            if (!ids.contains(name) || !extra.isEmpty()) {
                found.put(root.getFileName() + "/" + name, extra);
            }
        }
        return found;
    }

    /**
     * With the database's write lock. A visit's folder that has no row stays: it is whole, and may
     * belong to a newer database than this one.
     */
    @Override
    public void sweep(Database database) {
        database.write(
                c -> {
                    sweep();
                    return root;
                });
    }

    void sweep() throws IOException {
        for (Path entry : entries()) {
            String name = entry.getFileName().toString();
            if (name.startsWith(STAGE_PREFIX)) {
                String stage =
                        name.endsWith(LOCK_ENDING)
                                ? name.substring(0, name.length() - LOCK_ENDING.length())
                                : name;
                sweepStage(entry.resolveSibling(stage).toAbsolutePath());
            }
        }
    }

    private static void sweepStage(Path dir) throws IOException {
        if (UNDER_WAY.contains(dir)) {
            return;
        }
        Path lockFile = lockOf(dir);
        try (FileChannel channel =
                        FileChannel.open(
                                lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                FileLock lock = channel.tryLock()) {
            if (lock != null) {
                delete(dir);
                Files.deleteIfExists(lockFile);
            }
        } catch (OverlappingFileLockException e) {
            // Another thread of this process is sweeping too.
            return;
        }
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
