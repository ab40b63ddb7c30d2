package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.sim.EndlessScene.Tone;
import tickover.sim.EndlessScene.Turning;

class WaitingSceneTest {
    private static final double ROUND_OFF_S = 1e-9;

    private final EndlessScene inner =
            new EndlessScene(new Turning(780, 0, 3), List.of(new Tone(1, 0.5, 0)), 0, 1, 1.0, 2.0);
    private final WaitingScene scene = new WaitingScene(inner, 30);

    private double[] felt(LineScene of, double fromS) {
        double[] out = new double[100 * of.axes()];
        of.accelMps2(fromS, 1e-4, 100, out);
        return out;
    }

    @Test
    void nothingHappensBeforeTheProbeIsStarted() {
        assertEquals(0, scene.passagesS(0, 100).length);
        assertEquals(0, scene.pressesS(0, 100).length);
        assertEquals(inner.speedRpm(0), scene.speedRpm(50));
    }

    @Test
    void everythingIsLaterByTheTimeOfTheStart() {
        scene.started(12.5);
        double[] passages = inner.passagesS(0, 10);
        double[] later = scene.passagesS(12.5, 22.5);
        assertEquals(passages.length, later.length);
        for (int i = 0; i < later.length; i++) {
            assertEquals(passages[i] + 12.5, later[i], ROUND_OFF_S);
        }
        assertArrayEquals(felt(inner, 3), felt(scene, 15.5), ROUND_OFF_S);
    }

    @Test
    void aStartInTheMiddleChangesNothingAndOneAfterTheEndBeginsAnew() {
        scene.started(10);
        double first = scene.passagesS(10, 20)[0];
        scene.started(25);
        assertEquals(first, scene.passagesS(10, 20)[0]);
        scene.started(100);
        assertEquals(0, scene.passagesS(0, 99).length);
        assertEquals(first + 90, scene.passagesS(100, 110)[0], ROUND_OFF_S);
    }
}
