package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.drive.DriveModel;
import tickover.dsp.LiveEnvelope;
import tickover.order.LiveAngle;
import tickover.order.LiveRows;
import tickover.order.LiveSteps;

/**
 * What one probe says while it is being listened to: crank angle, rows of a waterfall over orders,
 * the level of every part, the loudness of octave bands.
 *
 * <p>In: samples, and tach edges or speed readings in samples of the probe, in any order of arrival
 * within four seconds. Out: rows to a sink; the rest can be asked for. The same samples and edges
 * give the same answers, bit for bit, however they are cut into calls. <br>
 * Allocates nothing after construction. Thread: one per instance.
 */
public final class LiveAnalysis {
    /** Steps per crank turn; orders up to 0.8 of half of it are sound. */
    public static final int STEPS_PER_TURN = AngleGrid.STEPS_PER_TURN;

    /** Length of the frames of the waterfall, crank turns. */
    public static final int TURNS_PER_FRAME = 16;

    /**
     * Waterfall rows, per second: each is a frame on the screen, and a few more than the 25 frames
     * that a moving picture needs leave room for one that comes late.
     */
    public static final int ROWS_PER_S = 28;

    /** The highest order that rows tell: the anti-alias filter's pass band. */
    public static final double TOP_ORDERS = 0.8 * STEPS_PER_TURN / 2;

    /** Lower edge of the lowest octave band, Hz: as in a capture's measurement. */
    private static final double LOWEST_BAND_HZ = 300;

    /** Bands end here, clear of the sensor's own filter. */
    private static final double HIGHEST_BAND_RATIO = 0.4;

    private static final double NARROWEST_BAND_RATIO = 1.3;

    /** Steps that wait for the slowest band-pass. */
    private static final int WAITING = 1 << 14;

    /** Samples are handed on in pieces of this size at most. */
    private static final int BLOCK_SAMPLES = 2048;

    private static final int SILENCE_SAMPLES = 1024;

    /** Missing samples are zeros to a band-pass. */
    private static final double[] SILENCE = new double[3 * SILENCE_SAMPLES];

    /**
     * What is listened to.
     *
     * @param drive whose parts
     * @param axes values per sample, 1 to 3
     * @param sampleRateHz samples per second, Hz
     * @param edgesPerTurn tach edges per crank turn, &gt; 0
     * @param edgesPerMark after how many edges the same mark passes again
     */
    public record Spec(
            DriveModel drive,
            int axes,
            double sampleRateHz,
            double edgesPerTurn,
            int edgesPerMark) {
        public Spec {
            Objects.requireNonNull(drive, "drive");
        }
    }

    private final Spec spec;
    private final LiveAngle angle;
    private final LiveSteps steps;
    private final LiveRows rows;
    private final LiveRows rhythms;
    private final double[] knocks;
    private final LiveParts parts;

    /** What is listened to: one part or none. */
    private final List<LivePartSound> sounds = new ArrayList<>();

    private final List<LiveEnvelope> bands;
    private final double[] means;
    private final double[] waitingAt = new double[WAITING];
    private final double[] waitingSpeed = new double[WAITING];
    private final boolean[] waitingFresh = new boolean[WAITING];
    private final double[][] waitingValues;
    private long firstWaiting;
    private long endWaiting;
    private boolean freshNext = true;
    private double lastAt;
    private long origin;
    private long next;
    private boolean anySample;

