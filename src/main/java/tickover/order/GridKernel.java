package tickover.order;

import tickover.dsp.Kaiser;

/**
 * The resampling kernel in two parts, so that most of its work falls on even steps of angle.
 *
 * <p>A kernel h, unit step, is the convolution of a short one, k, with weights f that stand on a
 * grid of {@value #PER_STEP} points per step. Every sample is first spread over the {@value #WIDTH}
 * grid points next to its angle, with weights from k; sums of f over the grid then give the
 * outputs. k is a Kaiser window whose transform K has no zero where h passes anything and is very
 * small where the grid would fold into that. With H the transform of h, f is the inverse transform
 * of H/K, cut off {@value #EXTRA_STEPS} steps beyond the length of h. Both together do what h does,
 * to within {@link #PASS_ERROR_RATIO} and {@link #STOP_ERROR_RATIO}.
 *
 * <p>Source: derived here. The transform of Kaiser's window is from memory.
 */
final class GridKernel {
    /** Grid points per step. */
    static final int PER_STEP = 2;

    /** Grid points that a sample is spread over. */
    static final int WIDTH = 8;

    /** Steps by which f is longer than h, at either end. */
    static final int EXTRA_STEPS = 4;

    /** What the two parts add to the gain of h where it passes or begins to stop, at most. */
    static final double PASS_ERROR_RATIO = 5e-8;

    /** What they add to it anywhere else, at most. */
    static final double STOP_ERROR_RATIO = 1.2e-6;

    /**
     * Frequency, cycles per step, from which f fades to nothing at the grid's Nyquist frequency. h
     * stops there, and 1/K would only blow up what is left of it and draw f out.
     */
    private static final double FADE_FROM = 0.62;

    /** Pieces of the spreading table per grid point, and the room for one: parabolas. */
    private static final int ROWS = 256;

    private static final int TERMS = 3;

    /** Grid points that a sample is spread over before the one at or before it. */
    private static final int BEFORE = WIDTH / 2 - 1;

    private static final int ROW = TERMS * WIDTH;

    /** Shape of k: K falls as steeply as it can before the grid folds h's stop band in. */
    private static final double BETA = 18.4;

    /** Points per step at which h is taken, and points at which its transform is. */
    private static final int FINE = 64;

    private static final int FREQUENCIES = 256;

    /** Read-only, so threads share it. */
    private static final GridKernel USUAL =
            new GridKernel(
                    ResamplingKernel.USUAL_HALF_STEPS, ResamplingKernel.USUAL_ATTENUATION_DB);

    private final int halfSteps;
    private final double[] spread;
    private final double[] weights;

    /** The usual kernel's two parts. */
    static GridKernel usual() {
        return USUAL;
    }

    private GridKernel(int halfSteps, double attenuationDb) {
        this.halfSteps = halfSteps + EXTRA_STEPS;
        spread = new double[ROWS * ROW];
        for (int r = 0; r < ROWS; r++) {
            for (int k = 0; k < WIDTH; k++) {
                // From the sample at r/ROWS past a grid point to the k-th of its points.
                parabola(k - BEFORE - (double) r / ROWS, spread, r * ROW + k * TERMS);
            }
        }
        weights = gridWeights(halfSteps, attenuationDb);
    }

    /** Half length of the whole, steps: what lies further from an output does not count. */
    double reachSteps() {
        return halfSteps + WIDTH / (2.0 * PER_STEP);
    }

    /** Half length of the weights on the grid, steps. */
    int halfSteps() {
        return halfSteps;
    }

    /** Weight of the grid points so many points from an output; 0 to twice {@link #halfSteps}. */
    double weight(int points) {
        return weights[points];
    }

