package tickover.diagnose;

import java.util.Arrays;
import java.util.Optional;

/**
 * A rate of change that single strange values do not move: the median of the slopes of all pairs,
 * with the interval that goes with Mann and Kendall's test.
 *
 * <p>The interval's ends are slopes of rank {@code (pairs ± C)/2}, with C how far the test's sum
 * stays within for values in any order: the normal quantile times its scatter, or counted exactly
 * for few values. Textbook formulas; checked in {@code MannKendallReferenceTest}.
 */
public final class TheilSen {
    private final double slope;
    private final double intercept;
    private final double[] at;
    private final double[] values;
    private final Interval interval;

    /**
     * An interval of slopes, in units of the values per unit of their places.
     *
     * @param low lower end
     * @param high upper end, &gt;= low
     */
    public record Interval(double low, double high) {
        public Interval {
            if (!(low <= high)) {
                throw new IllegalArgumentException("low=" + low + ", high=" + high + ", need <=");
            }
        }
    }

    private TheilSen(
            double slope, double intercept, double[] at, double[] values, Interval interval) {
        this.slope = slope;
        this.intercept = intercept;
        this.at = at;
        this.values = values;
        this.interval = interval;
    }

    /**
     * Finds the rate.
     *
     * @param at where the values stand, rising or equal, finite
     * @param values as many, finite
     * @param confidence of the interval, 0 &lt; confidence &lt; 1
     * @return the rate
     * @throws IllegalArgumentException if fewer than two places differ
     */
    public static TheilSen of(double[] at, double[] values, double confidence) {
        int n = at.length;
        if (!(n == values.length)) {
            throw new IllegalArgumentException("at=" + n + ", values=" + values.length);
        }
        double[] slopes = new double[Math.max(0, n * (n - 1) / 2)];
        int count = 0;
        for (int i = 0; i < n; i++) {
            for (int j = i + 1; j < n; j++) {
                if (at[j] > at[i]) {
                    slopes[count++] = (values[j] - values[i]) / (at[j] - at[i]);
                }
            }
        }
        if (!(count >= 1)) {
            throw new IllegalArgumentException("at holds fewer than two different places");
        }
        double[] sorted = Arrays.copyOf(slopes, count);
        Arrays.sort(sorted);
        double slope = Robust.medianOfSorted(sorted);
        double ordinary = MannKendall.of(values).ordinarySum(confidence);
        int low = (int) Math.round((count - ordinary) / 2) - 1;
        int high = (int) Math.round((count + ordinary) / 2);
        boolean known = low >= 0 && high < count && low <= high;
        return new TheilSen(
                slope,
                intercept(at, values, slope),
                at.clone(),
                values.clone(),
                known ? new Interval(sorted[low], sorted[high]) : null);
    }

    private static double intercept(double[] at, double[] values, double slope) {
        double[] rest = new double[at.length];
        for (int i = 0; i < rest.length; i++) {
            rest[i] = values[i] - slope * at[i];
        }
        return Robust.median(rest);
    }

    /**
     * Returns the rate.
     *
     * @return units of the values per unit of their places
     */
    public double slope() {
        return slope;
    }

    /**
     * Returns the rate's interval.
     *
     * @return empty if the values are too few for one of this confidence
     */
    public Optional<Interval> interval() {
        return Optional.ofNullable(interval);
    }

    /**
     * Returns the line's value.
     *
     * @param place where
     * @return the median line there
     */
    public double valueAt(double place) {
        return intercept + slope * place;
    }

    /**
     * Returns where a line of another slope through the middle of the same values stands.
     *
     * @param otherSlope its slope
     * @param place where
     * @return its value there
     */
    public double valueAt(double place, double otherSlope) {
        return intercept(at, values, otherSlope) + otherSlope * place;
    }
}
