package tickover.dsp;

/**
 * Weights that taper a frame of samples before it is transformed, as sums of cosines.
 *
 * <p>Two lengths exist and differ: {@link #periodic} for spectra (the frame repeats after n
 * samples), {@link #symmetric} for filters (first and last weight equal). All weights are at most 1
 * in the middle.
 *
 * <p>Correct scaling needs two figures of the very weights that were used: {@link #coherentGain}
 * turns a bin into the amplitude of a line, {@link #enbwBins} turns bin power into noise power per
 * bin.
 */
public enum Window {
    /** No taper: {@code 1}. */
    RECTANGULAR(1, 0, 0, 0, 0),
    /** {@code 0.5 - 0.5 cos}: main lobe 4 bins wide, side lobes falling 18 dB per octave. */
    HANN(0.5, 0.5, 0, 0, 0),
    /** {@code 0.54 - 0.46 cos}. */
    HAMMING(0.54, 0.46, 0, 0, 0),
    /** Four terms, main lobe 8 bins wide, side lobes below -92 dB of the main lobe. */
    BLACKMAN_HARRIS(0.35875, 0.48829, 0.14128, 0.01168, 0),
    /** Five terms, reads a line anywhere between two bins within 0.02 dB. */
    FLAT_TOP(0.21557895, 0.41663158, 0.277263158, 0.083578947, 0.006947368);

    private final double a0;
    private final double a1;
    private final double a2;
    private final double a3;
    private final double a4;

    Window(double a0, double a1, double a2, double a3, double a4) {
        this.a0 = a0;
        this.a1 = a1;
        this.a2 = a2;
        this.a3 = a3;
        this.a4 = a4;
    }

    /**
     * Weights of period {@code n}: {@code sum over m of (-1)^m a[m] cos(2 pi m i / n)}.
     *
     * @param n weights, &gt;= 1
     * @return a new array
     */
    public double[] periodic(int n) {
        return weights(n, n);
    }

    /**
     * Weights that read the same backwards: {@code sum over m of (-1)^m a[m] cos(2 pi m i / (n -
     * 1))}.
     *
     * @param n weights, &gt;= 1
     * @return a new array
     */
    public double[] symmetric(int n) {
        return weights(n, n - 1);
    }

    private double[] weights(int n, int period) {
        if (!(n >= 1)) {
            throw new IllegalArgumentException("n=" + n + ", need >= 1 weight");
        }
        double[] weights = new double[n];
        boolean twoTerms = a2 == 0 && a3 == 0 && a4 == 0;
        for (int i = 0; i < n; i++) {
            double angle = period == 0 ? Math.PI : 2 * Math.PI * i / period;
            if (twoTerms) {
                weights[i] = a0 - a1 * Math.cos(angle);
                continue;
            }
            weights[i] =
                    a0
                            - a1 * Math.cos(angle)
                            + a2 * Math.cos(2 * angle)
                            - a3 * Math.cos(3 * angle)
                            + a4 * Math.cos(4 * angle);
        }
        return weights;
    }

    /**
     * The transform of the window about its middle, for weights at the middles of {@code n} even
     * steps of one period: {@code sum over i of w[i] cos(2 pi bins (i - (n-1)/2) / n)}.
     *
     * @param bins frequency in bins, 1/n of the sample rate; need not be whole
     * @param n weights, &gt;= 1
     * @return the sum; real, for such weights are symmetric
     */
    public double centredResponse(double bins, int n) {
        return a0 * dirichlet(bins, n)
                + a1 / 2 * (dirichlet(bins - 1, n) + dirichlet(bins + 1, n))
                + a2 / 2 * (dirichlet(bins - 2, n) + dirichlet(bins + 2, n))
                + a3 / 2 * (dirichlet(bins - 3, n) + dirichlet(bins + 3, n))
                + a4 / 2 * (dirichlet(bins - 4, n) + dirichlet(bins + 4, n));
    }

    private static double dirichlet(double bins, int n) {
        double below = Math.sin(Math.PI * bins / n);
        if (Math.abs(below) < 1e-12) {
            long periods = Math.round(bins / n);
            return periods % 2 != 0 && n % 2 == 0 ? -n : n;
        }
        return Math.sin(Math.PI * bins) / below;
    }

    /**
     * The mean weight: a line of amplitude A gives a bin of magnitude {@code A n gain / 2}.
     *
     * @param weights the weights that were used
     * @return mean of the weights
     */
    public static double coherentGain(double[] weights) {
        return Statistics.mean(weights);
    }

    /**
     * The equivalent noise bandwidth: how many bins wide a rectangle would let as much noise
     * through.
     *
     * @param weights the weights that were used
     * @return {@code n sum(w²) / sum(w)²}, bins, &gt;= 1
     */
    public static double enbwBins(double[] weights) {
        double mean = Statistics.mean(weights);
        return Statistics.meanSquare(weights) / (mean * mean);
    }
}
