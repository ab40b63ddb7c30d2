package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;

/** Verify and tidy on real logs of both kinds. */
@ParameterizedClass(name = "{0}")
@EnumSource(Store.class)
class UpkeepTest {
    @Parameter Store store;

    private static final Clock CLOCK =
            Clock.fixed(Instant.parse("2026-03-04T12:00:00Z"), ZoneOffset.UTC);
    private static final WorkProgress NOBODY = (done, total) -> {};
    private static final LogCheck.RecordingCheck SOUND = file -> Optional.empty();

    @TempDir Path temp;
    private LogPlace data;

    @BeforeEach
    void nameFolder() {
        data = store.fresh(temp.resolve("data"));
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

    /** How a file is called in what verify says. */
    private String shown(Visit visit, String name) {
        return data.isFolder()
                ? "recordings/" + visit.id() + "/" + name
                : name + " of visit " + visit.id() + " in the database";
    }

    @Test
    void folderWithoutALogIsSaidAndNotMade() {
        StoreException none = assertThrows(StoreException.class, () -> verify(data));
        assertEquals(StoreException.Reason.NO_SUCH_LOG, none.reason());
        assertFalse(Files.exists(data.local().resolve("tickover.db")));
    }

    @Test
    void verifyNamesEverythingThatIsWrong() throws Exception {
        List<Visit> visits = fill(3);
        assertEquals(List.of(), verify(data).problems());
        Store.delete(data, visits.get(0).id(), "c01.wav");
        Store.damage(data, visits.get(1).id(), "c02.wav");
        Store.write(data, visits.get(1).id(), "c01.tach.csv", "time_s\n");
        try (Raw raw = Raw.open(data)) {
            raw.unchecked("DELETE FROM candidate");
        }
        List<String> expected =
                new ArrayList<>(
                        List.of(
                                "CHANGED " + shown(visits.get(1), "c01.tach.csv"),
                                "CHANGED " + shown(visits.get(1), "c02.wav"),
                                "MISSING " + shown(visits.get(0), "c01.wav"),
                                "REFERENCE table evidence"));
        if (data.isFolder()) {
            // A server's tables have no place for what no row speaks of.
            Path recordings = data.local().resolve("recordings");
            UUID orphan = UUID.randomUUID();
            Files.createDirectory(recordings.resolve(orphan.toString()));
            Files.writeString(
                    recordings.resolve(visits.get(2).id().toString()).resolve("stray.txt"), "");
            expected.add("LEFTOVER recordings/" + orphan);
            expected.add("LEFTOVER " + shown(visits.get(2), "stray.txt"));
        }
        List<String> before = Store.files(data);
        LogCheck.Answer answer = verify(data);
        List<String> said =
                answer.problems().stream().map(p -> p.kind() + " " + p.place()).sorted().toList();
        assertEquals(expected.stream().sorted().toList(), said);
        assertEquals(before, Store.files(data), "verify removes nothing");
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
        UUID id = VisitFolder.read(folder).id();
        Store.write(data, id, "recording.tkr", "not much of ONE");
        LogCheck.Answer changed = LogCheck.run(data, damaged, NOBODY);
        assertEquals(List.of(LogCheck.Kind.CHANGED), kinds(changed));
        assertTrue(changed.problems().get(0).sentence().contains("byte 7"));
    }

    @Test
    void tidyRemovesByRuleAndNothingElse() throws Exception {
        List<Visit> visits = fill(4);
        Visit never = visit(9, "2019-01-01");
        try (Log log = Log.open(data, CLOCK)) {
            log.importVisit(never);
        }
        Tidy.Rule rule = new Tidy.Rule(LocalDate.parse("2023-03-04"), 2);
        List<String> before = Store.files(data);
        Tidy.Plan plan = Tidy.plan(data, rule);
        assertEquals(before, Store.files(data));
        // 2023-03-04 is not before itself; 2022 and 2023 are the latest two.
        assertEquals(
                List.of(visits.get(1).id(), visits.get(0).id()),
                plan.visits().stream().map(Tidy.Old::id).toList());
        assertEquals(4, plan.files());
        assertEquals(1, plan.neverAnalysed());
        long bytes = 0;
        for (int i = 0; i < 2; i++) {
            for (String name : List.of("c01.wav", "c02.wav")) {
                bytes += Files.size(temp.resolve("visit-" + i).resolve(name));
            }
        }
        assertEquals(bytes, plan.bytes());

        assertEquals(plan, Tidy.remove(data, rule, CLOCK, NOBODY));
        assertEquals(before.size() - 4, Store.files(data).size());
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
        Path copy = temp.resolve("backup" + (data.isFolder() ? "" : ".zip"));
        Backup.make(data, copy, false, NOBODY);
        LogPlace back = LogPlace.folder(data.isFolder() ? copy : temp.resolve("back"));
        if (!data.isFolder()) {
            ArchiveImport.take(back, copy, NOBODY);
        }
        assertEquals(List.of(), verify(back).problems());
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
        List<String> files = Store.files(data);
        assertFalse(files.contains(visit.id() + "/c01.wav"));
        assertTrue(files.contains(visit.id() + "/c02.wav"));
    }
}
