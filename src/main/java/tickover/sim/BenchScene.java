package tickover.sim;

import java.util.List;
import java.util.Objects;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;

/**
 * A bench with a lathe on which removed parts are turned, the probe on a magnet and a mark on the
 * turning ring: for practice at the console. What is put up turns until something else is.
 *
 * <p>Putting up is done by one thread, looking by others.
 */
public final class BenchScene implements LineScene {
    /** A part is rendered for so long and goes round then; captures are over by that time. */
    private static final double RENDERED_S = 12;

    private static final LineScene STILL = new StillScene(0.02);

    /** How badly a worn part is worn: plain to a bench, as the library's idler is. */
    private static final double SEVERITY_RATIO = 0.7;

    private static final long SEED = BenchRig.TUNING_SEEDS_FROM;

    private volatile LineScene turning = STILL;

    /** What is up: putting up the same again changes nothing. */
    private List<Object> up = List.of();

    /** Sets up the bench; nothing turns. */
    public BenchScene() {}

    /**
     * Returns what it is recorded with.
     *
     * @return rate, format and range
     */
    public static SimulatedCapture.Recorder recorder() {
        return BenchRig.PRACTICE_RECORDER;
    }

    /**
     * Puts a part up and turns it. Takes about a second of computing.
     *
     * @param geometry the bearing's internals
     * @param ring the ring that turns
     * @param wearing what is wrong with it; {@link FaultKind#NONE} for a sound one
     * @param sister whether another, sound part of the same kind is put up in its place
     */
    public void put(BearingGeometry geometry, Ring ring, FaultKind wearing, boolean sister) {
        Objects.requireNonNull(geometry, "geometry");
        Objects.requireNonNull(ring, "ring");
        Objects.requireNonNull(wearing, "wearing");
        FaultKind kind = sister ? FaultKind.NONE : wearing;
        List<Object> what = List.of(geometry, ring, kind, sister);
        if (what.equals(up) && turning != STILL) {
            return;
        }
        up = what;
        turning = STILL;
        SimulatedBench.Take take =
                BenchRig.practice(
                        sister ? SEED + 1 : SEED,
                        geometry,
                        ring,
                        kind == FaultKind.NONE
                                ? Trouble.NONE
                                : new Trouble("part", kind, SEVERITY_RATIO, 0),
                        RENDERED_S);
        turning = new LoopedSound(take.accelMps2().get(0), take.sampleRateHz(), take.pulsesS());
    }

    /** Stops the lathe. */
    public void stop() {
        turning = STILL;
    }

    @Override
    public int axes() {
        return turning.axes();
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        turning.accelMps2(fromS, stepS, count, out);
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        return turning.passagesS(fromS, toS);
    }

    @Override
    public double speedRpm(double timeS) {
        return turning.speedRpm(timeS);
    }

    @Override
    public double[] pressesS(double fromS, double toS) {
        return turning.pressesS(fromS, toS);
    }
}
