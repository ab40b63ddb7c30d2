package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Laws of the kernels, under the seeds that each test names. */
class DspPropertyTest {
    /** Round-off of a transform of up to a few thousand numbers near one. */
    private static final double ROUND_OFF = 1e-11;

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 8, 15, 100, 127, 1024, 4800})
    void inverseUndoesForward(int n) {
        double[] x = noise(n, 1);
        RealFft fft = new RealFft(n);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        double[] back = new double[n];
        fft.forward(x, re, im);
        fft.inverse(re, im, back);
        assertArrayEquals(x, back, ROUND_OFF);
    }

    @ParameterizedTest
    @ValueSource(ints = {8, 15, 100, 1024})
    void energyIsTheSameInTimeAndFrequency(int n) {
        double[] x = noise(n, 2);
        RealFft fft = new RealFft(n);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(x, re, im);
        double sum = 0;
        for (int k = 0; k < re.length; k++) {
            boolean alone = k == 0 || 2 * k == n;
            sum += (alone ? 1 : 2) * (re[k] * re[k] + im[k] * im[k]);
        }
        assertEquals(Statistics.meanSquare(x), sum / n / n, ROUND_OFF);
    }

    @ParameterizedTest
    @ValueSource(longs = {3, 4, 5})
    void transformIsLinear(long seed) {
        int n = 240;
        double[] x = noise(n, seed);
        double[] y = noise(n, seed + 100);
        double[] sum = new double[n];
        for (int i = 0; i < n; i++) {
            sum[i] = 2 * x[i] - 3 * y[i];
        }
        RealFft fft = new RealFft(n);
        double[][] xs = new double[2][fft.bins()];
        double[][] ys = new double[2][fft.bins()];
        double[][] sums = new double[2][fft.bins()];
        fft.forward(x, xs[0], xs[1]);
        fft.forward(y, ys[0], ys[1]);
        fft.forward(sum, sums[0], sums[1]);
        for (int k = 0; k < fft.bins(); k++) {
            assertEquals(2 * xs[0][k] - 3 * ys[0][k], sums[0][k], ROUND_OFF * n);
            assertEquals(2 * xs[1][k] - 3 * ys[1][k], sums[1][k], ROUND_OFF * n);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 100})
    void shiftTurnsEachBinByItsAngle(int shift) {
        int n = 128;
        double[] x = noise(n, 6);
        double[] shifted = new double[n];
        for (int i = 0; i < n; i++) {
            shifted[(i + shift) % n] = x[i];
        }
        RealFft fft = new RealFft(n);
        double[][] a = new double[2][fft.bins()];
        double[][] b = new double[2][fft.bins()];
        fft.forward(x, a[0], a[1]);
        fft.forward(shifted, b[0], b[1]);
        for (int k = 0; k < fft.bins(); k++) {
            double turn = -2 * Math.PI * k * shift / n;
            double re = a[0][k] * Math.cos(turn) - a[1][k] * Math.sin(turn);
            double im = a[0][k] * Math.sin(turn) + a[1][k] * Math.cos(turn);
            assertEquals(0, Math.hypot(re - b[0][k], im - b[1][k]), ROUND_OFF * n);
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {7, 8, 9})
    void decimatorGivesTheSameBitsForAnyBlocks(long seed) {
        Random random = new Random(seed);
        double[] x = noise(1000, seed);
        double[] taps = FirDesign.design(FirDesign.Spec.lowPass(0.1, 0.1, 60));
        int factor = 1 + random.nextInt(5);
        FirDecimator whole = new FirDecimator(taps, factor);
        double[] expected = new double[whole.maxOutput(x.length)];
        int expectedCount = whole.process(x, 0, x.length, expected, 0);
        FirDecimator parts = new FirDecimator(taps, factor);
        double[] actual = new double[expected.length];
        int count = 0;
        for (int from = 0; from < x.length; ) {
            int block = Math.min(x.length - from, random.nextInt(70));
            count += parts.process(x, from, block, actual, count);
            from += block;
        }
        assertEquals(expectedCount, count);
        assertArrayEquals(expected, actual, 0);
    }

    @ParameterizedTest
    @ValueSource(doubles = {300, 777.7, 1234})
    void squaredEnvelopeOfAToneIsItsSquaredAmplitudeAndItsRateCoversTheBand(double toneHz) {
        double rateHz = 5000;
        double[] x = new double[20_000];
        for (int i = 0; i < x.length; i++) {
            x[i] = 3 * Math.cos(2 * Math.PI * toneHz * i / rateHz + 0.4);
        }
        BandEnvelope envelope = BandEnvelope.squared(x, rateHz, toneHz - 150, toneHz + 150);
        double[] middle =
                Arrays.copyOfRange(
                        envelope.valuesSquared(),
                        envelope.valuesSquared().length / 4,
                        3 * envelope.valuesSquared().length / 4);
        // The record's ends ring in the padded transform; a second inside, 150 Hz from the edges
        // of the band, 1/(pi 150 s) of the amplitude is left at most, twice that of the square.
        double ringing = 9 * 4 / (Math.PI * 150);
        for (double v : middle) {
            assertEquals(9, v, ringing);
        }
        assertEquals(true, envelope.rateHz() >= 2 * 300 * 0.99);
        assertEquals(4.0, envelope.valuesSquared().length / envelope.rateHz(), 0.01);
    }

    @ParameterizedTest
    @ValueSource(longs = {10, 11})
    void powerOfTheAveragedSpectrumIsTheMeanSquare(long seed) {
        double[] x = noise(4096, seed);
        Welch welch = Welch.of(x, 50, new Welch.Spec(4096, 4096, Window.RECTANGULAR));
        double sum = 0;
        for (double density : welch.densityPerHz()) {
            sum += density * welch.binHz();
        }
        assertEquals(Statistics.meanSquare(x), sum, ROUND_OFF);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.5, 0.6, -0.1, Double.NaN})
    void rejectsCornerAtOrAboveHalfTheRate(double corner) {
        assertThrows(
                IllegalArgumentException.class, () -> FirDesign.Spec.lowPass(corner, 0.05, 60));
    }

    @ParameterizedTest
    @ValueSource(doubles = {100, 101, Double.NaN})
    void rejectsBandAboveHalfTheRate(double hiHz) {
        double[] x = noise(100, 12);
        assertThrows(IllegalArgumentException.class, () -> BandEnvelope.squared(x, 199, 20, hiHz));
    }

    private static double[] noise(int n, long seed) {
        Random random = new Random(seed);
        double[] x = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = random.nextGaussian();
        }
        return x;
    }
}
