package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
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
import java.util.UUID;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Backup, verify and tidy on real logs. */
class UpkeepTest {
    private static final Clock CLOCK =
            Clock.fixed(Instant.parse("2026-03-04T12:00:00Z"), ZoneOffset.UTC);
    private static final WorkProgress NOBODY = (done, total) -> {};
    private static final LogCheck.RecordingCheck SOUND = file -> Optional.empty();

    @TempDir Path temp;
    private Path data;

    @BeforeEach
    void nameFolder() {
        data = temp.resolve("data");
    }

    /** A visit of ML-07 on a day, with an id of its own. */
    private Visit visit(int number, String date) throws IOException {
        Path folder = temp.resolve("visit-" + number);
        Folders.good(folder);
        Files.writeString(
                folder.resolve("visit.toml"),
                Folders.VISIT
                        .replace("2026-03-04T", date + "T")
                        .replace("0195f0c2", String.format("0195f%03d", number)));
        return VisitFolder.read(folder);
    }

    private List<Visit> fill(int count) throws IOException {
        List<Visit> visits = new ArrayList<>();
        try (Log log = Log.open(data, CLOCK)) {
            for (int i = 0; i < count; i++) {
                Visit v = visit(i, "202" + i + "-03-04");
                log.importVisit(v);
                log.saveResult(v.id(), Results.of(v, 0.5 + i));
                visits.add(v);
            }
        }
        return visits;
    }

    private LogCheck.Answer verify(Path dir) {
        return LogCheck.run(dir, SOUND, NOBODY);
    }

    private static List<LogCheck.Kind> kinds(LogCheck.Answer answer) {
        return answer.problems().stream().map(LogCheck.Problem::kind).toList();
    }

    private Path file(Visit visit, String name) {
        return data.resolve("recordings/" + visit.id() + "/" + name);
    }

    @Test
    void folderBackupIsALogOfItsOwn() throws IOException {
        Visit visit = fill(2).get(1);
        Path copy = temp.resolve("stick/backup");
        Backup.Made made = Backup.make(data, copy, false, NOBODY);
        assertEquals(2, made.visits());
        assertEquals(12, made.files());
        assertEquals(List.of(), verify(copy).problems());
        assertEquals(
                Folders.tree(data.resolve("recordings")), Folders.tree(copy.resolve("recordings")));
        try (Log log = Log.open(copy)) {
            assertEquals(Optional.of(Results.of(visit, 1.5)), log.latestResult(visit.id()));
            assertEquals(visit, log.visit(visit.id()).orElseThrow());
        }
        assertEquals(List.of("backup"), list(temp.resolve("stick")));
        assertThrows(StoreException.class, () -> Backup.make(data, copy, false, NOBODY));
    }

    private static List<String> list(Path dir) throws IOException {
        try (var entries = Files.list(dir)) {
            return entries.map(p -> p.getFileName().toString()).sorted().toList();
        }
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
        LogCheck.Answer answer = verify(copy);
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
            assertEquals(List.of(), verify(copy).problems());
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
        assertEquals(List.of(LogCheck.Kind.MISSING), kinds(verify(temp.resolve("rest"))));
    }

    @Test
    void backupIntoTheLogItselfIsRefused() throws IOException {
        fill(1);
        assertThrows(
                StoreException.class,
                () -> Backup.make(data, data.resolve("recordings/b"), false, NOBODY));
    }

    @Test
    void folderWithoutALogIsSaidAndNotMade() {
        StoreException none = assertThrows(StoreException.class, () -> verify(data));
        assertEquals(StoreException.Reason.NO_SUCH_LOG, none.reason());
        assertFalse(Files.exists(data));
    }

    @Test
    void verifyNamesEverythingThatIsWrong() throws Exception {
        List<Visit> visits = fill(3);
        assertEquals(List.of(), verify(data).problems());
        Files.delete(file(visits.get(0), "c01.wav"));
        byte[] bytes = Files.readAllBytes(file(visits.get(1), "c02.wav"));
        bytes[60] ^= 1;
        Files.write(file(visits.get(1), "c02.wav"), bytes);
        Files.writeString(file(visits.get(1), "c01.tach.csv"), "time_s\n");
        Files.writeString(file(visits.get(2), "stray.txt"), "");
        UUID orphan = UUID.randomUUID();
        Files.createDirectory(data.resolve("recordings/" + orphan));
        try (Raw raw = Raw.open(data)) {
            raw.execute("DELETE FROM candidate");
        }
        LogCheck.Answer answer = verify(data);
        List<String> said =
                answer.problems().stream().map(p -> p.kind() + " " + p.place()).sorted().toList();
        assertEquals(
                List.of(
                        "CHANGED recordings/" + visits.get(1).id() + "/c01.tach.csv",
                        "CHANGED recordings/" + visits.get(1).id() + "/c02.wav",
                        "LEFTOVER recordings/" + visits.get(2).id() + "/stray.txt",
                        "LEFTOVER recordings/" + orphan,
                        "MISSING recordings/" + visits.get(0).id() + "/c01.wav",
                        "REFERENCE table evidence"),
                said);
        assertTrue(Files.exists(data.resolve("recordings/" + orphan)), "verify removes nothing");
    }

