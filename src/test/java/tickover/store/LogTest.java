package tickover.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import tickover.diagnose.MeasuredLevel;
import tickover.diagnose.PartLevel;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.drive.Engine;
import tickover.drive.Vehicle;

@ParameterizedClass(name = "{0}")
@EnumSource(Store.class)
class LogTest {
    @Parameter Store store;

    private static final Instant NOON = Instant.parse("2026-03-04T12:00:00.5Z");
    private static final Clock CLOCK = Clock.fixed(NOON, ZoneOffset.UTC);

    @TempDir Path temp;
    private LogPlace data;
    private Path folder;
    private Visit visit;

    @BeforeEach
    void makeVisit() {
        data = store.fresh(temp.resolve("data"));
        folder = Folders.good(temp.resolve("visit"));
        visit = VisitFolder.read(folder);
    }

    private Log open() {
        return Log.open(data, CLOCK);
    }

    private void edit(String name, String from, String to) throws IOException {
        String text = Files.readString(folder.resolve(name));
        assertTrue(text.contains(from));
        Files.writeString(folder.resolve(name), text.replace(from, to));
    }

    private static Vehicle withCylinders(Vehicle vehicle, int cylinders) {
        return new Vehicle(
                vehicle.unit(),
                vehicle.description(),
                Engine.of(cylinders, 4),
                vehicle.belts(),
                vehicle.pulleys());
    }

    @Test
    void keepsADriveWithoutAVisit() {
        Vehicle vehicle = visit.vehicle();
        try (Log log = open()) {
            assertEquals(Optional.empty(), log.vehicle(vehicle.unit()));
            log.saveVehicle(withCylinders(vehicle, 6));
            log.saveVehicle(withCylinders(vehicle, 5));
        }
        try (Log log = open()) {
            Vehicle kept = log.vehicle(vehicle.unit()).orElseThrow();
            assertEquals(5, kept.engine().cylinders());
            assertEquals(
                    VisitFolder.vehicleText(vehicle)
                            .lines()
                            .filter(l -> l.startsWith("name"))
                            .toList(),
                    VisitFolder.vehicleText(kept)
                            .lines()
                            .filter(l -> l.startsWith("name"))
                            .toList());
            KeptVehicle line = log.vehicles().get(0);
            assertEquals(vehicle.unit(), line.unit());
            assertEquals(0, line.visits());
            assertEquals(Optional.empty(), line.lastVisit());
        }
    }

    @Test
    void driveThatCameToBeKnownLastCounts() {
        Vehicle vehicle = visit.vehicle();
        try (Log log = Log.open(data, Clock.fixed(NOON, ZoneOffset.UTC))) {
            log.saveVehicle(withCylinders(vehicle, 6));
        }
        try (Log log = Log.open(data, Clock.fixed(NOON.plusSeconds(1), ZoneOffset.UTC))) {
            log.importVisit(visit);
            assertEquals(
                    vehicle.engine().cylinders(),
                    log.vehicle(vehicle.unit()).orElseThrow().engine().cylinders());
            assertEquals(1, log.vehicles().size());
            assertEquals(Optional.of(visit.date()), log.vehicles().get(0).lastVisit());
        }
        try (Log log = Log.open(data, Clock.fixed(NOON.plusSeconds(2), ZoneOffset.UTC))) {
            log.saveVehicle(withCylinders(vehicle, 3));
            assertEquals(3, log.vehicle(vehicle.unit()).orElseThrow().engine().cylinders());
        }
    }

