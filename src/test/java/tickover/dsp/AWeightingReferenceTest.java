package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** The A curve's printed values in IEC 61672, from memory, one decimal. */
class AWeightingReferenceTest {
    @Test
    void gainsAreThoseOfThePrintedTable() {
        double printed = 0.06;
        assertEquals(0, gainDb(1000), printed);
        assertEquals(-19.1, gainDb(100), printed);
        // The table's 20 Hz is the exact third-octave 10^1.3 Hz.
        assertEquals(-50.5, gainDb(Math.pow(10, 1.3)), printed);
        assertEquals(1.0, gainDb(4000), printed);
        assertEquals(-2.5, gainDb(10_000), printed);
    }

    private static double gainDb(double hz) {
        return 20 * Math.log10(AWeighting.gain(hz));
    }

    /** A whole number of cycles in a power of two: no leakage, so only round-off is left. */
    @Test
    void toneHasItsRmsTimesItsGain() {
        int n = 4096;
        double rateHz = 8192;
        double hz = 250;
        double[] x = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = 2 * Math.sin(2 * Math.PI * hz * i / rateHz);
        }
        assertEquals(Math.sqrt(2) * AWeighting.gain(hz), AWeighting.rms(x, rateHz), 1e-9);
    }
}
