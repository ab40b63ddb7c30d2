package tickover.order;

import java.util.Objects;
import tickover.dsp.Window;

/**
 * Order spectra one after another while the samples over angle still come in: the rows of a {@link
 * Waterfall} over turns.
 *
 * <p>In: blocks of any size from {@link AngularResampler#process}, one after another. Out: a column
 * as soon as its frame is full. Cutting the same samples into other blocks gives the same columns,
 * bit for bit, and they are those that {@link Waterfall#of} gives of the whole record. <br>
 * Cost: one transform per column; allocates nothing after construction where a frame is a power of
 * two long. Thread: one per instance.
 */
public final class OrderColumns {
    /** Takes columns as they are complete. */
    @FunctionalInterface
    public interface Sink {
        /**
         * Takes a column.
         *
         * @param startStep first value of its frame, counted from the first value that was accepted
         * @param rms rms of each order bin as {@link OrderSpectrum.Scaling#LINE_RMS} defines it,
         *     m/s²; bin k belongs to order k/turnsPerFrame; valid during the call only
         */
        void column(long startStep, double[] rms);
    }

    /**
     * How to lay columns.
     *
     * @param samplesPerTurn values per crank turn, &gt;= 4
     * @param turnsPerFrame length of a frame, crank turns, &gt;= 1
     * @param hopSteps distance of frames, values, 1 to the length of a frame
     * @param window taper
     */
    public record Spec(int samplesPerTurn, int turnsPerFrame, int hopSteps, Window window) {
        public Spec {
            if (!(samplesPerTurn >= 4 && turnsPerFrame >= 1)) {
                throw new IllegalArgumentException(
                        "samplesPerTurn="
                                + samplesPerTurn
                                + ", turnsPerFrame="
                                + turnsPerFrame
                                + ", need >= 4 and >= 1");
            }
            int frame = Math.multiplyExact(samplesPerTurn, turnsPerFrame);
            if (!(hopSteps >= 1 && hopSteps <= frame)) {
                throw new IllegalArgumentException("hopSteps=" + hopSteps + ", need 1 to " + frame);
            }
            Objects.requireNonNull(window, "window");
        }
    }

    private final Spec spec;
    private final Sink sink;
    private final OrderSpectrum.AngularFrames frames;
    private final double[] frame;
    private final double[] rms;
    private int filled;
    private long startStep;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param spec how to lay columns
     * @param sink takes them, in the thread that calls {@link #accept}
     */
    public OrderColumns(Spec spec, Sink sink) {
        this.spec = Objects.requireNonNull(spec, "spec");
        this.sink = Objects.requireNonNull(sink, "sink");
        this.frames =
                new OrderSpectrum.AngularFrames(
                        spec.samplesPerTurn(), spec.turnsPerFrame(), spec.window());
        this.frame = new double[frames.size()];
        this.rms = new double[frames.bins()];
    }

    /** Starts a new stream: after a gap, or when angle zero moved. */
    public void reset() {
        filled = 0;
        startStep = 0;
    }

    /**
     * Takes the next values of the stream.
     *
     * @param values m/s² at even steps of angle, read-only
     * @param from first to read
     * @param count how many to read
     */
    public void accept(double[] values, int from, int count) {
        Objects.checkFromIndexSize(from, count, values.length);
        int taken = 0;
        while (taken < count) {
            int block = Math.min(count - taken, frame.length - filled);
            System.arraycopy(values, from + taken, frame, filled, block);
            filled += block;
            taken += block;
            if (filled == frame.length) {
                emit();
            }
        }
    }

    private void emit() {
        frames.rms(frame, 0, rms);
        sink.column(startStep, rms);
        int kept = frame.length - spec.hopSteps();
        System.arraycopy(frame, spec.hopSteps(), frame, 0, kept);
        filled = kept;
        startStep += spec.hopSteps();
    }
}
