package tickover.order;

import java.util.Arrays;
import java.util.Objects;
import tickover.dsp.Window;

/**
 * Rows of an order waterfall while steps of angle come in: evenly in time, each of the last whole
 * frame of turns, all axes together.
 *
 * <p>In: steps of {@link LiveSteps}. Out: at the first step at or after every so many samples the
 * order spectrum of the frame that ends there. What it shows does not depend on how the probe is
 * turned: the powers of the axes are summed. <br>
 * Cost: one transform per row and axis; allocates nothing after construction where a frame is a
 * power of two long. Thread: one per instance.
 */
public final class LiveRows implements LiveSteps.Sink {
    /** Takes rows. */
    @FunctionalInterface
    public interface Sink {
        /**
         * Takes a row.
         *
         * @param fresh whether there is a break before it: speed or samples were missing
         * @param endSamples when its frame ended
         * @param turnsPerSample speed then
         * @param rms rms of each order bin as {@link OrderSpectrum.Scaling#LINE_RMS} defines it,
         *     all axes together, m/s²; bin k belongs to order k/turnsPerFrame; valid during the
         *     call only
         */
        void row(boolean fresh, double endSamples, double turnsPerSample, double[] rms);
    }

    /**
     * How to lay rows.
     *
     * @param axes of the steps, &gt;= 1
     * @param samplesPerTurn steps per crank turn
     * @param turnsPerFrame length of a frame, crank turns
     * @param everySamples distance of rows, samples, &gt; 0
     */
    public record Spec(int axes, int samplesPerTurn, int turnsPerFrame, double everySamples) {
        public Spec {
            if (!(axes >= 1 && samplesPerTurn >= 4 && turnsPerFrame >= 1)) {
                throw new IllegalArgumentException(
                        "axes="
                                + axes
                                + ", samplesPerTurn="
                                + samplesPerTurn
                                + ", turnsPerFrame="
                                + turnsPerFrame
                                + ", need >= 1, >= 4 and >= 1");
            }
            if (!(everySamples > 0)) {
                throw new IllegalArgumentException(
                        "everySamples=" + everySamples + ", need > 0 samples");
            }
        }
    }

    private final Spec spec;
    private final Sink sink;
    private final OrderSpectrum.AngularFrames frames;
    private final double[][] recent;
    private final double[] power;
    private int filled;
    private boolean fresh = true;
    private long nextRow = Long.MIN_VALUE;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param spec how to lay rows
     * @param sink takes them
     */
    public LiveRows(Spec spec, Sink sink) {
        this.spec = Objects.requireNonNull(spec, "spec");
        this.sink = Objects.requireNonNull(sink, "sink");
        this.frames =
                new OrderSpectrum.AngularFrames(
                        spec.samplesPerTurn(), spec.turnsPerFrame(), Window.HANN);
        this.recent = new double[spec.axes()][2 * frames.size()];
        this.power = new double[frames.bins()];
    }

    /**
     * Returns how many values a row has.
     *
     * @return bins from order 0 to the angular Nyquist order
     */
    public int bins() {
        return power.length;
    }

    @Override
    public void begin() {
        filled = 0;
        fresh = true;
    }

    @Override
    public void step(long step, double atSamples, double turnsPerSample, double[] valuesMps2) {
        int size = frames.size();
        if (filled == 2 * size) {
            for (double[] axis : recent) {
                System.arraycopy(axis, size, axis, 0, size);
            }
            filled = size;
        }
        for (int a = 0; a < recent.length; a++) {
            recent[a][filled] = valuesMps2[a];
        }
        filled++;
        long row = (long) Math.floor(atSamples / spec.everySamples());
        if (row >= nextRow && filled >= size) {
            nextRow = row + 1;
            emit(atSamples, turnsPerSample, filled - size);
        }
    }

    private void emit(double atSamples, double turnsPerSample, int from) {
        Arrays.fill(power, 0);
        for (double[] axis : recent) {
            frames.addPower(axis, from, power);
        }
        for (int k = 0; k < power.length; k++) {
            power[k] = Math.sqrt(power[k]);
        }
        sink.row(fresh, atSamples, turnsPerSample, power);
        fresh = false;
    }
}
