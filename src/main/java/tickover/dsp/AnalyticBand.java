package tickover.dsp;

/**
 * The analytic signal of one frequency band at a rate of its own, from {@link
 * RecordSpectrum#analyticBand}.
 */
public final class AnalyticBand {
    private final double rateHz;
    private final double originHz;
    private final int count;
    private final double[] values;

    AnalyticBand(double rateHz, double originHz, int count, double[] values) {
        this.rateHz = rateHz;
        this.originHz = originHz;
        this.count = count;
        this.values = values;
    }

    /**
     * Returns the rate of the values.
     *
     * @return Hz
     */
    public double rateHz() {
        return rateHz;
    }

    /**
     * Returns the frequency that was shifted to zero.
     *
     * @return Hz
     */
    public double originHz() {
        return originHz;
    }

    /**
     * Returns the number of complex values over the time of the record.
     *
     * @return values
     */
    public int count() {
        return count;
    }

    /**
     * Returns the values, shared and read-only: real part of value i at {@code 2 i}, imaginary part
     * at {@code 2 i + 1}; there may be more than {@link #count}.
     *
     * @return unit of the samples
     */
    public double[] interleaved() {
        return values;
    }
}
