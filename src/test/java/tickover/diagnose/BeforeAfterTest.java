package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;

class BeforeAfterTest {
    private static final double ROUND_OFF_DB = 1e-9;

    /** Levels of one part: a capture per point, in order. */
    private record At(String point, Condition condition, double rms, double error) {}

    private static At at(String point, double rms, double error) {
        return new At(point, Condition.UNLOADED, rms, error);
    }

    private static VisitResult result(At... levels) {
        List<CaptureSummary> captures = new ArrayList<>();
        List<PartLevel> parts = new ArrayList<>();
        for (At a : levels) {
            String id = "c" + captures.size();
            CaptureLabel label =
                    new CaptureLabel(
                            id, a.point(), "radial", Mount.MAGNET, Regime.IDLE, a.condition());
            captures.add(new CaptureSummary(label, "tach", 10, 800, 800, 800, 1));
            parts.add(new PartLevel("idler", id, a.rms(), a.error(), List.of()));
        }
        Findings none =
                new Findings(
                        Verdict.NONE,
                        List.of(new Candidate(Candidate.NONE, Fault.NONE, 1, List.of())),
                        List.of(),
                        List.of());
        return new VisitResult(none, captures, parts, "test", "");
    }

    @Test
    void tenthOfTheLevelIsMinusTwentyDecibels() {
        List<PartChange> changes =
                BeforeAfter.visits(result(at("idler", 1.0, 0.01)), result(at("idler", 0.1, 0.001)));
        assertEquals(1, changes.size());
        PartChange c = changes.get(0);
        assertEquals(-20, c.changeDb(), ROUND_OFF_DB);
        // Two relative errors of 1 %: 1.96 * 20/ln 10 * sqrt(2) * 0.01 dB.
        double half = 1.96 * 20 / Math.log(10) * Math.sqrt(2) * 0.01;
        assertEquals(-20 - half, c.lowDb(), ROUND_OFF_DB);
        assertEquals(-20 + half, c.highDb(), ROUND_OFF_DB);
        assertTrue(c.isClear());
    }

    @Test
    void pairsOnlyLikeWithLike() {
        At loaded = new At("idler", Condition.UNLOADED.withAircon(true), 5, 0.01);
        assertEquals(List.of(), BeforeAfter.visits(result(at("idler", 1, 0.01)), result(loaded)));
    }

    @Test
    void judgesAPartAtItsOwnPointWhereItWasProbedThere() {
        VisitResult before = result(at("idler", 1, 0.01), at("block", 1, 0.01));
        VisitResult after = result(at("idler", 0.5, 0.005), at("block", 1, 0.01));
        PartChange c = BeforeAfter.visits(before, after).get(0);
        assertEquals(1, c.pairs());
        assertEquals(20 * Math.log10(0.5), c.changeDb(), ROUND_OFF_DB);
    }

    @Test
    void scatterBetweenPairsWidensTheInterval() {
        VisitResult before = result(at("a", 1, 0.001), at("b", 1, 0.001), at("block", 1, 0.001));
        VisitResult after = result(at("a", 0.5, 0.0005), at("b", 1, 0.001), at("block", 2, 0.002));
        PartChange c = BeforeAfter.visits(before, after).get(0);
        assertEquals(3, c.pairs());
        assertEquals(0, c.changeDb(), ROUND_OFF_DB);
        // Changes -6.02, 0, +6.02 dB: s = 6.02 dB, t(2) = 4.303, half = t s / sqrt(3).
        double half = 4.303 * 20 * Math.log10(2) / Math.sqrt(3);
        assertEquals(half, c.highDb(), ROUND_OFF_DB);
        assertFalse(c.isClear());
    }

    @Test
    void scatterBetweenTouchesCounts() {
        VisitResult before = result(at("idler", 0.8, 0.001), at("idler", 1.2, 0.001));
        VisitResult after = result(at("idler", 0.8, 0.001), at("idler", 1.2, 0.001));
        PartChange c = BeforeAfter.visits(before, after).get(0);
        // Two touches of 0.8 and 1.2: standard error of the mean 0.2 on both sides.
        double half = 1.96 * 20 / Math.log(10) * Math.sqrt(2) * 0.2;
        assertEquals(half, c.highDb(), ROUND_OFF_DB);
        assertEquals(1, c.pairs());
    }

    @Test
    void saysNothingWhereNeitherLevelStandsOutOfItsError() {
        assertEquals(
                List.of(),
                BeforeAfter.visits(
                        result(at("idler", 0.001, 0.01)), result(at("idler", 0.002, 0.01))));
    }

    @Test
    void doesNotOverstateADropBelowTheError() {
        PartChange c =
                BeforeAfter.visits(result(at("idler", 1, 0.01)), result(at("idler", 0, 0.1)))
                        .get(0);
        assertEquals(-20, c.changeDb(), ROUND_OFF_DB);
    }

    @Test
    void comparesTwoCapturesWhateverTheyAreOf() {
        List<PartChange> changes =
                BeforeAfter.captures(
                        List.of(new PartLevel("idler", "c01", 1, 0.01, List.of())),
                        List.of(
                                new PartLevel("idler", "c02", 2, 0.02, List.of()),
                                new PartLevel("crank", "c02", 2, 0.02, List.of())));
        assertEquals(1, changes.size());
        assertEquals(20 * Math.log10(2), changes.get(0).changeDb(), ROUND_OFF_DB);
    }
}
