package tickover.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tickover.align.ClockErrors.at;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What the clock's fit reaches on many simulated lines. Line {@code i} has the seed {@code i}. */
class ClockTrackerPropertyTest {
    private static final int LINES = 200;

    /** The aims: 0.5 ms after 10 s, 1 ppm after 60 s. */
    private static final double OFFSET_S = 0.5e-3;

    private static final double SKEW_PPM = 1;

    /** The share of the lines that has to reach an aim, where not all do. */
    private static final double MOST_LINES = 0.95;

    private static ClockErrors errors(ClockErrors.Kind kind, double afterS) {
        ClockErrors errors = ClockErrors.of(kind, 0, LINES, afterS);
        System.out.println("ClockTracker, " + kind + ", " + afterS + " s: " + errors);
        return errors;
    }

    private static void assertHonest(ClockErrors errors) {
        assertTrue(errors.held() >= ClockErrors.COVERAGE, errors.toString());
    }

    @ParameterizedTest
    @CsvSource({
        "UNIFORM, false",
        "UNIFORM, true",
        "EXPONENTIAL, false",
        "TIMER_16_MS, true",
        "BURSTS, false"
    })
    void pingsGiveHalfAMillisecondAfterTenSecondsAndOnePpmAfterSixty(
            SimulatedLine.Delay delay, boolean resonator) {
        ClockErrors.Kind kind =
                new ClockErrors.Kind(delay, SimulatedLine.Pings.FOUR, resonator, false);
        ClockErrors early = errors(kind, 10.5);
        assertTrue(at(early.offsetS, 1) <= OFFSET_S, early.toString());
        assertHonest(early);
        ClockErrors late = errors(kind, 60.5);
        assertTrue(at(late.skewPpm, MOST_LINES) <= SKEW_PPM, late.toString());
        assertTrue(at(late.offsetS, 1) <= OFFSET_S, late.toString());
        assertHonest(late);
        // A bracket is half the shortest round trip wide: 2 ms at most on these lines.
        double widestS = 1.2e-3;
        assertTrue(at(late.statedOffsetS, 0.5) <= widestS, late.toString());
    }

    @ParameterizedTest
    @CsvSource({"UNIFORM", "EXPONENTIAL", "BURSTS"})
    void withoutPingsOnlyTheConstantDelayStaysUnknown(SimulatedLine.Delay delay) {
        ClockErrors.Kind kind = new ClockErrors.Kind(delay, SimulatedLine.Pings.NONE, false, false);
        ClockErrors early = errors(kind, 10.5);
        // A host that looks away for most of the ten seconds leaves nothing to go by.
        double share = delay == SimulatedLine.Delay.BURSTS ? MOST_LINES : 1;
        assertTrue(at(early.offsetS, share) <= OFFSET_S, early.toString());
        assertHonest(early);
        ClockErrors late = errors(kind, 60.5);
        assertTrue(at(late.skewPpm, MOST_LINES) <= SKEW_PPM, late.toString());
        assertHonest(late);
        double absurd = 10;
        assertTrue(at(late.statedSkewPpm, 0.5) <= absurd * at(late.skewPpm, 0.5), late.toString());
    }

    /** Every kind but the one where delays slide along with the frames and nothing shows it. */
    static List<ClockErrors.Kind> kindsThatShow() {
        return ClockTable.kinds().stream()
                .filter(
                        k ->
                                k.delay() != SimulatedLine.Delay.LOCKED
                                        || k.pings() != SimulatedLine.Pings.NONE)
                .toList();
    }

    /**
     * The stated widths hold on fewer lines of each kind, but of all kinds: with 40 lines at the
     * promised 95 %, fewer than 34 hold once in four hundred kinds.
     */
    @ParameterizedTest
    @MethodSource("kindsThatShow")
    void statedWidthsHoldTheTruthOnEveryKindOfLine(ClockErrors.Kind kind) {
        int lines = 40;
        double least = 34.0 / lines;
        for (double afterS : new double[] {10.5, 60.5}) {
            ClockErrors errors = ClockErrors.of(kind, 1000, lines, afterS);
            assertTrue(errors.held() >= least, kind + ", " + kind.pings() + ": " + errors);
        }
    }

    @Test
    void noStepIsToldInHoursOfOrdinaryLateness() {
        for (ClockErrors.Kind kind : ClockTable.kinds()) {
            int[] steps = {0};
            ClockTable.run(kind, 2000, 0.25, steps);
            assertEquals(0, steps[0], kind + ", " + kind.pings());
        }
    }
}