    /**
     * Begins to listen.
     *
     * @param spec to what
     * @param motion takes rows of what moves: the acceleration's own orders
     * @param rhythm takes rows of what knocks: the rhythm of the squared envelopes, told as the rms
     *     of the knocks that would make it, m/s², root of the sum of squares of all bands
     */
    public LiveAnalysis(Spec spec, LiveRows.Sink motion, LiveRows.Sink rhythm) {
        this.spec = Objects.requireNonNull(spec, "spec");
        double rate = spec.sampleRateHz();
        LiveSteps.Spec resampling = LiveSteps.Spec.of(spec.axes(), rate, STEPS_PER_TURN);
        this.rows =
                new LiveRows(
                        new LiveRows.Spec(
                                spec.axes(), STEPS_PER_TURN, TURNS_PER_FRAME, rate / ROWS_PER_S),
                        motion);
        this.steps = new LiveSteps(resampling, new Waiting());
        this.angle =
                new LiveAngle(
                        new LiveAngle.Spec(rate, spec.edgesPerTurn(), spec.edgesPerMark()), steps);
        this.bands = bands(spec, 2 * resampling.heldSamples());
        this.means = new double[bands.size()];
        Objects.requireNonNull(rhythm, "rhythm");
        this.rhythms =
                new LiveRows(
                        new LiveRows.Spec(
                                Math.max(1, bands.size()),
                                STEPS_PER_TURN,
                                TURNS_PER_FRAME,
                                rate / ROWS_PER_S),
                        (fresh, end, speed, rms) -> rhythm.row(fresh, end, speed, ofKnocks(rms)));
        this.knocks = new double[rhythms.bins()];
        this.parts = new LiveParts(spec.drive(), spec.axes(), bands.size());
        this.waitingValues = new double[WAITING][spec.axes()];
    }

    private static List<LiveEnvelope> bands(Spec spec, int held) {
        List<LiveEnvelope> out = new ArrayList<>();
        double top = HIGHEST_BAND_RATIO * spec.sampleRateHz();
        for (double lo = LOWEST_BAND_HZ; lo < top; lo *= 2) {
            double hi = Math.min(2 * lo, top);
            if (hi / lo >= NARROWEST_BAND_RATIO) {
                out.add(
                        new LiveEnvelope(
                                new LiveEnvelope.Spec(
                                        spec.axes(), spec.sampleRateHz(), lo, hi, held)));
            }
        }
        return List.copyOf(out);
    }

    /** As {@link KnockMeter}: the mean square of bursts is a quarter of the amplitude. */
    private double[] ofKnocks(double[] rms) {
        for (int k = 0; k < knocks.length; k++) {
            knocks[k] = Math.sqrt(Math.sqrt(2) * rms[k] / 4);
        }
        return knocks;
    }

    /** Steps go to the rows at once, and to the parts when the bands have come so far. */
    private final class Waiting implements LiveSteps.Sink {
        @Override
        public void begin() {
            rows.begin();
            freshNext = true;
        }

        @Override
        public void step(long step, double atSamples, double turnsPerSample, double[] values) {
            rows.step(step, atSamples, turnsPerSample, values);
            if (endWaiting - firstWaiting == WAITING) {
                // Bands come within milliseconds; more can only wait where no samples come at all.
                firstWaiting = endWaiting;
                freshNext = true;
            }
            int i = (int) (endWaiting & WAITING - 1);
            waitingAt[i] = atSamples;
            waitingSpeed[i] = turnsPerSample;
            waitingFresh[i] = freshNext;
            freshNext = false;
            System.arraycopy(values, 0, waitingValues[i], 0, values.length);
            endWaiting++;
            drain();
        }
    }

    private void drain() {
        double known = Double.POSITIVE_INFINITY;
        for (int b = 0; b < bands.size(); b++) {
            known = Math.min(known, origin + bands.get(b).endSamples());
        }
        while (firstWaiting < endWaiting
                && waitingAt[(int) (firstWaiting & WAITING - 1)] <= known) {
            int i = (int) (firstWaiting & WAITING - 1);
            firstWaiting++;
            double from = lastAt;
            lastAt = waitingAt[i];
            if (waitingFresh[i]) {
                // A mean needs the step before; the first of a stretch gives only that.
                parts.begin();
                rhythms.begin();
                for (int s = 0; s < sounds.size(); s++) {
                    sounds.get(s).begin();
                }
                continue;
            }
            for (int b = 0; b < means.length; b++) {
                means[b] = bands.get(b).mean(from - origin, lastAt - origin);
            }
            boolean changed = parts.step(waitingValues[i], means);
            for (int s = 0; s < sounds.size(); s++) {
                if (changed) {
                    sounds.get(s).retune();
                }
                sounds.get(s).step(lastAt, waitingValues[i], means);
            }
            if (means.length > 0) {
                rhythms.step(0, lastAt, waitingSpeed[i], means);
            }
        }
    }

