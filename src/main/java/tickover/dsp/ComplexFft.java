package tickover.dsp;

import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Discrete Fourier transform of complex values, in place.
 *
 * <p>Values are interleaved: real part of value i at {@code 2 i}, imaginary part at {@code 2 i +
 * 1}. Convention as in {@link RealFft}: forward unscaled with a negative exponent, inverse with the
 * factor 1/n. Thread: one per instance.
 */
public final class ComplexFft {
    private final int n;
    private final DoubleFFT_1D transform;

    /**
     * Prepares a transform.
     *
     * @param n complex values, &gt;= 2
     */
    public ComplexFft(int n) {
        if (!(n >= 2)) {
            throw new IllegalArgumentException("n=" + n + ", need >= 2 values");
        }
        this.n = n;
        this.transform = Transforms.ofSize(n);
    }

    /**
     * Returns the number of complex values.
     *
     * @return values
     */
    public int n() {
        return n;
    }

    /**
     * Replaces values by bins.
     *
     * @param values interleaved, the first {@code 2 n} numbers are replaced
     */
    public void forward(double[] values) {
        Transforms.requireLength(values, 2 * n, "values");
        transform.complexForward(values);
    }

    /**
     * Replaces bins by values.
     *
     * @param values interleaved, the first {@code 2 n} numbers are replaced
     */
    public void inverse(double[] values) {
        Transforms.requireLength(values, 2 * n, "values");
        transform.complexInverse(values, true);
    }
}
