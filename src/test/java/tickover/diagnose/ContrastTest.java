package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class ContrastTest {
    private static final double ROUND_OFF_DB = 1e-9;

    @Test
    void tenfoldPowerIsTenDecibels() {
        Contrast c = Contrast.between(List.of(new double[] {10, 10}), List.of(new double[] {1, 1}));
        assertEquals(10, c.differenceDb(), ROUND_OFF_DB);
        assertEquals(10, c.lowDb(), ROUND_OFF_DB);
        assertEquals(10, c.highDb(), ROUND_OFF_DB);
    }

    @Test
    void sameDataGiveTheSameIntervalEveryTime() {
        List<double[]> a = touches(1, 3, 1.0);
        List<double[]> b = touches(2, 3, 2.0);
        assertEquals(Contrast.between(a, b), Contrast.between(a, b));
    }

    @Test
    void swappingTheSidesTurnsTheSign() {
        List<double[]> a = touches(1, 3, 1.0);
        List<double[]> b = touches(2, 3, 2.0);
        assertEquals(
                Contrast.between(a, b).differenceDb(),
                -Contrast.between(b, a).differenceDb(),
                ROUND_OFF_DB);
    }

    /**
     * The interval must hold the true difference about as often as it says. A percentile bootstrap
     * over few touches is known to be too narrow; with twelve it reaches about 90 %.
     */
    @Test
    void intervalHoldsTheTruthAboutAsOftenAsItSays() {
        int trials = 150;
        int held = 0;
        for (int t = 0; t < trials; t++) {
            Contrast c = Contrast.between(touches(100 + t, 12, 2.0), touches(5000 + t, 12, 1.0));
            double truth = 10 * Math.log10(2.0);
            held += c.lowDb() <= truth && truth <= c.highDb() ? 1 : 0;
        }
        double threeSigma = 3 * Math.sqrt(trials * 0.9 * 0.1);
        assertTrue(held >= trials * 0.9 - threeSigma, held + " of " + trials);
        assertTrue(held < trials, "an interval that always holds is too wide to be of use");
    }

    @Test
    void refusesATouchWithoutSegments() {
        assertThrows(
                IllegalArgumentException.class,
                () -> Contrast.between(List.of(new double[0]), List.of(new double[] {1})));
    }

    /** Touches differ by a gain of 1 dB rms, segments by the scatter of few averages. */
    private static List<double[]> touches(long seed, int count, double power) {
        java.util.Random random = new java.util.Random(seed);
        return java.util.stream.IntStream.range(0, count)
                .mapToObj(
                        i -> {
                            double gain = Math.pow(10, random.nextGaussian() / 10);
                            double[] s = new double[8];
                            for (int k = 0; k < s.length; k++) {
                                double g = random.nextGaussian();
                                s[k] = power * gain * (0.9 + 0.1 * g * g);
                            }
                            return s;
                        })
                .toList();
    }
}
