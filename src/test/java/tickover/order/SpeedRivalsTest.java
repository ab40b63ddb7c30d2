package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Which speed the lines over an angle tell, where a belt-driven line passes for the firing order.
 */
class SpeedRivalsTest {
    private static final int PER_TURN = 64;

    /** One step of the search. */
    private static final double STEP_RATIO = 0.001;

    private static final AnglePrior PRIOR = AnglePrior.of(4, 4);

    @Test
    void aLoudBeltLineAtTheFiringOrderOfAnotherSpeedIsSeenThrough() {
        // The angle is locked on a pulley of 2.46 turns per crank turn, taken for order 2.
        double real = 2 / 2.46;
        SpeedRivals rivals = rivals(real, 10, 0.5, 2);
        assertEquals(real, rivals.best(), 3 * STEP_RATIO);
        assertFalse(rivals.agree());
        assertTrue(rivals.decided());
    }

    @Test
    void theRightSpeedAgreesWithItself() {
        SpeedRivals rivals = rivals(1, 0, 0.3, 3);
        assertTrue(rivals.agree());
        assertTrue(rivals.decided());
    }

    @Test
    void noiseDecidesNothing() {
        Random random = new Random(4);
        double[] x = new double[100 * PER_TURN];
        for (int i = 0; i < x.length; i++) {
            x[i] = random.nextGaussian();
        }
        List<AngularRecord> records = List.of(new AngularRecord(PER_TURN, 0, x));
        assertFalse(SpeedRivals.of(records, PRIOR, 0.4, 2.5).decided());
    }

    @Test
    void aPartThatTellsAnotherSpeedIsNoticed() {
        double[] x = engine(1, 0, 200);
        double[] other = engine(0.97, 0, 200);
        assertTrue(SpeedRivals.agreeThroughout(List.of(record(x)), PRIOR, 0.06));
        System.arraycopy(other, 0, x, 0, 60 * PER_TURN);
        assertFalse(SpeedRivals.agreeThroughout(List.of(record(x)), PRIOR, 0.06));
    }

    private static SpeedRivals rivals(double real, double belt, double low, double high) {
        return SpeedRivals.of(List.of(record(engine(real, belt, 120))), PRIOR, low, high);
    }

    private static AngularRecord record(double[] x) {
        return new AngularRecord(PER_TURN, 0, x);
    }

    /**
     * Half orders of an engine that really turns so many times per turn of the angle, and noise.
     */
    private static double[] engine(double real, double belt, int turns) {
        Random random = new Random(3);
        double[] x = new double[turns * PER_TURN];
        double[] phase = new double[17];
        for (int h = 1; h < phase.length; h++) {
            phase[h] = 2 * Math.PI * random.nextDouble();
        }
        for (int i = 0; i < x.length; i++) {
            double angle = 2 * Math.PI * real * i / PER_TURN;
            for (int h = 1; h < phase.length; h++) {
                x[i] += (h % 4 == 0 ? 1 : 0.3) * Math.cos(h / 2.0 * angle + phase[h]);
            }
            x[i] += belt * Math.cos(2.46 * angle) + 0.3 * belt * Math.cos(4.92 * angle);
            x[i] += 0.2 * random.nextGaussian();
        }
        return x;
    }
}