    @Test
    void recordingsOwnChecksumsAreAskedFor() throws IOException {
        Path folder = Folders.good(temp.resolve("visit"));
        Files.writeString(folder.resolve("recording.tkr"), "not much of one");
        try (Log log = Log.open(data, CLOCK)) {
            log.importVisit(VisitFolder.read(folder));
        }
        LogCheck.RecordingCheck damaged = file -> Optional.of("byte 7");
        LogCheck.Answer asItCame = LogCheck.run(data, damaged, NOBODY);
        assertEquals(List.of(), asItCame.problems());
        assertTrue(asItCame.remarks().get(0).contains("byte 7"));
        Path kept = file(VisitFolder.read(folder), "recording.tkr");
        Files.writeString(kept, "not much of ONE");
        LogCheck.Answer changed = LogCheck.run(data, damaged, NOBODY);
        assertEquals(List.of(LogCheck.Kind.CHANGED), kinds(changed));
        assertTrue(changed.problems().get(0).sentence().contains("byte 7"));
    }

    @Test
    void damagedDatabaseIsAProblemAndNotAFailure() throws IOException {
        fill(3);
        Path file = data.resolve("tickover.db");
        byte[] bytes = Files.readAllBytes(file);
        // Page 1 with the schema stays, everything behind it is overwritten.
        for (int i = 8192; i < bytes.length; i++) {
            bytes[i] = (byte) i;
        }
        Files.write(file, bytes);
        assertTrue(kinds(verify(data)).contains(LogCheck.Kind.DATABASE));
    }

    @Test
    void tidyRemovesByRuleAndNothingElse() throws Exception {
        List<Visit> visits = fill(4);
        Visit never = visit(9, "2019-01-01");
        try (Log log = Log.open(data, CLOCK)) {
            log.importVisit(never);
        }
        Tidy.Rule rule = new Tidy.Rule(LocalDate.parse("2023-03-04"), 2);
        List<String> before = Folders.tree(data.resolve("recordings"));
        Tidy.Plan plan = Tidy.plan(data, rule);
        assertEquals(before, Folders.tree(data.resolve("recordings")));
        // 2023-03-04 is not before itself; 2022 and 2023 are the latest two.
        assertEquals(
                List.of(visits.get(1).id(), visits.get(0).id()),
                plan.visits().stream().map(Tidy.Old::id).toList());
        assertEquals(4, plan.files());
        assertEquals(1, plan.neverAnalysed());
        long bytes = 0;
        for (int i = 0; i < 2; i++) {
            for (String name : List.of("c01.wav", "c02.wav")) {
                bytes += Files.size(file(visits.get(i), name));
            }
        }
        assertEquals(bytes, plan.bytes());

        assertEquals(plan, Tidy.remove(data, rule, CLOCK, NOBODY));
        assertEquals(before.size() - 4, Folders.tree(data.resolve("recordings")).size());
        assertEquals(0, Tidy.plan(data, rule).files());
        LogCheck.Answer answer = verify(data);
        assertEquals(List.of(), answer.problems());
        assertEquals(
                List.of(new LogCheck.Removed("2026-03-04", rule.text(), 4, bytes)),
                answer.removed());
        try (Log log = Log.open(data, CLOCK)) {
            UUID id = visits.get(0).id();
            assertEquals(Optional.of(Results.of(visits.get(0), 0.5)), log.latestResult(id));
            assertEquals(4, log.visits().stream().filter(v -> v.verdict().isPresent()).count());
            assertEquals(visits.get(0).complaint(), log.visit(id).orElseThrow().complaint());
            assertTrue(log.removedByRule(id).orElseThrow().contains("2026-03-04"));
            VisitCapture capture = log.visit(id).orElseThrow().captures().get(0);
            assertEquals(log.removedByRule(id), capture.removed());
            StoreException silent = assertThrows(StoreException.class, capture::load);
            assertEquals(StoreException.Reason.REMOVED, silent.reason());
            assertEquals(
                    Optional.empty(),
                    log.visit(visits.get(3).id()).orElseThrow().captures().get(0).removed());
            StoreException gone =
                    assertThrows(StoreException.class, () -> log.export(id, temp.resolve("out")));
            assertEquals(StoreException.Reason.REMOVED, gone.reason());
            assertEquals(Optional.empty(), log.removedByRule(visits.get(3).id()));
        }
        Backup.make(data, temp.resolve("backup"), false, NOBODY);
        assertEquals(List.of(), verify(temp.resolve("backup")).problems());
    }

    @Test
    void tidyThatWasCutOffIsFinishedByTheNext() throws Exception {
        Visit visit = fill(2).get(0);
        try (Raw raw = Raw.open(data)) {
            raw.execute(
                    "INSERT INTO removal SELECT visit_id, name, 1, 'x' FROM kept_file WHERE name ="
                            + " 'c01.wav' AND visit_id = '"
                            + visit.id()
                            + "'");
        }
        assertEquals(List.of(), verify(data).problems());
        Tidy.remove(data, new Tidy.Rule(LocalDate.parse("2000-01-01"), 0), CLOCK, NOBODY);
        assertFalse(Files.exists(file(visit, "c01.wav")));
        assertTrue(Files.exists(file(visit, "c02.wav")));
    }
}
