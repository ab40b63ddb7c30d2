package tickover.diagnose;

import tickover.dsp.ComplexFft;
import tickover.dsp.RealFft;
import tickover.dsp.Statistics;

/** A whitened record, out of which the squared envelopes of bands are cut. */
final class EnvelopeSource {
    /** Shorter records hold too few turns of anything. */
    private static final int FEWEST_SAMPLES = 1024;

    /**
     * No knock counts for more than so many times the usual squared envelope. Noise exceeds it once
     * in a thousand values; a handful of single knocks would otherwise outweigh the whole record
     * and, falling into the right rhythm by chance, pass for a deep modulation.
     */
    private static final double KNOCK_OVER_MEDIAN = 10;

    private final double sampleRateHz;
    private final int samples;
    private final double[] re;
    private final double[] im;

    /** Mean square per bin of the record as it was, (m/s²)². */
    private final double[] meanSquare;

    private EnvelopeSource(
            double sampleRateHz, int samples, double[] re, double[] im, double[] meanSquare) {
        this.sampleRateHz = sampleRateHz;
        this.samples = samples;
        this.re = re;
        this.im = im;
        this.meanSquare = meanSquare;
    }

    static EnvelopeSource of(double[] accelMps2, double sampleRateHz) {
        if (!(sampleRateHz > 0 && Double.isFinite(sampleRateHz))) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        if (!(accelMps2.length >= FEWEST_SAMPLES)) {
            throw new IllegalArgumentException(
                    "accelMps2.length="
                            + accelMps2.length
                            + ", need >= "
                            + FEWEST_SAMPLES
                            + " samples");
        }
        // Padding with zeros would be whitened too and fill with noise, so the record is cut.
        int n = EnvelopeOrders.smoothSizeAtMost(accelMps2.length);
        RealFft fft = new RealFft(n);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(accelMps2, re, im);
        double[] meanSquare = new double[fft.bins()];
        for (int k = 0; k < re.length; k++) {
            double magnitude = Math.hypot(re[k], im[k]);
            meanSquare[k] = 2 * (magnitude / n) * (magnitude / n);
            double scale = magnitude > 0 ? 1 / magnitude : 0;
            re[k] *= scale;
            im[k] *= scale;
        }
        return new EnvelopeSource(sampleRateHz, n, re, im, meanSquare);
    }

    double durationS() {
        return samples / sampleRateHz;
    }

    double rmsMps2(double loHz, double hiHz) {
        double sum = 0;
        for (int k = bin(loHz); k < bin(hiHz); k++) {
            sum += meanSquare[k];
        }
        return Math.sqrt(sum);
    }

    /**
     * Squared envelope of a band over its mean, less one, knocks bounded, evenly spaced over the
     * duration of the record and at least twice as fast as the band is wide.
     */
    double[] relativeEnvelope(double loHz, double hiHz) {
        int first = bin(loHz);
        int count = bin(hiHz) - first;
        int size = RealFft.goodSize(2 * count);
        double[] values = new double[2 * size];
        for (int k = 0; k < count; k++) {
            values[2 * k] = re[first + k];
            values[2 * k + 1] = im[first + k];
        }
        new ComplexFft(size).inverse(values);
        double[] envelope = new double[size];
        for (int i = 0; i < size; i++) {
            envelope[i] = values[2 * i] * values[2 * i] + values[2 * i + 1] * values[2 * i + 1];
        }
        double highest = KNOCK_OVER_MEDIAN * Statistics.median(envelope);
        double sum = 0;
        for (int i = 0; i < size; i++) {
            envelope[i] = Math.min(envelope[i], highest);
            sum += envelope[i];
        }
        double mean = sum / size;
        for (int i = 0; i < size; i++) {
            envelope[i] = mean > 0 ? envelope[i] / mean - 1 : 0;
        }
        return envelope;
    }

    private int bin(double frequencyHz) {
        return (int) Math.min(re.length - 1, Math.round(frequencyHz * samples / sampleRateHz));
    }
}
