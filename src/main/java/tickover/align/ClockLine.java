package tickover.align;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

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

    /** A half or quarter of the window is preferred if its end errs so much less. */
    private static final double BETTER_RATIO = 0.5;

    /** Part of the slopes' change from half to half by which the slope over the middle may err. */
    private static final double SLOPE_PART = 0.125;

    /**
     * A curve lies off the line that touches it in the middle by so much of that change, at an end.
     */
    private static final double END_PART = 0.25;

    /** An edge is sharp if its points come no more than so much sparser than all do on average. */
    private static final double SHARP_RATIO = 2;

    /** No line is drawn through less, s. */
    private static final double LEAST_S = 2;

    /** No part of the window is preferred that is shorter, s. */
    private static final double LEAST_PART_S = 10;

    private static final int LEAST_POINTS = 12;

    /** Half-width of the closest point's height, in mean heights; e^-4 is 2 %. */
    private static final double HEIGHTS = 4;

    /**
     * The longest delays have a say only where the line they ask for is no worse than e^-3 for the
     * shortest: load that grows lifts the upper edge alone.
     */
    private static final double CONFLICT = 3;

    /** No clock is off by more: RC oscillators stay within 5 %. */
    private static final double MOST_SKEW_RATIO = 0.1;

    double over(double x) {
        return height + slope * (x - middle);
    }

    double errorAt(double x) {
        return heightError + slopeError * Math.abs(x - middle);
    }

    private double endError() {
        return errorAt(middle + spanS / 2);
    }

    boolean isThere() {
        return spanS > 0;
    }

    /** The same line, up or down, until another is drawn; it may be off by as much. */
    ClockLine movedBy(double byS) {
        double error = heightError + Math.abs(byS);
        return new ClockLine(
                middle, slope, height + byS, slopeError, error, false, Double.MIN_VALUE);
    }

    /** Draws the line, over less than the window where it errs less so. */
    static ClockLine under(ClockWindow window, RecentDelays recent, double tickS) {
        double span = window.spanS();
        if (span < LEAST_S || window.points() < LEAST_POINTS) {
            return NONE;
        }
        ClockLine best = new Stretch(window, recent, tickS, span).line();
        for (int part = 2; part <= 4 && span / part >= LEAST_PART_S; part *= 2) {
            ClockLine shorter = new Stretch(window, recent, tickS, span / part).line();
            if (shorter.isThere() && shorter.endError() < BETTER_RATIO * best.endError()) {
                best = shorter;
            }
        }
        return best;
    }

    /** One side's points and how close they come to a line beside them. */
    private static final class Points {
        final LowerHull hull;
        final ClockWindow.Side side;
        final double meanHeight;

        Points(
                ClockWindow window,
                ClockWindow.Side side,
                double fromX,
                double spanS,
                double middle) {
            this.side = side;
            hull = window.hull(fromX, Double.POSITIVE_INFINITY, side);
            double slope = hull.slopeOver(middle);
            double rise = hull.rise(slope, middle);
            double[] least = new double[PARTS];
            Arrays.fill(least, Double.POSITIVE_INFINITY);
            window.eachVertex(
                    fromX,
                    Double.POSITIVE_INFINITY,
                    side,
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

        /** Height of the line under (or over) the points that has this slope. */
        double touching(double slope, double middle) {
            return side.sign * hull.rise(side.sign * slope, middle);
        }

        SkewPosterior.Edge edge(double height) {
            return new SkewPosterior.Edge(hull, side.sign, PARTS / height);
        }
    }

    /** The window, or a late part of it. */
    private static final class Stretch {
        private final ClockWindow window;
        private final double tickS;
        private final double spanS;
        private final double fromX;
        private final double middle;
        private final Points earliest;
        private final RecentDelays.Scatter scatter;
        private final double perHalf;
        private final double height;

        Stretch(ClockWindow window, RecentDelays recent, double tickS, double spanS) {
            this.window = window;
            this.tickS = tickS;
            this.spanS = spanS;
            fromX = window.lastX() - spanS;
            middle = window.meanXFrom(fromX);
            earliest = points(ClockWindow.Side.EARLIEST);
            double slope = earliest.hull.slopeOver(middle);
            double rise = earliest.touching(slope, middle);
            scatter = recent.scatter(window.lastX(), (x, y) -> y - slope * (x - middle) - rise);
            // Delays in a regular pattern can touch the line in every part and still leave it
            // loose, so points are taken to come no denser near it than in the shorter half.
            perHalf = 2.0 * PARTS / window.pointsFrom(fromX);
            height = heightOf(earliest, scatter.shorterHalfS());
        }

        private Points points(ClockWindow.Side side) {
            return new Points(window, side, fromX, spanS, middle);
        }

        private double heightOf(Points points, double halfS) {
            double mean = SAFETY * Math.max(points.meanHeight, perHalf * halfS);
            return Math.max(mean, Math.max(scatter.combS(), tickS));
        }

        /** How much the slope is another in the second half than in the first. */
        private double bend() {
            double half = spanS / 2;
            LowerHull first = window.hull(fromX, fromX + half, earliest.side);
            LowerHull second = window.hull(fromX + half, Double.POSITIVE_INFINITY, earliest.side);
            return second.slopeOver(fromX + 1.5 * half) - first.slopeOver(fromX + 0.5 * half);
        }

        ClockLine line() {
            Points bounds = points(ClockWindow.Side.BOUNDS);
            List<SkewPosterior.Edge> edges = new ArrayList<>();
            edges.add(earliest.edge(height));
            if (bounds.hull.size() >= 2) {
                SkewPosterior.Edge edge = bounds.edge(Math.max(SAFETY * bounds.meanHeight, tickS));
                SkewPosterior alone = new SkewPosterior(List.of(edge), middle);
                edges.add(edge);
                if (alone.depthAt(new SkewPosterior(edges, middle).mean()) > CONFLICT) {
                    // A timer that keeps step with the frames lets delays slide; questions are not
                    // held back by it.
                    edges.remove(0);
                }
            }
            SkewPosterior posterior = new SkewPosterior(edges, middle);
            Points latest = points(ClockWindow.Side.LATEST);
            // A timer's longest delays say what its shortest have said already.
            if (!scatter.regular()
                    && latest.hull.size() >= 2
                    && latest.meanHeight < SHARP_RATIO * perHalf * scatter.longerHalfS()) {
                edges.add(latest.edge(heightOf(latest, scatter.longerHalfS())));
                SkewPosterior both = new SkewPosterior(edges, middle);
                if (posterior.depthAt(both.mean()) < CONFLICT) {
                    posterior = both;
                }
            }
            double slope = posterior.mean();
            return line(slope, posterior.halfWidthAbout(slope), height / PARTS, bounds);
        }

        private ClockLine line(double slope, double noise, double each, Points bounds) {
            double bend = Math.abs(bend());
            double bendS = END_PART * bend * spanS;
            double slopeError = noise + SLOPE_PART * bend;
            if (!(Math.abs(slope) < MOST_SKEW_RATIO)) {
                return NONE;
            }
            double top = earliest.touching(slope, middle);
            if (bounds.hull.size() == 0) {
                double error = Math.max(HEIGHTS * each, scatter.combS()) + bendS;
                return new ClockLine(middle, slope, top - each, slopeError, error, false, spanS);
            }
            double bottom = bounds.touching(slope, middle);
            double swing = 0;
            for (int sign = -1; sign <= 1; sign += 2) {
                double other = slope + sign * slopeError;
                swing = Math.max(swing, earliest.touching(other, middle) - top);
                swing = Math.max(swing, bottom - bounds.touching(other, middle));
            }
            double error = Math.abs(top - bottom) / 2 + swing + bendS;
            return new ClockLine(middle, slope, (top + bottom) / 2, slopeError, error, true, spanS);
        }
    }
}
