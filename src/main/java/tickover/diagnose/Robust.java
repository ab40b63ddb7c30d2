package tickover.diagnose;

import java.util.Arrays;

/** Centre and scatter that single strange values do not move. */
public final class Robust {
    /** Makes the median distance from the median the standard deviation of normal values. */
    public static final double SIGMAS_PER_MAD = 1.4826;

    private Robust() {}

    /**
     * Returns the median.
     *
     * @param values at least one, left as they are
     * @return the middle one, or the mean of the two in the middle
     */
    public static double median(double[] values) {
        if (!(values.length >= 1)) {
            throw new IllegalArgumentException("values=0, need at least 1");
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return medianOfSorted(sorted);
    }

    static double medianOfSorted(double[] sorted) {
        int n = sorted.length;
        return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
    }

    /**
     * Returns the scatter.
     *
     * @param values at least one
     * @return {@value #SIGMAS_PER_MAD} times the median distance from the median
     */
    public static double scatter(double[] values) {
        double median = median(values);
        double[] distances = new double[values.length];
        for (int i = 0; i < distances.length; i++) {
            distances[i] = Math.abs(values[i] - median);
        }
        return SIGMAS_PER_MAD * median(distances);
    }
}
