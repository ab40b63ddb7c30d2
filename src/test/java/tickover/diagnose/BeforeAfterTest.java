package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;

class BeforeAfterTest {
    private static final double ROUND_OFF_DB = 1e-9;
    private static final double DB_PER_NEPER = 20 / Math.log(10);

    /** The level of one part in one capture. */
    private record At(String part, String point, Condition condition, List<LineLevel> lines) {
        At with(Condition other) {
            return new At(part, point, other, lines);
        }
    }

    private static LineLevel line(String kind, double rms, double error, String... sharedWith) {
        return new LineLevel(kind, 2.5, rms, error, Arrays.asList(sharedWith));
    }

    private static At at(String part, String point, LineLevel... lines) {
        return new At(part, point, Condition.UNLOADED, Arrays.asList(lines));
    }

    private static At idler(String point, double rms, double error) {
        return at("idler", point, line("turn", rms, error));
    }

    private static At engine(String point, double rms) {
        return at("engine", point, line("firing", rms, 0));
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
            double square =
                    a.lines().stream()
                            .filter(l -> l.sharedWith().isEmpty())
                            .mapToDouble(l -> l.levelRmsMps2() * l.levelRmsMps2())
                            .sum();
            parts.add(new PartLevel(a.part(), id, Math.sqrt(square), 0.01, a.lines()));
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
                BeforeAfter.visits(
                        result(idler("idler", 1.0, 0.01)), result(idler("idler", 0.1, 0.001)));
        assertEquals(1, changes.size());
        PartChange c = changes.get(0);
        assertEquals(-20, c.changeDb(), ROUND_OFF_DB);
        // Two relative errors of 1 %.
        double half = 1.96 * DB_PER_NEPER * Math.sqrt(2) * 0.01;
        assertEquals(-20 - half, c.lowDb(), ROUND_OFF_DB);
        assertEquals(-20 + half, c.highDb(), ROUND_OFF_DB);
        assertTrue(c.isClear());
        assertFalse(c.coversTouches());
    }

    @Test
    void pairsOnlyLikeWithLike() {
        At loaded = idler("idler", 5, 0.01).with(Condition.UNLOADED.withAircon(true));
        assertEquals(
                List.of(), BeforeAfter.visits(result(idler("idler", 1, 0.01)), result(loaded)));
    }

    @Test
    void judgesAPartAtItsOwnPointWhereItWasProbedThere() {
        VisitResult before = result(idler("idler", 1, 0.01), idler("block", 1, 0.01));
        VisitResult after = result(idler("idler", 0.5, 0.005), idler("block", 1, 0.01));
        PartChange c = BeforeAfter.visits(before, after).get(0);
        assertEquals(1, c.pairs());
        assertEquals(20 * Math.log10(0.5), c.changeDb(), ROUND_OFF_DB);
    }

    /**
     * A line that only one of the visits could tell from another part's must not look like news.
     */
    @Test
    void countsOnlyLinesThatAreUnsharedOnBothSides() {
        At before = at("idler", "idler", line("turn", 1, 0.01), line("vanes", 9, 0.01, "pump"));
        At after = at("idler", "idler", line("turn", 1, 0.01), line("vanes", 9, 0.01));
        PartChange c = BeforeAfter.visits(result(before), result(after)).get(0);
        assertEquals(0, c.changeDb(), ROUND_OFF_DB);
        assertEquals(1, c.afterRmsMps2(), ROUND_OFF_DB);
    }

    @Test
    void saysNothingIfNoLineIsUnsharedOnBothSides() {
        At before = at("idler", "idler", line("turn", 1, 0.01, "pump"), line("vanes", 9, 0.01));
        At after = at("idler", "idler", line("turn", 1, 0.01), line("vanes", 9, 0.01, "pump"));
        assertEquals(List.of(), BeforeAfter.visits(result(before), result(after)));
    }

    @Test
    void engineShowsWhatPuttingTheProbeDownAgainDoes() {
        VisitResult before =
                result(engine("a", 1), engine("b", 1), engine("c", 1), idler("idler", 1, 0));
        VisitResult after =
                result(engine("a", 0.5), engine("b", 1), engine("c", 2), idler("idler", 0.5, 0));
        PartChange idler = BeforeAfter.visits(before, after).get(1);
        assertEquals("idler", idler.part());
        assertTrue(idler.coversTouches());
        // Changes of -6.02, 0 and +6.02 dB: s = 6.02 dB, t(2) = 4.303.
        double half = 4.303 * 20 * Math.log10(2);
        assertEquals(-20 * Math.log10(2) + half, idler.highDb(), ROUND_OFF_DB);
        assertFalse(idler.isClear());
    }

    @Test
    void morePairsNarrowTheInterval() {
        At loaded = idler("idler", 1, 0).with(Condition.UNLOADED.withAircon(true));
        VisitResult before =
                result(
                        engine("a", 1),
                        engine("b", 1),
                        engine("c", 1),
                        idler("idler", 1, 0),
                        loaded);
        VisitResult after =
                result(
                        engine("a", 0.5),
                        engine("b", 1),
                        engine("c", 2),
                        idler("idler", 1, 0),
                        loaded);
        PartChange idler = BeforeAfter.visits(before, after).get(1);
        assertEquals(2, idler.pairs());
        assertEquals(4.303 * 20 * Math.log10(2) / Math.sqrt(2), idler.highDb(), ROUND_OFF_DB);
    }

    @Test
    void averagesTouchesOfOnePlaceByPower() {
        VisitResult before = result(idler("idler", 1, 0), idler("idler", 3, 0));
        VisitResult after = result(idler("idler", Math.sqrt(5), 0));
        PartChange c = BeforeAfter.visits(before, after).get(0);
        assertEquals(0, c.changeDb(), ROUND_OFF_DB);
        assertEquals(1, c.pairs());
    }

    @Test
    void saysNothingWhereNeitherLevelStandsOutOfItsError() {
        assertEquals(
                List.of(),
                BeforeAfter.visits(
                        result(idler("idler", 0.001, 0.01)), result(idler("idler", 0.002, 0.01))));
    }

    @Test
    void doesNotOverstateADropBelowTheError() {
        PartChange c =
                BeforeAfter.visits(result(idler("idler", 1, 0.01)), result(idler("idler", 0, 0.1)))
                        .get(0);
        assertEquals(-20, c.changeDb(), ROUND_OFF_DB);
        assertEquals(0.1, c.afterRmsMps2(), ROUND_OFF_DB);
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
