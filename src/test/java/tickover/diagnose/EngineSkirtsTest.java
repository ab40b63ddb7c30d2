package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class EngineSkirtsTest {
    /** Bins from one half order to the next. */
    private static final int SPACING_BINS = 100;

    private static final int BINS = 20_000;
    private static final int PER_FIRING = 4;

    /** A skirt of the firing's lines, over the background. */
    private static final double SKIRT = 9;

    private static final int SKIRT_BINS = 12;

    /** A skirt's height is a mean of three hundred bins or so: four of its standard errors. */
    private static final double CHANCE_RATIO = 0.25;

    /** The mean of a thousand bins and of what they were divided by. */
    private static final double MEAN_TOLERANCE = 0.2;

    /** Far above what noise reaches. */
    private static final double LINE = 300;

    @Test
    void whatStandsBesideAllFiringLinesIsTakenOff() {
        double[] ratio = noise();
        addSkirts(ratio, PER_FIRING * SPACING_BINS);
        EngineSkirts.level(ratio, SPACING_BINS, PER_FIRING);
        assertEquals(1, meanBesideFiring(ratio), MEAN_TOLERANCE);
    }

    @Test
    void lineOfSomethingElseStaysWhereItIs() {
        double[] ratio = noise();
        addSkirts(ratio, PER_FIRING * SPACING_BINS);
        int line = 5 * PER_FIRING * SPACING_BINS + 5;
        ratio[line] = LINE;
        EngineSkirts.level(ratio, SPACING_BINS, PER_FIRING);
        assertTrue(ratio[line] > LINE / ((1 + CHANCE_RATIO) * SKIRT), "left " + ratio[line]);
    }

    @Test
    void ofOneCylinderEveryLineIsOfItsFiring() {
        double[] ratio = noise();
        addSkirts(ratio, SPACING_BINS);
        EngineSkirts.level(ratio, SPACING_BINS, 1);
        assertEquals(1, meanBesideFiring(ratio), MEAN_TOLERANCE);
    }

    @Test
    void tooFewLinesSayNothingOfSkirts() {
        double[] before = Arrays.copyOf(noise(), 3 * SPACING_BINS);
        double[] after = before.clone();
        EngineSkirts.level(after, SPACING_BINS, PER_FIRING);
        assertArrayEquals(before, after, 0);
    }

    @Test
    void noiseWithoutSkirtsIsLeftAsItIs() {
        double[] before = noise();
        double[] after = before.clone();
        EngineSkirts.level(after, SPACING_BINS, PER_FIRING);
        for (int i = 0; i < before.length; i++) {
            assertTrue(after[i] <= before[i], "bin " + i + " rose");
            assertTrue(
                    after[i] >= (1 - CHANCE_RATIO) * before[i],
                    "bin " + i + " fell to " + after[i]);
        }
    }

    private static double[] noise() {
        Random random = new Random(4);
        double[] out = new double[BINS];
        for (int i = 0; i < out.length; i++) {
            out[i] = -Math.log(1 - random.nextDouble());
        }
        return out;
    }

    private static void addSkirts(double[] ratio, int spacing) {
        for (int centre = spacing; centre + SKIRT_BINS < BINS; centre += spacing) {
            for (int d = -SKIRT_BINS; d <= SKIRT_BINS; d++) {
                ratio[centre + d] *= SKIRT;
            }
        }
    }

    private static double meanBesideFiring(double[] ratio) {
        int firing = PER_FIRING * SPACING_BINS;
        double sum = 0;
        int count = 0;
        for (int centre = firing; centre + SKIRT_BINS < BINS; centre += firing) {
            for (int d = 2; d < SKIRT_BINS - 1; d++) {
                sum += ratio[centre + d] + ratio[centre - d];
                count += 2;
            }
        }
        return sum / count;
    }
}
