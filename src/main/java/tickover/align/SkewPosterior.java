package tickover.align;

/**
 * What a cloud of points says of the line beneath it, where all points lie above that line and the
 * ones close to it are spread evenly.
 *
 * <p>With evenly spread points, {@code e^(-n a)} is the chance that a strip of mean height {@code
 * a} holds none when {@code n} is the number of points per height over the whole width. A line of
 * slope {@code b} that could be raised to height {@code g(b)} over the middle before it meets a
 * point therefore has the likelihood {@code e^(n g(b))}: greatest for the hull's edge over the
 * middle, and broad where few points came close. Mean and limits are taken over it, which errs less
 * than the edge alone. (Own derivation.)
 */
final class SkewPosterior {
    private static final int STEPS = 240;

    /** Likelihoods below e^-12 of the best play no part. */
    private static final double DEPTH = 12;

    /** Part of the likelihood left out at either end. */
    private static final double TAIL = 0.025;

    private final LowerHull hull;
    private final double perS;
    private final LowerHull other;
    private final double otherPerS;
    private final double middle;

    private double mean;
    private double low;
    private double high;

    /**
     * @param hull arrivals
     * @param perS points per second of height near the line
     * @param other pings, turned upside down; an empty hull if there are none
     * @param otherPerS the same for them
     * @param middle where heights are taken
     */
    SkewPosterior(LowerHull hull, double perS, LowerHull other, double otherPerS, double middle) {
        this.hull = hull;
        this.perS = perS;
        this.other = other;
        this.otherPerS = other.size() < 2 ? 0 : otherPerS;
        this.middle = middle;
        integrate();
    }

    /** Mean slope. */
    double mean() {
        return mean;
    }

    /** Half-width that holds the slope in 95 of 100 cases, about the mean. */
    double halfWidth() {
        return Math.max(high - mean, mean - low);
    }

    private double logLikelihood(double slope) {
        double sum = perS * hull.rise(slope, middle);
        return otherPerS > 0 ? sum + otherPerS * other.rise(-slope, middle) : sum;
    }

    private void integrate() {
        double peak = top();
        double best = logLikelihood(peak);
        double from = edge(peak, best, -1);
        double to = edge(peak, best, 1);
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
        double at = hull.slopeOver(middle);
        if (otherPerS == 0) {
            return at;
        }
        double pings = -other.slopeOver(middle);
        double lo = Math.min(at, pings);
        double hi = Math.max(at, pings);
        for (int i = 0; i < 60; i++) {
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

    private double edge(double peak, double best, int sign) {
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
