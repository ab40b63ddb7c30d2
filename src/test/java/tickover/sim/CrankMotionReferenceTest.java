package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class CrankMotionReferenceTest {
    /** A shaft at 10 + 5t turns per second; times given to six decimals, solved by hand. */
    @Test
    void reachesTheAnglesOfASteadyRunUpWhenTheClosedFormSays() {
        double[] grid = new double[2001];
        for (int i = 0; i < grid.length; i++) {
            grid[i] = 10 + 5 * i * CrankMotion.STEP_S;
        }
        CrankMotion shaft = new CrankMotion(0, 0, grid, new double[8]);
        double printedS = 0.5e-6;
        assertEquals(0.049390, shaft.timeAt(0.5, 1), printedS);
        assertEquals(0.097618, shaft.timeAt(1, 1), printedS);
        assertEquals(0.144761, shaft.timeAt(1.5, 1), printedS);
        assertEquals(0.190890, shaft.timeAt(2, 1), printedS);
    }

    /** Angle and time are each other's inverse, ripple and hunting included. */
    @Test
    void timeAtUndoesTurnsAt() {
        double[] grid = new double[5001];
        for (int i = 0; i < grid.length; i++) {
            grid[i] = 13 + 0.4 * Math.sin(i * 0.004);
        }
        AngleTable ripple = new AngleTable();
        // Two percent of speed swing at order 2: 0.02 / (2 pi 2) turns.
        ripple.add(4, 0.02 / (4 * Math.PI), 0.1);
        CrankMotion crank = new CrankMotion(-0.5, 0.3, grid, ripple.onePeriod(4096));
        double last = Double.NEGATIVE_INFINITY;
        for (double timeS = 0; timeS < 4; timeS += 0.00137) {
            double turns = crank.turnsAt(timeS);
            assertTrue(turns > last, "angle never runs backwards");
            last = turns;
            // The solver's contraction is 0.02 per round over twelve rounds.
            assertEquals(timeS, crank.timeAt(turns, 1), 1e-9);
        }
    }
}
