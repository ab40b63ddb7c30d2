package tickover.diagnose;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.ToDoubleFunction;
import java.util.function.UnaryOperator;

/**
 * Climbs a smooth function by its gradient and the curvature seen on the last steps (limited-memory
 * BFGS, two-loop recursion, after Nocedal; from memory), with step halving until a step gains.
 */
final class QuasiNewton {
    private static final int MEMORY = 12;
    private static final int MOST_STEPS = 1000;
    private static final int MOST_HALVINGS = 40;

    /** Gains smaller than this share of the value end the climb. */
    private static final double LEAST_GAIN_RATIO = 1e-9;

    /** A step has to gain at least this share of what the slope promises. */
    private static final double SUFFICIENT_RATIO = 1e-4;

    private final ToDoubleFunction<double[]> value;
    private final UnaryOperator<double[]> gradient;
    private final Deque<Step> memory = new ArrayDeque<>();

    /** What one step moved, by how much that turned the downhill gradient, and their product. */
    private static final class Step {
        final double[] moved;
        final double[] turned;
        final double product;

        Step(double[] moved, double[] turned) {
            this.moved = moved;
            this.turned = turned;
            this.product = dot(moved, turned);
        }
    }

    QuasiNewton(ToDoubleFunction<double[]> value, UnaryOperator<double[]> gradient) {
        this.value = value;
        this.gradient = gradient;
    }

    /** Climbs from a start and returns the top. */
    double[] climb(double[] start) {
        double[] x = start.clone();
        double here = value.applyAsDouble(x);
        double[] slope = gradient.apply(x);
        for (int i = 0; i < MOST_STEPS; i++) {
            double[] way = direction(slope);
            double promise = dot(way, slope);
            double length = memory.isEmpty() ? 1 / Math.sqrt(dot(slope, slope) + 1) : 1;
            double[] next = x;
            double reached = here;
            for (int h = 0; h < MOST_HALVINGS; h++) {
                next = sum(x, way, length);
                reached = value.applyAsDouble(next);
                if (reached >= here + SUFFICIENT_RATIO * length * promise) {
                    break;
                }
                length /= 2;
            }
            if (!(reached - here > LEAST_GAIN_RATIO * Math.abs(here))) {
                return x;
            }
            double[] nextSlope = gradient.apply(next);
            remember(new Step(sum(next, x, -1), sum(slope, nextSlope, -1)));
            x = next;
            here = reached;
            slope = nextSlope;
        }
        return x;
    }

    private void remember(Step step) {
        if (step.product > 0) {
            memory.addLast(step);
            if (memory.size() > MEMORY) {
                memory.removeFirst();
            }
        }
    }

    private double[] direction(double[] slope) {
        double[] way = slope.clone();
        double[] share = new double[memory.size()];
        int i = memory.size();
        for (var it = memory.descendingIterator(); it.hasNext(); ) {
            Step s = it.next();
            share[--i] = dot(s.moved, way) / s.product;
            way = sum(way, s.turned, -share[i]);
        }
        if (!memory.isEmpty()) {
            Step last = memory.getLast();
            double scale = last.product / dot(last.turned, last.turned);
            for (int k = 0; k < way.length; k++) {
                way[k] *= scale;
            }
        }
        for (Step s : memory) {
            way = sum(way, s.moved, share[i++] - dot(s.turned, way) / s.product);
        }
        return way;
    }

    private static double[] sum(double[] a, double[] b, double factor) {
        double[] out = a.clone();
        for (int k = 0; k < out.length; k++) {
            out[k] += factor * b[k];
        }
        return out;
    }

    private static double dot(double[] a, double[] b) {
        double total = 0;
        for (int k = 0; k < a.length; k++) {
            total += a[k] * b[k];
        }
        return total;
    }
}
