package tickover.dsp;

import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Discrete Fourier transform of real samples.
 *
 * <p>Convention: {@code X[k] = sum over i of x[i] exp(-j 2 pi i k / n)}, unscaled, one-sided: bins
 * {@code 0 … n/2}. The inverse carries the factor 1/n, so {@code inverse(forward(x))} is {@code x}.
 *
 * <p>Accuracy: round-off, about 1e-15 of the largest bin. Cost: O(n log n), fastest by far when n
 * is a power of two ({@link #goodSize}); allocates nothing after construction when it is one.
 * Thread: one per instance.
 */
public final class RealFft {
    private final int n;
    private final DoubleFFT_1D transform;
    private final double[] packed;

    /**
     * Prepares a transform.
     *
     * @param n samples, &gt;= 2
     */
    public RealFft(int n) {
        if (!(n >= 2)) {
            throw new IllegalArgumentException("n=" + n + ", need >= 2 samples");
        }
        this.n = n;
        this.transform = Transforms.ofSize(n);
        this.packed = new double[n];
    }

    /**
     * Returns the smallest size that transforms fast and holds that many samples.
     *
     * <p>A power of two: with the transform used here it is two to three times as fast per sample
     * as any other size, so that even padding to nearly twice the length does not lose.
     *
     * @param atLeast samples to hold, 1 to 2^30
     * @return a power of two, &gt;= 2
     */
    public static int goodSize(int atLeast) {
        if (!(atLeast >= 1 && atLeast <= 1 << 30)) {
            throw new IllegalArgumentException("atLeast=" + atLeast + ", need 1 to 2^30 samples");
        }
        int size = 2;
        while (size < atLeast) {
            size *= 2;
        }
        return size;
    }

    /**
     * Returns the number of samples.
     *
     * @return samples
     */
    public int n() {
        return n;
    }

    /**
     * Returns the number of one-sided bins.
     *
     * @return n/2 + 1
     */
    public int bins() {
        return n / 2 + 1;
    }

    /**
     * Transforms {@code n} samples.
     *
     * @param x samples, the first {@code n} are read
     * @param re real parts of bins 0 … n/2, written
     * @param im imaginary parts of bins 0 … n/2, written
     */
    public void forward(double[] x, double[] re, double[] im) {
        Transforms.requireLength(x, n, "x");
        Transforms.requireLength(re, bins(), "re");
        Transforms.requireLength(im, bins(), "im");
        System.arraycopy(x, 0, packed, 0, n);
        transform.realForward(packed);
        re[0] = packed[0];
        im[0] = 0;
        int whole = (n - 1) / 2;
        if (n % 2 == 0) {
            re[n / 2] = packed[1];
            im[n / 2] = 0;
            for (int k = 1; k <= whole; k++) {
                re[k] = packed[2 * k];
                im[k] = packed[2 * k + 1];
            }
        } else {
            for (int k = 1; k <= whole; k++) {
                re[k] = packed[2 * k];
                im[k] = k == whole ? packed[1] : packed[2 * k + 1];
            }
        }
    }

    /**
     * Squared magnitudes of the transform of weighted samples.
     *
     * @param x samples
     * @param from first of the {@code n} samples that are read
     * @param weights weight of each of them
     * @param squares {@code |X[k]|²} of bins 0 … n/2, written
     */
    public void squares(double[] x, int from, double[] weights, double[] squares) {
        Transforms.requireLength(x, from + n, "x");
        Transforms.requireLength(weights, n, "weights");
        Transforms.requireLength(squares, bins(), "squares");
        for (int i = 0; i < n; i++) {
            packed[i] = weights[i] * x[from + i];
        }
        transform.realForward(packed);
        squares[0] = packed[0] * packed[0];
        int last = n / 2;
        for (int k = 1; k < last; k++) {
            double re = packed[2 * k];
            double im = packed[2 * k + 1];
            squares[k] = re * re + im * im;
        }
        double re = n % 2 == 0 ? 0 : packed[n - 1];
        squares[last] = re * re + packed[1] * packed[1];
    }

    /**
     * Magnitudes of the transform of weighted samples: square roots of {@link #squares}.
     *
     * @param x samples
     * @param from first of the {@code n} samples that are read
     * @param weights weight of each of them
     * @param magnitudes {@code |X[k]|} of bins 0 … n/2, written
     */
    public void magnitudes(double[] x, int from, double[] weights, double[] magnitudes) {
        squares(x, from, weights, magnitudes);
        for (int k = 0; k < bins(); k++) {
            magnitudes[k] = Math.sqrt(magnitudes[k]);
        }
    }

    /**
     * Transforms samples in place. Afterwards the real part of bin k stands at {@code 2 k} and the
     * imaginary part at {@code 2 k + 1}, for 0 &lt; k &lt; floor(n/2); the other places are for
     * {@link #forward} to know.
     */
    void forwardInPlace(double[] values) {
        transform.realForward(values);
    }

    /**
     * Transforms one-sided bins back to samples. The imaginary parts of bin 0 and, for even {@code
     * n}, of bin n/2 are taken as zero.
     *
     * @param re real parts of bins 0 … n/2
     * @param im imaginary parts of bins 0 … n/2
     * @param x samples, the first {@code n} are written
     */
    public void inverse(double[] re, double[] im, double[] x) {
        Transforms.requireLength(re, bins(), "re");
        Transforms.requireLength(im, bins(), "im");
        Transforms.requireLength(x, n, "x");
        packed[0] = re[0];
        int whole = (n - 1) / 2;
        if (n % 2 == 0) {
            packed[1] = re[n / 2];
            for (int k = 1; k <= whole; k++) {
                packed[2 * k] = re[k];
                packed[2 * k + 1] = im[k];
            }
        } else {
            for (int k = 1; k <= whole; k++) {
                packed[2 * k] = re[k];
                packed[k == whole ? 1 : 2 * k + 1] = im[k];
            }
        }
        transform.realInverse(packed, true);
        System.arraycopy(packed, 0, x, 0, n);
    }
}
