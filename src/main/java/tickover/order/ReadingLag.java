package tickover.order;

import java.util.Locale;

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

    /** The angle's speed is taken over this, s; ripple within a cycle goes. */
    private static final double SPAN_S = 0.2;

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
        double best = LEAST_S;
        Fit least = null;
        for (double lag = LEAST_S; lag <= MOST_S; lag += STEP_S) {
            Fit fit = new Fit(angle, t, hz, lag);
            if (least == null || fit.meanSquare < least.meanSquare) {
                least = fit;
                best = lag;
            }
        }
        if (least == null || least.count < LEAST_READINGS || !(least.slopeSquare > 0)) {
            return new ReadingLag(best, Double.POSITIVE_INFINITY, scatter(least));
        }
        double before = new Fit(angle, t, hz, best - STEP_S).meanSquare;
        double after = new Fit(angle, t, hz, best + STEP_S).meanSquare;
        double bend = before - 2 * least.meanSquare + after;
        double shift = bend > 0 ? STEP_S * (before - after) / 2 / bend : 0;
        boolean atEnd = best <= LEAST_S || best >= MOST_S - STEP_S;
        // The variance of a shift by least squares: scatter over the sum of squared slopes.
        double scatter = least.meanSquare / ((least.count - 1) * least.slopeSquare);
        double speed = SPEED_RATIO * least.meanSpeed / Math.sqrt(least.slopeSquare);
        double error = 2 * Math.sqrt(scatter + speed * speed);
        return new ReadingLag(
                best + Math.max(-STEP_S, Math.min(STEP_S, shift)),
                atEnd ? Double.POSITIVE_INFINITY : error,
                scatter(least));
    }

    private static double scatter(Fit fit) {
        return fit == null || fit.count == 0 ? 0 : Math.sqrt(fit.meanSquare) / fit.meanSpeed;
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

    /** Readings against the angle's speed some time before. */
    private static final class Fit {
        int count;
        double meanSquare;
        double slopeSquare;
        double meanSpeed;

        Fit(ShaftAngle angle, double[] t, double[] hz, double lagS) {
            for (int i = 0; i < t.length; i++) {
                double at = t[i] - lagS;
                // The same readings for every lag, or the sums could not be compared.
                if (t[i] - MOST_S - SPAN_S < angle.startS() || t[i] + SPAN_S > angle.endS()) {
                    continue;
                }
                double speed = speed(angle, at);
                double slope =
                        (speed(angle, at + SPAN_S / 2) - speed(angle, at - SPAN_S / 2)) / SPAN_S;
                meanSquare += (hz[i] - speed) * (hz[i] - speed);
                slopeSquare += slope * slope;
                meanSpeed += speed;
                count++;
            }
            meanSquare /= Math.max(1, count);
            slopeSquare /= Math.max(1, count);
            meanSpeed /= Math.max(1, count);
        }

        private static double speed(ShaftAngle angle, double at) {
            return (angle.turnsAt(at + SPAN_S / 2) - angle.turnsAt(at - SPAN_S / 2)) / SPAN_S;
        }
    }
}
