package tickover.sim;

import java.util.Arrays;
import java.util.Objects;

/** A part of a scene, as a device with fewer senses has it. */
public final class SceneView implements LineScene {
    private static final double[] NEVER = {};

    private final LineScene scene;
    private final boolean feels;
    private final boolean seesMark;

    private SceneView(LineScene scene, boolean feels, boolean seesMark) {
        this.scene = Objects.requireNonNull(scene, "scene");
        this.feels = feels;
        this.seesMark = seesMark;
    }

    /**
     * A probe without a tach.
     *
     * @param scene the whole scene
     * @return what it feels
     */
    public static SceneView withoutMark(LineScene scene) {
        return new SceneView(scene, true, false);
    }

    /**
     * A board with a tach that lies on the bench: it sees the mark and feels nothing.
     *
     * @param scene the whole scene
     * @return what it sees
     */
    public static SceneView markAlone(LineScene scene) {
        return new SceneView(scene, false, true);
    }

    @Override
    public int axes() {
        return feels ? scene.axes() : 1;
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        if (feels) {
            scene.accelMps2(fromS, stepS, count, out);
        } else {
            Arrays.fill(out, 0, count, 0);
        }
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        return seesMark ? scene.passagesS(fromS, toS) : NEVER;
    }

    @Override
    public double speedRpm(double timeS) {
        return scene.speedRpm(timeS);
    }

    @Override
    public double[] pressesS(double fromS, double toS) {
        return feels ? scene.pressesS(fromS, toS) : NEVER;
    }
}
