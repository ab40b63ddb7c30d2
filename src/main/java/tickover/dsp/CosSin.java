package tickover.dsp;

/**
 * Cosine and sine of many angles given in turns.
 *
 * <p>An angle in turns is brought to half a turn either side of zero exactly, by taking off the
 * nearest whole number, however many turns it has; half of it goes into two power series, and the
 * double-angle formulas give the rest. Without branches, so that a processor can do several at a
 * time. <br>
 * Accuracy: 5e-15 absolute, plus 2 pi times the round-off of the angle itself. <br>
 * Cost: O(count), allocates nothing.
 */
public final class CosSin {
    /** Taylor terms of sin(a)/a in a², to a^20: the next is below 1e-18 at a quarter turn. */
    private static final double S1 = -1.0 / 6;

    private static final double S2 = 1.0 / 120;
    private static final double S3 = -1.0 / 5_040;
    private static final double S4 = 1.0 / 362_880;
    private static final double S5 = -1.0 / 39_916_800;
    private static final double S6 = 1.0 / 6_227_020_800.0;
    private static final double S7 = -1.0 / 1_307_674_368_000.0;
    private static final double S8 = 1.0 / 355_687_428_096_000.0;
    private static final double S9 = -1.0 / 121_645_100_408_832_000.0;
    private static final double S10 = 1.0 / 51_090_942_171_709_440_000.0;

    /** Taylor terms of cos(a) in a², to a^20: the next is 2e-17 at a quarter turn. */
    private static final double C1 = -1.0 / 2;

    private static final double C2 = 1.0 / 24;
    private static final double C3 = -1.0 / 720;
    private static final double C4 = 1.0 / 40_320;
    private static final double C5 = -1.0 / 3_628_800;
    private static final double C6 = 1.0 / 479_001_600;
    private static final double C7 = -1.0 / 87_178_291_200.0;
    private static final double C8 = 1.0 / 20_922_789_888_000.0;
    private static final double C9 = -1.0 / 6_402_373_705_728_000.0;
    private static final double C10 = 1.0 / 2_432_902_008_176_640_000.0;

    private CosSin() {}

    /**
     * Fills arrays with {@code cos(2 pi turns[i])} and {@code sin(2 pi turns[i])}.
     *
     * @param turns angles, turns, read-only
     * @param count how many, from the first on
     * @param cos written
     * @param sin written; neither may be the array of angles
     */
    public static void ofTurns(double[] turns, int count, double[] cos, double[] sin) {
        for (int i = 0; i < count; i++) {
            double a = Math.PI * (turns[i] - Math.rint(turns[i]));
            double q = a * a;
            double s = S7 + q * (S8 + q * (S9 + q * S10));
            s = S3 + q * (S4 + q * (S5 + q * (S6 + q * s)));
            s = a * (1 + q * (S1 + q * (S2 + q * s)));
            double c = C7 + q * (C8 + q * (C9 + q * C10));
            c = C3 + q * (C4 + q * (C5 + q * (C6 + q * c)));
            c = 1 + q * (C1 + q * (C2 + q * c));
            cos[i] = 1 - 2 * s * s;
            sin[i] = 2 * s * c;
        }
    }
}
