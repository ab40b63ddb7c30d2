package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.dsp.AllocationMeter;

/** Crank angle from edges and readings as they come. */
class LiveAngleTest {
    private static final double RATE_HZ = 25_600;
    private static final double TURN_SAMPLES = RATE_HZ * 60 / 800;

    private int pieces;
    private int freshPieces;
    private double endTurns = Double.NaN;
    private double endSamples;

    private LiveAngle angle(double edgesPerTurn, int edgesPerMark) {
        return new LiveAngle(
                new LiveAngle.Spec(RATE_HZ, edgesPerTurn, edgesPerMark),
                (fresh, start, end, turns, slope, bend) -> {
                    pieces++;
                    freshPieces += fresh ? 1 : 0;
                    if (!fresh) {
                        assertEquals(endSamples, start);
                        // Round-off of angles of some hundred turns.
                        assertEquals(endTurns, turns, 1e-9);
                    }
                    double x = end - start;
                    endTurns = turns + (slope + bend * x) * x;
                    endSamples = end;
                });
    }

    @Test
    void twoEdgesAreNoSpeedYet() {
        LiveAngle angle = angle(1, 1);
        assertFalse(angle.hasSpeed());
        angle.edge(0, 0);
        angle.edge(TURN_SAMPLES, 0);
        assertFalse(angle.hasSpeed());
        angle.edge(2 * TURN_SAMPLES, 0);
        assertTrue(angle.hasSpeed());
        assertEquals(800.0 / 60, angle.speedHz(), 1e-9);
        assertTrue(angle.errorTurns(16).isEmpty());
    }

    @Test
    void missedEdgesAreCountedIn() {
        LiveAngle angle = angle(1, 1);
        for (int i = 0; i < 40; i++) {
            if (i != 10 && i != 21 && i != 22) {
                angle.edge(i * TURN_SAMPLES, 0);
            }
        }
        assertEquals(3, angle.missed());
        assertEquals(1, freshPieces);
        assertEquals(39, endTurns - 1, 1e-9);
    }

    @Test
    void doubledEdgesAreLeftOut() {
        LiveAngle angle = angle(1, 1);
        for (int i = 0; i < 40; i++) {
            angle.edge(i * TURN_SAMPLES, 0);
            if (i == 17) {
                angle.edge(i * TURN_SAMPLES + 0.1 * TURN_SAMPLES, 0);
            }
        }
        assertEquals(1, angle.doubled());
        assertEquals(1, freshPieces);
        assertEquals(39, endTurns - 1, 1e-9);
    }

    @Test
    void aFalseEdgeAtTheStartDoesNotLast() {
        LiveAngle angle = angle(1, 1);
        angle.edge(0, 0);
        angle.edge(TURN_SAMPLES / 3, 0);
        for (int i = 1; i < 20; i++) {
            angle.edge(i * TURN_SAMPLES, 0);
        }
        assertEquals(800.0 / 60, angle.speedHz(), 1e-9);
    }

    @Test
    void unequalMarksDoNotMatter() {
        double[] marks = {0, 0.2, 0.55};
        LiveAngle angle = angle(3, 3);
        for (int i = 0; i < 30; i++) {
            for (double mark : marks) {
                angle.edge((i + mark) * TURN_SAMPLES, 0);
            }
        }
        assertEquals(1, freshPieces);
        assertEquals(28, pieces + 0.0, 1);
        assertEquals(800.0 / 60, angle.speedHz(), 1e-9);
    }

    @Test
    void aStandstillBreaksTheAngle() {
        LiveAngle angle = angle(1, 1);
        for (int i = 0; i < 10; i++) {
            angle.edge(i * TURN_SAMPLES, 0);
        }
        for (int i = 0; i < 10; i++) {
            angle.edge((i + 60) * TURN_SAMPLES, 0);
        }
        assertEquals(2, freshPieces);
        assertEquals(1, angle.breaks());
    }

    @Test
    void theStatedErrorIsTheJitter() {
        double jitterSamples = 250e-6 * RATE_HZ;
        Random random = new Random(5);
        LiveAngle angle = angle(1, 1);
        for (int i = 0; i < 2000; i++) {
            angle.edge(i * TURN_SAMPLES + jitterSamples * random.nextGaussian(), 0);
        }
        double error = angle.errorTurns(16).orElseThrow() * TURN_SAMPLES;
        // A mean over some 31 correlated squares: a quarter off is two of its standard errors.
        assertEquals(jitterSamples, error, 0.35 * jitterSamples);
        // 250 µs at 800 rpm: 1 dB is lost where 2 pi O 250e-6 800/60 = 0.48, order 22.9.
        assertEquals(22.9, angle.sharpOrders(16).orElseThrow(), 0.5 * 22.9);
    }

    @Test
    void readingsGiveAnAngleToo() {
        LiveAngle angle = angle(1, 1);
        for (int i = 0; i < 50; i++) {
            angle.reading(i * 0.25 * RATE_HZ, 800 + (i % 2));
        }
        assertTrue(angle.hasSpeed());
        // 49 quarters of a second at a mean of 800.5 rpm.
        assertEquals(49 * 0.25 * 800.5 / 60, endTurns - 1, 1e-6);
        assertTrue(angle.sharpOrders(16).orElseThrow() < 1000);
    }

    @Test
    void edgesAllocateNothingWhenWarm() {
        LiveAngle angle = angle(1, 1);
        double[] at = {0};
        assertEquals(
                0,
                AllocationMeter.bytesOf(
                        () -> {
                            for (int i = 0; i < 100; i++) {
                                at[0] += TURN_SAMPLES;
                                angle.edge(at[0], 0);
                            }
                        }));
    }
}
