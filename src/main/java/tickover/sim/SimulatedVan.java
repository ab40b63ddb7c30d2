package tickover.sim;

import java.util.Objects;
import tickover.drive.Condition;
import tickover.drive.Vehicle;

/**
 * The library's van ML-07 with somebody holding a probe to it where they are told to: for practice
 * at the console. Idles; what is heard changes with point and load as it would at the engine.
 *
 * <p>Holding is told by one thread, looking is done by others.
 */
public final class SimulatedVan implements LineScene {
    /** A capture is rendered for so long and goes round then; real ones are over by that time. */
    private static final double RENDERED_S = 30;

    private static final LineScene IN_THE_AIR = new StillScene(0.02);

    private final boolean repaired;
    private volatile LineScene held = IN_THE_AIR;

    /**
     * Parks the van.
     *
     * @param repaired whether its idler has been replaced
     */
    public SimulatedVan(boolean repaired) {
        this.repaired = repaired;
    }

    /**
     * Tells what is wrong with a part of the van that came with a noise.
     *
     * @param part a pulley's name, or anything else
     * @return its fault
     */
    public static FaultKind wearOf(String part) {
        return LibraryPool.wearOf(part);
    }

    /**
     * Returns the van as its workshop describes it.
     *
     * @return ML-07
     */
    public Vehicle vehicle() {
        return LibraryPool.vehicle();
    }

    /**
     * Returns what it is recorded with.
     *
     * @return rate, format and range
     */
    public SimulatedCapture.Recorder recorder() {
        return LibraryPool.recorder();
    }

    /**
     * Holds the probe somewhere else. Takes about a second of computing.
     *
     * @param point a pulley's name, valve-cover, injector-N, block or bracket; anywhere else the
     *     probe hangs in the air
     * @param condition what the drive has to carry
     */
    public void hold(String point, Condition condition) {
        Objects.requireNonNull(condition, "condition");
        held = IN_THE_AIR;
        try {
            SimulatedCapture capture = LibraryPool.heldTo(point, condition, repaired, RENDERED_S);
            held =
                    new LoopedSound(
                            capture.accelMps2(0),
                            capture.recorder().sampleRateHz(),
                            capture.speed() instanceof SpeedRecord.Tach tach
                                    ? tach.timesS()
                                    : new double[0]);
        } catch (IllegalArgumentException e) {
            // No such point on this van: the probe stays in the air.
            held = IN_THE_AIR;
        }
    }

    @Override
    public int axes() {
        return held.axes();
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        held.accelMps2(fromS, stepS, count, out);
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        return held.passagesS(fromS, toS);
    }

    @Override
    public double speedRpm(double timeS) {
        return held.speedRpm(timeS);
    }

    @Override
    public double[] pressesS(double fromS, double toS) {
        return held.pressesS(fromS, toS);
    }
}
