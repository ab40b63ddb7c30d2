package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class OffGridTransformTest {
    /**
     * Relative to the sum of magnitudes: what the kernel's tail leaves, with room for round-off.
     */
    private static final double TOLERANCE = 1e-13;

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 31, 64, 1000, 1365, 1366, 4097, 10922})
    void valuesBetweenBinsAreThoseOfThePlainSum(int length) {
        Random random = new Random(length);
        double[] x = new double[length];
        Arrays.setAll(x, i -> random.nextGaussian());
        double sum = Arrays.stream(x).map(Math::abs).sum();
        OffGridTransform transform = new OffGridTransform(length);
        OffGridTransform.Spectrum spectrum = transform.of(x);
        for (double f : new double[] {0, 1e-5, 0.01, 0.1234567, 0.25, 0.4999, 0.5}) {
            double squared = spectrum.squared(transform.between(f));
            assertEquals(plain(x, f), Math.sqrt(squared) / sum, TOLERANCE, "at " + f);
        }
    }

    private static double plain(double[] x, double f) {
        double re = 0;
        double im = 0;
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            double angle = 2 * Math.PI * f * (i - x.length / 2);
            re += x[i] * Math.cos(angle);
            im += x[i] * Math.sin(angle);
            sum += Math.abs(x[i]);
        }
        return Math.hypot(re, im) / sum;
    }

    @Test
    void frequenciesAboveHalfTheSampleRateAreRefused() {
        OffGridTransform transform = new OffGridTransform(10);
        assertThrows(IllegalArgumentException.class, () -> transform.between(0.51));
        assertThrows(IllegalArgumentException.class, () -> transform.between(-0.01));
        assertThrows(IllegalArgumentException.class, () -> transform.of(new double[9]));
    }
}
