package tickover.dsp;

/**
 * The squared envelope of one frequency band, at a rate of its own that the band needs.
 *
 * <p>For {@code A cos(w t)} inside the band every value is {@code A²}; in general it is the squared
 * magnitude of the band's analytic signal.
 *
 * <p>The band is cut with sharp edges out of the transform of the whole record, so inside the
 * record it is exact; within a few periods of the bandwidth from either end of the record, and
 * around a tone that sits on an edge of the band, it rings. The rate is at least twice the
 * bandwidth, so the squared envelope, which is as wide as the band, does not fold.
 */
public final class BandEnvelope {
    private final double rateHz;
    private final double[] valuesSquared;

    BandEnvelope(double rateHz, double[] valuesSquared) {
        this.rateHz = rateHz;
        this.valuesSquared = valuesSquared;
    }

    /**
     * The squared envelope of one band. For many bands of one record transform it once, with {@link
     * RecordSpectrum}.
     *
     * @param x samples, at least 2
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param loHz lower edge, Hz, &gt;= 0
     * @param hiHz upper edge, Hz, above the lower one and at most half the sample rate
     * @return the envelope over the time of the record
     */
    public static BandEnvelope squared(double[] x, double sampleRateHz, double loHz, double hiHz) {
        return RecordSpectrum.of(x, sampleRateHz).squaredEnvelope(loHz, hiHz);
    }

    /**
     * Returns the rate of the values; value i belongs to time {@code i / rateHz}.
     *
     * @return Hz
     */
    public double rateHz() {
        return rateHz;
    }

    /**
     * Returns the squared envelope, shared and read-only.
     *
     * @return unit of the samples squared, for acceleration (m/s²)²
     */
    public double[] valuesSquared() {
        return valuesSquared;
    }
}
