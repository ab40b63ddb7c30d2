package tickover.diagnose;

/**
 * Two-sided cumulative sum against a limit: adds up what exceeds an allowance and forgets what
 * falls short of it, {@code up[n] = max(0, up[n-1] + (x[n]-target)/scatter - allowanceSigmas)}, and
 * the same downwards. Good at telling since when a shift lasts.
 *
 * <p>Textbook formulas; run lengths are checked against published ones in {@code
 * ControlChartReferenceTest}. One thread.
 */
public final class CusumChart {
    private final Spec spec;
    private double up;
    private double down;
    private int upFor;
    private int downFor;

    /**
     * What is watched for.
     *
     * @param target value of an unchanged process
     * @param scatter its standard deviation, &gt; 0
     * @param allowanceSigmas half the shift to be found, in standard deviations, &gt;= 0
     * @param limitSigmas a sum above it is a signal, &gt; 0
     */
    public record Spec(double target, double scatter, double allowanceSigmas, double limitSigmas) {
        public Spec {
            if (!(scatter > 0 && allowanceSigmas >= 0 && limitSigmas > 0)) {
                throw new IllegalArgumentException(
                        "scatter="
                                + scatter
                                + ", allowanceSigmas="
                                + allowanceSigmas
                                + ", limitSigmas="
                                + limitSigmas
                                + ", need scatter > 0, allowanceSigmas >= 0, limitSigmas > 0");
            }
        }
    }

    /**
     * Makes a chart that has seen nothing.
     *
     * @param spec what is watched for
     */
    public CusumChart(Spec spec) {
        this.spec = spec;
    }

    /**
     * Takes the next value.
     *
     * @param x the value
     */
    public void add(double x) {
        double score = (x - spec.target()) / spec.scatter();
        up = Math.max(0, up + score - spec.allowanceSigmas());
        down = Math.max(0, down - score - spec.allowanceSigmas());
        upFor = up > 0 ? upFor + 1 : 0;
        downFor = down > 0 ? downFor + 1 : 0;
    }

    /**
     * Returns the upward sum.
     *
     * @return standard deviations, &gt;= 0
     */
    public double up() {
        return up;
    }

    /**
     * Returns the downward sum.
     *
     * @return standard deviations, &gt;= 0
     */
    public double down() {
        return down;
    }

    /**
     * Returns for how many values the upward sum has been above zero: the shift is likely to have
     * begun with the first of them.
     *
     * @return 0 while the sum is zero
     */
    public int upFor() {
        return upFor;
    }

    /**
     * Returns for how many values the downward sum has been above zero.
     *
     * @return 0 while the sum is zero
     */
    public int downFor() {
        return downFor;
    }

    /**
     * Returns whether the upward sum is above its limit.
     *
     * @return true for a signal
     */
    public boolean signalsUp() {
        return up > spec.limitSigmas();
    }

    /**
     * Returns whether the downward sum is above its limit.
     *
     * @return true for a signal
     */
    public boolean signalsDown() {
        return down > spec.limitSigmas();
    }
}