    /**
     * Spreads samples over the grid.
     *
     * @param places where each sample lies, grid points from the first of {@code grid}, at least
     *     {@code WIDTH/2} from either end
     * @param values what each counts
     * @param count how many
     * @param grid added to
     */
    void spread(double[] places, double[] values, int count, double[] grid) {
        double[] t = spread;
        for (int i = 0; i < count; i++) {
            // The cast rounds down, for places are not negative.
            double from = places[i] - BEFORE;
            int first = (int) from;
            double row = (from - first) * ROWS;
            int whole = (int) row;
            double u = row - whole - 0.5;
            double v = values[i];
            double vu = v * u;
            double vuu = vu * u;
            int at = whole * ROW;
            grid[first] += v * t[at] + vu * t[at + 1] + vuu * t[at + 2];
            grid[first + 1] += v * t[at + 3] + vu * t[at + 4] + vuu * t[at + 5];
            grid[first + 2] += v * t[at + 6] + vu * t[at + 7] + vuu * t[at + 8];
            grid[first + 3] += v * t[at + 9] + vu * t[at + 10] + vuu * t[at + 11];
            grid[first + 4] += v * t[at + 12] + vu * t[at + 13] + vuu * t[at + 14];
            grid[first + 5] += v * t[at + 15] + vu * t[at + 16] + vuu * t[at + 17];
            grid[first + 6] += v * t[at + 18] + vu * t[at + 19] + vuu * t[at + 20];
            grid[first + 7] += v * t[at + 21] + vu * t[at + 22] + vuu * t[at + 23];
        }
    }

    /** Terms of the parabola through a piece of k's middle and ends, k's area being one. */
    private static void parabola(double from, double[] terms, int at) {
        double area = transform(0);
        double left = Kaiser.weight(from / (WIDTH / 2.0), BETA) / area;
        double middle = Kaiser.weight((from - 0.5 / ROWS) / (WIDTH / 2.0), BETA) / area;
        double right = Kaiser.weight((from - 1.0 / ROWS) / (WIDTH / 2.0), BETA) / area;
        terms[at] = middle;
        terms[at + 1] = right - left;
        terms[at + 2] = 2 * (left + right - 2 * middle);
    }

    /** Transform of the spreading window at a frequency, cycles per grid point; not normalised. */
    static double transform(double frequency) {
        return Kaiser.transform(frequency, WIDTH, BETA);
    }

    private static double[] gridWeights(int halfSteps, double attenuationDb) {
        double[] h = new double[halfSteps * FINE + 1];
        double beta = Kaiser.betaFor(attenuationDb);
        for (int i = 0; i < h.length; i++) {
            double u = (double) i / FINE;
            h[i] = ResamplingKernel.value(u, halfSteps, beta);
        }
        double[] weights = new double[PER_STEP * (halfSteps + EXTRA_STEPS) + 1];
        double area = transform(0);
        for (int q = 0; q < FREQUENCIES; q++) {
            // The whole of one period of the grid, both sides at once; its edge counts once.
            double perStep = (double) q / FREQUENCIES * PER_STEP / 2;
            double faded = Math.max(0, (perStep - FADE_FROM) / (PER_STEP / 2.0 - FADE_FROM));
            double kept = (1 + Math.cos(Math.PI * faded)) / 2;
            double ratio = kept * gain(h, perStep) / (transform(perStep / PER_STEP) / area);
            double share = (q == 0 ? 1.0 : 2.0) / (2 * FREQUENCIES);
            double turn = 2 * Math.PI * perStep / PER_STEP;
            for (int j = 0; j < weights.length; j++) {
                weights[j] += share * ratio * Math.cos(turn * j);
            }
        }
        return weights;
    }

    /**
     * Transform of h at a frequency, cycles per step: the trapezoidal rule, cosines by recursion.
     */
    private static double gain(double[] h, double perStep) {
        double turn = 2 * Math.PI * perStep / FINE;
        double twice = 2 * Math.cos(turn);
        double before = Math.cos(turn);
        double now = 1;
        double sum = h[0] / 2;
        for (int i = 1; i < h.length; i++) {
            double next = twice * now - before;
            before = now;
            now = next;
            sum += (i == h.length - 1 ? 0.5 : 1) * h[i] * now;
        }
        return 2 * sum / FINE;
    }
}
