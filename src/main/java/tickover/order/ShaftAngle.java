package tickover.order;

import java.util.Arrays;

/**
 * Crank angle over time, in turns: a smooth curve that never runs backwards.
 *
 * <p>Between its knots the angle is a polynomial of at most fifth degree. It is known from {@link
 * #startS} to {@link #endS} and asked for nowhere else. Immutable.
 *
 * <p>Angle zero is the tach mark where {@link #phaseKnown}, otherwise the crank position at the
 * start of the curve, whatever that was.
 */
public final class ShaftAngle {
    private static final int TERMS = AnglePieces.TERMS;

    private final double[] knotsS;
    private final double[] knotTurns;
    private final double[] terms;
    private final double[] knotSigmaTurns;
    private final boolean phaseKnown;
    private final PieceInverse inverse;

    /**
     * Takes the pieces over.
     *
     * @param pieces the curve
     * @param knotSigmaTurns one standard deviation of the angle at each knot, turns
     * @param phaseKnown whether angle zero is a mark on the crank
     */
    ShaftAngle(AnglePieces pieces, double[] knotSigmaTurns, boolean phaseKnown) {
        this.knotsS = pieces.knotsS();
        this.terms = pieces.terms();
        this.knotTurns = pieces.knotTurns();
        this.knotSigmaTurns = knotSigmaTurns;
        this.phaseKnown = phaseKnown;
        this.inverse = new PieceInverse(pieces);
    }

    /**
     * A shaft that turns evenly, with angle zero at time zero.
     *
     * @param speedHz turns per second, Hz, &gt; 0
     * @param endS end of the curve, s, &gt; 0; it starts at 0
     * @return the angle, exact
     */
    public static ShaftAngle steady(double speedHz, double endS) {
        if (!(speedHz > 0 && endS > 0)) {
            throw new IllegalArgumentException(
                    "speedHz=" + speedHz + ", endS=" + endS + ", need both > 0");
        }
        double[] times = {0, endS};
        double[] speeds = {speedHz, speedHz};
        return new ShaftAngle(AnglePieces.ofSpeeds(times, speeds), new double[2], false);
    }

    /**
     * The angle of a part that turns at a fixed ratio to this shaft, in turns of the part, zero
     * where this one is.
     *
     * @param turnsPerTurn turns of the part per turn of this shaft, &gt; 0
     * @return the part's angle
     */
    public ShaftAngle ofPart(double turnsPerTurn) {
        if (!(turnsPerTurn > 0 && Double.isFinite(turnsPerTurn))) {
            throw new IllegalArgumentException("turnsPerTurn=" + turnsPerTurn + ", need > 0");
        }
        double[] sigmaTurns = knotSigmaTurns.clone();
        for (int k = 0; k < sigmaTurns.length; k++) {
            sigmaTurns[k] *= turnsPerTurn;
        }
        return new ShaftAngle(
                AnglePieces.scaled(knotsS, knotTurns, terms, turnsPerTurn), sigmaTurns, phaseKnown);
    }

    /** The same curve with a further error, independent of those stated and the same all along. */
    ShaftAngle withSigma(double sigmaTurns) {
        double[] sigmas = knotSigmaTurns.clone();
        for (int k = 0; k < sigmas.length; k++) {
            sigmas[k] = Math.hypot(sigmas[k], sigmaTurns);
        }
        return new ShaftAngle(new AnglePieces(knotsS, knotTurns, terms), sigmas, phaseKnown);
    }

    /**
     * Returns whether angle zero is a mark on the crank, so that phases can be compared between
     * captures.
     *
     * @return true with a tach on the crank
     */
    public boolean phaseKnown() {
        return phaseKnown;
    }

    /**
     * Returns where the curve starts.
     *
     * @return s on the samples' time base
     */
    public double startS() {
        return knotsS[0];
    }

    /**
     * Returns where the curve ends.
     *
     * @return s on the samples' time base
     */
    public double endS() {
        return knotsS[knotsS.length - 1];
    }

    /**
     * Returns the angle at the start of the curve.
     *
     * @return crank turns
     */
    public double startTurns() {
        return knotTurns[0];
    }

    /**
     * Returns the angle at the end of the curve.
     *
     * @return crank turns
     */
    public double endTurns() {
        return knotTurns[knotTurns.length - 1];
    }

    /**
     * The angle at a time.
     *
     * @param timeS s, {@link #startS} to {@link #endS}
     * @return crank turns
     */
    public double turnsAt(double timeS) {
        int k = pieceAt(timeS);
        return AnglePieces.value(terms, k * TERMS, timeS - knotsS[k]);
    }

    /**
     * The angles at even steps of time, as {@link #turnsAt} gives them, in one pass and without
     * allocating.
     *
     * @param firstSample number of the first sample; sample i is taken at i/{@code sampleRateHz} s
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param count how many; all must lie within {@link #startS} to {@link #endS}
     * @param turns written, crank turns
     */
    public void turnsAtSamples(long firstSample, double sampleRateHz, int count, double[] turns) {
        overSamples(firstSample, sampleRateHz, count, turns, null);
    }

    /**
     * Angles as {@link #turnsAtSamples} gives them, and speeds as {@link #speedHzAt} does.
     *
     * @param firstSample number of the first sample; sample i is taken at i/{@code sampleRateHz} s
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param count how many; all must lie within {@link #startS} to {@link #endS}
     * @param turns written, crank turns
     * @param speedsHz written, Hz
     */
    void turnsAndSpeedsAtSamples(
            long firstSample, double sampleRateHz, int count, double[] turns, double[] speedsHz) {
        overSamples(firstSample, sampleRateHz, count, turns, speedsHz);
    }