    @Test
    void keepsAVisitAcrossOpenings() {
        try (Log log = open()) {
            assertEquals(ImportOutcome.IMPORTED, log.importVisit(visit));
        }
        try (Log log = open()) {
            Visit kept = log.visit(visit.id()).orElseThrow();
            assertEquals(visit, kept);
            assertArrayEquals(
                    visit.captures().get(1).load().accelMps2(2),
                    kept.captures().get(1).load().accelMps2(2));
            KeptVisit line = log.visits().get(0);
            assertEquals(1, log.visits().size());
            assertEquals(visit.id(), line.id());
            assertEquals("ML-07", line.unit());
            assertEquals(visit.date(), line.date());
            assertEquals(visit.odometerKm(), line.odometerKm());
            assertEquals(visit.complaint(), line.complaint());
            assertEquals(2, line.captureCount());
            assertEquals(Optional.empty(), line.analysedAt());
            assertEquals(Optional.empty(), line.verdict());
        }
    }

    @Test
    void keptVisitNoLongerNeedsItsFolder() throws IOException {
        try (Log log = open()) {
            log.importVisit(visit);
            FolderRecordings.delete(folder);
            assertEquals(
                    800,
                    log.visit(visit.id()).orElseThrow().captures().get(0).load().sampleCount());
        }
    }

    @Test
    void importingTwiceChangesNothing() throws IOException {
        try (Log log = open()) {
            log.importVisit(visit);
            List<String> before = Store.files(data);
            assertEquals(ImportOutcome.ALREADY_KEPT, log.importVisit(VisitFolder.read(folder)));
            Files.writeString(folder.resolve("notes.txt"), "does not count");
            assertEquals(ImportOutcome.ALREADY_KEPT, log.importVisit(VisitFolder.read(folder)));
            assertEquals(1, log.visits().size());
            assertEquals(before, Store.files(data));
        }
    }

    @Test
    void importingTwiceWithoutAnIdChangesNothing() throws IOException {
        edit("visit.toml", "id = \"0195f0c2-7b3e-7c1a-9d52-5d0e3c8a6f10\"\n", "");
        try (Log log = open()) {
            assertEquals(ImportOutcome.IMPORTED, log.importVisit(VisitFolder.read(folder)));
            assertEquals(ImportOutcome.ALREADY_KEPT, log.importVisit(VisitFolder.read(folder)));
            assertEquals(1, log.visits().size());
        }
    }

    @Test
    void sameIdWithOtherContentIsRefusedAndChangesNothing() throws IOException {
        try (Log log = open()) {
            log.importVisit(visit);
            List<String> before = Store.files(data);
            edit("c01.tach.csv", "0.085", "0.086");
            StoreException refused =
                    assertThrows(
                            StoreException.class, () -> log.importVisit(VisitFolder.read(folder)));
            assertEquals(StoreException.Reason.OTHER_CONTENT, refused.reason());
            assertTrue(refused.getMessage().contains(visit.id().toString()));
            assertEquals(before, Store.files(data));
            assertEquals(visit, log.visit(visit.id()).orElseThrow());
        }
    }

    @Test
    void fileThatChangesDuringImportIsRefusedAndLeavesNoTrace() throws IOException {
        try (Log log = open()) {
            List<String> before = Store.files(data);
            edit("c01.tach.csv", "0.085", "0.086");
            VisitFolderException refused =
                    assertThrows(VisitFolderException.class, () -> log.importVisit(visit));
            assertTrue(refused.getMessage().startsWith("c01.tach.csv: changed"));
            assertEquals(before, Store.files(data));
            assertEquals(List.of(), log.visits());
        }
    }

    @Test
    void failureAfterTheFilesMovedLeavesNoTrace() throws Exception {
        try (Log log = open()) {
            List<String> before = Store.files(data);
            try (var other = Raw.open(data)) {
                other.execute("DROP TABLE " + (data.isFolder() ? "capture" : "capture CASCADE"));
            }
            assertThrows(StoreException.class, () -> log.importVisit(visit));
            assertEquals(before, Store.files(data));
            assertEquals(0, Raw.count(data, "SELECT COUNT(*) FROM visit"));
            assertEquals(0, Raw.count(data, "SELECT COUNT(*) FROM vehicle"));
            assertEquals(0, Raw.count(data, "SELECT COUNT(*) FROM kept_file"));
        }
    }

