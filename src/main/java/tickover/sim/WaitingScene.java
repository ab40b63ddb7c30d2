package tickover.sim;

import java.util.Objects;

/**
 * A scene that begins when somebody starts the probe, and anew when the probe is started after its
 * end. Before that nobody holds the probe. Several devices may look at it from threads of their
 * own.
 */
public final class WaitingScene implements LineScene {
    private static final double AIR_RMS_MPS2 = 0.02;

    private final LineScene scene;
    private final double durationS;

    /** Infinite until the scene begins, so that every time is before it. */
    private volatile double beganS = Double.POSITIVE_INFINITY;

    /**
     * @param scene what happens
     * @param durationS how long it takes, s
     */
    public WaitingScene(LineScene scene, double durationS) {
        this.scene = Objects.requireNonNull(scene, "scene");
        if (!(durationS > 0)) {
            throw new IllegalArgumentException("durationS=" + durationS + ", need > 0 s");
        }
        this.durationS = durationS;
    }

    @Override
    public void started(double atS) {
        if (!(atS - beganS <= durationS && atS >= beganS)) {
            beganS = atS;
        }
    }

    /** The scene's own time; before it begins, some time before its first. */
    private double own(double timeS) {
        return Double.isInfinite(beganS) ? Math.min(-1, timeS - 1e6) : timeS - beganS;
    }

    @Override
    public int axes() {
        return scene.axes();
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        double ownS = own(fromS);
        if (ownS >= 0) {
            scene.accelMps2(ownS, stepS, count, out);
            return;
        }
        int axes = axes();
        for (int i = 0; i < count; i++) {
            for (int axis = 0; axis < axes; axis++) {
                out[i * axes + axis] = AIR_RMS_MPS2 * SceneNoise.at(fromS + i * stepS, axis);
            }
        }
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        return back(scene.passagesS(Math.max(0, own(fromS)), Math.max(0, own(toS))));
    }

    @Override
    public double speedRpm(double timeS) {
        return scene.speedRpm(Math.max(0, own(timeS)));
    }

    @Override
    public double[] pressesS(double fromS, double toS) {
        return back(scene.pressesS(Math.max(0, own(fromS)), Math.max(0, own(toS))));
    }

    private double[] back(double[] timesS) {
        double[] all = new double[timesS.length];
        for (int i = 0; i < all.length; i++) {
            all[i] = timesS[i] + beganS;
        }
        return all;
    }
}
