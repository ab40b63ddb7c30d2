package tickover.dsp;

import java.util.Arrays;
import java.util.Objects;

/**
 * The transform of a whole record, kept so that many bands can be cut out of it.
 *
 * <p>{@link #of} pads the record with zeros to a size that transforms fast. Immutable. Memory: one
 * to two numbers per sample.
 */
public final class RecordSpectrum {
    private final double sampleRateHz;
    private final int samples;
    private final int size;

    /** As {@link RealFft#forwardInPlace} leaves it. */
    private final double[] bins;

    private RecordSpectrum(double sampleRateHz, int samples, int size, double[] bins) {
        this.sampleRateHz = sampleRateHz;
        this.samples = samples;
        this.size = size;
        this.bins = bins;
    }

    /**
     * Transforms a record.
     *
     * @param x samples, at least 2
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @return its transform
     */
    public static RecordSpectrum of(double[] x, double sampleRateHz) {
        Objects.requireNonNull(x, "x");
        return of(x, sampleRateHz, RealFft.goodSize(Math.max(1, x.length)));
    }

    /**
     * Transforms a record as if it went on repeating itself, without padding: bins lie 1/duration
     * apart, and a band cut out of it repeats itself too. Fast where the length has no prime factor
     * above 5.
     *
     * @param x samples, at least 2
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @return its transform
     */
    public static RecordSpectrum ofPeriod(double[] x, double sampleRateHz) {
        Objects.requireNonNull(x, "x");
        return of(x, sampleRateHz, x.length);
    }

    private static RecordSpectrum of(double[] x, double sampleRateHz, int size) {
        if (!(x.length >= 2)) {
            throw new IllegalArgumentException("x.length=" + x.length + ", need >= 2 samples");
        }
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        double[] bins = Arrays.copyOf(x, size);
        new RealFft(size).forwardInPlace(bins);
        return new RecordSpectrum(sampleRateHz, x.length, size, bins);
    }

    /**
     * The squared envelope of one band.
     *
     * @param loHz lower edge, Hz, &gt;= 0
     * @param hiHz upper edge, Hz, above the lower one and at most half the sample rate
     * @return the envelope over the time of the record
     */
    public BandEnvelope squaredEnvelope(double loHz, double hiHz) {
        AnalyticBand band = analyticBand(loHz, hiHz);
        double[] values = band.interleaved();
        double[] squared = new double[band.count()];
        for (int i = 0; i < squared.length; i++) {
            double a = values[2 * i];
            double b = values[2 * i + 1];
            squared[i] = a * a + b * b;
        }
        return new BandEnvelope(band.rateHz(), squared);
    }

    /**
     * The analytic signal of one band, shifted down by the returned origin and brought to a rate of
     * its own: for {@code A cos(2 pi f t + p)} in the band value i is {@code A exp(j (2 pi (f -
     * originHz) t + p))} at {@code t = i / rateHz}.
     *
     * @param loHz lower edge, Hz, &gt;= 0
     * @param hiHz upper edge, Hz, above the lower one and at most half the sample rate
     * @return the band
     */
    public AnalyticBand analyticBand(double loHz, double hiHz) {
        if (!(loHz >= 0 && loHz < hiHz && hiHz <= sampleRateHz / 2)) {
            throw new IllegalArgumentException(
                    "band loHz="
                            + loHz
                            + ", hiHz="
                            + hiHz
                            + ", need 0 <= loHz < hiHz <= "
                            + sampleRateHz / 2
                            + " Hz");
        }
        double binHz = sampleRateHz / size;
        int first = Math.max(1, (int) Math.ceil(loHz / binHz - 1e-9));
        int last = Math.min(size / 2 - 1, (int) Math.floor(hiHz / binHz + 1e-9));
        int inBand = Math.max(0, last - first + 1);
        int zoomed = RealFft.goodSize(2 * Math.max(1, inBand));
        double[] values = new double[2 * zoomed];
        double scale = 2.0 * zoomed / size;
        for (int i = 0; i < 2 * inBand; i++) {
            values[i] = scale * bins[2 * first + i];
        }
        new ComplexFft(zoomed).inverse(values);
        int count = (int) Math.ceil(samples * (double) zoomed / size);
        return new AnalyticBand(
                sampleRateHz * zoomed / size, first * binHz, Math.min(count, zoomed), values);
    }
}
