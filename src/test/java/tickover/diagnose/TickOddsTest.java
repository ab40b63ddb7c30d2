package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Engine;

/** Four cylinders that fire 1, 3, 4, 2; every working cycle takes two turns. */
class TickOddsTest {
    private static final List<Integer> ORDER = List.of(1, 3, 4, 2);
    private static final Engine ENGINE = Engine.of(4, 4).withFiringOrder(ORDER);
    private static final double TICK_MPS2 = 2;

    /** Louder than the loudest tick, and an octave below where the ticks ring. */
    private static final double FIRING_MPS2 = 30;

    private static final double FIRING_HZ = 1500;

    /** Index of the valves, behind the four injectors. */
    private static final int VALVES = 4;

    /** Odds of a hundred to one, and of nothing much. */
    private static final double SURE_NATS = Math.log(100);

    private static final double LITTLE_NATS = 2;

    @Test
    void injectorThatTicksTooLoudIsFoundThoughNothingMarksTheFirstCylinder()
            throws UnusableCaptureException {
        List<CaptureMeasurement> captures = new ArrayList<>();
        for (int point = 1; point <= 4; point++) {
            captures.add(beside(point, 3, 14, 0.13 * point));
        }
        double[] nats = new TickOdds(ENGINE, captures).nats();
        assertEquals(2, likeliest(nats));
        assertTrue(nats[2] > SURE_NATS, "injector 3: " + nats[2]);
    }

    /** In the sum of all bands these firings hide the injectors. */
    @Test
    void loudFiringsThatRingLowerDoNotHideTheInjectorThatTicksTooLoud()
            throws UnusableCaptureException {
        List<CaptureMeasurement> captures = new ArrayList<>();
        for (int point = 1; point <= 4; point++) {
            double[] x = besides(point, 3, 14, 0.13 * point);
            for (int slot = 0; slot < 4; slot++) {
                SteadyCaptures.bursts(
                        x, 0.13 * point + 0.2 + 0.5 * slot, 2, FIRING_MPS2, FIRING_HZ);
            }
            captures.add(SteadyCaptures.at("injector-" + point, x));
        }
        double[] nats = new TickOdds(ENGINE, captures).nats();
        assertEquals(2, likeliest(nats));
        // The firings' own band, in which all are alike, speaks against it.
        assertTrue(nats[2] > 0, "injector 3: " + nats[2]);
    }

    @Test
    void evenInjectorsAccuseNone() throws UnusableCaptureException {
        List<CaptureMeasurement> captures = new ArrayList<>();
        for (int point = 1; point <= 4; point++) {
            captures.add(beside(point, 0, 0, 0.2 * point));
        }
        double[] nats = new TickOdds(ENGINE, captures).nats();
        assertTrue(nats[likeliest(nats)] < LITTLE_NATS, "odds " + nats[likeliest(nats)]);
    }

    @Test
    void oneLoudSlotThatIsTheSameEverywhereIsAValve() throws UnusableCaptureException {
        List<CaptureMeasurement> captures = new ArrayList<>();
        for (String point : List.of("valve-cover", "block", "idler", "alternator")) {
            double[] x = SteadyCaptures.noise(point.hashCode(), 0.05);
            for (int slot = 0; slot < 4; slot++) {
                double louder = slot == 2 ? 4 : 1;
                SteadyCaptures.bursts(x, 0.3 + 0.5 * slot, 2, louder * TICK_MPS2);
            }
            captures.add(SteadyCaptures.at(point, x));
        }
        double[] nats = new TickOdds(ENGINE, captures).nats();
        assertEquals(VALVES, likeliest(nats));
    }

    @Test
    void withoutCapturesNothingIsSaid() {
        double[] nats = new TickOdds(ENGINE, List.of()).nats();
        assertEquals(5, nats.length);
        assertEquals(0, nats[likeliest(nats)], 0);
    }

    /** Every injector, each as much weaker as it is farther off, one of them too loud. */
    private static CaptureMeasurement beside(
            int point, int loud, double louderDb, double firstTurns)
            throws UnusableCaptureException {
        return SteadyCaptures.at("injector-" + point, besides(point, loud, louderDb, firstTurns));
    }

    private static double[] besides(int point, int loud, double louderDb, double firstTurns) {
        double[] x = SteadyCaptures.noise(100 + point, 0.05);
        for (int slot = 0; slot < 4; slot++) {
            int cylinder = ORDER.get(slot);
            double apart = WayLoss.CYLINDER_APART_MM * Math.abs(cylinder - point);
            double levelDb = -WayLoss.lossDb(apart) + (cylinder == loud ? louderDb : 0);
            SteadyCaptures.bursts(
                    x, firstTurns + 0.5 * slot, 2, TICK_MPS2 * Math.pow(10, levelDb / 20));
        }
        return x;
    }

    private static int likeliest(double[] nats) {
        int best = 0;
        for (int i = 0; i < nats.length; i++) {
            best = nats[i] > nats[best] ? i : best;
        }
        return best;
    }
}
