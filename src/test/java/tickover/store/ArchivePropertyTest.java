package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Enumeration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import tickover.diagnose.VisitResult;
import tickover.drive.Engine;
import tickover.drive.Vehicle;

/** Logs put together: in any order, any number of times, the same comes out. */
@ParameterizedClass(name = "{0}")
@EnumSource(Store.class)
class ArchivePropertyTest {
    @Parameter Store store;

    private static final WorkProgress NOBODY = (done, total) -> {};
    private static final Instant START = Instant.parse("2026-03-04T12:00:00Z");

    @TempDir Path temp;
    private int archives;

    private Log open(LogPlace data, int second) {
        return Log.open(data, Clock.fixed(START.plusSeconds(second), ZoneOffset.UTC));
    }

    private Visit visit(int number, String unit) throws IOException {
        Path folder = temp.resolve("visit-" + number);
        if (!Files.exists(folder)) {
            Folders.good(folder);
            Files.writeString(
                    folder.resolve("visit.toml"),
                    Folders.VISIT
                            .replace("2026-03-04T", "2026-03-" + (10 + number) + "T")
                            .replace("0195f0c2", String.format("0195f%03d", number)));
            Files.writeString(
                    folder.resolve("vehicle.toml"), Folders.VEHICLE.replace("ML-07", unit));
        }
        return VisitFolder.read(folder);
    }

    private static VisitResult madeBy(VisitResult r, String version) {
        return new VisitResult(r.findings(), r.captures(), r.levels(), version, r.settings());
    }

    private static Vehicle withCylinders(Vehicle v, int cylinders) {
        return new Vehicle(
                v.unit(), v.description(), Engine.of(cylinders, 4), v.belts(), v.pulleys());
    }

    /** Does what people do to a log, by chance. */
    private void live(LogPlace data, Random random, int steps) throws Exception {
        List<UUID> marks = new ArrayList<>();
        for (int step = 0; step < steps; step++) {
            // Clocks of laptops differ, and times often meet.
            try (Log log = open(data, random.nextInt(4))) {
                int number = random.nextInt(4);
                String unit = "ML-0" + (number % 2);
                Visit visit = visit(number, unit);
                switch (random.nextInt(7)) {
                    case 0, 1 -> log.importVisit(visit);
                    case 2, 3 -> {
                        log.importVisit(visit);
                        double level = 1 + random.nextInt(3);
                        String version = "0." + random.nextInt(3) + ".0";
                        log.saveResult(visit.id(), madeBy(Results.of(visit, level), version));
                    }
                    case 4 ->
                            log.saveVehicle(
                                    withCylinders(
                                            visit(9, "ML-0" + random.nextInt(3)).vehicle(),
                                            3 + random.nextInt(3)));
                    case 5 -> {
                        log.importVisit(visit);
                        UUID note = UUID.nameUUIDFromBytes(new byte[] {(byte) random.nextInt()});
                        LocalDateTime at = LocalDateTime.parse("2026-03-05T10:00:00");
                        if (log.history().notes().stream().noneMatch(n -> n.id().equals(note))) {
                            try {
                                log.history()
                                        .addNote(new Note(note, unit, at, "idler", "", "<b>ü</b>"));
                            } catch (StoreException withdrawn) {
                                assertEquals(StoreException.Reason.FAILED, withdrawn.reason());
                            }
                        }
                        marks.add(note);
                        marks.add(log.history().addRepair(unit, at, "idler", "new").id());
                    }
                    default -> {
                        if (!marks.isEmpty()) {
                            log.history().withdraw(marks.get(random.nextInt(marks.size())));
                        }
                    }
                }
            }
            if (random.nextInt(6) == 0) {
                Tidy.remove(
                        data,
                        new Tidy.Rule(LocalDate.parse("2026-03-12"), random.nextInt(2)),
                        Clock.fixed(START.plusSeconds(random.nextInt(3)), ZoneOffset.UTC),
                        NOBODY);
            }
        }
    }

