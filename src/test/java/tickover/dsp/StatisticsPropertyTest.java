package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class StatisticsPropertyTest {
    private static final int TRIES = 500;

    /** Up to 60 whole numbers from a short range, so that many are equal. */
    private static double[] some(Random random) {
        return random.ints(1 + random.nextInt(60), -9, 10).asDoubleStream().toArray();
    }

    @Test
    void theNthIsWhereSortingWouldBringIt() {
        Random random = new Random(1);
        for (int t = 0; t < TRIES; t++) {
            double[] x = some(random);
            double[] sorted = x.clone();
            Arrays.sort(sorted);
            int place = random.nextInt(x.length);
            assertEquals(sorted[place], Statistics.nth(x, x.length, place));
            for (int i = 0; i < x.length; i++) {
                assertTrue(i < place ? x[i] <= x[place] : x[i] >= x[place], "try " + t);
            }
            Arrays.sort(x);
            assertEquals(Arrays.toString(sorted), Arrays.toString(x));
        }
    }

    @Test
    void quantilesLieStraightBetweenOrderStatistics() {
        Random random = new Random(2);
        for (int t = 0; t < TRIES; t++) {
            double[] x = some(random);
            double share = t % 10 == 0 ? t % 20 / 10.0 : random.nextDouble();
            double[] sorted = x.clone();
            Arrays.sort(sorted);
            double at = share * (x.length - 1);
            int below = (int) at;
            int above = Math.min(below + 1, x.length - 1);
            double expected = sorted[below] + (at - below) * (sorted[above] - sorted[below]);
            assertEquals(expected, Statistics.quantile(x, share), "try " + t);
        }
    }

    @Test
    void aPlaceOutsideTheCountIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Statistics.nth(new double[3], 3, 3));
        assertThrows(IllegalArgumentException.class, () -> Statistics.nth(new double[3], 4, 0));
    }
}
