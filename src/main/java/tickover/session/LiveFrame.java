package tickover.session;

import java.util.Objects;
import tickover.diagnose.LivePartLevels;

/**
 * A snapshot of the live stream: what a screen shows of it. Whoever has it from {@link
 * LivePipeline#latest} may read it until asking for the next one; its arrays are used again then.
 */
public final class LiveFrame {
    /** Stretches of the trace that are kept. */
    public static final int TRACE = 512;

    /** What gives the speed. */
    public enum Speed {
        /** No edge and no reading yet, or they have stopped. */
        NONE,
        /** Edges come, but not enough yet for a speed. */
        FORMING,
        /** Tach edges. */
        EDGES,
        /** Readings of the control unit. */
        READINGS
    }

    private final LiveSetup setup;
    final float[] low = new float[TRACE];
    final float[] high = new float[TRACE];
    final LiveFall motion;
    final LiveFall knocks;
    final double[] bandRms;
    final LivePartLevels levels;
    long number;
    long stretches;
    double timeS;
    double arrivalS;
    double meanMps2;
    double rmsMps2;
    Speed speed = Speed.NONE;
    double speedRpm;
    double sharpOrders;
    boolean clipped;
    boolean lifted;
    boolean flat;
    boolean missedEdges;
    boolean lostSamples;

    LiveFrame(LiveSetup setup) {
        this.setup = Objects.requireNonNull(setup, "setup");
        this.motion = new LiveFall(setup.bins());
        this.knocks = new LiveFall(setup.bins());
        this.bandRms = new double[setup.bandLoHz().size()];
        this.levels = new LivePartLevels(setup.parts().size(), setup.lines().size());
    }

    /**
     * Returns what it is of.
     *
     * @return the same object as long as the probe runs on
     */
    public LiveSetup setup() {
        return setup;
    }

    /**
     * Returns its number.
     *
     * @return rising
     */
    public long number() {
        return number;
    }

    /**
     * Returns how far the probe had come.
     *
     * @return s of its samples since it began
     */
    public double timeS() {
        return timeS;
    }

    /**
     * Returns when the latest samples arrived, by the recording's clock.
     *
     * @return s since the recording began
     */
    public double arrivalS() {
        return arrivalS;
    }

    /**
     * Returns how many stretches of the trace there were.
     *
     * @return the latest has the number before this
     */
    public long stretches() {
        return stretches;
    }

    /**
     * Returns the lowest value of a stretch of the first axis.
     *
     * @param stretch one of the latest {@value #TRACE}
     * @return m/s²
     */
    public float low(long stretch) {
        return low[(int) (stretch % TRACE)];
    }

    /**
     * Returns the highest value of a stretch of the first axis.
     *
     * @param stretch one of the latest {@value #TRACE}
     * @return m/s²
     */
    public float high(long stretch) {
        return high[(int) (stretch % TRACE)];
    }

    /**
     * Returns the waterfall of what moves: the orders of the acceleration itself, all axes
     * together.
     *
     * @return its latest rows
     */
    public LiveFall motion() {
        return motion;
    }

    /**
     * Returns the waterfall of what knocks: the rhythms of bursts in octave bands.
     *
     * @return its latest rows
     */
    public LiveFall knocks() {
        return knocks;
    }

    /**
     * Returns the loudness of an octave band over the latest quarter of a second.
     *
     * @param band its number
     * @return m/s² rms, all axes together
     */
    public double bandRmsMps2(int band) {
        return bandRms[band];
    }

    /**
     * Returns the parts' levels.
     *
     * @return by the numbers of parts and lines in the setup
     */
    public LivePartLevels levels() {
        return levels;
    }

    /**
     * Returns the mean of the first axis: what gravity does along it.
     *
     * @return m/s²
     */
    public double meanMps2() {
        return meanMps2;
    }

    /**
     * Returns the rms of the first axis about its mean, over the latest half second.
     *
     * @return m/s²
     */
    public double rmsMps2() {
        return rmsMps2;
    }

    /**
     * Returns what gives the speed.
     *
     * @return {@link Speed#NONE} if nothing does
     */
    public Speed speed() {
        return speed;
    }

    /**
     * Returns the speed.
     *
     * @return crank speed, rpm; the last one known where {@link #speed} is none or forming
     */
    public double speedRpm() {
        return speedRpm;
    }

    /**
     * Returns up to which order lines are sharp, as far as the speed is known.
     *
     * @return per crank turn; 0 if it cannot be said yet
     */
    public double sharpOrders() {
        return sharpOrders;
    }

    /**
     * Returns whether the sensor was driven to the end of its range within the last half second.
     *
     * @return whether it clips
     */
    public boolean isClipped() {
        return clipped;
    }

    /**
     * Returns whether the probe seems to be off the part.
     *
     * @return whether contact is lost
     */
    public boolean isLifted() {
        return lifted;
    }

    /**
     * Returns whether the signal does not move at all.
     *
     * @return whether it is flat
     */
    public boolean isFlat() {
        return flat;
    }

    /**
     * Returns whether tach edges were missed within the last seconds.
     *
     * @return whether they were
     */
    public boolean missedEdges() {
        return missedEdges;
    }

    /**
     * Returns whether samples were lost within the last seconds.
     *
     * @return whether they were
     */
    public boolean lostSamples() {
        return lostSamples;
    }
}
