package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.diagnose.Attention;
import tickover.diagnose.Candidate;
import tickover.diagnose.Evidence;
import tickover.diagnose.EvidenceKind;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.PartLevel;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.store.FleetLine;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Visit;

class KeptResultsTest {
    private static final double ROUND_OFF = 1e-9;

    @TempDir private Path folder;
    private Path data;
    private List<Visit> visits;
    private final List<UUID> analysed = new ArrayList<>();

    @BeforeEach
    void importFiveVisitsOfTwoVehicles() {
        data = folder.resolve("data");
        visits = SmallVisits.write(folder.resolve("visits"), 5);
        try (Log log = Log.open(data)) {
            visits.forEach(v -> log.importVisit(v));
        }
    }

    /** By itself every visit says that the idler is as likely as nothing. */
    private VisitResult analyse(Visit visit, double levelMps2) {
        analysed.add(visit.id());
        VisitResult any = SmallVisits.result(1, CodeVersion.text());
        Evidence pattern = new Evidence(EvidenceKind.PATTERN, "Faint: knocks.", 0.1);
        Findings even =
                new Findings(
                        Verdict.UNCLEAR,
                        List.of(
                                new Candidate(Candidate.NONE, Fault.NONE, 0.5, List.of()),
                                new Candidate("idler", Fault.CAGE, 0.5, List.of(pattern))),
                        List.of(),
                        List.of());
        return new VisitResult(
                even,
                any.captures(),
                List.of(new PartLevel("idler", "c01", levelMps2, 0.001, List.of())),
                any.codeVersion(),
                any.settings());
    }

    @Test
    void aPartThatHasRisenSinceTheVisitBeforeIsSuspectedMore() {
        VisitResult result =
                KeptResults.of(
                        LogPlace.folder(data),
                        visits.get(2),
                        v -> analyse(v, v.id().equals(visits.get(2).id()) ? 1 : 0.1));
        assertEquals(List.of(visits.get(0).id(), visits.get(2).id()), analysed);
        Candidate first = result.findings().first();
        assertEquals("idler", first.component());
        assertTrue(first.probability() > 0.7, first.toString());
        assertTrue(
                first.evidence().stream()
                        .anyMatch(e -> e.text().contains("20 dB louder than at the visit before")),
                first.toString());
    }

    @Test
    void theFleetComesToWhatTheFindingsOfTheLastVisitComeTo() {
        Visit last = visits.get(4);
        VisitResult result =
                KeptResults.of(
                        LogPlace.folder(data),
                        last,
                        v -> analyse(v, v.id().equals(last.id()) ? 1 : 0.1));
        assertEquals(Verdict.COMPONENT, result.findings().verdict());
        try (Log log = Log.open(data)) {
            assertEquals(
                    Verdict.UNCLEAR,
                    log.latestResult(last.id()).orElseThrow().findings().verdict());
            log.history().refresh((made, total) -> {});
            FleetLine line =
                    log.history().fleet().stream()
                            .filter(l -> l.unit().equals(last.vehicle().unit()))
                            .findFirst()
                            .orElseThrow();
            assertEquals(Optional.of(Verdict.COMPONENT), line.verdict());
            Attention reason = line.reasons().get(0).attention();
            assertEquals("idler", reason.part());
            String sure = Math.round(100 * result.findings().first().probability()) + " %";
            assertTrue(
                    line.reasons().stream()
                            .map(r -> r.attention().sentence())
                            .anyMatch(
                                    t ->
                                            t.contains("with earlier ones weighed in, names the")
                                                    && t.contains(sure)),
                    line.reasons().toString());
            int namedOnlyWithEarlierVisits = 2;
            assertEquals(namedOnlyWithEarlierVisits, line.urgency());
        }
    }

    @Test
    void whatIsSavedIsWhatTheVisitSaysByItself() {
        for (int pass = 0; pass < 2; pass++) {
            KeptResults.of(
                    LogPlace.folder(data),
                    visits.get(4),
                    v -> analyse(v, v.date().getDayOfMonth()));
        }
        assertEquals(3, analysed.size());
        try (Log log = Log.open(data)) {
            Findings saved = log.latestResult(visits.get(4).id()).orElseThrow().findings();
            assertEquals(0.5, saved.firstPart().probability(), ROUND_OFF);
        }
    }

    @Test
    void aFirstVisitIsWhatItSaysByItself() {
        VisitResult result =
                KeptResults.of(LogPlace.folder(data), visits.get(1), v -> analyse(v, 1));
        assertEquals(0.5, result.findings().firstPart().probability(), ROUND_OFF);
        assertEquals(List.of(visits.get(1).id()), analysed);
    }
}
