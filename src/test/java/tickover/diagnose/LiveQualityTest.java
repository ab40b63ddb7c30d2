package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.dsp.AllocationMeter;

/** What is wrong with the signal just now. */
class LiveQualityTest {
    private static final double RATE_HZ = 3200;
    private static final double RANGE_MPS2 = 40;
    private final Random random = new Random(6);
    private final LiveQuality quality = new LiveQuality(1, RATE_HZ, RANGE_MPS2);

    private void feel(double rms, double lengthS) {
        double[] x = new double[(int) (lengthS * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            double v = rms * random.nextGaussian();
            x[i] = Math.max(-RANGE_MPS2, Math.min(RANGE_MPS2, v));
        }
        for (int from = 0; from < x.length; from += 37) {
            quality.accept(x, from, Math.min(37, x.length - from), false);
        }
    }

    @Test
    void aSoundSignalHasNothingWrong() {
        feel(2, 10);
        assertFalse(quality.isClipped() || quality.isLifted() || quality.isFlat());
    }

    @Test
    void theEndOfTheRangeIsClippingUntilItIsOver() {
        feel(2, 3);
        feel(30, 0.3);
        assertTrue(quality.isClipped());
        feel(2, 1);
        assertFalse(quality.isClipped());
    }

    @Test
    void aLiftedProbeIsToldAndAPressedOneNot() {
        feel(2, 5);
        feel(0.02, 0.5);
        assertTrue(quality.isLifted());
        feel(1.5, 0.5);
        assertFalse(quality.isLifted());
    }

    @Test
    void aStillSignalIsFlat() {
        feel(2, 2);
        quality.accept(new double[(int) RATE_HZ], 0, (int) RATE_HZ, false);
        assertTrue(quality.isFlat());
    }

    @Test
    void theProbesOwnMarkCountsWhereTheRangeIsNotKnown() {
        LiveQuality unknown = new LiveQuality(1, RATE_HZ, 0);
        unknown.accept(new double[400], 0, 400, true);
        assertTrue(unknown.isClipped());
    }

    @Test
    void nothingIsAllocatedWhenWarm() {
        double[] x = new double[400];
        assertEquals(0, AllocationMeter.bytesOf(() -> quality.accept(x, 0, 400, false)));
    }
}
