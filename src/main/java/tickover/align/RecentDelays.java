package tickover.align;

import java.util.Arrays;
import java.util.function.DoubleBinaryOperator;

/** The latest arrivals as they came, up to {@value #MOST} of them: the hull keeps only its own. */
final class RecentDelays {
    private static final int MOST = 512;

    /** Scatter is looked at over so much, s. */
    static final double SCATTER_S = 10;

    private static final int LEAST = 24;
    private static final double ROUND_OFF_S = 1e-9;

    /** How far the mean square of spacings may stray from that of chance, in sigmas. */
    private static final double SIGMAS = 4;

    /**
     * A quarter of the changes from one delay to the next lie within so much of the shorter half's
     * width if there is a timer. Without, the narrowest quarter is 0.54 of it wide where delays are
     * spread evenly, 0.83 where they are exponential.
     */
    private static final double ALIKE = 0.15;

    private final double[] x = new double[MOST];
    private final double[] y = new double[MOST];
    private long count;

    /**
     * How delays are spread.
     *
     * @param combS widest hole among the shorter half of the delays if they lie in clusters, else 0
     * @param shorterHalfS half of them lie within so much of the shortest, s; 0 if too few
     * @param longerHalfS half of them lie within so much of the longest, s; 0 if too few
     * @param regular whether the delay goes on by the same from message to message, as a timer's
     */
    record Scatter(double combS, double shorterHalfS, double longerHalfS, boolean regular) {}

    void clear() {
        count = 0;
    }

    void add(double px, double py) {
        int slot = (int) (count % MOST);
        x[slot] = px;
        y[slot] = py;
        count++;
    }

    /** How many came so far; the number of the next one. */
    long count() {
        return count;
    }

    /** Hands on what came from one number up to another: ticks may have gone back in between. */
    void each(long from, long to, ClockWindow.VertexSink sink) {
        for (long i = Math.max(from, count - MOST); i < to; i++) {
            int slot = (int) (i % MOST);
            sink.take(x[slot], y[slot]);
        }
    }

    /**
     * Tells delays by chance from those of a timer that keeps step with the frames. Spacings of
     * delays by chance have a mean square of twice their squared mean, with a variance of 20 /
     * count of that square; of clusters it is much more.
     *
     * @param lastX end of the stretch looked at
     * @param height over the line; points below it are suspects and do not count
     */
    Scatter scatter(double lastX, DoubleBinaryOperator height) {
        double[] heights = new double[MOST];
        double[] changes = new double[MOST];
        double[] before = {0};
        int[] n = {0};
        each(
                0,
                count,
                (px, py) -> {
                    double h = height.applyAsDouble(px, py);
                    if (px >= lastX - SCATTER_S && h > -ROUND_OFF_S) {
                        changes[n[0]] = h - before[0];
                        before[0] = h;
                        heights[n[0]++] = h;
                    }
                });
        if (n[0] < LEAST) {
            return new Scatter(0, 0, 0, false);
        }
        Arrays.sort(heights, 0, n[0]);
        int half = n[0] / 2;
        double widest = 0;
        double squares = 0;
        for (int i = 1; i <= half; i++) {
            double gap = heights[i] - heights[i - 1];
            widest = Math.max(widest, gap);
            squares += gap * gap / half;
        }
        double medianS = heights[half] - heights[0];
        double even = medianS / half;
        boolean clusters = squares > (2 + SIGMAS * Math.sqrt(20.0 / half)) * even * even;
        return new Scatter(
                clusters ? widest : 0,
                medianS,
                heights[n[0] - 1] - heights[half],
                narrowest(changes, n[0]) < ALIKE * medianS);
    }

    /** Width of the narrowest interval that holds a quarter of the changes; the first is none. */
    private static double narrowest(double[] changes, int n) {
        Arrays.sort(changes, 1, n);
        int quarter = (n - 1) / 4;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 1; i + quarter < n; i++) {
            least = Math.min(least, changes[i + quarter] - changes[i]);
        }
        return least;
    }
}