    @Test
    void exportGivesEveryFileBackByteForByte() throws IOException {
        Files.writeString(folder.resolve("notes.txt"), "found a loose bracket\r\n");
        Files.writeString(folder.resolve("visit.toml"), Folders.VISIT + "# as handed in\r\n");
        try (Log log = open()) {
            log.importVisit(VisitFolder.read(folder));
            Path out = temp.resolve("out/deeper");
            log.export(visit.id(), out);
            assertEquals(Folders.tree(folder), Folders.tree(out));
            for (String name : Folders.tree(folder)) {
                assertArrayEquals(
                        Files.readAllBytes(folder.resolve(name)),
                        Files.readAllBytes(out.resolve(name)),
                        name);
            }
            assertEquals(ImportOutcome.ALREADY_KEPT, log.importVisit(VisitFolder.read(out)));
            StoreException refused =
                    assertThrows(StoreException.class, () -> log.export(visit.id(), out));
            assertEquals(StoreException.Reason.FOLDER_NOT_EMPTY, refused.reason());
        }
    }

    @Test
    void unknownVisitsAreNamed() {
        UUID other = UUID.randomUUID();
        try (Log log = open()) {
            assertEquals(Optional.empty(), log.visit(other));
            assertEquals(Optional.empty(), log.latestResult(other));
            for (Runnable asked :
                    List.<Runnable>of(
                            () -> log.export(other, temp.resolve("out")),
                            () -> log.saveResult(other, Results.of(visit, 1)))) {
                StoreException refused = assertThrows(StoreException.class, asked::run);
                assertEquals(StoreException.Reason.NO_SUCH_VISIT, refused.reason());
                assertTrue(refused.getMessage().contains(other.toString()));
            }
            assertFalse(Files.exists(temp.resolve("out")));
        }
    }

    @Test
    void damagedRecordingsAreNoticedOnExportAndLeaveNothing() throws IOException {
        try (Log log = open()) {
            log.importVisit(visit);
            Store.damage(data, visit.id(), "c02.wav");
            Path out = temp.resolve("out");
            StoreException refused =
                    assertThrows(StoreException.class, () -> log.export(visit.id(), out));
            assertEquals(StoreException.Reason.DAMAGED, refused.reason());
            assertTrue(refused.getMessage().contains("c02.wav"));
            assertEquals(List.of(), Folders.tree(out));
            Store.delete(data, visit.id(), "c02.wav");
            StoreException gone = assertThrows(StoreException.class, () -> log.visit(visit.id()));
            assertEquals(StoreException.Reason.DAMAGED, gone.reason());
        }
    }

    @Test
    void resultsComeBackWhole() {
        try (Log log = open()) {
            log.importVisit(visit);
            VisitResult first = Results.of(visit, 0.5);
            VisitResult second = Results.of(visit, 0.25);
            log.saveResult(visit.id(), first);
            assertEquals(Optional.of(first), log.latestResult(visit.id()));
            log.saveResult(visit.id(), second);
            assertEquals(Optional.of(second), log.latestResult(visit.id()));
            KeptVisit line = log.visits("ML-07").get(0);
            // The clock stands still; a later result is later all the same.
            assertEquals(Optional.of(NOON.plusMillis(1)), line.analysedAt());
            assertEquals(List.of(second, first), log.results(visit.id()));
            assertEquals(Optional.of(Verdict.COMPONENT), line.verdict());
            assertEquals(List.of(), log.visits("ML-08"));
        }
    }

    @Test
    void resultsThatDoNotFitTheVisitAreRefused() {
        VisitResult good = Results.of(visit, 0.5);
        List<PartLevel> twice = new ArrayList<>(good.levels());
        twice.add(good.levels().get(0));
        List<PartLevel> elsewhere = List.of(new PartLevel("idler", "c09", 1, 0, List.of()));
        try (Log log = open()) {
            log.importVisit(visit);
            for (List<PartLevel> levels : List.of(twice, elsewhere)) {
                VisitResult bad =
                        new VisitResult(good.findings(), good.captures(), levels, "0.1.0", "");
                assertThrows(IllegalArgumentException.class, () -> log.saveResult(visit.id(), bad));
            }
            assertEquals(Optional.empty(), log.latestResult(visit.id()));
        }
    }

