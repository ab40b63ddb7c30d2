package tickover.order;

/** Complex amplitude of one line: {@code x = Re((re + j im) exp(j 2 pi phase))}. */
final class TrackCurve {
    private final int intervalSamples;
    private final double[] re;
    private final double[] im;

    /**
     * Takes the values over.
     *
     * @param intervalSamples samples between knots
     * @param re spline coefficients of the real part, m/s²
     * @param im spline coefficients of the imaginary part, m/s²
     */
    TrackCurve(int intervalSamples, double[] re, double[] im) {
        this.intervalSamples = intervalSamples;
        this.re = re;
        this.im = im;
    }

    int intervalSamples() {
        return intervalSamples;
    }

    double[] re() {
        return re;
    }

    double[] im() {
        return im;
    }

    /**
     * Adds the line's signal for a run of samples.
     *
     * @param from place of the first, counted from the curve's beginning
     * @param cos cosine of the line's phase
     * @param sin sine of it
     * @param out added to, m/s²
     * @param outFrom where the first belongs
     */
    void addTo(
            int from,
            int samples,
            double scale,
            double[] cos,
            double[] sin,
            double[] out,
            int outFrom) {
        double[] a = new double[4];
        double[] b = new double[4];
        double step = 2.0 / intervalSamples;
        for (int i = 0; i < samples; ) {
            int q = (from + i) / intervalSamples;
            int within = from + i - q * intervalSamples;
            int end = Math.min(samples, i + intervalSamples - within);
            SplineBasis.curve(re, q, a);
            SplineBasis.curve(im, q, b);
            for (int k = i; k < end; k++) {
                double v = (within + k - i) * step - 1;
                double real = a[0] + v * (a[1] + v * (a[2] + v * a[3]));
                double imaginary = b[0] + v * (b[1] + v * (b[2] + v * b[3]));
                out[outFrom + k] += scale * (real * cos[k] - imaginary * sin[k]);
            }
            i = end;
        }
    }
}
