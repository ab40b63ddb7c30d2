package tickover.dsp;

import java.util.Arrays;

/**
 * Filters a stream with a symmetric filter and its antisymmetric twin, and keeps the sum of both
 * squares at every m-th sample.
 *
 * <p>Value j is {@code (sum over i of even[i] x[j m - i])² + (sum over i of odd[i] x[j m - i])²},
 * with zeros before the first sample. Samples that lie evenly to either side of the middle are
 * added and subtracted first, so that one walk over half the taps serves both filters. <br>
 * Cutting the stream into other blocks gives bit-equal values. Cost: one product per tap and value.
 * Allocates nothing after construction. Thread: one per instance.
 */
final class QuadratureSquares {
    private final int taps;
    private final double[] even;
    private final double[] odd;
    private final double middle;
    private final int factor;
    private final double[] history;
    private int write;
    private int untilValue;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param even symmetric taps, of which the first half and the middle one are read
     * @param odd as many antisymmetric taps, of which the first half is read
     * @param factor samples per value, &gt;= 1
     */
    QuadratureSquares(double[] even, double[] odd, int factor) {
        if (!(even.length >= 1 && odd.length == even.length && factor >= 1)) {
            throw new IllegalArgumentException(
                    "even="
                            + even.length
                            + " taps, odd="
                            + odd.length
                            + ", factor="
                            + factor
                            + ", need as many of either, at least one, and factor >= 1");
        }
        this.taps = even.length;
        this.even = Arrays.copyOf(even, taps / 2);
        this.odd = Arrays.copyOf(odd, taps / 2);
        this.middle = taps % 2 == 1 ? even[taps / 2] : 0;
        this.factor = factor;
        this.history = new double[2 * taps];
        reset();
    }

    /** Starts a new stream. */
    void reset() {
        Arrays.fill(history, 0);
        write = 0;
        untilValue = 0;
    }

    /**
     * Takes the next samples of one channel of the stream.
     *
     * @param in samples of all channels, read-only
     * @param from place of the first to read
     * @param stride places from one sample to the next, &gt;= 1
     * @param count samples to read
     * @param sums to which the values are added, from its first place on
     * @return values added
     */
    int addTo(double[] in, int from, int stride, int count, double[] sums) {
        int added = 0;
        for (int i = 0; i < count; i++) {
            double x = in[from + i * stride];
            // Every sample is stored twice, so that the last of them always lie in one piece.
            history[write] = x;
            history[write + taps] = x;
            write = write + 1 == taps ? 0 : write + 1;
            if (untilValue == 0) {
                sums[added++] += value(write);
                untilValue = factor;
            }
            untilValue--;
        }
        return added;
    }

    /** Two sums for each filter, for a processor adds faster than it has an addition's result. */
    private double value(int oldest) {
        int half = even.length;
        int newest = oldest + taps - 1;
        double even0 = middle * history[oldest + half];
        double even1 = 0;
        double odd0 = 0;
        double odd1 = 0;
        int k = 0;
        for (; k + 1 < half; k += 2) {
            double before = history[oldest + k];
            double after = history[newest - k];
            even0 += even[k] * (after + before);
            odd0 += odd[k] * (after - before);
            before = history[oldest + k + 1];
            after = history[newest - k - 1];
            even1 += even[k + 1] * (after + before);
            odd1 += odd[k + 1] * (after - before);
        }
        if (k < half) {
            double before = history[oldest + k];
            double after = history[newest - k];
            even0 += even[k] * (after + before);
            odd0 += odd[k] * (after - before);
        }
        double re = even0 + even1;
        double im = odd0 + odd1;
        return re * re + im * im;
    }
}
