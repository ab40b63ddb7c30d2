package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * EWMA and CUSUM against published examples: the NIST/SEMATECH e-Handbook 6.3.2.4 (set-up seen, the
 * numbers from memory and recomputed), Montgomery's series of 30 values (seen as an excerpt that
 * cites p. 428; signals computed), and run lengths after Montgomery and Lucas and Saccucci 1990
 * (from memory, recomputed by integral equation).
 */
class ControlChartReferenceTest {
    private static final double[] NIST = {
        52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8,
        51.2, 52.6, 52.4, 53.6, 52.1
    };

    private static final double[] NIST_EWMA = {
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
        50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99
    };

    private static final double[] MONTGOMERY = {
        9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.20, 10.34, 9.03, 11.47, 10.51, 9.40,
        10.08, 9.37, 10.62, 10.31, 8.52, 10.84, 10.90, 9.33, 12.29, 11.50, 10.60, 11.08, 10.38,
        11.62, 11.31, 10.52
    };

    private static final long SEED = 20261128;
    private static final int RUNS = 4000;

    /** Run lengths are nearly exponential, so their mean scatters by 1/sqrt(runs) of itself. */
    private static final double SAMPLING_ERRORS = 4;

    /** Published run lengths have three digits. */
    private static final double PRINTED_RATIO = 0.005;

    @Test
    void nistExampleStaysWithinItsLimits() {
        EwmaChart chart = new EwmaChart(new EwmaChart.Spec(50, 2.0539, 0.3, 3));
        double printed = 0.005;
        for (int i = 0; i < NIST.length; i++) {
            // The published series is rounded at each step; an error fades by 0.7 per step.
            assertEquals(NIST_EWMA[i], chart.add(NIST[i]), 2 * printed, "value " + (i + 1));
            assertTrue(
                    chart.value() < chart.lastingUpperLimit() && !chart.signals(),
                    "value " + (i + 1));
        }
        double printedLimit = 5e-5;
        assertEquals(52.5884, chart.lastingUpperLimit(), printedLimit);
        // After twenty values the exact limits are the lasting ones to 0.7^40.
        assertEquals(52.5884, chart.upperLimit(), printedLimit);
        assertEquals(47.4115, chart.lowerLimit(), 2 * printedLimit);
    }

    @Test
    void ewmaSignalsFirstAtTheTwentyNinthValue() {
        EwmaChart chart = new EwmaChart(new EwmaChart.Spec(10, 1, 0.1, 2.7));
        double printed = 5e-5;
        int first = 0;
        for (int i = 1; i <= MONTGOMERY.length; i++) {
            double z = chart.add(MONTGOMERY[i - 1]);
            if (i == 1) {
                assertEquals(9.945, z, printed);
                assertEquals(10.27, chart.upperLimit(), printed);
            }
            if (i == 2) {
                assertEquals(9.7495, z, printed);
            }
            if (i == 29) {
                assertEquals(10.6468, z, printed);
            }
            first = first == 0 && chart.signals() ? i : first;
        }
        assertEquals(10.6194, chart.lastingUpperLimit(), printed);
        assertEquals(29, first);
    }

    @Test
    void cusumSignalsFirstAtTheTwentyNinthValue() {
        CusumChart chart = new CusumChart(new CusumChart.Spec(10, 1, 0.5, 5));
        double roundOff = 1e-9;
        int first = 0;
        for (int i = 1; i <= MONTGOMERY.length; i++) {
            chart.add(MONTGOMERY[i - 1]);
            if (i == 4) {
                assertEquals(1.16, chart.up(), roundOff);
            }
            if (i == 5) {
                assertEquals(2.82, chart.up(), roundOff);
                assertEquals(2, chart.upFor());
            }
            if (i == 29) {
                assertEquals(5.28, chart.up(), roundOff);
            }
            first = first == 0 && chart.signalsUp() ? i : first;
        }
        assertEquals(29, first);
        assertTrue(!chart.signalsDown());
    }

    @ParameterizedTest
    @CsvSource({
        "4, 0, 168", "4, 0.5, 26.6", "4, 1, 8.38", "4, 2, 3.34", "4, 3, 2.19",
        "5, 0, 465", "5, 0.5, 38.0", "5, 1, 10.4", "5, 2, 4.01", "5, 3, 2.57"
    })
    void cusumRunsAsLongAsPublished(double limit, double shift, double published) {
        Random random = new Random(SEED);
        long visits = 0;
        for (int run = 0; run < RUNS; run++) {
            CusumChart chart = new CusumChart(new CusumChart.Spec(0, 1, 0.5, limit));
            while (!chart.signalsUp() && !chart.signalsDown()) {
                chart.add(shift + random.nextGaussian());
                visits++;
            }
        }
        near(published, (double) visits / RUNS);
    }

    @ParameterizedTest
    @CsvSource({
        "0.1, 2.814, 0, 500",
        "0.1, 2.814, 0.5, 31.3",
        "0.1, 2.814, 1, 10.3",
        "0.1, 2.814, 2, 4.36",
        "0.2, 2.962, 0, 500",
        "0.2, 2.962, 0.5, 41.8",
        "0.2, 2.962, 1, 10.5",
        "0.2, 2.962, 2, 3.74",
        "0.1, 2.7, 0, 369",
        "0.1, 2.7, 0.5, 28.2",
        "0.1, 2.7, 1, 9.73",
        "0.1, 2.7, 2, 4.18",
        "1, 3, 0, 370.4",
        "1, 3, 0.5, 155",
        "1, 3, 1, 43.9",
        "1, 3, 2, 6.30"
    })
    void ewmaRunsAsLongAsPublishedWithLastingLimits(
            double weight, double limit, double shift, double published) {
        Random random = new Random(SEED);
        long visits = 0;
        for (int run = 0; run < RUNS; run++) {
            EwmaChart chart = new EwmaChart(new EwmaChart.Spec(0, 1, weight, limit));
            // The published run lengths are for limits that do not narrow at the beginning.
            double lasting = chart.lastingUpperLimit();
            do {
                chart.add(shift + random.nextGaussian());
                visits++;
            } while (Math.abs(chart.value()) <= lasting);
        }
        near(published, (double) visits / RUNS);
    }

    private static void near(double published, double found) {
        double allowed = PRINTED_RATIO + SAMPLING_ERRORS / Math.sqrt(RUNS);
        assertEquals(1, found / published, allowed, published + " was " + found);
    }
}
