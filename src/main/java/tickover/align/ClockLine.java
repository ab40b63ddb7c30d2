package tickover.align;

import java.util.Arrays;

/**
 * A line under the window's arrivals: host time less device time is {@code height} at {@code
 * middle} and rises by {@code slope}.
 *
 * @param middle device time, s
 * @param slope host seconds per device second, less 1
 * @param height s
 * @param slopeError half-width, 95 in 100
 * @param heightError half-width, s; a bound if {@code bracketed}
 * @param bracketed whether pings bound it from below
 * @param spanS length of the stretch it was laid under, s; 0 if there is no line
 */
record ClockLine(
        double middle,
        double slope,
        double height,
        double slopeError,
        double heightError,
        boolean bracketed,
        double spanS) {
    static final ClockLine NONE = new ClockLine(0, 0, 0, 0, 0, false, 0);

    /** Parts of the window whose closest points tell how densely points come close. */
    private static final int PARTS = 6;

    /** The mean height of a few parts is itself uncertain by a third. */
    private static final double SAFETY = 1.5;

    /** A half or quarter of the window is preferred if its points come so much closer. */
    private static final double CLOSER_RATIO = 0.35;

    /** No line is drawn through less, s. */
    private static final double LEAST_S = 2;

    /** No part of the window is preferred that is shorter, s. */
    private static final double LEAST_PART_S = 10;

    private static final int LEAST_POINTS = 12;

    /** Half-width of the closest point's height, in mean heights; e^-4 is 2 %. */
    private static final double HEIGHTS = 4;

    /** No clock is off by more: RC oscillators stay within 5 %. */
    private static final double MOST_SKEW_RATIO = 0.1;

    double over(double x) {
        return height + slope * (x - middle);
    }

    double errorAt(double x) {
        return heightError + slopeError * Math.abs(x - middle);
    }

    boolean isThere() {
        return spanS > 0;
    }

    /** Draws the line, over less than the window where it errs less so. */
    static ClockLine under(ClockWindow window, RecentDelays recent, double tickS) {
        double span = window.spanS();
        if (span < LEAST_S || window.points() < LEAST_POINTS) {
            return NONE;
        }
        Stretch best = new Stretch(window, span);
        for (int part = 2; part <= 4 && span / part >= LEAST_PART_S; part *= 2) {
            Stretch shorter = new Stretch(window, span / part);
            if (shorter.arrivals.meanHeight < CLOSER_RATIO * best.arrivals.meanHeight) {
                best = shorter;
            }
        }
        return best.line(recent, tickS);
    }

    /** One side's points and how close they come to a line under them. */
    private static final class Side {
        final LowerHull hull;
        final double meanHeight;

        Side(ClockWindow window, boolean bounds, double fromX, double spanS, double middle) {
            hull = window.hullFrom(fromX, bounds);
            double slope = hull.slopeOver(middle);
            double rise = hull.rise(slope, middle);
            double[] least = new double[PARTS];
            Arrays.fill(least, Double.POSITIVE_INFINITY);
            window.eachVertexFrom(
                    fromX,
                    bounds,
                    (x, y) -> {
                        int part = (int) (PARTS * (x - fromX) / spanS);
                        part = Math.max(0, Math.min(PARTS - 1, part));
                        least[part] = Math.min(least[part], y - slope * (x - middle) - rise);
                    });
            double[] used = Arrays.stream(least).filter(Double::isFinite).toArray();
            // The line was laid against two of the points, which took their height away.
            meanHeight =
                    used.length > 2
                            ? Arrays.stream(used).sum() / (used.length - 2)
                            : Double.POSITIVE_INFINITY;
        }
    }

    /** The window, or a late part of it. */
    private static final class Stretch {
        private final ClockWindow window;
        private final double spanS;
        private final double fromX;
        private final double middle;
        private final Side arrivals;

        Stretch(ClockWindow window, double spanS) {
            this.window = window;
            this.spanS = spanS;
            fromX = window.lastX() - spanS;
            middle = window.meanXFrom(fromX);
            arrivals = new Side(window, false, fromX, spanS, middle);
        }

        ClockLine line(RecentDelays recent, double tickS) {
            LowerHull hull = arrivals.hull;
            Side pings = new Side(window, true, fromX, spanS, middle);
            LowerHull bounds = pings.hull;
            double edge = hull.slopeOver(middle);
            double rise = hull.rise(edge, middle);
            RecentDelays.Scatter scatter =
                    recent.scatter(window.lastX(), (x, y) -> y - edge * (x - middle) - rise);
            // Delays in a regular pattern can touch the line in every part and still leave it
            // loose, so points are taken to come no denser near it than in the shorter half.
            double densest = PARTS * 2 * scatter.medianS() / window.pointsFrom(fromX);
            double height = SAFETY * Math.max(arrivals.meanHeight, densest);
            height = Math.max(height, Math.max(scatter.combS(), tickS));
            double pingHeight = Math.max(SAFETY * pings.meanHeight, tickS);
            SkewPosterior posterior =
                    new SkewPosterior(hull, PARTS / height, bounds, PARTS / pingHeight, middle);
            double slope = posterior.mean();
            double slopeError = posterior.halfWidth();
            if (!(Math.abs(slope) < MOST_SKEW_RATIO)) {
                return NONE;
            }
            double top = hull.rise(slope, middle);
            if (bounds.size() == 0) {
                double each = height / PARTS;
                double error = Math.max(HEIGHTS * each, scatter.combS());
                return new ClockLine(middle, slope, top - each, slopeError, error, false, spanS);
            }
            double bottom = -bounds.rise(-slope, middle);
            double swing = 0;
            for (int sign = -1; sign <= 1; sign += 2) {
                double other = slope + sign * slopeError;
                swing = Math.max(swing, hull.rise(other, middle) - top);
                swing = Math.max(swing, bottom + bounds.rise(-other, middle));
            }
            double error = Math.abs(top - bottom) / 2 + swing;
            return new ClockLine(middle, slope, (top + bottom) / 2, slopeError, error, true, spanS);
        }
    }
}
