package tickover.order;

/** Finds the times at which the pieces of a curve of angle reach angles. Immutable. */
final class PieceInverse {
    private static final int TERMS = AnglePieces.TERMS;

    /** Newton's rule doubles the digits each time; bisection takes over where it would not. */
    private static final int MAX_STEPS = 60;

    /** Steps that settle a piece unless the shaft all but stands still in it. */
    private static final int MAX_COMMON_STEPS = 8;

    private final double[] knotsS;
    private final double[] knotTurns;
    private final double[] terms;

    PieceInverse(AnglePieces pieces) {
        this.knotsS = pieces.knotsS();
        this.knotTurns = pieces.knotTurns();
        this.terms = pieces.terms();
    }

    /**
     * Times since the knot at which piece k reaches even steps of angle. Newton's rule for all of
     * them together, in loops without branches; where it does not settle, one by one.
     *
     * @param offsetsS written from {@code from} to before {@code to}
     * @param stepsS scratch of the same length
     */
    void offsetsAt(
            int k,
            double firstTurns,
            double stepTurns,
            int from,
            int to,
            double[] offsetsS,
            double[] stepsS) {
        double h = knotsS[k + 1] - knotsS[k];
        double perTurn = h / (knotTurns[k + 1] - knotTurns[k]);
        double settledS = 1e-15 * (1 + knotsS[k + 1]);
        double most = Double.POSITIVE_INFINITY;
        for (int i = from; i < to; i++) {
            double ahead = firstTurns + i * stepTurns - knotTurns[k];
            offsetsS[i] = Math.max(0, Math.min(h, ahead * perTurn));
        }
        for (int n = 0; n < MAX_COMMON_STEPS && most > settledS; n++) {
            newton(k, firstTurns, stepTurns, from, to, offsetsS, stepsS);
            most = 0;
            for (int i = from; i < to; i++) {
                most = Math.max(most, Math.abs(stepsS[i]));
            }
        }
        if (!(most <= settledS)) {
            for (int i = from; i < to; i++) {
                offsetsS[i] = offsetAt(k, firstTurns + i * stepTurns);
            }
        }
    }

    private void newton(
            int k,
            double firstTurns,
            double stepTurns,
            int from,
            int to,
            double[] offsetsS,
            double[] stepsS) {
        double h = knotsS[k + 1] - knotsS[k];
        double c0 = terms[k * TERMS];
        double c1 = terms[k * TERMS + 1];
        double c2 = terms[k * TERMS + 2];
        double c3 = terms[k * TERMS + 3];
        double c4 = terms[k * TERMS + 4];
        double c5 = terms[k * TERMS + 5];
        for (int i = from; i < to; i++) {
            double u = offsetsS[i];
            double value = c0 + u * (c1 + u * (c2 + u * (c3 + u * (c4 + u * c5))));
            double slope = c1 + u * (2 * c2 + u * (3 * c3 + u * (4 * c4 + u * (5 * c5))));
            double next = u - (value - (firstTurns + i * stepTurns)) / slope;
            double kept = Math.max(0, Math.min(h, next));
            stepsS[i] = kept - u;
            offsetsS[i] = kept;
        }
    }

    /** Time since the knot at which piece k reaches an angle: Newton, kept inside a bracket. */
    double offsetAt(int k, double turns) {
        double lo = 0;
        double hi = knotsS[k + 1] - knotsS[k];
        double rise = knotTurns[k + 1] - knotTurns[k];
        if (!(rise > 0) || turns <= knotTurns[k]) {
            return 0;
        }
        double u = Math.min(hi, hi * (turns - knotTurns[k]) / rise);
        for (int step = 0; step < MAX_STEPS; step++) {
            double error = AnglePieces.value(terms, k * TERMS, u) - turns;
            if (error > 0) {
                hi = u;
            } else {
                lo = u;
            }
            double next = u - error / AnglePieces.slope(terms, k * TERMS, u);
            if (!(next >= lo && next <= hi)) {
                next = (lo + hi) / 2;
            }
            if (Math.abs(next - u) <= 1e-15 * (1 + knotsS[k + 1])) {
                return next;
            }
            u = next;
        }
        return u;
    }
}
