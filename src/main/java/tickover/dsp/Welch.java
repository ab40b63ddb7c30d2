package tickover.dsp;

import java.util.Objects;

/**
 * Averaged power spectrum of a record: frames of one length, tapered, their powers averaged.
 *
 * <p>Convention: one-sided density, unit of the samples squared per Hz. Summed over bins times
 * {@link #binHz} it gives the mean square. The mean of each frame is not taken off.
 */
public final class Welch {
    /**
     * How to cut the record.
     *
     * @param frameSamples length of a frame, &gt;= 2
     * @param hopSamples distance between starts of frames, 1 to the length
     * @param window taper
     */
    public record Spec(int frameSamples, int hopSamples, Window window) {
        public Spec {
            if (!(frameSamples >= 2)) {
                throw new IllegalArgumentException("frameSamples=" + frameSamples + ", need >= 2");
            }
            if (!(hopSamples >= 1 && hopSamples <= frameSamples)) {
                throw new IllegalArgumentException(
                        "hopSamples=" + hopSamples + ", need 1 to " + frameSamples);
            }
            Objects.requireNonNull(window, "window");
        }
    }

    private final double binHz;
    private final int frames;
    private final double[] densityPerHz;

    private Welch(double binHz, int frames, double[] densityPerHz) {
        this.binHz = binHz;
        this.frames = frames;
        this.densityPerHz = densityPerHz;
    }

    /**
     * Averages the power of all whole frames of a record.
     *
     * @param x samples, at least one frame
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param spec how to cut
     * @return the spectrum
     */
    public static Welch of(double[] x, double sampleRateHz, Spec spec) {
        int n = spec.frameSamples();
        if (!(x.length >= n)) {
            throw new IllegalArgumentException(
                    "x.length=" + x.length + ", need at least one frame of " + n);
        }
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        double[] weights = spec.window().periodic(n);
        RealFft fft = new RealFft(n);
        double[] squares = new double[fft.bins()];
        double[] sum = new double[fft.bins()];
        int frames = 0;
        for (int from = 0; from + n <= x.length; from += spec.hopSamples()) {
            fft.squares(x, from, weights, squares);
            for (int k = 0; k < sum.length; k++) {
                sum[k] += squares[k];
            }
            frames++;
        }
        double scale = 2 / (sampleRateHz * n * Statistics.meanSquare(weights) * frames);
        for (int k = 0; k < sum.length; k++) {
            boolean alone = k == 0 || 2 * k == n;
            sum[k] *= alone ? scale / 2 : scale;
        }
        return new Welch(sampleRateHz / n, frames, sum);
    }

    /**
     * Returns the distance between bins; bin k belongs to {@code k binHz}.
     *
     * @return Hz
     */
    public double binHz() {
        return binHz;
    }

    /**
     * Returns how many frames were averaged.
     *
     * @return frames
     */
    public int frames() {
        return frames;
    }

    /**
     * Returns the density of bins 0 … n/2, shared and read-only.
     *
     * @return unit of the samples squared per Hz
     */
    public double[] densityPerHz() {
        return densityPerHz;
    }
}
