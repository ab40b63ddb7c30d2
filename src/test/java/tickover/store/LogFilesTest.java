package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a log in a folder does with its files. */
class LogFilesTest {
    private static final Instant NOON = Instant.parse("2026-03-04T12:00:00.5Z");
    private static final Clock CLOCK = Clock.fixed(NOON, ZoneOffset.UTC);

    @TempDir Path temp;
    private Path data;
    private Path folder;
    private Visit visit;

    @BeforeEach
    void makeVisit() {
        data = temp.resolve("data");
        folder = Folders.good(temp.resolve("visit"));
        visit = VisitFolder.read(folder);
    }

    private Log open() {
        return Log.open(data, CLOCK);
    }

    @Test
    void whatACrashLeftIsSweptOnOpening() throws IOException {
        List<String> clean;
        try (Log log = open()) {
            log.importVisit(visit);
            clean = Folders.tree(data);
        }
        Path recordings = data.resolve("recordings");
        Path stage = Files.createDirectory(recordings.resolve(".import-" + UUID.randomUUID()));
        Files.writeString(stage.resolve("c01.wav"), "half a copy");
        Files.createFile(recordings.resolve(stage.getFileName() + ".lock"));
        Files.createFile(recordings.resolve(".import-" + UUID.randomUUID() + ".lock"));
        try (Log log = open()) {
            assertEquals(clean, Folders.tree(data));
            assertEquals(visit, log.visit(visit.id()).orElseThrow());
        }
    }

    /** As after a crash between move and commit, or beside a database put back from a copy. */
    @Test
    void wholeFolderThatNoRowSpeaksOfStaysUntilItsVisitComesIn() throws IOException {
        open().close();
        Path left = data.resolve("recordings").resolve(visit.id().toString());
        Files.createDirectories(left);
        Files.writeString(left.resolve("vehicle.toml"), "moved, but never committed");
        try (Log log = open()) {
            assertTrue(Files.exists(left.resolve("vehicle.toml")));
            log.importVisit(visit);
            assertEquals(visit, log.visit(visit.id()).orElseThrow());
        }
    }

    /**
     * Whoever opens the log sweeps. If that is this process, only to open and close the lock file a
     * second time would give the import's lock away, and another process would sweep it.
     */
    @Test
    void sweepOfTheSameProcessLeavesAnImportItsLock() throws IOException {
        Path locks = Path.of("/proc/locks");
        assumeTrue(Files.isReadable(locks), "no /proc here to see locks in");
        Path root = temp.resolve("recordings");
        FolderRecordings recordings = new FolderRecordings(root);
        try (Recordings.Stage stage = recordings.stage(List.of(), file -> null)) {
            Path lockFile = stage.dir().resolveSibling(stage.dir().getFileName() + ".lock");
            String inode = ":" + Files.getAttribute(lockFile, "unix:ino") + " ";
            assumeTrue(Files.readString(locks).contains(inode), "locks are not shown here");
            new FolderRecordings(root).sweep();
            assertTrue(Files.isDirectory(stage.dir()));
            assertTrue(Files.readString(locks).contains(inode));
        }
        assertEquals(List.of(), Folders.tree(root));
    }

    @Test
    void importUnderWayInAnotherProcessIsNotSwept() throws IOException {
        open().close();
        Path recordings = data.resolve("recordings");
        Path stage = Files.createDirectory(recordings.resolve(".import-" + UUID.randomUUID()));
        Path lockFile = recordings.resolve(stage.getFileName() + ".lock");
        try (FileChannel channel =
                        FileChannel.open(
                                lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                FileLock lock = channel.tryLock()) {
            assertTrue(lock.isValid());
            open().close();
            assertTrue(Files.exists(stage));
        }
        open().close();
        assertFalse(Files.exists(stage));
    }

    @Test
    void everyHandleIsClosed() throws IOException {
        Path handles = Path.of("/proc/self/fd");
        assumeTrue(Files.isDirectory(handles), "no /proc here to see open files in");
        try (Log log = open()) {
            log.importVisit(visit);
            log.saveResult(visit.id(), Results.of(visit, 1));
            log.visit(visit.id()).orElseThrow().captures().get(0).load();
            log.export(visit.id(), temp.resolve("out"));
            assertTrue(openFiles(handles) > 0, "the open log should be seen");
        }
        assertEquals(0, openFiles(handles));
        Path broken = Folders.good(temp.resolve("broken"));
        Files.writeString(broken.resolve("c01.tach.csv"), "time_s\n2\n1\n");
        assertThrows(VisitFolderException.class, () -> VisitFolder.read(broken));
        Files.writeString(data.resolve("tickover.db"), "x".repeat(5000));
        assertThrows(StoreException.class, this::open);
        assertEquals(0, openFiles(handles));
    }

    private long openFiles(Path handles) throws IOException {
        try (Stream<Path> all = Files.list(handles)) {
            return all.filter(
                            h -> {
                                try {
                                    return Files.readSymbolicLink(h).startsWith(temp);
                                } catch (IOException e) {
                                    // The handle of this very listing is gone again.
                                    return false;
                                }
                            })
                    .count();
        }
    }
}
