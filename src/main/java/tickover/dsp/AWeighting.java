package tickover.dsp;

import java.util.Arrays;
import java.util.Objects;

/**
 * The level of a sound weighted as the ear weighs it.
 *
 * <p>The A curve of IEC 61672, from memory: R = 12194² f⁴ / ((f² + 20.6²) √((f² + 107.7²)(f² +
 * 737.9²)) (f² + 12194²)), and 2.0 dB on top, so that 1 kHz counts fully.
 */
public final class AWeighting {
    private static final double F1_HZ = 20.598997;
    private static final double F2_HZ = 107.65265;
    private static final double F3_HZ = 737.86223;
    private static final double F4_HZ = 12194.217;
    private static final double GAIN_DB = 2.0;

    private AWeighting() {}

    /**
     * The weight of a frequency.
     *
     * @param hz frequency, Hz, &gt;= 0
     * @return amplitude ratio; 1 at 1 kHz
     */
    public static double gain(double hz) {
        double f = hz * hz;
        double r =
                F4_HZ
                        * F4_HZ
                        * f
                        * f
                        / ((f + F1_HZ * F1_HZ)
                                * Math.sqrt((f + F2_HZ * F2_HZ) * (f + F3_HZ * F3_HZ))
                                * (f + F4_HZ * F4_HZ));
        return r * Math.pow(10, GAIN_DB / 20);
    }

    /**
     * Root mean square of a record after weighting.
     *
     * @param x samples, at least one
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @return rms in the unit of the samples
     */
    public static double rms(double[] x, double sampleRateHz) {
        Objects.requireNonNull(x, "x");
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        int n = RealFft.goodSize(Math.max(2, x.length));
        RealFft fft = new RealFft(n);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(Arrays.copyOf(x, n), re, im);
        double sum = 0;
        for (int k = 1; k < re.length; k++) {
            double gain = gain(k * sampleRateHz / n);
            double sides = 2 * k == n ? 1 : 2;
            sum += sides * gain * gain * (re[k] * re[k] + im[k] * im[k]);
        }
        return Math.sqrt(sum / n / x.length);
    }
}