    private Path export(LogPlace data, LogArchive.Filter filter) {
        Path file = temp.resolve("archive-" + archives++ + ".zip");
        LogArchive.write(data, file, filter, Clock.systemUTC(), NOBODY);
        return file;
    }

    private static ArchiveImport.Taken take(LogPlace data, Path archive) {
        return ArchiveImport.take(data, archive, NOBODY);
    }

    private LogPlace copy(LogPlace data, String name) {
        LogPlace copy = store.fresh(temp.resolve(name));
        if (data.isFolder()) {
            Backup.make(data, copy.local(), false, NOBODY);
        } else {
            Path file = temp.resolve(name + ".zip");
            Backup.make(data, file, false, NOBODY);
            take(copy, file);
        }
        return copy;
    }

    @Test
    void twoLogsMergedEitherWayAreEqual() throws Exception {
        for (long seed = 1; seed <= (store == Store.FOLDER ? 3 : 1); seed++) {
            Random random = new Random(seed);
            LogPlace a = store.fresh(temp.resolve("a-" + seed));
            LogPlace b = store.fresh(temp.resolve("b-" + seed));
            open(a, 0).close();
            open(b, 0).close();
            live(a, random, 10);
            live(b, random, 10);
            Path fromA = export(a, LogArchive.Filter.ALL);
            Path fromB = export(b, LogArchive.Filter.ALL);
            LogPlace ba = copy(b, "ba-" + seed);
            take(a, fromB);
            take(ba, fromA);
            String said = "seed " + seed;
            Map<String, List<String>> merged = LogContent.of(a);
            assertEquals(merged, LogContent.of(ba), said);

            // In one fresh log, in either order, by parts and as a whole, and again.
            LogPlace c = store.fresh(temp.resolve("c-" + seed));
            for (String unit : List.of("ML-01", "ML-00")) {
                if (hasUnit(b, unit)) {
                    take(c, export(b, new LogArchive.Filter(List.of(unit), LocalDate.MIN)));
                }
            }
            take(c, fromA);
            take(c, fromB);
            assertEquals(merged, LogContent.of(c), said);
            for (Path again : List.of(fromA, fromB, export(c, LogArchive.Filter.ALL))) {
                assertFalse(take(c, again).changed(), said);
            }
            assertEquals(merged, LogContent.of(c), said);
            for (LogPlace log : List.of(a, ba, c)) {
                assertEquals(
                        List.of(),
                        LogCheck.run(log, file -> Optional.empty(), NOBODY).problems(),
                        said);
            }
            try (Log one = Log.open(a);
                    Log other = Log.open(ba)) {
                for (KeptVisit v : one.visits()) {
                    assertEquals(one.results(v.id()), other.results(v.id()), said);
                }
                assertEquals(fleet(one, a), fleet(other, ba), said);
            }
        }
    }

    private static boolean hasUnit(LogPlace data, String unit) {
        try (Log log = Log.open(data)) {
            return log.vehicles().stream().anyMatch(v -> v.unit().equals(unit));
        }
    }

    /** How the fleet stands, made anew, to the last digit. */
    private static String fleet(Log log, LogPlace data) throws Exception {
        log.history().refresh((done, total) -> {});
        try (Raw raw = Raw.open(data)) {
            return raw.rows(
                            "SELECT unit, drive_sha256, visits, visit_id, visited_at, verdict,"
                                + " urgency, strength, series_asked FROM standing s JOIN vehicle v"
                                + " ON v.id = s.vehicle_id ORDER BY unit")
                    + raw.rows(
                            "SELECT unit, place, kind, part, chance, change_db, sentence FROM"
                                    + " attention a JOIN vehicle v ON v.id = a.vehicle_id ORDER BY"
                                    + " unit, place");
        }
    }

