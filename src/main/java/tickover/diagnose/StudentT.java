package tickover.diagnose;

/** Points of Student's t distribution. */
final class StudentT {
    /** Two-sided 95 % points for 1 to 30 degrees of freedom, from the usual printed table. */
    private static final double[] TWO_SIDED_95 = {
        12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160,
        2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064, 2.060, 2.056,
        2.052, 2.048, 2.045, 2.042
    };

    private static final double NORMAL_95 = 1.96;

    private StudentT() {}

    /**
     * Chance of a value at least so far from 0, on both sides together.
     *
     * <p>With t = sqrt(n) tan(a) the density becomes cos(a)^(n-1), which Simpson's rule sums.
     *
     * @param t how far, &gt;= 0
     * @param degreesOfFreedom any number &gt;= 1; infinity for the normal distribution
     */
    static double twoSidedTail(double t, double degreesOfFreedom) {
        // Beyond this the distribution is normal to the third digit of the chance.
        double most = 400;
        double n = Math.min(most, degreesOfFreedom);
        double from = Math.atan(Math.abs(t) / Math.sqrt(n));
        return integral(from, n) / integral(0, n);
    }

    private static double integral(double from, double n) {
        int steps = 2000;
        double h = (Math.PI / 2 - from) / steps;
        double sum = 0;
        for (int i = 0; i <= steps; i++) {
            double weight = i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2;
            // Round-off may put the last cosine below 0.
            sum += weight * Math.pow(Math.max(0, Math.cos(from + i * h)), n - 1);
        }
        return sum * h / 3;
    }

    /** The point that a share of 5 % lies beyond, both sides together. */
    static double twoSided95(int degreesOfFreedom) {
        if (!(degreesOfFreedom >= 1)) {
            throw new IllegalArgumentException(
                    "degreesOfFreedom=" + degreesOfFreedom + ", need >= 1");
        }
        // The first term of the usual expansion; at 31 it is within 0.002 of the table.
        return degreesOfFreedom <= TWO_SIDED_95.length
                ? TWO_SIDED_95[degreesOfFreedom - 1]
                : NORMAL_95
                        + (NORMAL_95 * NORMAL_95 * NORMAL_95 + NORMAL_95)
                                / (4.0 * degreesOfFreedom);
    }
}
