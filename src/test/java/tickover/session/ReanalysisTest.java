package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.diagnose.ResultDifference;
import tickover.diagnose.VisitResult;
import tickover.session.Reanalysis.Outcome;
import tickover.store.KeptVisit;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Tidy;
import tickover.store.Visit;

class ReanalysisTest {
    private static final String OLD = "0.0.1";
    private static final int VISITS = 5;

    @TempDir private Path folder;
    private LogPlace data;
    private List<Visit> visits;
    private final AtomicInteger analysed = new AtomicInteger();

    @BeforeEach
    void fill() {
        data = LogPlace.folder(folder.resolve("data"));
        visits = SmallVisits.write(folder.resolve("visits"), VISITS);
        try (Log log = Log.open(data)) {
            for (Visit visit : visits) {
                log.importVisit(visit);
                log.saveResult(visit.id(), SmallVisits.result(1, OLD));
            }
        }
    }

    private VisitResult today(Visit visit) {
        analysed.incrementAndGet();
        return SmallVisits.result(6, CodeVersion.text());
    }

    private List<Reanalysis.Line> run(Function<Visit, VisitResult> analysis) {
        List<KeptVisit> kept;
        try (Log log = Log.open(data)) {
            kept = log.visits();
        }
        List<Reanalysis.Line> lines = new ArrayList<>();
        Reanalysis.run(
                data,
                kept,
                analysis,
                (line, done, total) -> {
                    lines.add(line);
                    assertEquals(lines.size(), done);
                    assertEquals(VISITS, total);
                });
        lines.sort(Comparator.comparing(l -> l.visit().date()));
        return lines;
    }

    private static List<Outcome> outcomes(List<Reanalysis.Line> lines) {
        return lines.stream().map(Reanalysis.Line::outcome).toList();
    }

    @Test
    void bothResultsStayAndWhatDiffersIsTold() {
        List<Reanalysis.Line> lines = run(this::today);
        assertEquals(VISITS, analysed.get());
        try (Log log = Log.open(data)) {
            for (Reanalysis.Line line : lines) {
                assertEquals(Outcome.ANALYSED, line.outcome());
                ResultDifference d = line.difference().get(0);
                assertEquals(OLD, d.before().codeVersion());
                assertEquals(CodeVersion.text(), d.after().codeVersion());
                assertTrue(d.verdictDiffers());
                assertEquals(1, d.levels().size());
                assertEquals(List.of(d.after(), d.before()), log.results(line.visit().id()));
            }
        }
    }

    @Test
    void whatThisVersionHasSaidIsNotDoneAgainButToldAgain() {
        try (Log log = Log.open(data)) {
            log.saveResult(visits.get(2).id(), SmallVisits.result(6, CodeVersion.text()));
        }
        List<Reanalysis.Line> first = run(this::today);
        assertEquals(VISITS - 1, analysed.get());
        assertEquals(Outcome.DONE_BEFORE, first.get(2).outcome());
        List<Reanalysis.Line> again = run(this::today);
        assertEquals(VISITS - 1, analysed.get());
        for (int i = 0; i < VISITS; i++) {
            assertEquals(Outcome.DONE_BEFORE, again.get(i).outcome());
            assertEquals(first.get(i).difference(), again.get(i).difference());
        }
    }

    @Test
    void oneVisitThatCannotBeAnalysedHoldsUpNoOther() {
        List<Reanalysis.Line> lines =
                run(
                        visit -> {
                            if (visit.id().equals(visits.get(1).id())) {
                                throw new IllegalArgumentException("no crank");
                            }
                            return today(visit);
                        });
        assertEquals(Outcome.FAILED, lines.get(1).outcome());
        assertEquals("no crank", lines.get(1).why());
        assertEquals(VISITS - 1, analysed.get());
        try (Log log = Log.open(data)) {
            assertEquals(1, log.results(visits.get(1).id()).size());
        }
    }

    @Test
    void theProgramsOwnMistakeIsNotTakenForTheVisits() {
        assertThrows(
                IllegalStateException.class,
                () ->
                        run(
                                visit -> {
                                    throw new IllegalStateException("a mistake");
                                }));
    }

    @Test
    void visitsWithoutRecordingsKeepTheirResult() {
        Tidy.remove(
                data,
                new Tidy.Rule(LocalDate.from(SmallVisits.FIRST.plusDays(2)), 1),
                Clock.systemUTC(),
                (done, total) -> {});
        List<Reanalysis.Line> lines = run(this::today);
        assertEquals(
                List.of(
                        Outcome.REMOVED,
                        Outcome.REMOVED,
                        Outcome.ANALYSED,
                        Outcome.ANALYSED,
                        Outcome.ANALYSED),
                outcomes(lines));
        VisitResult kept =
                KeptResults.of(
                        data,
                        visits.get(0),
                        visit -> {
                            throw new AssertionError("there is nothing to analyse");
                        });
        assertEquals(OLD, kept.codeVersion());
    }
}
