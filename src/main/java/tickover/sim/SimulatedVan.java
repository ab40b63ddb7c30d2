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

    private static final double AIR_RMS_MPS2 = 0.02;

    private final boolean repaired;
    private volatile LoopedSound held;

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
        held = null;
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
            held = null;
        }
    }

    @Override
    public int axes() {
        return 1;
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        LoopedSound h = held;
        for (int i = 0; i < count; i++) {
            double timeS = fromS + i * stepS;
            out[i] = h == null ? AIR_RMS_MPS2 * SceneNoise.at(timeS, 0) : h.feltMps2(timeS);
        }
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        LoopedSound h = held;
        return h == null ? new double[0] : h.passagesS(fromS, toS);
    }

    @Override
    public double speedRpm(double timeS) {
        LoopedSound h = held;
        return h == null ? 0 : h.speedRpm();
    }

    @Override
    public double[] pressesS(double fromS, double toS) {
        return new double[0];
    }
}
