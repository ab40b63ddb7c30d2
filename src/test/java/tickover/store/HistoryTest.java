package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import tickover.diagnose.Attention;
import tickover.diagnose.MeasuredLevel;
import tickover.diagnose.RepairMark;
import tickover.diagnose.VehicleTrend;

@ParameterizedClass(name = "{0}")
@EnumSource(Store.class)
class HistoryTest {
    @Parameter Store store;

    private static final LocalDateTime AFTER = LocalDateTime.parse("2026-03-05T12:00:00");

    @TempDir Path temp;
    private LogPlace data;
    private Visit visit;

    @BeforeEach
    void makeVisit() {
        data = store.fresh(temp.resolve("data"));
        visit = VisitFolder.read(Folders.good(temp.resolve("visit")));
    }

    private static void ignore(int done, int total) {
        assertTrue(done <= total);
    }

    private static FleetLine only(Log log) {
        log.history().refresh(HistoryTest::ignore);
        List<FleetLine> fleet = log.history().fleet();
        assertEquals(1, fleet.size());
        return fleet.get(0);
    }

    private static Attention reason(FleetLine line) {
        return line.reasons().get(0).attention();
    }

    @Test
    void standingFollowsWhatIsKnown() {
        try (Log log = Log.open(data)) {
            log.importVisit(visit);
            assertEquals(Attention.Kind.NOT_ANALYSED, reason(only(log)).kind());

            log.saveResult(visit.id(), Results.of(visit, 0.5));
            FleetLine found = only(log);
            assertEquals(2, found.urgency());
            assertEquals(Attention.Kind.FINDING, reason(found).kind());
            assertEquals("idler", reason(found).part());
            assertEquals("idler", found.reasons().get(0).role());
            assertEquals(Optional.of(visit.id()), found.lastVisit());

            RepairMark mark = log.history().addRepair("ML-07", AFTER, "idler", "new idler");
            FleetLine repaired = only(log);
            assertEquals(1, repaired.urgency());
            assertEquals(Attention.Kind.UNPROVEN, reason(repaired).kind());
            assertTrue(reason(repaired).sentence().contains("\"new idler\""));

            assertTrue(log.history().withdraw(mark.id()));
            assertFalse(log.history().withdraw(mark.id()), "once is enough");
            assertEquals(Attention.Kind.FINDING, reason(only(log)).kind());
            assertEquals(List.of(), log.history().repairs("ML-07"));
        }
    }

    /** A repair of another part leaves the accused one accused. */
    @Test
    void repairOfAnotherPartAnswersNoFinding() {
        try (Log log = Log.open(data)) {
            log.importVisit(visit);
            log.saveResult(visit.id(), Results.of(visit, 0.5));
            log.history().addRepair("ML-07", AFTER, "crank", "");
            assertEquals(2, only(log).urgency());
            log.history().addRepair("ML-07", AFTER, "", "new belt and all pulleys");
            assertEquals(1, only(log).urgency());
        }
    }

    @Test
    void missingStandingsAreMadeAnew() throws Exception {
        try (Log log = Log.open(data);
                Raw raw = Raw.open(data)) {
            log.importVisit(visit);
            log.saveResult(visit.id(), Results.of(visit, 0.5));
            FleetLine before = only(log);
            raw.execute("DELETE FROM attention");
            raw.execute("DELETE FROM standing");
            assertEquals(List.of(), log.history().fleet());
            assertEquals(reason(before).sentence(), reason(only(log)).sentence());
            raw.execute("UPDATE standing SET rule_version = 0");
            int[] made = {0};
            log.history().refresh((done, total) -> made[0] = done);
            assertEquals(1, made[0], "older rules do not count");
            log.history().refresh((done, total) -> made[0] = 99);
            assertEquals(1, made[0], "nothing to do");
        }
    }

    @Test
    void notesAreKeptAndTakenBack() {
        Note note =
                new Note(
                        UUID.randomUUID(),
                        "ML-07",
                        AFTER,
                        "idler",
                        visit.id().toString(),
                        "l'été: \"grinds\" when cold ✓");
        try (Log log = Log.open(data)) {
            log.importVisit(visit);
            log.history().addNote(note);
        }
        try (Log log = Log.open(data)) {
            assertEquals(List.of(note), log.history().notes("ML-07"));
            assertEquals(List.of(note), log.history().notes());
            assertEquals(List.of(), log.history().notes("ML-99"));
            assertTrue(log.history().withdraw(note.id()));
            assertEquals(List.of(), log.history().notes());
        }
    }

    @Test
    void vehicleThatIsNotThereIsNamed() {
        try (Log log = Log.open(data)) {
            StoreException refused =
                    assertThrows(
                            StoreException.class,
                            () -> log.history().addRepair("ML-99", AFTER, "", ""));
            assertEquals(StoreException.Reason.NO_SUCH_VEHICLE, refused.reason());
            assertTrue(refused.getMessage().contains("ML-99"));
            assertEquals(List.of(), log.history().levels("ML-99"));
            assertEquals(List.of(), log.history().trend("ML-99").series());
            assertEquals(Map.of(), log.history().sisters("ML-99", "idler"));
        }
    }

    @Test
    void levelsOfEveryPartComeWithTheirVisit() {
        try (Log log = Log.open(data)) {
            log.importVisit(visit);
            log.saveResult(visit.id(), Results.of(visit, 9));
            log.saveResult(visit.id(), Results.of(visit, 0.5));
            List<MeasuredLevel> levels = log.history().levels("ML-07");
            assertEquals(3, levels.size(), "those of the latest result");
            assertEquals("idler", levels.get(0).part());
            assertEquals(0.5, levels.get(0).levelRmsMps2());
            assertEquals(182340, levels.get(0).visit().odometerKm().orElseThrow());
            VehicleTrend trend = log.history().trend("ML-07");
            assertEquals(Set.of("idler", "crank"), Set.copyOf(trend.parts()));
        }
    }

    /** The same drive under another name is a sister's; a changed diameter makes another drive. */
    @Test
    void sistersHaveTheSameDrive() throws Exception {
        Path other = sister("ML-08", "70");
        Path stranger = sister("ML-09", "71");
        try (Log log = Log.open(data)) {
            for (Visit v : List.of(visit, VisitFolder.read(other), VisitFolder.read(stranger))) {
                log.importVisit(v);
                log.saveResult(v.id(), Results.of(v, 0.5));
            }
            log.history().refresh(HistoryTest::ignore);
            Map<String, List<MeasuredLevel>> sisters = log.history().sisters("ML-07", "idler");
            assertEquals(List.of("ML-08"), List.copyOf(sisters.keySet()));
            assertEquals(2, sisters.get("ML-08").size());
        }
    }

    private Path sister(String unit, String idlerDiameter) throws Exception {
        Path folder = Folders.good(temp.resolve(unit));
        Path vehicle = folder.resolve("vehicle.toml");
        String text = Files.readString(vehicle);
        assertTrue(text.contains("\"ML-07\"") && text.contains("diameter_mm = 70\n"), text);
        Files.writeString(
                vehicle,
                text.replace("\"ML-07\"", '"' + unit + '"')
                        .replace("diameter_mm = 70\n", "diameter_mm = " + idlerDiameter + "\n"));
        Path visitFile = folder.resolve("visit.toml");
        Files.writeString(
                visitFile,
                Files.readString(visitFile)
                        .replace(visit.id().toString(), UUID.randomUUID().toString()));
        return folder;
    }
}