    /**
     * Takes a tach edge.
     *
     * @param samples when, in samples
     * @param missedBefore how many are known to be missing just before it
     */
    public void edge(double samples, long missedBefore) {
        angle.edge(samples, missedBefore);
    }

    /**
     * Takes a reading of speed.
     *
     * @param samples when the engine had it, samples
     * @param rpm crank speed, rpm
     */
    public void reading(double samples, double rpm) {
        angle.reading(samples, rpm);
    }

    /**
     * Takes the next samples.
     *
     * @param first number of the first of them; more than one above the last where some are missing
     * @param accelMps2 m/s², sample by sample, read-only
     * @param from first sample in the array to read
     * @param count how many
     */
    public void samples(long first, double[] accelMps2, int from, int count) {
        if (!anySample) {
            anySample = true;
            origin = first;
            next = first;
        }
        long missing = first - next;
        if (missing < 0) {
            throw new IllegalArgumentException("first=" + first + ", need >= " + next);
        }
        // By number: an iterator would be an object.
        for (int b = 0; b < bands.size(); b++) {
            for (long left = missing; left > 0; left -= SILENCE_SAMPLES) {
                bands.get(b).accept(SILENCE, 0, (int) Math.min(left, SILENCE_SAMPLES));
            }
        }
        next = first;
        for (int done = 0; done < count; ) {
            int block = Math.min(BLOCK_SAMPLES, count - done);
            for (int b = 0; b < bands.size(); b++) {
                bands.get(b).accept(accelMps2, from + done, block);
            }
            steps.samples(next, accelMps2, from + done, block);
            drain();
            next += block;
            done += block;
        }
    }

    /** Speed is not known any more. */
    public void loseSpeed() {
        angle.lose();
    }

    /** The probe is somewhere else now: levels form anew. */
    public void restartLevels() {
        parts.restart();
    }

    /**
     * Makes one part be heard from now on, and no other.
     *
     * @param part its name; one that has no lines is heard as nothing
     * @param sink takes the sound
     */
    public void listenTo(String part, LivePartSound.Sink sink) {
        listenToNone();
        int number = parts.parts().indexOf(part);
        if (number >= 0) {
            sounds.add(new LivePartSound(parts, number, spec.sampleRateHz(), sink));
        }
    }

    /** Lets nothing be heard any more. */
    public void listenToNone() {
        sounds.clear();
    }

    /**
     * Returns the crank angle so far.
     *
     * @return the operator, to be asked only
     */
    public LiveAngle angle() {
        return angle;
    }

    /**
     * Returns the parts' levels so far.
     *
     * @return the operator, to be asked only
     */
    public LiveParts parts() {
        return parts;
    }

    /**
     * Returns how many values a row has.
     *
     * @return bins of 1/{@value #TURNS_PER_FRAME} order
     */
    public int bins() {
        return rows.bins();
    }

    /**
     * Returns how many octave bands are followed.
     *
     * @return bands, the lowest first
     */
    public int bands() {
        return bands.size();
    }

    /**
     * Returns where a band begins.
     *
     * @param band its number, from 0
     * @return lower corner, Hz
     */
    public double bandLoHz(int band) {
        return bands.get(band).loHz();
    }

    /**
     * Returns how loud a band was lately.
     *
     * @param band its number, from 0
     * @param overS back from the latest, s, at most four
     * @return rms of all axes together, m/s²; 0 before so much has come
     */
    public double bandRmsMps2(int band, double overS) {
        LiveEnvelope b = bands.get(band);
        double end = b.endSamples();
        double from = end - overS * spec.sampleRateHz();
        return from > b.startSamples() ? Math.sqrt(Math.max(0, b.mean(from, end)) / 2) : 0;
    }
}
