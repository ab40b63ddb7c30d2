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

    private final double[] x = new double[MOST];
    private final double[] y = new double[MOST];
    private long count;

    /**
     * How delays are spread.
     *
     * @param combS widest hole among the shorter half of the delays if they lie in clusters, else 0
     * @param medianS half of them lie within so much of the shortest, s; 0 if there are too few
     */
    record Scatter(double combS, double medianS) {}

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

    /** Least of some height over points; infinite if there are none. */
    double least(long from, long to, DoubleBinaryOperator height) {
        double[] least = {Double.POSITIVE_INFINITY};
        each(from, to, (px, py) -> least[0] = Math.min(least[0], height.applyAsDouble(px, py)));
        return least[0];
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
        int[] n = {0};
        each(
                0,
                count,
                (px, py) -> {
                    double h = height.applyAsDouble(px, py);
                    if (px >= lastX - SCATTER_S && h > -ROUND_OFF_S) {
                        heights[n[0]++] = h;
                    }
                });
        if (n[0] < LEAST) {
            return new Scatter(0, 0);
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
        return new Scatter(clusters ? widest : 0, medianS);
    }
}
