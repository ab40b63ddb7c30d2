package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class ResultDifferenceTest {
    private static PartLevel level(String part, double levelMps2, double errorMps2) {
        return new PartLevel(part, "c01", levelMps2, errorMps2, List.of());
    }

    private static VisitResult result(
            Verdict verdict, String part, double probability, PartLevel... levels) {
        return new VisitResult(
                new Findings(
                        verdict,
                        List.of(
                                new Candidate(part, Fault.BEARING_ROUGH, probability, List.of()),
                                new Candidate(
                                        Candidate.NONE, Fault.NONE, 1 - probability, List.of())),
                        List.of(),
                        List.of()),
                List.of(),
                List.of(levels),
                "1",
                "");
    }

    @Test
    void sameResultsDoNotDiffer() {
        VisitResult r = result(Verdict.COMPONENT, "idler", 0.9, level("idler", 1, 0));
        assertFalse(ResultDifference.of(r, r).any());
    }

    @Test
    void levelsDifferBeyondTheLargerError() {
        VisitResult before =
                result(Verdict.COMPONENT, "idler", 0.9, level("a", 1, 0.5), level("b", 1, 0.25));
        VisitResult after =
                result(Verdict.COMPONENT, "idler", 0.9, level("a", 1.5, 0.1), level("b", 1.5, 0.1));
        ResultDifference d = ResultDifference.of(before, after);
        assertEquals(1, d.levels().size());
        assertEquals("b", d.levels().get(0).after().part());
        assertEquals(0.5, d.levels().get(0).changeMps2());
        assertTrue(d.any());
        assertFalse(d.verdictDiffers() || d.suspectDiffers() || d.probabilityDiffers());
    }

    @Test
    void levelsThatComeAndGoAreTold() {
        ResultDifference d =
                ResultDifference.of(
                        result(Verdict.NONE, "idler", 0.1, level("a", 1, 0)),
                        result(Verdict.NONE, "idler", 0.1, level("b", 1, 0)));
        assertEquals(List.of(level("a", 1, 0)), d.vanished());
        assertEquals(List.of(level("b", 1, 0)), d.appeared());
    }

    @Test
    void verdictSuspectAndProbabilityAreComparedByWhatTheAnswerIsAbout() {
        VisitResult sure = result(Verdict.COMPONENT, "idler", 0.9);
        assertTrue(
                ResultDifference.of(sure, result(Verdict.UNCLEAR, "idler", 0.9)).verdictDiffers());
        assertTrue(
                ResultDifference.of(sure, result(Verdict.COMPONENT, "fan", 0.9)).suspectDiffers());
        assertTrue(
                ResultDifference.of(sure, result(Verdict.COMPONENT, "idler", 0.88))
                        .probabilityDiffers());
        assertFalse(ResultDifference.of(sure, result(Verdict.COMPONENT, "idler", 0.895)).any());
    }
}
