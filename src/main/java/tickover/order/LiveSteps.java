package tickover.order;

import java.util.Objects;

/**
 * Acceleration at even steps of crank angle, step by step while samples and angle come in: what
 * {@link AngularResampler} does to a whole record.
 *
 * <p>In: samples of 1 to 3 axes, and pieces of a {@link LiveAngle}, in any order of arrival as long
 * as neither waits more than {@link Spec#heldSamples} for the other. Out: a step once the kernel's
 * samples are there. Steps whose kernel would reach across missing samples are left out. <br>
 * The kernel is that of {@link AngularResampler.Spec#of}. Cutting the same samples into other
 * blocks gives the same steps, bit for bit. <br>
 * Cost: two kernel halves per sample or step, whichever are fewer, and axis. Allocates nothing
 * after construction. Thread: one per instance.
 */
public final class LiveSteps implements LiveAngle.Sink {
    private static final int PIECES = 1024;
    private static final int GAPS = 32;

    /** Below this the corner of the low-pass no longer follows, crank turns per second. */
    private static final double LOWEST_HZ = 2;

    /** Takes steps. */
    public interface Sink {
        /** The next step does not follow on the one before. */
        void begin();

        /**
         * Takes a step.
         *
         * @param step angle in steps from angle zero
         * @param atSamples when it was
         * @param turnsPerSample speed then
         * @param valuesMps2 acceleration of each axis, m/s²; valid during the call only
         */
        void step(long step, double atSamples, double turnsPerSample, double[] valuesMps2);
    }

    /**
     * How to resample.
     *
     * @param axes values per sample, 1 to 3
     * @param sampleRateHz samples per second, Hz
     * @param samplesPerTurn steps per crank turn, &gt;= 4
     * @param heldSamples samples that are kept for angle that comes late, a power of two
     */
    public record Spec(int axes, double sampleRateHz, int samplesPerTurn, int heldSamples) {
        public Spec {
            if (!(axes >= 1 && axes <= 3)) {
                throw new IllegalArgumentException("axes=" + axes + ", need 1 to 3");
            }
            if (!(sampleRateHz > 0 && samplesPerTurn >= 4)) {
                throw new IllegalArgumentException(
                        "sampleRateHz="
                                + sampleRateHz
                                + ", samplesPerTurn="
                                + samplesPerTurn
                                + ", need > 0 Hz and >= 4");
            }
            if (!(heldSamples >= 1024 && Integer.bitCount(heldSamples) == 1)) {
                throw new IllegalArgumentException(
                        "heldSamples=" + heldSamples + ", need a power of two >= 1024");
            }
        }

        /**
         * Keeps at least four seconds.
         *
         * @param axes values per sample
         * @param sampleRateHz samples per second, Hz
         * @param samplesPerTurn steps per crank turn
         * @return the spec
         */
        public static Spec of(int axes, double sampleRateHz, int samplesPerTurn) {
            int held = 1024;
            while (held < 4 * sampleRateHz) {
                held *= 2;
            }
            return new Spec(axes, sampleRateHz, samplesPerTurn, held);
        }
    }

    private final Spec spec;
    private final Sink sink;
    private final ResamplingKernel kernel;
    private final double longestStretch;

    /** Every sample stands twice, so that the last of them always lie in one piece. */
    private final double[][] held;

    private final double[] values;
    private final int mask;
    private long next;
    private boolean anySample;
    private final long[] gapFrom = new long[GAPS];
    private final long[] gapTo = new long[GAPS];
    private int gaps;

    private final boolean[] fresh = new boolean[PIECES];
    private final double[] start = new double[PIECES];
    private final double[] end = new double[PIECES];
    private final double[] startTurns = new double[PIECES];
    private final double[] slope = new double[PIECES];
    private final double[] bend = new double[PIECES];
    private long firstPiece;
    private long endPiece;
    private boolean entered;
    private boolean broken = true;
    private boolean lostPieces;
    private long step;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param spec how to resample
     * @param sink takes steps
     */
    public LiveSteps(Spec spec, Sink sink) {
        this.spec = Objects.requireNonNull(spec, "spec");
        this.sink = Objects.requireNonNull(sink, "sink");
        AngularResampler.Spec usual = AngularResampler.Spec.of(spec.samplesPerTurn());
        this.kernel = ResamplingKernel.of(usual.halfSteps(), usual.attenuationDb());
        this.longestStretch = stretch(LOWEST_HZ / spec.sampleRateHz());
        this.held = new double[spec.axes()][2 * spec.heldSamples()];
        this.values = new double[spec.axes()];
        this.mask = spec.heldSamples() - 1;
    }

