package tickover.order;

import java.util.Locale;
import java.util.stream.IntStream;

/**
 * How late speed readings are: the shift under which they agree best with the speed of an angle
 * that the vibration itself has sharpened.
 *
 * <p>The map of combs finds the lag to some hundredths of a second, which is enough for the angle
 * to lock on; what is off then is the readings alone, and least squares tells by how much. A sweep
 * of 20 rpm/s moves 0.4 rpm in 20 ms, so the stated half-width counts what the angle's own speed
 * may be off by, besides the readings' scatter.
 */
final class ReadingLag {
    private static final double LEAST_S = 0;
    private static final double MOST_S = 0.8;
    private static final double STEP_S = 0.005;
    private static final int STEPS = (int) Math.round((MOST_S - LEAST_S) / STEP_S);

    /** The angle's speed is taken over this, s; ripple within a cycle goes. */
    private static final double SPAN_S = 0.2;

    private static final int HALF_SPAN_STEPS = (int) Math.round(SPAN_S / 2 / STEP_S);

    /** What a sharpened angle's mean speed is off by, seen in tests to be 0.02 %. */
    private static final double SPEED_RATIO = 3e-4;

    /** A lag less certain than this is none, s. */
    private static final double MOST_ERROR_S = 0.06;

    private static final int LEAST_READINGS = 6;

    /**
     * Readings are right to a quarter rpm; what is left after the lag is its jitter on a sweep and
     * what the averaging hides.
     */
    private static final double MOST_SCATTER_RATIO = 0.006;

    private final double lagS;
    private final double errorS;
    private final double scatterRatio;

    private ReadingLag(double lagS, double errorS, double scatterRatio) {
        this.lagS = lagS;
        this.errorS = errorS;
        this.scatterRatio = scatterRatio;
    }

    static ReadingLag of(ShaftAngle angle, double[] t, double[] hz) {
        Late late = new Late(angle, t, hz);
        int best = 0;
        double[] squares = new double[STEPS + 1];
        for (int step = 0; step <= STEPS; step++) {
            squares[step] = late.meanSquare(step);
            best = squares[step] < squares[best] ? step : best;
        }
        double lagS = LEAST_S + best * STEP_S;
        Fit least = late.fit(best);
        if (least.count < LEAST_READINGS || !(least.slopeSquare > 0)) {
            return new ReadingLag(lagS, Double.POSITIVE_INFINITY, scatter(least));
        }
        if (best == 0 || best == STEPS) {
            return new ReadingLag(lagS, Double.POSITIVE_INFINITY, scatter(least));
        }
        double bend = squares[best - 1] - 2 * squares[best] + squares[best + 1];
        double shift = bend > 0 ? STEP_S * (squares[best - 1] - squares[best + 1]) / 2 / bend : 0;
        // The variance of a shift by least squares: scatter over the sum of squared slopes.
        double scatter = least.meanSquare / ((least.count - 1) * least.slopeSquare);
        double speed = SPEED_RATIO * least.meanSpeed / Math.sqrt(least.slopeSquare);
        double error = 2 * Math.sqrt(scatter + speed * speed);
        return new ReadingLag(
                lagS + Math.max(-STEP_S, Math.min(STEP_S, shift)), error, scatter(least));
    }

    private static double scatter(Fit fit) {
        return fit.count == 0 ? 0 : Math.sqrt(fit.meanSquare) / fit.meanSpeed;
    }

    /** Whether there is a lag under which readings and angle tell the same speed. */
    boolean fits() {
        return scatterRatio <= MOST_SCATTER_RATIO;
    }

    boolean known() {
        return errorS <= MOST_ERROR_S;
    }

    AngleNote note(double assumedS) {
        String text =
                known()
                        ? String.format(
                                Locale.ROOT,
                                "The speed readings were %.0f ± %.0f ms late.",
                                1000 * lagS,
                                Math.ceil(1000 * errorS))
                        : String.format(
                                Locale.ROOT,
                                "How late the speed readings were cannot be told at a speed that"
                                        + " hardly varies; %.0f ms were assumed.",
                                1000 * assumedS);
        return new AngleNote(AngleNote.Kind.LAG, 0, text);
    }

    /**
     * Readings against the angle's speed some time before.
     *
     * @param count readings
     * @param meanSquare of their difference, Hz²
     * @param slopeSquare mean square of the speed's slope, (Hz/s)²
     * @param meanSpeed Hz
     */
    private record Fit(int count, double meanSquare, double slopeSquare, double meanSpeed) {}

    /**
     * The angle around each reading, at steps back from half a span and a reach after it: every lag
     * asks for the same angles.
     */
    private static final class Late {
        private final double[] hz;
        private final double[][] turns;

        Late(ShaftAngle angle, double[] t, double[] readHz) {
            // The same readings for every lag, or the sums could not be compared.
            int[] used =
                    IntStream.range(0, t.length)
                            .filter(i -> t[i] - MOST_S - SPAN_S >= angle.startS())
                            .filter(i -> t[i] + SPAN_S <= angle.endS())
                            .toArray();
            this.hz = new double[used.length];
            this.turns = new double[used.length][STEPS + 4 * HALF_SPAN_STEPS + 1];
            for (int n = 0; n < used.length; n++) {
                hz[n] = readHz[used[n]];
                for (int j = 0; j < turns[n].length; j++) {
                    double at = t[used[n]] - LEAST_S + SPAN_S - j * STEP_S;
                    turns[n][j] = angle.turnsAt(Math.max(angle.startS(), at));
                }
            }
        }

        /** Speed over a span that ends so many steps before the first angle. */
        private static double speed(double[] turns, int step) {
            return (turns[step] - turns[step + 2 * HALF_SPAN_STEPS]) / SPAN_S;
        }

        double meanSquare(int lagSteps) {
            double sum = 0;
            for (int n = 0; n < hz.length; n++) {
                double off = hz[n] - speed(turns[n], lagSteps + HALF_SPAN_STEPS);
                sum += off * off;
            }
            return sum / Math.max(1, hz.length);
        }

        Fit fit(int lagSteps) {
            double slopes = 0;
            double speeds = 0;
            for (double[] around : turns) {
                double after = speed(around, lagSteps);
                double before = speed(around, lagSteps + 2 * HALF_SPAN_STEPS);
                double slope = (after - before) / SPAN_S;
                slopes += slope * slope;
                speeds += speed(around, lagSteps + HALF_SPAN_STEPS);
            }
            int count = Math.max(1, hz.length);
            return new Fit(hz.length, meanSquare(lagSteps), slopes / count, speeds / count);
        }
    }
}
