package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class FallPaceTest {
    private static final double ROWS_PER_S = 25;
    private static final double FRAMES_PER_S = 30;

    private static long ns(double timeS) {
        return Math.round(1e9 * timeS);
    }

    @Test
    void rowsThatComeTenTimesASecondAreShownInTwentyFourFramesASecondOrMore() {
        FallPace pace = new FallPace();
        long shown = 0;
        int moved = 0;
        long most = 0;
        double lengthS = 20;
        double settledS = 5;
        for (double t = 0; t < lengthS; t += 1 / FRAMES_PER_S) {
            long known = (long) (Math.floor(t * 10) / 10 * ROWS_PER_S);
            long now = pace.upTo(known, ROWS_PER_S, ns(t));
            assertTrue(now >= shown && now <= known);
            if (t > settledS) {
                moved += now > shown ? 1 : 0;
                most = Math.max(most, now - shown);
            }
            shown = now;
        }
        double perS = moved / (lengthS - settledS);
        assertTrue(perS >= 24, perS + " frames/s"); // two rows in a frame now and then
        assertTrue(most <= 2, most + " rows at once");
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
