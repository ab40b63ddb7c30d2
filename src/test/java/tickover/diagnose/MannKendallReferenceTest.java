package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/**
 * Mann and Kendall's test, Theil and Sen's slope and robust scatter against outside values: the
 * worked example of a college's course notes (seen as an excerpt), scipy 1.17.1 (theilslopes,
 * kendalltau), and a hand count of all orders.
 */
class MannKendallReferenceTest {
    private static final double[] YEARLY = {
        12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7
    };

    @Test
    void publishedExample() {
        MannKendall test = MannKendall.of(YEARLY);
        assertEquals(54, test.sum());
        assertEquals(332.667, test.variance(), 5e-4);
        assertEquals(2.9058, test.normalScore(), 5e-5);
        assertEquals(0.0018, test.chanceOfRise(), 5e-5);
        assertEquals(0.5967, test.rankCorrelation(), 5e-5);
    }

    @Test
    void slopeOfThePublishedExample() {
        double[] years = IntStream.range(0, YEARLY.length).asDoubleStream().toArray();
        TheilSen rate = TheilSen.of(years, YEARLY, 0.95);
        assertEquals(0.56667, rate.slope(), 5e-6);
        assertEquals(0.325, rate.interval().orElseThrow().low(), 1e-9);
        assertEquals(0.867, rate.interval().orElseThrow().high(), 5e-4);
    }

    /** Four different values have 24 orders: sums 6, 4, 2, 0 come 1, 3, 5, 6 times. */
    @Test
    void countsEveryOrderOfFour() {
        double roundOff = 1e-12;
        assertEquals(1 / 24.0, MannKendall.exactChance(4, 6), roundOff);
        assertEquals(4 / 24.0, MannKendall.exactChance(4, 4), roundOff);
        assertEquals(9 / 24.0, MannKendall.exactChance(4, 2), roundOff);
        assertEquals(15 / 24.0, MannKendall.exactChance(4, 0), roundOff);
        assertEquals(1, MannKendall.exactChance(4, -6), roundOff);
        assertEquals(0, MannKendall.exactChance(4, 7), roundOff);
    }

    /** One order of 120 only rises; the exact chance is not the normal one, which is .014. */
    @Test
    void fiveThatOnlyRiseAreOneOrderOf120() {
        MannKendall test = MannKendall.of(new double[] {1, 2, 3, 5, 8});
        assertEquals(1 / 120.0, test.chanceOfRise(), 1e-12);
        assertEquals(1, test.chanceOfFall(), 1e-12);
    }

    /** Every order of six values: the interval holds the true slope at least 19 times of 20. */
    @Test
    void exactIntervalHoldsWhatItPromises() {
        int[] orders = {0};
        int[] held = {0};
        permute(
                new double[] {0, 1, 2.5, 4, 7, 11},
                0,
                order -> {
                    double[] at = {0, 1, 2, 3, 4, 5};
                    TheilSen.Interval i = TheilSen.of(at, order, 0.95).interval().orElseThrow();
                    orders[0]++;
                    held[0] += i.low() <= 0 && i.high() >= 0 ? 1 : 0;
                });
        assertEquals(720, orders[0]);
        assertTrue(held[0] >= 0.95 * orders[0], held[0] + " of 720");
    }

    private interface Order {
        void take(double[] values);
    }

    private static void permute(double[] values, int from, Order order) {
        if (from == values.length) {
            order.take(values.clone());
            return;
        }
        for (int i = from; i < values.length; i++) {
            double[] swapped = values.clone();
            swapped[from] = values[i];
            swapped[i] = values[from];
            permute(swapped, from + 1, order);
        }
    }

    @Test
    void fourValuesBearNoInterval() {
        double[] at = {0, 1, 2, 3};
        assertTrue(TheilSen.of(at, new double[] {1, 2, 3, 4}, 0.95).interval().isEmpty());
    }

    /** MAD example, textbook formula with the numbers recomputed. */
    @Test
    void oneStrangeValueDoesNotMoveTheScatter() {
        double[] values = {12, 14, 13, 15, 13, 14, 40};
        assertEquals(14, Robust.median(values));
        assertEquals(1.4826, Robust.scatter(values), 1e-12);
        double printed = 0.007;
        assertEquals(17.54, (40 - Robust.median(values)) / Robust.scatter(values), printed);
    }
}