    private void overSamples(
            long firstSample, double sampleRateHz, int count, double[] turns, double[] speedsHz) {
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        if (count < 1) {
            return;
        }
        int k = pieceAt(firstSample / sampleRateHz);
        pieceAt((firstSample + count - 1) / sampleRateHz);
        for (int done = 0; done < count; k++) {
            int end = count;
            if (k < knotsS.length - 2) {
                double samplesToKnot = knotsS[k + 1] * sampleRateHz - firstSample;
                end = (int) Math.max(done, Math.min(count, Math.ceil(samplesToKnot)));
            }
            for (int i = done; i < end; i++) {
                turns[i] = (firstSample + i) / sampleRateHz - knotsS[k];
            }
            if (speedsHz != null) {
                AnglePieces.slopes(terms, k * TERMS, turns, done, end, speedsHz);
            }
            AnglePieces.values(terms, k * TERMS, turns, done, end);
            done = end;
        }
    }

    /**
     * The speed at a time.
     *
     * @param timeS s, {@link #startS} to {@link #endS}
     * @return crank turns per second, Hz, &gt;= 0
     */
    public double speedHzAt(double timeS) {
        int k = pieceAt(timeS);
        return Math.max(0, AnglePieces.slope(terms, k * TERMS, timeS - knotsS[k]));
    }

    /**
     * One standard deviation of the angle at a time, against the true crank angle less a constant
     * where the phase is not known.
     *
     * @param timeS s, {@link #startS} to {@link #endS}
     * @return turns, &gt;= 0
     */
    public double sigmaTurnsAt(double timeS) {
        int k = pieceAt(timeS);
        double share = (timeS - knotsS[k]) / (knotsS[k + 1] - knotsS[k]);
        return knotSigmaTurns[k] + share * (knotSigmaTurns[k + 1] - knotSigmaTurns[k]);
    }

    /** The highest speed of the curve, within a per cent or so: where pieces meet and half way. */
    double highestSpeedHz() {
        double highest = 0;
        for (int k = 0; k + 1 < knotsS.length; k++) {
            double h = knotsS[k + 1] - knotsS[k];
            for (int i = 0; i <= 2; i++) {
                highest = Math.max(highest, AnglePieces.slope(terms, k * TERMS, h * i / 2));
            }
        }
        return highest;
    }

    /**
     * The time at which an angle is reached, to round-off. Where the shaft stands still, the first
     * such time.
     *
     * @param turns crank turns, {@link #startTurns} to {@link #endTurns}
     * @return s
     */
    public double timeAt(double turns) {
        if (!(turns >= startTurns() && turns <= endTurns())) {
            throw new IllegalArgumentException(
                    "turns=" + turns + ", need " + startTurns() + " to " + endTurns() + " turns");
        }
        return knotsS[pieceOf(turns)] + inverse.offsetAt(pieceOf(turns), turns);
    }

    /**
     * Times and speeds at even steps of angle, as {@link #timeAt} and {@link #speedHzAt} give them,
     * in one pass and without allocating.
     *
     * @param firstTurns first angle, crank turns, not before {@link #startTurns}
     * @param stepTurns step, crank turns, &gt; 0
     * @param count how many; the last must not lie beyond {@link #endTurns}
     * @param timesS written, s
     * @param speedsHz written, Hz
     */
    public void timesAt(
            double firstTurns, double stepTurns, int count, double[] timesS, double[] speedsHz) {
        if (!(stepTurns > 0)) {
            throw new IllegalArgumentException("stepTurns=" + stepTurns + ", need > 0 turns");
        }
        double last = firstTurns + (count - 1) * stepTurns;
        if (count > 0 && !(firstTurns >= startTurns() && last <= endTurns())) {
            throw new IllegalArgumentException(
                    "turns " + firstTurns + " to " + last + " leave the curve");
        }
        int done = 0;
        for (int k = count > 0 ? pieceOf(firstTurns) : 0; done < count; k++) {
            int end = count;
            if (k < knotTurns.length - 2) {
                end = done;
                while (end < count && firstTurns + end * stepTurns <= knotTurns[k + 1]) {
                    end++;
                }
            }
            inverse.offsetsAt(k, firstTurns, stepTurns, done, end, timesS, speedsHz);
            for (int i = done; i < end; i++) {
                double u = timesS[i];
                timesS[i] = knotsS[k] + u;
                speedsHz[i] = Math.max(0, AnglePieces.slope(terms, k * TERMS, u));
            }
            done = end;
        }
    }

    private int pieceAt(double timeS) {
        if (!(timeS >= startS() && timeS <= endS())) {
            throw new IllegalArgumentException(
                    "timeS=" + timeS + ", need " + startS() + " to " + endS() + " s");
        }
        int found = Arrays.binarySearch(knotsS, timeS);
        int k = found >= 0 ? found : -found - 2;
        return Math.min(k, knotsS.length - 2);
    }

    /** The first piece that reaches an angle. */
    private int pieceOf(double turns) {
        int lo = 0;
        int hi = knotTurns.length - 2;
        while (lo < hi) {
            int mid = (lo + hi) >>> 1;
            if (knotTurns[mid + 1] >= turns) {
                hi = mid;
            } else {
                lo = mid + 1;
            }
        }
        return lo;
    }
}
