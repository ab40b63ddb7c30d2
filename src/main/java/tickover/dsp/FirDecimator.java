package tickover.dsp;

import java.util.Arrays;

/**
 * Filters a stream and keeps every m-th output.
 *
 * <p>Output j is {@code sum over i of taps[i] x[j m - i]}, with zeros before the first sample.
 * Cutting the stream into other blocks gives bit-equal output. Cost: taps per output. Allocates
 * nothing after construction. Thread: one per instance.
 */
public final class FirDecimator {
    private final double[] taps;
    private final int factor;
    private final double[] history;
    private int write;
    private int untilOutput;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param taps filter taps, at least one; copied
     * @param factor input samples per output, &gt;= 1
     */
    public FirDecimator(double[] taps, int factor) {
        if (!(taps.length >= 1)) {
            throw new IllegalArgumentException("taps is empty, need at least one");
        }
        if (!(factor >= 1)) {
            throw new IllegalArgumentException("factor=" + factor + ", need >= 1");
        }
        this.taps = taps.clone();
        this.factor = factor;
        this.history = new double[2 * taps.length];
        reset();
    }

    /** Starts a new stream. */
    public void reset() {
        Arrays.fill(history, 0);
        write = 0;
        untilOutput = 0;
    }

    /**
     * Returns the delay of a linear-phase filter.
     *
     * @return input samples
     */
    public double latencySamples() {
        return (taps.length - 1) / 2.0;
    }

    /**
     * Returns how many outputs a block can give at most.
     *
     * @param count input samples
     * @return outputs
     */
    public int maxOutput(int count) {
        return count / factor + 1;
    }

    /**
     * Takes the next samples of the stream.
     *
     * @param in samples, read-only
     * @param inFrom first to read
     * @param count how many to read
     * @param out outputs, room for {@link #maxOutput}
     * @param outFrom where to write the first
     * @return outputs written
     */
    public int process(double[] in, int inFrom, int count, double[] out, int outFrom) {
        int n = taps.length;
        int written = 0;
        for (int i = 0; i < count; i++) {
            // Every sample is stored twice, so that the last n always lie in one piece.
            history[write] = in[inFrom + i];
            history[write + n] = in[inFrom + i];
            write = write + 1 == n ? 0 : write + 1;
            if (untilOutput == 0) {
                double sum = 0;
                for (int k = 0; k < n; k++) {
                    sum += taps[n - 1 - k] * history[write + k];
                }
                out[outFrom + written++] = sum;
                untilOutput = factor;
            }
            untilOutput--;
        }
        return written;
    }
}
