package tickover.align;

import java.util.Arrays;

/**
 * Which tick belongs to which sample of a piece. Exact where samples are clocked by the tick clock;
 * otherwise straight lines between knots some {@value #KNOT_S} s apart, each the median of the runs
 * about it, so that a sensor's clock may drift with its temperature.
 */
final class SampleClock {
    private static final double KNOT_S = 20;

    /** A slope is taken over this part of the runs at either end. */
    private static final int END_PARTS = 4;

    private final double[] samples;
    private final double[] ticks;
    private final double residualTicks;

    private SampleClock(double[] samples, double[] ticks, double residualTicks) {
        this.samples = samples;
        this.ticks = ticks;
        this.residualTicks = residualTicks;
    }

    static SampleClock exact(double firstTick, double ticksPerSample) {
        return new SampleClock(
                new double[] {0, 1}, new double[] {firstTick, firstTick + ticksPerSample}, 0);
    }

    /**
     * Fits.
     *
     * @param at sample numbers of the runs' first samples, rising
     * @param stamps their ticks; at least two
     */
    static SampleClock fitted(double[] at, double[] stamps, double tickHz) {
        int n = at.length;
        double seconds = (stamps[n - 1] - stamps[0]) / tickHz;
        int knots = 1 + Math.max(1, (int) Math.round(seconds / KNOT_S));
        if (n < 4 * knots) {
            knots = 2;
        }
        double[] x = new double[knots];
        double[] y = new double[knots];
        double step = (at[n - 1] - at[0]) / (knots - 1);
        for (int k = 0; k < knots; k++) {
            x[k] = at[0] + k * step;
            // Runs near the knot, but all of them where there is only one straight line to draw.
            double reach = knots == 2 ? Double.POSITIVE_INFINITY : 0.5 * step;
            int from = 0;
            while (from < n - 2 && at[from] < x[k] - reach) {
                from++;
            }
            int to = n;
            while (to > from + 2 && at[to - 1] > x[k] + reach) {
                to--;
            }
            // The slope near an end knot has to be its own: all its runs lie on one side.
            double local = slope(at, stamps, from, to);
            double[] offsets = new double[to - from];
            for (int i = from; i < to; i++) {
                offsets[i - from] = stamps[i] - local * at[i];
            }
            y[k] = median(offsets, offsets.length) + local * x[k];
        }
        SampleClock fit = new SampleClock(x, y, 0);
        double sum = 0;
        for (int i = 0; i < n; i++) {
            double off = stamps[i] - fit.tickAt(at[i]);
            sum += off * off;
        }
        return new SampleClock(x, y, Math.sqrt(sum / n));
    }

    private static double slope(double[] at, double[] stamps, int from, int to) {
        int part = Math.max(1, (to - from) / END_PARTS);
        double[] slopes = new double[part];
        for (int i = 0; i < part; i++) {
            int early = from + i;
            int late = to - part + i;
            slopes[i] = (stamps[late] - stamps[early]) / (at[late] - at[early]);
        }
        return median(slopes, part);
    }

    private static double median(double[] values, int count) {
        double[] sorted = Arrays.copyOf(values, count);
        Arrays.sort(sorted);
        return (sorted[(count - 1) / 2] + sorted[count / 2]) / 2;
    }

    double tickAt(double sample) {
        return along(samples, ticks, sample);
    }

    double sampleAt(double tick) {
        return along(ticks, samples, tick);
    }

    /** Root mean square of what the runs' ticks stray from the fit. */
    double residualTicks() {
        return residualTicks;
    }

    private static double along(double[] x, double[] y, double at) {
        int k = 1;
        while (k < x.length - 1 && x[k] < at) {
            k++;
        }
        return y[k - 1] + (y[k] - y[k - 1]) * (at - x[k - 1]) / (x[k] - x[k - 1]);
    }
}
