package tickover.diagnose;

import java.util.Arrays;
import tickover.dsp.Distributions;

/**
 * Whether values rise or fall over their order, whatever the shape: the number of pairs that rise
 * less the number that fall.
 *
 * <p>Without equal values the chance is exact up to {@value #EXACT_UP_TO} values, by counting every
 * order of them; else it is the normal one with the variance put right for equal values and the
 * step of one pair. Textbook formulas; checked in {@code MannKendallReferenceTest}.
 */
public final class MannKendall {
    /** Longest record whose orders are counted; beyond it the normal chance is good to 1 %. */
    static final int EXACT_UP_TO = 20;

    /** By number of values and falling pairs: the share of all orders with so many or fewer. */
    private static final double[][] SHARE_OF_FEW_FALLS = sharesOfFewFalls();

    private final int sum;
    private final int count;
    private final int tiedPairs;
    private final double variance;

    private MannKendall(int sum, int count, int tiedPairs, double variance) {
        this.sum = sum;
        this.count = count;
        this.tiedPairs = tiedPairs;
        this.variance = variance;
    }

    /**
     * Counts the pairs.
     *
     * @param values in their order, at least two, finite
     * @return the test
     */
    public static MannKendall of(double[] values) {
        int n = values.length;
        if (!(n >= 2)) {
            throw new IllegalArgumentException("values=" + n + ", need at least 2");
        }
        int sum = 0;
        int ties = 0;
        for (int i = 0; i < n; i++) {
            for (int j = i + 1; j < n; j++) {
                sum += values[j] > values[i] ? 1 : 0;
                sum -= values[j] < values[i] ? 1 : 0;
                ties += values[j] == values[i] ? 1 : 0;
            }
        }
        double variance = n * (n - 1.0) * (2 * n + 5);
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        for (int from = 0; from < n; ) {
            int to = from;
            while (to < n && sorted[to] == sorted[from]) {
                to++;
            }
            double t = to - from;
            variance -= t * (t - 1) * (2 * t + 5);
            from = to;
        }
        return new MannKendall(sum, n, ties, variance / 18);
    }

    /**
     * Returns the statistic.
     *
     * @return pairs that rise less pairs that fall
     */
    public int sum() {
        return sum;
    }

    /**
     * Returns the variance of the statistic for values in any order.
     *
     * @return put right for equal values
     */
    public double variance() {
        return variance;
    }

    /**
     * Returns the normal score, a step of one pair taken off.
     *
     * @return 0 where nothing rises or falls
     */
    public double normalScore() {
        return sum == 0 || !(variance > 0) ? 0 : (sum - Math.signum(sum)) / Math.sqrt(variance);
    }

    /**
     * Returns Kendall's rank correlation of values and order, with equal values taken out of the
     * count (tau-b).
     *
     * @return -1..1; 0 if all values are equal
     */
    public double rankCorrelation() {
        double pairs = count * (count - 1.0) / 2;
        return tiedPairs == pairs ? 0 : sum / Math.sqrt(pairs * (pairs - tiedPairs));
    }

    /**
     * Returns how often values in any order would rise as much or more.
     *
     * @return one-sided chance, 0..1
     */
    public double chanceOfRise() {
        return chanceOf(sum);
    }

    /**
     * Returns how often values in any order would fall as much or more.
     *
     * @return one-sided chance, 0..1
     */
    public double chanceOfFall() {
        return chanceOf(-sum);
    }

    private double chanceOf(int atLeast) {
        if (tiedPairs == 0 && count <= EXACT_UP_TO) {
            return exactChance(count, atLeast);
        }
        return variance > 0 ? Distributions.normalAbove((atLeast - 1) / Math.sqrt(variance)) : 1;
    }

    private static double[][] sharesOfFewFalls() {
        double[][] shares = new double[EXACT_UP_TO + 1][];
        shares[0] = new double[] {1};
        shares[1] = new double[] {1};
        double[] chanceOfFalls = {1};
        for (int k = 2; k <= EXACT_UP_TO; k++) {
            // The k-th value falls behind 0 .. k-1 of the earlier ones, each as likely.
            double[] next = new double[k * (k - 1) / 2 + 1];
            for (int falls = 0; falls < chanceOfFalls.length; falls++) {
                for (int more = 0; more < k; more++) {
                    next[falls + more] += chanceOfFalls[falls] / k;
                }
            }
            chanceOfFalls = next;
            shares[k] = next.clone();
            for (int falls = 1; falls < next.length; falls++) {
                shares[k][falls] += shares[k][falls - 1];
            }
        }
        return shares;
    }

    /** The share of all orders of n different values whose statistic is at least so much. */
    static double exactChance(int n, int atLeast) {
        int pairs = n * (n - 1) / 2;
        int mostFalls = Math.floorDiv(pairs - atLeast, 2);
        if (mostFalls < 0) {
            return 0;
        }
        return mostFalls >= pairs ? 1 : Math.min(1, SHARE_OF_FEW_FALLS[n][mostFalls]);
    }

    /**
     * Returns how far the statistic stays within for values in any order.
     *
     * @param confidence two-sided, 0 &lt; confidence &lt; 1
     * @return largest sum that is still ordinary; the number of pairs or more means that no order
     *     of so few values would be out of the ordinary
     */
    double ordinarySum(double confidence) {
        double each = (1 - confidence) / 2;
        if (tiedPairs > 0 || count > EXACT_UP_TO) {
            return Distributions.normalExceededWith(each) * Math.sqrt(variance);
        }
        int pairs = count * (count - 1) / 2;
        int least = pairs + 2;
        while (least > 0 && exactChance(count, least - 2) <= each) {
            least -= 2;
        }
        return least - 2.0;
    }
}