    @Test
    void levelsFollowAPartThroughTheVisits() throws IOException {
        try (Log log = open()) {
            String[] dates = {"2026-05-01", "2026-03-04", "2026-04-01"};
            for (int i = 0; i < dates.length; i++) {
                Files.writeString(
                        folder.resolve("visit.toml"),
                        Folders.VISIT
                                .replace("2026-03-04T", dates[i] + "T")
                                .replace("0195f0c2", "0195f0c" + i));
                Visit v = VisitFolder.read(folder);
                log.importVisit(v);
                log.saveResult(v.id(), Results.of(v, 99));
                log.saveResult(v.id(), Results.of(v, 1 + i));
            }
            List<MeasuredLevel> rows =
                    log.history().levels("ML-07").stream()
                            .filter(l -> l.part().equals("idler"))
                            .sorted(Comparator.comparing(l -> l.visit().date() + l.label().id()))
                            .toList();
            assertEquals(
                    List.of(
                            "2026-03-04 c01",
                            "2026-03-04 c02",
                            "2026-04-01 c01",
                            "2026-04-01 c02",
                            "2026-05-01 c01",
                            "2026-05-01 c02"),
                    rows.stream()
                            .map(r -> r.visit().date().toLocalDate() + " " + r.label().id())
                            .toList());
            assertArrayEquals(
                    new double[] {1, 2, 1.5, 3, 0.5, 1},
                    rows.stream().mapToDouble(MeasuredLevel::levelRmsMps2).toArray());
            MeasuredLevel row = rows.get(0);
            assertEquals(visit.captures().get(0).label(), row.label());
            assertEquals(780.25, row.meanSpeedRpm());
            assertEquals(0.02, row.standardErrorMps2());
            assertEquals(182340, row.visit().odometerKm().orElseThrow());
            assertEquals(List.of(), log.history().levels("ML-08"));
        }
    }

    @Test
    void namesOfAnyScriptAreKept() throws IOException {
        String unit = "مكتبة \\\"7\\\" '; DROP TABLE visit; --";
        edit("vehicle.toml", "ML-07", unit);
        Visit odd = VisitFolder.read(folder);
        try (Log log = open()) {
            log.importVisit(odd);
            String read = "مكتبة \"7\" '; DROP TABLE visit; --";
            assertEquals(read, log.visits().get(0).unit());
            assertEquals(1, log.visits(read).size());
        }
    }

    @Test
    void twoConnectionsImportSideBySide() throws Exception {
        List<Path> folders = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            Path f = Folders.good(temp.resolve("v" + i));
            // Every second folder is the same visit as the one before.
            Files.writeString(
                    f.resolve("visit.toml"), Folders.VISIT.replace("0195f0c2", "0195f0c" + i / 2));
            folders.add(f);
        }
        ExecutorService threads = Executors.newFixedThreadPool(2);
        try {
            List<Future<Integer>> imports = new ArrayList<>();
            for (int t = 0; t < 2; t++) {
                int half = t;
                Callable<Integer> work =
                        () -> {
                            int fresh = 0;
                            try (Log log = open()) {
                                for (int i = half; i < 8; i += 2) {
                                    Visit v = VisitFolder.read(folders.get(i));
                                    fresh += log.importVisit(v) == ImportOutcome.IMPORTED ? 1 : 0;
                                }
                            }
                            return fresh;
                        };
                imports.add(threads.submit(work));
            }
            assertEquals(4, imports.get(0).get() + imports.get(1).get());
        } finally {
            threads.shutdown();
        }
        try (Log log = open()) {
            assertEquals(4, log.visits().size());
            assertEquals(4 * 6, Store.files(data).size());
        }
    }
}
