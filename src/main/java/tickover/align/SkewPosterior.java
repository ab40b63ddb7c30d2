package tickover.align;

import java.util.List;

/**
 * What clouds of points say of the slope of the line beside them, where the points close to each
 * edge are spread evenly.
 *
 * <p>With evenly spread points, {@code e^(-n a)} is the chance that a strip of mean height {@code
 * a} holds none when {@code n} is the number of points per height over the whole width. A line of
 * slope {@code b} that could be raised to height {@code g(b)} over the middle before it meets a
 * point therefore has the likelihood {@code e^(n g(b))}: greatest for the hull's edge over the
 * middle, and broad where few points came close. Edges on several sides multiply. With the heights
 * free, no estimator that moves along with the data errs less in the mean square than the mean over
 * this likelihood. (Own derivation.)
 */
final class SkewPosterior {
    private static final int STEPS = 240;

    /** Likelihoods below e^-12 of the best play no part. */
    private static final double DEPTH = 12;

    /** Part of the likelihood left out at either end. */
    private static final double TAIL = 0.025;

    /**
     * One side's edge.
     *
     * @param hull its points; turned upside down if they lie below the line
     * @param sign 1 for points above the line, -1 for points below it
     * @param perS points per second of height near the line
     */
    record Edge(LowerHull hull, int sign, double perS) {
        double logLikelihood(double slope, double middle) {
            return perS * hull.rise(sign * slope, middle);
        }

        double best(double middle) {
            return sign * hull.slopeOver(middle);
        }
    }

    private final List<Edge> edges;
    private final double middle;

    private double best;
    private double mean;
    private double low;
    private double high;

    /**
     * @param edges at least one, of two points or more each
     * @param middle where heights are taken
     */
    SkewPosterior(List<Edge> edges, double middle) {
        this.edges = List.copyOf(edges);
        this.middle = middle;
        integrate();
    }

    /** Mean slope. */
    double mean() {
        return mean;
    }

    /** Half-width about a slope that holds the true one in 95 of 100 cases. */
    double halfWidthAbout(double slope) {
        return Math.max(high - slope, slope - low);
    }

    /** How far below the best the log-likelihood of a slope is. */
    double depthAt(double slope) {
        return best - logLikelihood(slope);
    }

    private double logLikelihood(double slope) {
        double sum = 0;
        for (Edge edge : edges) {
            sum += edge.logLikelihood(slope, middle);
        }
        return sum;
    }

    private void integrate() {
        double peak = top();
        best = logLikelihood(peak);
        double from = edge(peak, -1);
        double to = edge(peak, 1);
        double step = (to - from) / STEPS;
        double[] weight = new double[STEPS + 1];
        double sum = 0;
        double moment = 0;
        for (int i = 0; i <= STEPS; i++) {
            weight[i] = Math.exp(logLikelihood(from + i * step) - best);
            sum += weight[i];
            moment += weight[i] * (from + i * step);
        }
        mean = moment / sum;
        low = from;
        high = to;
        double run = 0;
        for (int i = 0; i <= STEPS; i++) {
            double before = run;
            run += weight[i] / sum;
            if (before < TAIL && run >= TAIL) {
                low = from + (i - 1) * step;
            }
            if (before < 1 - TAIL && run >= 1 - TAIL) {
                high = from + (i + 1) * step;
            }
        }
    }

    /** The best slope: the likelihood is a sum of concave functions, so halving finds it. */
    private double top() {
        double lo = Double.POSITIVE_INFINITY;
        double hi = Double.NEGATIVE_INFINITY;
        for (Edge edge : edges) {
            lo = Math.min(lo, edge.best(middle));
            hi = Math.max(hi, edge.best(middle));
        }
        for (int i = 0; i < 60 && hi > lo; i++) {
            double a = lo + (hi - lo) / 3;
            double b = hi - (hi - lo) / 3;
            if (logLikelihood(a) < logLikelihood(b)) {
                lo = a;
            } else {
                hi = b;
            }
        }
        return (lo + hi) / 2;
    }

    private double edge(double peak, int sign) {
        double inside = 0;
        double outside = 1e-9;
        while (logLikelihood(peak + sign * outside) > best - DEPTH && outside < 1) {
            inside = outside;
            outside *= 4;
        }
        for (int i = 0; i < 20; i++) {
            double mid = (inside + outside) / 2;
            if (logLikelihood(peak + sign * mid) > best - DEPTH) {
                inside = mid;
            } else {
                outside = mid;
            }
        }
        return peak + sign * outside;
    }
}
