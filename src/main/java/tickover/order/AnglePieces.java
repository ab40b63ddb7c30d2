package tickover.order;

import java.util.Arrays;

/**
 * A curve of angle over time in polynomial pieces, none of which falls.
 *
 * <p>Piece k, at time u after its knot, is {@code terms[6k] + terms[6k+1] u + … + terms[6k+5] u^5}
 * turns.
 */
final class AnglePieces {
    static final int TERMS = 6;

    private final double[] knotsS;
    private final double[] knotTurns;
    private final double[] terms;

    /** Takes the arrays over. */
    AnglePieces(double[] knotsS, double[] knotTurns, double[] terms) {
        this.knotsS = knotsS;
        this.knotTurns = knotTurns;
        this.terms = terms;
    }

    /** Knot times, s, rising. Shared. */
    double[] knotsS() {
        return knotsS;
    }

    /** Angle at each knot, turns, never falling. Shared. */
    double[] knotTurns() {
        return knotTurns;
    }

    /** Six terms per piece. Shared. */
    double[] terms() {
        return terms;
    }

    /**
     * Integrates a speed that runs straight between its values, from angle zero at the first.
     *
     * @param timesS rising
     * @param speedsHz turns per second, &gt;= 0
     */
    static AnglePieces ofSpeeds(double[] timesS, double[] speedsHz) {
        double[] knotTurns = new double[timesS.length];
        double[] terms = new double[TERMS * (timesS.length - 1)];
        for (int k = 0; k + 1 < timesS.length; k++) {
            double h = timesS[k + 1] - timesS[k];
            terms[TERMS * k] = knotTurns[k];
            terms[TERMS * k + 1] = speedsHz[k];
            terms[TERMS * k + 2] = (speedsHz[k + 1] - speedsHz[k]) / (2 * h);
            knotTurns[k + 1] = knotTurns[k] + h * (speedsHz[k] + speedsHz[k + 1]) / 2;
        }
        return new AnglePieces(timesS.clone(), knotTurns, terms);
    }

    /**
     * Joins states by the fifth-degree curve that has their angle, speed and acceleration. Where
     * that curve would fall, or the states themselves go back, straight lines take its place.
     *
     * @param timesS rising
     * @param states angle (turns), speed (Hz) and acceleration (Hz/s) of each knot, in that order
     */
    static AnglePieces ofStates(double[] timesS, double[] states) {
        int n = timesS.length;
        double[] knotTurns = new double[n];
        for (int k = 0; k < n; k++) {
            knotTurns[k] = k == 0 ? states[0] : Math.max(knotTurns[k - 1], states[3 * k]);
        }
        double[] terms = new double[TERMS * (n - 1)];
        for (int k = 0; k + 1 < n; k++) {
            double h = timesS[k + 1] - timesS[k];
            hermite(states, k, h, terms);
            boolean kept = knotTurns[k] == states[3 * k] && knotTurns[k + 1] == states[3 * (k + 1)];
            if (!kept || !rises(terms, TERMS * k, h)) {
                double[] line = {knotTurns[k], (knotTurns[k + 1] - knotTurns[k]) / h, 0, 0, 0, 0};
                System.arraycopy(line, 0, terms, TERMS * k, TERMS);
            }
        }
        return new AnglePieces(timesS.clone(), knotTurns, terms);
    }

    /** A curve's knots and terms with every angle multiplied; knot times are shared. */
    static AnglePieces scaled(double[] knotsS, double[] knotTurns, double[] terms, double factor) {
        double[] turns = new double[knotTurns.length];
        double[] scaled = new double[terms.length];
        Arrays.setAll(turns, k -> factor * knotTurns[k]);
        Arrays.setAll(scaled, i -> factor * terms[i]);
        return new AnglePieces(knotsS, turns, scaled);
    }

    private static void hermite(double[] states, int k, double h, double[] terms) {
        double angle = states[3 * k];
        double speed = states[3 * k + 1] * h;
        double accel = states[3 * k + 2] * h * h;
        double endAngle = states[3 * k + 3];
        double endSpeed = states[3 * k + 4] * h;
        double endAccel = states[3 * k + 5] * h * h;
        double dAngle = endAngle - angle - speed - accel / 2;
        double dSpeed = endSpeed - speed - accel;
        double dAccel = endAccel - accel;
        int at = TERMS * k;
        terms[at] = angle;
        terms[at + 1] = states[3 * k + 1];
        terms[at + 2] = states[3 * k + 2] / 2;
        terms[at + 3] = (10 * dAngle - 4 * dSpeed + dAccel / 2) / (h * h * h);
        terms[at + 4] = (-15 * dAngle + 7 * dSpeed - dAccel) / (h * h * h * h);
        terms[at + 5] = (6 * dAngle - 3 * dSpeed + dAccel / 2) / (h * h * h * h * h);
    }

    /** Whether the slope stays positive: its Bernstein coefficients over the piece all are. */
    private static boolean rises(double[] terms, int at, double h) {
        double a = terms[at + 1];
        double b = 2 * terms[at + 2] * h;
        double c = 3 * terms[at + 3] * h * h;
        double d = 4 * terms[at + 4] * h * h * h;
        double e = 5 * terms[at + 5] * h * h * h * h;
        return a > 0
                && a + b / 4 > 0
                && a + b / 2 + c / 6 > 0
                && a + 3 * b / 4 + c / 2 + d / 4 > 0
                && a + b + c + d + e > 0;
    }

    /** Angle of the piece whose terms start at {@code at}, turns. */
    static double value(double[] terms, int at, double u) {
        double v = terms[at + 5];
        v = v * u + terms[at + 4];
        v = v * u + terms[at + 3];
        v = v * u + terms[at + 2];
        v = v * u + terms[at + 1];
        return v * u + terms[at];
    }

    /** Speed of the piece whose terms start at {@code at}, Hz. */
    static double slope(double[] terms, int at, double u) {
        double s = 5 * terms[at + 5];
        s = s * u + 4 * terms[at + 4];
        s = s * u + 3 * terms[at + 3];
        s = s * u + 2 * terms[at + 2];
        return s * u + terms[at + 1];
    }

    /** Turns times since the knot of a piece into angles, in place. */
    static void values(double[] terms, int at, double[] timesS, int from, int to) {
        double c0 = terms[at];
        double c1 = terms[at + 1];
        double c2 = terms[at + 2];
        double c3 = terms[at + 3];
        double c4 = terms[at + 4];
        double c5 = terms[at + 5];
        for (int i = from; i < to; i++) {
            double u = timesS[i];
            timesS[i] = ((((c5 * u + c4) * u + c3) * u + c2) * u + c1) * u + c0;
        }
    }

    /** Speeds at times since the knot of a piece, never below 0. */
    static void slopes(
            double[] terms, int at, double[] timesS, int from, int to, double[] speedsHz) {
        double c1 = terms[at + 1];
        double c2 = 2 * terms[at + 2];
        double c3 = 3 * terms[at + 3];
        double c4 = 4 * terms[at + 4];
        double c5 = 5 * terms[at + 5];
        for (int i = from; i < to; i++) {
            double u = timesS[i];
            speedsHz[i] = Math.max(0, (((c5 * u + c4) * u + c3) * u + c2) * u + c1);
        }
    }
}
