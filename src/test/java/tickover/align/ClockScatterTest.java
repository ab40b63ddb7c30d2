package tickover.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tickover.unit.HostNanos;

/** Lines whose messages are seldom in time. */
class ClockScatterTest {
    private static final double TICK_HZ = 1e6;
    private static final double EVERY_S = 0.037;

    /** Feeds a line from one time to another; returns when a step was told, or 0. */
    private static double feed(
            ClockTracker tracker, SplittableRandom random, double fromS, double toS, double stepS) {
        for (double t = fromS; t < toS; t += EVERY_S) {
            double delayS = 0.016 * random.nextDouble() + 0.02 * random.nextDouble();
            HostNanos at = new HostNanos(Math.round(1e9 * (t + stepS + delayS)));
            if (tracker.arrival(Math.round(t * TICK_HZ), at)) {
                return t;
            }
        }
        return 0;
    }

    /**
     * Two delays in a row leave one message in twenty within 6 ms of the shortest: some four
     * seconds without one happen every half hour.
     */
    @Test
    void aRowOfLateMessagesIsNoStepWhereMostAreLate() {
        ClockTracker tracker = new ClockTracker(TICK_HZ);
        double hours = 6;
        assertEquals(0, feed(tracker, new SplittableRandom(11), 0, 3600 * hours, 0));
    }

    @Test
    void aTrueStepIsStillToldWithinAMinute() {
        ClockTracker tracker = new ClockTracker(TICK_HZ);
        SplittableRandom random = new SplittableRandom(12);
        assertEquals(0, feed(tracker, random, 0, 300, 0));
        double toldS = feed(tracker, random, 300, 360, 0.5);
        assertTrue(toldS > 300 && toldS < 360, "told at " + toldS + " s");
    }
}