    /** How many samples one step takes, at least 1. */
    private double stretch(double turnsPerSample) {
        return Math.max(1, 1 / (spec.samplesPerTurn() * turnsPerSample));
    }

    @Override
    public void piece(
            boolean isFresh,
            double startSamples,
            double endSamples,
            double fromTurns,
            double slopeThen,
            double bendThen) {
        if (endPiece - firstPiece == PIECES) {
            // Angle without samples; what is dropped could be resampled no more.
            firstPiece++;
            entered = false;
            lostPieces = true;
        }
        int i = (int) (endPiece & PIECES - 1);
        fresh[i] = isFresh || lostPieces;
        lostPieces = false;
        start[i] = startSamples;
        end[i] = endSamples;
        startTurns[i] = fromTurns;
        slope[i] = slopeThen;
        bend[i] = bendThen;
        endPiece++;
        advance();
    }

    /**
     * Takes the next samples.
     *
     * @param first number of the first of them; where it is not the one after the last, samples are
     *     missing in between
     * @param accelMps2 m/s², sample by sample, read-only
     * @param from number of the first sample in the array to be read
     * @param count samples to read
     */
    public void samples(long first, double[] accelMps2, int from, int count) {
        if (!anySample || first < next) {
            anySample = true;
            next = first;
            gaps = 0;
            missing(first - spec.heldSamples(), first);
        } else if (first > next) {
            missing(next, first);
            fill(Math.max(next, first - spec.heldSamples()), first);
            next = first;
        }
        int axes = spec.axes();
        int done = 0;
        while (done < count) {
            // In short pieces, so that no sample is overwritten before its steps are out.
            int block = Math.min(count - done, spec.heldSamples() / 4);
            for (int a = 0; a < axes; a++) {
                double[] ring = held[a];
                for (int i = 0; i < block; i++) {
                    double v = accelMps2[(from + done + i) * axes + a];
                    int place = (int) (next + i & mask);
                    ring[place] = v;
                    ring[place + mask + 1] = v;
                }
            }
            next += block;
            done += block;
            advance();
        }
    }

    private void fill(long from, long to) {
        for (double[] ring : held) {
            for (long i = from; i < to; i++) {
                int place = (int) (i & mask);
                ring[place] = 0;
                ring[place + mask + 1] = 0;
            }
        }
    }

    private void missing(long from, long to) {
        if (gaps == GAPS) {
            System.arraycopy(gapFrom, 1, gapFrom, 0, GAPS - 1);
            System.arraycopy(gapTo, 1, gapTo, 0, GAPS - 1);
            gaps--;
        }
        gapFrom[gaps] = from;
        gapTo[gaps] = to;
        gaps++;
    }

    private boolean crossesGap(double from, double to) {
        for (int g = gaps - 1; g >= 0; g--) {
            if (from < gapTo[g] && to > gapFrom[g] - 1) {
                return true;
            }
        }
        return false;
    }

    private void advance() {
        double per = spec.samplesPerTurn();
        while (firstPiece < endPiece) {
            int i = (int) (firstPiece & PIECES - 1);
            if (!entered) {
                entered = true;
                if (fresh[i]) {
                    step = (long) Math.ceil(startTurns[i] * per);
                    broken = true;
                }
            }
            double length = end[i] - start[i];
            double c = step / per - startTurns[i];
            if (c > (slope[i] + bend[i] * length) * length) {
                firstPiece++;
                entered = false;
                continue;
            }
            double speed = Math.sqrt(slope[i] * slope[i] + 4 * bend[i] * c);
            double place = start[i] + 2 * c / (slope[i] + speed);
            double stretch = Math.min(longestStretch, stretch(speed));
            double reach = kernel.reach(stretch);
            if (!(place + reach <= next - 1)) {
                return;
            }
            emit(place, speed, stretch, reach);
            step++;
        }
    }

    private void emit(double place, double speed, double stretch, double reach) {
        double oldest = Math.max(0, next - spec.heldSamples());
        if (!(place - reach >= oldest) || crossesGap(place - reach, place + reach)) {
            broken = true;
            return;
        }
        if (broken) {
            broken = false;
            sink.begin();
        }
        // The last samples stand in one piece up to here.
        int last = (int) (next - 1 & mask) + mask + 1;
        long base = next - 1 - last;
        if (values.length == 3) {
            kernel.atThree(held, base, last + 1, place, stretch, values);
        } else {
            for (int a = 0; a < values.length; a++) {
                values[a] = kernel.at(held[a], base, last + 1, place, stretch);
            }
        }
        sink.step(step, place, speed, values);
    }
}
