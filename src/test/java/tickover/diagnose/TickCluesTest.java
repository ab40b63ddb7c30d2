package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class TickCluesTest {
    private static final int CYLINDERS = 4;
    private static final double KNOCK_MPS2 = 4;

    @Test
    void whatIsTooSureIsTakenOffAllAlike() {
        double[] held = TickClues.heldBack(new double[] {21, 18, -3});
        assertArrayEquals(new double[] {8, 5, -16}, held, 1e-9);
        double[] unsure = {2, -1, 0.5};
        assertArrayEquals(unsure, TickClues.heldBack(unsure), 0);
    }

    @Test
    void knockOfAPistonIsDullAndTickOfAnInjectorSharp() throws UnusableCaptureException {
        double dull = TickTrain.dullDb(oneCylinder(900), CYLINDERS);
        double sharp = TickTrain.dullDb(oneCylinder(4000), CYLINDERS);
        double clearDb = 6;
        assertTrue(dull > clearDb, "at 900 Hz " + dull);
        assertTrue(sharp < -clearDb, "at 4000 Hz " + sharp);
    }

    private static CaptureMeasurement oneCylinder(double ringHz) throws UnusableCaptureException {
        double[] x = SteadyCaptures.noise(3, 0.3);
        SteadyCaptures.bursts(x, 0.37, 2, KNOCK_MPS2, ringHz);
        return SteadyCaptures.at("idler", x);
    }
}