    @Test
    void differentCodeVersionsResultsAllStayAndTheLatestCounts() throws Exception {
        LogPlace a = store.fresh(temp.resolve("a"));
        LogPlace b = store.fresh(temp.resolve("b"));
        Visit visit = visit(1, "ML-01");
        List<VisitResult> made = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            made.add(madeBy(Results.of(visit, 1 + i), "0." + i + ".0"));
            try (Log log = open(i % 2 == 0 ? a : b, i)) {
                log.importVisit(visit);
                log.saveResult(visit.id(), made.get(i));
            }
        }
        ArchiveImport.Taken taken = take(a, export(b, LogArchive.Filter.ALL));
        assertEquals(0, taken.visits());
        assertEquals(1, taken.knownVisits());
        assertEquals(2, taken.findings());
        Collections.reverse(made);
        try (Log log = open(a, 0)) {
            assertEquals(made, log.results(visit.id()));
            // A result made by a clock that is behind is the latest all the same.
            log.saveResult(visit.id(), made.get(3));
            assertEquals(Optional.of(made.get(3)), log.latestResult(visit.id()));
        }
    }

    @Test
    void newestSavedDriveWinsAndItIsSaid() throws Exception {
        Vehicle vehicle = visit(1, "ML-01").vehicle();
        LogPlace a = store.fresh(temp.resolve("a"));
        LogPlace b = store.fresh(temp.resolve("b"));
        try (Log log = open(a, 0)) {
            log.saveVehicle(withCylinders(vehicle, 3));
        }
        try (Log log = open(b, 1)) {
            log.saveVehicle(withCylinders(vehicle, 6));
        }
        Path fromA = export(a, LogArchive.Filter.ALL);
        ArchiveImport.Taken older = take(b, fromA);
        assertEquals(0, older.drives());
        assertTrue(older.said().get(0).contains("ML-01"));
        assertTrue(older.said().get(0).contains("from this log"));
        ArchiveImport.Taken newer = take(a, export(b, LogArchive.Filter.ALL));
        assertEquals(1, newer.drives());
        assertTrue(newer.said().get(0).contains("from the archive"));
        try (Log log = open(a, 2)) {
            assertEquals(6, log.vehicle("ML-01").orElseThrow().engine().cylinders());
        }
    }

    @Test
    void removedRecordingsComeBackFromAnArchiveThatHasThem() throws Exception {
        LogPlace a = store.fresh(temp.resolve("a"));
        Visit visit = visit(1, "ML-01");
        try (Log log = open(a, 0)) {
            log.importVisit(visit);
            log.saveResult(visit.id(), Results.of(visit, 1));
        }
        Map<String, List<String>> before = LogContent.of(a);
        Path whole = export(a, LogArchive.Filter.ALL);
        Tidy.remove(a, new Tidy.Rule(LocalDate.parse("2027-01-01"), 0), Clock.systemUTC(), NOBODY);
        Path without = export(a, LogArchive.Filter.ALL);
        LogPlace c = store.fresh(temp.resolve("c"));
        take(c, without);
        assertEquals(LogContent.of(a), LogContent.of(c));
        assertEquals(2, take(a, whole).files());
        assertEquals(before, LogContent.of(a));
        assertFalse(take(a, without).changed());
    }

    @Test
    void damagedRecordingsAreMendedByAnArchiveThatHasTheirBytes() throws Exception {
        LogPlace a = store.fresh(temp.resolve("a"));
        Visit visit = visit(1, "ML-01");
        try (Log log = open(a, 0)) {
            log.importVisit(visit);
            log.saveResult(visit.id(), Results.of(visit, 1));
        }
        Map<String, List<String>> before = LogContent.of(a);
        Path whole = export(a, LogArchive.Filter.ALL);
        Store.damage(a, visit.id(), "c02.wav");
        Store.write(a, visit.id(), "c01.wav", "cut off");
        ArchiveImport.Taken taken = take(a, whole);
        assertEquals(2, taken.files());
        assertTrue(taken.changed());
        assertEquals(2, taken.said().stream().filter(s -> s.contains("was damaged")).count());
        assertEquals(before, LogContent.of(a));
        assertEquals(
                List.of(),
                LogCheck.run(a, file -> Optional.empty(), (done, total) -> {}).problems());
        ArchiveImport.Taken again = take(a, whole);
        assertFalse(again.changed());
        assertEquals(List.of(), again.said());
    }

    @Test
    void filtersChooseVehiclesAndDays() throws Exception {
        LogPlace a = store.fresh(temp.resolve("a"));
        try (Log log = open(a, 0)) {
            for (int i = 0; i < 4; i++) {
                log.importVisit(visit(i, "ML-0" + (i % 2)));
            }
            log.saveVehicle(withCylinders(visit(9, "ML-05").vehicle(), 3));
        }
        LogArchive.Filter filter =
                new LogArchive.Filter(List.of("ML-01"), LocalDate.parse("2026-03-12"));
        LogPlace c = store.fresh(temp.resolve("c"));
        assertEquals(1, take(c, export(a, filter)).visits());
        try (Log log = Log.open(c)) {
            assertEquals(visit(3, "ML-01").id(), log.visits().get(0).id());
            assertEquals(1, log.vehicles().size());
        }
        StoreException none =
                assertThrows(
                        StoreException.class,
                        () -> export(a, new LogArchive.Filter(List.of("ML-99"), LocalDate.MIN)));
        assertEquals(StoreException.Reason.NO_SUCH_VEHICLE, none.reason());
    }

    @Test
    void visitOfOtherContentIsRefusedAloneAndSaid() throws Exception {
        LogPlace a = store.fresh(temp.resolve("a"));
        LogPlace b = store.fresh(temp.resolve("b"));
        try (Log log = open(a, 0)) {
            log.importVisit(visit(1, "ML-01"));
            log.importVisit(visit(2, "ML-00"));
        }
        Path folder = visit(1, "ML-01").folder();
        Files.writeString(folder.resolve("c01.tach.csv"), "time_s\n0.01\n0.02\n0.03\n");
        try (Log log = open(b, 0)) {
            log.importVisit(VisitFolder.read(folder));
        }
        ArchiveImport.Taken taken = take(b, export(a, LogArchive.Filter.ALL));
        assertEquals(1, taken.visits());
        assertEquals(1, taken.refused().size());
        try (Log log = open(b, 0)) {
            assertEquals(2, log.visits().size());
        }
    }

    /** Two that take archives in at once, and one that imports and writes beside them. */
    @Test
    void severalWritersAtOnceLoseNothing() throws Exception {
        LogPlace a = store.fresh(temp.resolve("a"));
        LogPlace b = store.fresh(temp.resolve("b"));
        for (int i = 0; i < 4; i++) {
            try (Log log = open(i % 2 == 0 ? a : b, i)) {
                for (int k = 0; k < 3; k++) {
                    Visit visit = visit((i + k) % 5, "ML-0" + (i + k) % 5 % 2);
                    log.importVisit(visit);
                    log.saveResult(visit.id(), Results.of(visit, 1 + i));
                }
            }
        }
        Path fromA = export(a, LogArchive.Filter.ALL);
        Path fromB = export(b, LogArchive.Filter.ALL);
        LogPlace expected = store.fresh(temp.resolve("expected"));
        take(expected, fromA);
        take(expected, fromB);
        LogPlace c = store.fresh(temp.resolve("c"));
        Visit own = visit(5, "ML-07");
        ExecutorService pool = Executors.newFixedThreadPool(3);
        try {
            List<Future<Boolean>> all =
                    List.of(
                            pool.submit(() -> take(c, fromA).refused().isEmpty()),
                            pool.submit(() -> take(c, fromB).refused().isEmpty()),
                            pool.submit(
                                    () -> {
                                        try (Log log = Log.open(c)) {
                                            log.importVisit(own);
                                            log.saveResult(own.id(), Results.of(own, 1));
                                            return true;
                                        }
                                    }));
            for (Future<Boolean> one : all) {
                assertTrue(one.get());
            }
        } finally {
            pool.shutdownNow();
        }
        assertEquals(List.of(), LogCheck.run(c, f -> Optional.empty(), NOBODY).problems());
        try (Log log = Log.open(c);
                Log quiet = Log.open(expected)) {
            assertEquals(1, log.results(own.id()).size());
            assertEquals(quiet.visits().size() + 1, log.visits().size());
            for (KeptVisit v : quiet.visits()) {
                assertEquals(quiet.results(v.id()), log.results(v.id()));
            }
        }
    }

    /** Archives with one thing wrong each: refused with one sentence, and nothing is half there. */
    @Test
    void damagedArchivesAreRefused() throws Exception {
        LogPlace a = store.fresh(temp.resolve("a"));
        Visit visit = visit(1, "ML-01");
        try (Log log = open(a, 0)) {
            log.importVisit(visit);
            log.saveResult(visit.id(), Results.of(visit, 1));
        }
        Path good = export(a, LogArchive.Filter.ALL);
        String rows = "results/" + visit.id() + ".jsonl";
        List<String[]> wrong =
                List.of(
                        new String[] {
                            "archive.json", "\"tickoverArchive\":1", "\"tickoverArchive\":9"
                        },
                        new String[] {"archive.json", "\"visits\":1", "\"visits\":2"},
                        new String[] {"archive.json", "{", ""},
                        new String[] {rows, "\"verdict\":\"component\"", "\"verdict\":\"maybe\""},
                        new String[] {rows, "\"capture\":\"c02\"", "\"capture\":\"c07\""},
                        new String[] {rows, "\"name\":\"c01.wav\"", "\"name\":\"../c01.wav\""},
                        new String[] {rows, "\"code_version\"", "\"vermin\""},
                        new String[] {rows, "\"unit\":\"ML-01\"", "\"unit\":\"ML-02\""},
                        new String[] {"log.jsonl", "{\"vehicle\"", "{\"wheel\""},
                        new String[] {"visits/" + visit.id() + "/c01.tach.csv", "0.085", "0.086"});
        for (String[] w : wrong) {
            Path bad = temp.resolve("bad.zip");
            edit(good, bad, w);
            LogPlace c = store.fresh(temp.resolve("c"));
            StoreException refused =
                    assertThrows(StoreException.class, () -> take(c, bad), w[1] + " " + w[2]);
            assertEquals(StoreException.Reason.BAD_ARCHIVE, refused.reason(), w[2]);
            try (Log log = Log.open(c)) {
                assertEquals(List.of(), log.visits(), w[2]);
                assertEquals(List.of(), Store.files(c), w[2]);
            }
        }
        byte[] bytes = Files.readAllBytes(good);
        Path cut = temp.resolve("cut.zip");
        Files.write(cut, java.util.Arrays.copyOf(bytes, bytes.length / 2));
        assertTrue(LogArchive.isOne(cut));
        StoreException refused =
                assertThrows(StoreException.class, () -> take(store.fresh(temp.resolve("d")), cut));
        assertEquals(StoreException.Reason.BAD_ARCHIVE, refused.reason());
    }

    private static void edit(Path from, Path to, String[] what) throws IOException {
        boolean done = false;
        try (ZipFile in = new ZipFile(from.toFile());
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(to))) {
            for (Enumeration<? extends ZipEntry> e = in.entries(); e.hasMoreElements(); ) {
                ZipEntry entry = e.nextElement();
                out.putNextEntry(new ZipEntry(entry.getName()));
                try (InputStream bytes = in.getInputStream(entry)) {
                    byte[] held = bytes.readAllBytes();
                    String text = new String(held, StandardCharsets.ISO_8859_1);
                    if (entry.getName().equals(what[0])) {
                        assertTrue(text.contains(what[1]), what[1]);
                        done = true;
                        text = text.replace(what[1], what[2]);
                    }
                    out.write(text.getBytes(StandardCharsets.ISO_8859_1));
                }
                out.closeEntry();
            }
        }
        assertTrue(done, what[0]);
    }
}
