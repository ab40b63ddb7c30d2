package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.diagnose.LiveAnalysis;

class FallPaceTest {
    private static final double ROWS_PER_S = LiveAnalysis.ROWS_PER_S;

    /** A usual screen's. */
    private static final double FRAMES_PER_S = 60;

    /** A screen's frames come this much earlier or later than they should. */
    private static final double LATE_S = 0.006;

    private static long ns(double timeS) {
        return Math.round(1e9 * timeS);
    }

    @Test
    void rowsThatComeTenTimesASecondAreShownOneByOne() {
        Random late = new Random(4);
        FallPace pace = new FallPace();
        long shown = 0;
        int moved = 0;
        long most = 0;
        double lengthS = 20;
        double settledS = 5;
        for (double t = 0; t < lengthS; t += 1 / FRAMES_PER_S) {
            long known = (long) (Math.floor(t * 10) / 10 * ROWS_PER_S);
            double at = t + LATE_S * late.nextDouble();
            long now = pace.upTo(known, ROWS_PER_S, ns(at));
            assertTrue(now >= shown && now <= known);
            if (t > settledS) {
                moved += now > shown ? 1 : 0;
                most = Math.max(most, now - shown);
            }
            shown = now;
        }
        double perS = moved / (lengthS - settledS);
        // Every row has a frame of its own; one may fall to either end.
        double endRows = 1.5;
        assertEquals(ROWS_PER_S, perS, endRows / (lengthS - settledS));
        assertEquals(1, most, "rows at once");
    }

    @Test
    void everyRowIsShownWithinAFewTenthsOfASecond() {
        FallPace pace = new FallPace();
        long shown = 0;
        for (double t = 0; t < 20; t += 1 / FRAMES_PER_S) {
            long known = (long) (Math.floor(t * 10) / 10 * ROWS_PER_S);
            shown = pace.upTo(known, ROWS_PER_S, ns(t));
            assertTrue(known - shown <= 0.3 * ROWS_PER_S, known + " known, " + shown + " shown");
        }
    }

    @Test
    void standstillIsMadeUpAtOnceAndANewBeginIsFollowed() {
        FallPace pace = new FallPace();
        pace.upTo(1, ROWS_PER_S, ns(0));
        assertTrue(pace.upTo(500, ROWS_PER_S, ns(20)) >= 495);
        assertEquals(0, pace.upTo(2, ROWS_PER_S, ns(20.1)));
        assertTrue(pace.upTo(4, ROWS_PER_S, ns(20.3)) >= 2);
    }
}
