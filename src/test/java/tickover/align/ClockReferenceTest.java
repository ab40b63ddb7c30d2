package tickover.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tickover.unit.HostNanos;

/** Clock arithmetic against values worked out elsewhere. */
class ClockReferenceTest {
    private static final double ROUND_OFF = 1e-12;

    /**
     * Delays of 2, 5.05, 2.1, 3.15 and 2.2 ms at 0 to 4 s: the line under them rises by 0.05 ms/s
     * from 2 ms, while least squares falls by 0.15 ms/s. Worked out by hand after the method of
     * [ZhangLiuXia2002].
     */
    @Test
    void hullUnderFiveDelaysRisesByFiftyPartsPerMillion() {
        double[] delaysMs = {2, 5.05, 2.1, 3.15, 2.2};
        LowerHull hull = new LowerHull(8);
        double products = 0;
        for (int t = 0; t < delaysMs.length; t++) {
            hull.add(t, 1e-3 * delaysMs[t]);
            products += (t - 2) * delaysMs[t];
        }
        double squares = 10;
        assertEquals(-0.15, products / squares, ROUND_OFF);
        assertEquals(50e-6, hull.slopeOver(2), ROUND_OFF);
        assertEquals(2e-3, hull.rise(hull.slopeOver(2), 0), ROUND_OFF);
    }

    /**
     * A ping sent at 0, received at 105, answered at 106, back at 11: the device is 100 ahead, the
     * way there and back took 10. The two formulas are those of [RFC5905], from memory; both bounds
     * follow: the device is ahead by 95 to 105.
     */
    @Test
    void pingBoundsTheOffsetByHalfItsRoundTrip() {
        ClockTracker tracker = new ClockTracker(1000);
        // One ping says nothing of the rate, so the same one comes every 100 ticks.
        for (long k = 0; k < 100; k++) {
            tracker.ping(ms(100 * k), 100 * k + 105, 100 * k + 106, ms(100 * k + 11));
        }
        ClockFit fit = tracker.fit().orElseThrow();
        double hostMs = 1000 * fit.hostSecondsAt(5105) + fit.origin().value() / 1e6;
        double tickMs = 1; // the finest step of this clock
        assertTrue(fit.bracketed());
        assertEquals(5105 - 100, hostMs, 0.1);
        assertEquals(10 / 2.0, 1000 * fit.offsetErrorS(), tickMs);
    }

    private static HostNanos ms(long value) {
        return new HostNanos(1_000_000 * value);
    }
}
