package tickover.order;

import java.util.Objects;
import tickover.dsp.RealFft;
import tickover.dsp.Window;

/**
 * Order spectrum of a record over angle, averaged in power over frames of whole turns. One-sided.
 */
public final class OrderSpectrum {
    /**
     * What the values mean; X is a frame's unscaled transform, w its window, n its length. The
     * first three read a pure tone right and noise by the width of the bins; the last reads noise
     * right and a tone by the width of the bins. Order 0 goes without the factor 2 (peak: 4): the
     * mean has no second side.
     */
    public enum Scaling {
        /**
         * Rms of the line that would give this bin alone: {@code sqrt(2 <|X|²>) / sum(w)}, m/s².
         */
        LINE_RMS,
        /** Its peak, sqrt(2) times the rms: {@code 2 sqrt(<|X|²>) / sum(w)}, m/s². */
        LINE_PEAK,
        /** Its mean square: {@code 2 <|X|²> / sum(w)²}, (m/s²)². */
        LINE_POWER,
        /**
         * Mean square per unit of order: {@code 2 <|X|²> / (samplesPerTurn sum(w²))}, (m/s²)² per
         * order. Reads noise right whatever the frame; summed over bins times their width it is the
         * mean square.
         */
        POWER_PER_ORDER;

        /**
         * Values in this scaling.
         *
         * @param rms values as {@link #LINE_RMS}, bin 0 first
         * @param turnsPerFrame length of the frames, turns: bins are 1/turnsPerFrame orders wide
         * @param enbwBins noise bandwidth of the window, bins
         */
        double[] of(double[] rms, int turnsPerFrame, double enbwBins) {
            double[] values = new double[rms.length];
            for (int k = 0; k < rms.length; k++) {
                double power = rms[k] * rms[k];
                values[k] =
                        switch (this) {
                            case LINE_RMS -> rms[k];
                            case LINE_PEAK -> k == 0 ? rms[k] : Math.sqrt(2) * rms[k];
                            case LINE_POWER -> power;
                            case POWER_PER_ORDER -> power * turnsPerFrame / enbwBins;
                        };
            }
            return values;
        }
    }

    /**
     * How to cut the record.
     *
     * @param turnsPerFrame length of a frame, crank turns, &gt;= 1; lines closer than a few
     *     1/turnsPerFrame run together
     * @param overlapRatio part of a frame that the next one shares, 0 to below 1
     * @param window taper
     */
    public record Spec(int turnsPerFrame, double overlapRatio, Window window) {
        public Spec {
            if (!(turnsPerFrame >= 1)) {
                throw new IllegalArgumentException(
                        "turnsPerFrame=" + turnsPerFrame + ", need >= 1");
            }
            if (!(overlapRatio >= 0 && overlapRatio < 1)) {
                throw new IllegalArgumentException(
                        "overlapRatio=" + overlapRatio + ", need 0 to below 1");
            }
            Objects.requireNonNull(window, "window");
        }

        /**
         * Hann frames that overlap by half.
         *
         * @param turnsPerFrame length of a frame, crank turns
         * @return the spec
         */
        public static Spec hann(int turnsPerFrame) {
            return new Spec(turnsPerFrame, 0.5, Window.HANN);
        }
    }

    private final int turnsPerFrame;
    private final int frames;
    private final double enbwBins;
    private final double[] rms;

    private OrderSpectrum(int turnsPerFrame, int frames, double enbwBins, double[] rms) {
        this.turnsPerFrame = turnsPerFrame;
        this.frames = frames;
        this.enbwBins = enbwBins;
        this.rms = rms;
    }

    /**
     * Averages over all whole frames of a record.
     *
     * @param record at least one frame long
     * @param spec how to cut
     * @return the spectrum
     */
    public static OrderSpectrum of(AngularRecord record, Spec spec) {
        AngularFrames frames =
                new AngularFrames(record.samplesPerTurn(), spec.turnsPerFrame(), spec.window());
        double[] x = record.values();
        if (!(x.length >= frames.size())) {
            throw new IllegalArgumentException(
                    "record of "
                            + record.lengthTurns()
                            + " turns, need at least one frame of "
                            + spec.turnsPerFrame());
        }
        int hop = Math.max(1, (int) Math.round(frames.size() * (1 - spec.overlapRatio())));
        double[] sum = new double[frames.bins()];
        int count = 0;
        for (int from = 0; from + frames.size() <= x.length; from += hop) {
            frames.addPower(x, from, sum);
            count++;
        }
        for (int k = 0; k < sum.length; k++) {
            sum[k] = Math.sqrt(sum[k] / count);
        }
        return new OrderSpectrum(spec.turnsPerFrame(), count, frames.enbwBins(), sum);
    }

    /**
     * Returns the order of a bin.
     *
     * @param bin 0 for order 0
     * @return per crank turn
     */
    public double orderOf(int bin) {
        return (double) bin / turnsPerFrame;
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
     * Returns the values of all bins, from order 0 to the angular Nyquist order.
     *
     * @param scaling what they shall mean
     * @return a new array
     */
    public double[] values(Scaling scaling) {
        return scaling.of(rms, turnsPerFrame, enbwBins);
    }

    /**
     * Rms of everything between two orders, the noise-bandwidth of the window allowed for.
     *
     * @param fromOrders lower order, &gt;= 0
     * @param toOrders upper order, above the lower
     * @return m/s²
     */
    public double bandRms(double fromOrders, double toOrders) {
        int from = (int) Math.ceil(fromOrders * turnsPerFrame - 1e-9);
        int to = (int) Math.floor(toOrders * turnsPerFrame + 1e-9);
        if (!(from >= 0 && to >= from && to < rms.length)) {
            throw new IllegalArgumentException(
                    "band "
                            + fromOrders
                            + " to "
                            + toOrders
                            + " orders, need a band within 0 to "
                            + orderOf(rms.length - 1));
        }
        double sum = 0;
        for (int k = from; k <= to; k++) {
            sum += rms[k] * rms[k];
        }
        return Math.sqrt(sum / enbwBins);
    }

    /** Windowed transforms of frames of whole turns, scaled to the rms of lines. */
    static final class AngularFrames {
        private final RealFft fft;
        private final double[] weights;
        private final double[] lines;
        private final double enbwBins;

        AngularFrames(int samplesPerTurn, int turns, Window window) {
            int size = Math.multiplyExact(samplesPerTurn, turns);
            fft = new RealFft(size);
            weights = window.periodic(size);
            enbwBins = Window.enbwBins(weights);
            lines = new double[fft.bins()];
            // With the scale in the window, magnitudes are the rms of lines.
            double scale = Math.sqrt(2) / (size * Window.coherentGain(weights));
            for (int i = 0; i < size; i++) {
                weights[i] *= scale;
            }
        }

        int size() {
            return fft.n();
        }

        int bins() {
            return fft.bins();
        }

        double enbwBins() {
            return enbwBins;
        }

        /** Writes the rms of the line in each bin. */
        void rms(double[] x, int from, double[] rms) {
            fft.magnitudes(x, from, weights, rms);
            rms[0] *= Math.sqrt(0.5);
            if (fft.n() % 2 == 0) {
                rms[fft.n() / 2] *= Math.sqrt(0.5);
            }
        }

        /** Adds the mean square of the line in each bin. */
        void addPower(double[] x, int from, double[] sum) {
            rms(x, from, lines);
            int top = Math.min(sum.length, lines.length);
            for (int k = 0; k < top; k++) {
                sum[k] += lines[k] * lines[k];
            }
        }
    }
}
