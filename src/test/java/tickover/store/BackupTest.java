package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Backups of logs in folders, on real logs. */
class BackupTest {
    private static final Clock CLOCK =
            Clock.fixed(Instant.parse("2026-03-04T12:00:00Z"), ZoneOffset.UTC);
    private static final WorkProgress NOBODY = (done, total) -> {};
    private static final LogCheck.RecordingCheck SOUND = file -> Optional.empty();

    @TempDir Path temp;
    private Path dir;
    private LogPlace data;

    @BeforeEach
    void nameFolder() {
        dir = temp.resolve("data");
        data = LogPlace.folder(dir);
    }

    private Visit visit(int number, String date) throws IOException {
        return SomeVisits.of(temp, number, date);
    }

    private List<Visit> fill(int count) throws IOException {
        return SomeVisits.fill(data, CLOCK, temp, count);
    }

    private LogCheck.Answer verify(LogPlace place) {
        return LogCheck.run(place, SOUND, NOBODY);
    }

    private static List<LogCheck.Kind> kinds(LogCheck.Answer answer) {
        return answer.problems().stream().map(LogCheck.Problem::kind).toList();
    }

    private Path file(Visit visit, String name) {
        return dir.resolve("recordings/" + visit.id() + "/" + name);
    }

    private static List<String> list(Path dir) throws IOException {
        try (var entries = Files.list(dir)) {
            return entries.map(p -> p.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void folderBackupIsALogOfItsOwn() throws IOException {
        Visit visit = fill(2).get(1);
        Path copy = temp.resolve("stick/backup");
        Backup.Made made = Backup.make(data, copy, false, NOBODY);
        assertEquals(2, made.visits());
        assertEquals(12, made.files());
        assertEquals(List.of(), verify(LogPlace.folder(copy)).problems());
        assertEquals(
                Folders.tree(dir.resolve("recordings")), Folders.tree(copy.resolve("recordings")));
        try (Log log = Log.open(copy)) {
            assertEquals(Optional.of(Results.of(visit, 1.5)), log.latestResult(visit.id()));
            assertEquals(visit, log.visit(visit.id()).orElseThrow());
        }
        assertEquals(List.of("backup"), list(temp.resolve("stick")));
        assertThrows(StoreException.class, () -> Backup.make(data, copy, false, NOBODY));
    }

    @Test
    void zipBackupUnpacksToALog() throws IOException {
        Visit visit = fill(2).get(0);
        Path zip = temp.resolve("stick/backup.zip");
        Backup.make(data, zip, false, NOBODY);
        assertEquals(List.of("backup.zip"), list(temp.resolve("stick")));
        Path copy = temp.resolve("unpacked");
        try (ZipFile file = new ZipFile(zip.toFile())) {
            for (Enumeration<? extends ZipEntry> e = file.entries(); e.hasMoreElements(); ) {
                ZipEntry entry = e.nextElement();
                Path to = copy.resolve(entry.getName());
                Files.createDirectories(to.getParent());
                try (InputStream in = file.getInputStream(entry)) {
                    Files.copy(in, to);
                }
            }
        }
        LogCheck.Answer answer = verify(LogPlace.folder(copy));
        assertEquals(List.of(), answer.problems());
        assertEquals(12, answer.files());
        try (Log log = Log.open(copy)) {
            assertEquals(Optional.of(Results.of(visit, 0.5)), log.latestResult(visit.id()));
        }
        assertThrows(StoreException.class, () -> Backup.make(data, zip, false, NOBODY));
    }

    @Test
    void backupWhileAnotherWritesIsWhole() throws Exception {
        List<Visit> visits = new ArrayList<>(fill(3));
        for (int i = 3; i < 9; i++) {
            visits.add(visit(i, "2026-01-0" + i));
        }
        AtomicBoolean copying = new AtomicBoolean(true);
        Thread writer =
                new Thread(
                        () -> {
                            try (Log log = Log.open(data, CLOCK)) {
                                for (int i = 3; i < 9; i++) {
                                    log.importVisit(visits.get(i));
                                    log.saveResult(
                                            visits.get(i).id(), Results.of(visits.get(i), i));
                                }
                                for (int i = 0; copying.get() && i < 500; i++) {
                                    log.saveResult(
                                            visits.get(0).id(), Results.of(visits.get(0), i + 1));
                                }
                            }
                        });
        writer.start();
        for (int i = 0; i < 3; i++) {
            Path copy = temp.resolve("backup-" + i);
            Backup.make(data, copy, false, NOBODY);
            assertEquals(List.of(), verify(LogPlace.folder(copy)).problems());
        }
        copying.set(false);
        writer.join();
        assertEquals(List.of(), verify(data).problems());
        assertEquals(9, verify(data).visits());
    }

    @Test
    void backupOfADamagedLogIsRefusedUnlessAskedFor() throws IOException {
        Visit visit = fill(2).get(0);
        Files.delete(file(visit, "c01.wav"));
        for (String name : List.of("backup", "backup.zip")) {
            Path to = temp.resolve("stick").resolve(name);
            StoreException refused =
                    assertThrows(StoreException.class, () -> Backup.make(data, to, false, NOBODY));
            assertEquals(StoreException.Reason.DAMAGED, refused.reason());
            assertTrue(refused.getMessage().contains("c01.wav"));
            assertEquals(List.of(), list(temp.resolve("stick")));
        }
        Backup.Made made = Backup.make(data, temp.resolve("rest"), true, NOBODY);
        assertEquals(List.of("recordings/" + visit.id() + "/c01.wav"), made.leftOut());
        assertEquals(11, made.files());
        assertEquals(
                List.of(LogCheck.Kind.MISSING),
                kinds(verify(LogPlace.folder(temp.resolve("rest")))));
    }

    /** A removal by rule while the backup goes through the files. */
    @Test
    void backupThatTidyRunsIntoSaysSo() throws IOException {
        Tidy.Rule rule = new Tidy.Rule(LocalDate.parse("2030-01-01"), 0);
        int next = 0;
        for (String name : List.of("backup", "backup.zip")) {
            try (Log log = Log.open(data, CLOCK)) {
                for (int i = 0; i < 3; i++) {
                    Visit visit = visit(++next, "2026-02-0" + next);
                    log.importVisit(visit);
                    log.saveResult(visit.id(), Results.of(visit, 1));
                }
            }
            Path to = temp.resolve("stick").resolve(name);
            // Whatever is left to be removed goes after the first visit was copied.
            WorkProgress tidying =
                    (done, total) -> {
                        if (done == 1) {
                            Tidy.remove(data, rule, CLOCK, NOBODY);
                        }
                    };
            StoreException refused =
                    assertThrows(StoreException.class, () -> Backup.make(data, to, true, tidying));
            assertEquals(StoreException.Reason.BUSY, refused.reason());
            assertTrue(refused.getMessage().startsWith("'tickover tidy' removed"));
            assertEquals(List.of(), list(temp.resolve("stick")));
        }
    }

    @Test
    void backupIntoTheLogItselfIsRefused() throws IOException {
        fill(1);
        assertThrows(
                StoreException.class,
                () -> Backup.make(data, dir.resolve("recordings/b"), false, NOBODY));
    }

    @Test
    void damagedDatabaseIsAProblemAndNotAFailure() throws IOException {
        fill(3);
        Path file = dir.resolve("tickover.db");
        byte[] bytes = Files.readAllBytes(file);
        // Page 1 with the schema stays, everything behind it is overwritten.
        for (int i = 8192; i < bytes.length; i++) {
            bytes[i] = (byte) i;
        }
        Files.write(file, bytes);
        assertTrue(kinds(verify(data)).contains(LogCheck.Kind.DATABASE));
    }
}
