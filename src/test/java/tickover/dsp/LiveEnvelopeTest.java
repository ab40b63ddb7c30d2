package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** The squared envelope of a band, live. */
class LiveEnvelopeTest {
    private static final double RATE_HZ = 25_600;

    private static LiveEnvelope band(int axes) {
        return new LiveEnvelope(new LiveEnvelope.Spec(axes, RATE_HZ, 1200, 2400, 65_536));
    }

    private static double[] tone(double hz, double modulationHz, double depth) {
        double[] x = new double[30_000];
        for (int i = 0; i < x.length; i++) {
            double t = i / RATE_HZ;
            double modulation = 1 + depth * Math.cos(2 * Math.PI * modulationHz * t);
            x[i] = modulation * Math.cos(2 * Math.PI * hz * t + 0.3);
        }
        return x;
    }

    @Test
    void aToneInsideReadsItsSquaredAmplitudeAndOneOutsideNothing() {
        LiveEnvelope inside = band(1);
        inside.accept(tone(1800, 0, 0), 0, 30_000);
        // 0.1 dB of a squared amplitude.
        assertEquals(1, inside.mean(10_000, 20_000), 0.023);
        LiveEnvelope outside = band(1);
        outside.accept(tone(700, 0, 0), 0, 30_000);
        // 60 dB down.
        assertEquals(0, outside.mean(10_000, 20_000), 1e-6);
    }

    /** Squared envelope of (1 + m cos Wt) cos wt: mean 1 + m²/2. */
    @Test
    void aModulatedToneHasTheClosedFormsMean() {
        LiveEnvelope band = band(1);
        band.accept(tone(1800, 40, 0.5), 0, 30_000);
        assertEquals(1.125, band.mean(6400, 6400 + 12_800), 0.026);
    }

    /** The peak of a modulation lies where it was in the samples: the delay is taken off. */
    @Test
    void theDelayOfTheFilterIsTakenOff() {
        LiveEnvelope band = band(1);
        band.accept(tone(1800, 20, 1), 0, 30_000);
        double period = RATE_HZ / 20;
        double peak = band.mean(10 * period - 60, 10 * period + 60);
        double dip = band.mean(10.5 * period - 60, 10.5 * period + 60);
        assertEquals(4, peak, 0.2);
        assertEquals(0, dip, 0.02);
    }

    @Test
    void blocksOfAnySizeGiveTheSameToTheLastBit() {
        Random random = new Random(2);
        double[] x = new double[60_000];
        for (int i = 0; i < x.length; i++) {
            x[i] = random.nextGaussian();
        }
        LiveEnvelope whole = band(2);
        whole.accept(x, 0, 30_000);
        LiveEnvelope cut = band(2);
        for (int from = 0; from < 30_000; ) {
            int block = Math.min(1 + random.nextInt(700), 30_000 - from);
            cut.accept(x, from, block);
            from += block;
        }
        assertEquals(whole.endSamples(), cut.endSamples());
        for (double at = 5000; at < 29_000; at += 123.4) {
            assertEquals(whole.mean(at, at + 77.7), cut.mean(at, at + 77.7));
        }
    }

    @Test
    void nothingIsAllocatedWhenWarm() {
        LiveEnvelope band = band(3);
        double[] x = new double[3 * 512];
        assertEquals(0, AllocationMeter.bytesOf(() -> band.accept(x, 0, 512)));
    }
}
