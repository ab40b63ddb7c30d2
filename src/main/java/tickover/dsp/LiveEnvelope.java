package tickover.dsp;

import java.util.Arrays;
import java.util.Objects;

/**
 * Squared envelope of one frequency band while samples come in, all axes together, and its mean
 * over any of the latest stretches of time.
 *
 * <p>Each axis goes through a band-pass and its quarter-period twin; the sum of both squares is the
 * squared envelope: A² for a tone of amplitude A inside the band, so twice the mean square. Only as
 * many values are worked out as the band is wide: about one per {@link #factor} samples, each of
 * which stands for the time around it. <br>
 * Accuracy: 0.1 dB inside the band clear of its edges, 60 dB beyond them (a Kaiser window's
 * design). <br>
 * Cutting the same samples into other blocks gives the same values, bit for bit. Cost: about 10
 * products per sample, whatever the band. Allocates nothing after construction. Thread: one per
 * instance.
 */
public final class LiveEnvelope {
    private static final double ATTENUATION_DB = 60;

    /** Width of the transition at either edge, as a share of the band. */
    private static final double TRANSITION_RATIO = 0.25;

    /** Values per hertz of the band: its squared envelope reaches up to its width. */
    private static final double OVERSAMPLING_RATIO = 2 * (1 + TRANSITION_RATIO);

    /**
     * What to cut out.
     *
     * @param axes values per sample, &gt;= 1
     * @param sampleRateHz samples per second, Hz
     * @param loHz lower corner, Hz
     * @param hiHz upper corner, Hz; its transition has to end at half the sample rate
     * @param heldSamples for how many samples means can be asked for, back from the latest
     */
    public record Spec(int axes, double sampleRateHz, double loHz, double hiHz, int heldSamples) {
        public Spec {
            if (!(axes >= 1 && heldSamples >= 2)) {
                throw new IllegalArgumentException(
                        "axes=" + axes + ", heldSamples=" + heldSamples + ", need >= 1 and >= 2");
            }
            if (!(sampleRateHz > 0 && loHz > 0 && hiHz > loHz)) {
                throw new IllegalArgumentException(
                        "loHz=" + loHz + ", hiHz=" + hiHz + ", need 0 < loHz < hiHz");
            }
        }
    }

    private static final int BLOCK_SAMPLES = 256;

    private final Spec spec;
    private final int factor;
    private final double latency;
    private final QuadratureSquares[] axes;
    private final double[] squares = new double[BLOCK_SAMPLES];

    /** Running sum of all values up to the one with the number of the place. */
    private final double[] sums;

    private final int mask;
    private long count;
    private double sum;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param spec what to cut out
     */
    public LiveEnvelope(Spec spec) {
        this.spec = Objects.requireNonNull(spec, "spec");
        double rate = spec.sampleRateHz();
        double width = spec.hiHz() - spec.loHz();
        this.factor = Math.max(1, (int) Math.floor(rate / (OVERSAMPLING_RATIO * width)));
        double[] low =
                FirDesign.design(
                        FirDesign.Spec.lowPass(
                                width / 2 / rate, TRANSITION_RATIO * width / rate, ATTENUATION_DB));
        this.latency = (low.length - 1) / 2.0;
        double middle = (spec.loHz() + spec.hiHz()) / 2 / rate;
        if (!(spec.hiHz() + TRANSITION_RATIO * width / 2 <= rate / 2)) {
            throw new IllegalArgumentException(
                    "hiHz="
                            + spec.hiHz()
                            + ", need its transition to end at half of sampleRateHz="
                            + rate);
        }
        double[] cos = new double[low.length];
        double[] sin = new double[low.length];
        for (int i = 0; i < low.length; i++) {
            double angle = 2 * Math.PI * middle * (i - latency);
            cos[i] = 2 * low[i] * Math.cos(angle);
            sin[i] = 2 * low[i] * Math.sin(angle);
        }
        this.axes = new QuadratureSquares[spec.axes()];
        for (int a = 0; a < axes.length; a++) {
            axes[a] = new QuadratureSquares(cos, sin, factor);
        }
        int size = 4;
        while (size < spec.heldSamples() / factor + 2) {
            size *= 2;
        }
        this.sums = new double[size];
        this.mask = size - 1;
    }

    /** Starts a new stream. */
    public void reset() {
        for (QuadratureSquares axis : axes) {
            axis.reset();
        }
        Arrays.fill(sums, 0);
        count = 0;
        sum = 0;
    }

    /**
     * Returns how many samples one value stands for.
     *
     * @return &gt;= 1
     */
    public int factor() {
        return factor;
    }

    /**
     * Returns the lower corner.
     *
     * @return Hz
     */
    public double loHz() {
        return spec.loHz();
    }

    /**
     * Returns the upper corner.
     *
     * @return Hz
     */
    public double hiHz() {
        return spec.hiHz();
    }

    /**
     * Takes the next samples.
     *
     * @param accelMps2 m/s², sample by sample, read-only
     * @param from first sample to read
     * @param samples how many
     */
    public void accept(double[] accelMps2, int from, int samples) {
        for (int done = 0; done < samples; ) {
            int block = Math.min(BLOCK_SAMPLES, samples - done);
            int out = 0;
            Arrays.fill(squares, 0);
            for (int a = 0; a < axes.length; a++) {
                int first = (from + done) * axes.length + a;
                out = axes[a].addTo(accelMps2, first, axes.length, block, squares);
            }
            for (int i = 0; i < out; i++) {
                sum += squares[i];
                sums[(int) (count & mask)] = sum;
                count++;
            }
            done += block;
        }
    }

    /**
     * Returns up to when means can be asked for.
     *
     * @return samples since the start of the stream
     */
    public double endSamples() {
        return (count - 0.5) * factor - latency;
    }

    /**
     * Returns from when on means can be asked for.
     *
     * @return samples since the start of the stream
     */
    public double startSamples() {
        return (Math.max(0, count - sums.length) + 0.5) * factor - latency;
    }

    /**
     * Mean over a stretch of time between {@link #startSamples} and {@link #endSamples}.
     *
     * @param fromSamples its start, samples since the start of the stream
     * @param toSamples its end, later than its start
     * @return squared envelope, (m/s²)²
     */
    public double mean(double fromSamples, double toSamples) {
        return (integral(toSamples) - integral(fromSamples)) * factor / (toSamples - fromSamples);
    }

    /** Value j covers half a factor to either side of the sample j·factor less the delay. */
    private double integral(double atSamples) {
        double place = (atSamples + latency) / factor + 0.5;
        long whole = (long) Math.floor(place);
        whole = Math.max(1, Math.min(count - 1, whole));
        double before = sums[(int) (whole - 1 & mask)];
        double after = sums[(int) (whole & mask)];
        return before + (place - whole) * (after - before);
    }
}
