package tickover.sim;

import java.util.Objects;
import java.util.stream.DoubleStream;
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
    private volatile Held held;

    /** What the probe is held to. Begins when it is first looked at. */
    private static final class Held {
        private final SimulatedCapture capture;
        private final double[] passagesS;
        private double beganS = Double.NaN;

        Held(SimulatedCapture capture) {
            this.capture = capture;
            this.passagesS =
                    capture.speed() instanceof SpeedRecord.Tach tach
                            ? tach.timesS()
                            : new double[0];
        }

        synchronized double own(double timeS) {
            if (Double.isNaN(beganS)) {
                beganS = timeS;
            }
            return timeS - beganS;
        }
    }

    /**
     * Parks the van.
     *
     * @param repaired whether its idler has been replaced
     */
    public SimulatedVan(boolean repaired) {
        this.repaired = repaired;
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
            held = new Held(LibraryPool.heldTo(point, condition, repaired, RENDERED_S));
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
        Held h = held;
        for (int i = 0; i < count; i++) {
            double timeS = fromS + i * stepS;
            out[i] = h == null ? AIR_RMS_MPS2 * SceneNoise.at(timeS, 0) : felt(h, timeS);
        }
    }

    private static double felt(Held h, double timeS) {
        double[] x = h.capture.accelMps2(0);
        double rateHz = h.capture.recorder().sampleRateHz();
        long i = (long) Math.rint(h.own(timeS) * rateHz);
        return x[(int) Math.floorMod(i, (long) x.length)];
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        Held h = held;
        if (h == null || h.passagesS.length == 0) {
            return new double[0];
        }
        double ownFrom = h.own(fromS);
        double shift = fromS - ownFrom;
        DoubleStream.Builder times = DoubleStream.builder();
        for (double round = Math.floor(ownFrom / RENDERED_S) * RENDERED_S;
                round < toS - shift;
                round += RENDERED_S) {
            for (double t : h.passagesS) {
                double at = round + t + shift;
                if (at >= fromS && at < toS) {
                    times.add(at);
                }
            }
        }
        return times.build().toArray();
    }

    @Override
    public double speedRpm(double timeS) {
        Held h = held;
        if (h == null || h.passagesS.length < 2) {
            return 0;
        }
        int n = h.passagesS.length;
        return 60 * (n - 1) / (h.passagesS[n - 1] - h.passagesS[0]);
    }

    @Override
    public double[] pressesS(double fromS, double toS) {
        return new double[0];
    }
}
