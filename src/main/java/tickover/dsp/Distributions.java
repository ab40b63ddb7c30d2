package tickover.dsp;

/**
 * Normal and Student distributions and the gamma family behind them, with full relative accuracy in
 * the tails, because small chances are multiplied and compared.
 *
 * <p>Textbook series and continued fractions; checked against an outside implementation in {@code
 * DistributionsReferenceTest}.
 */
public final class Distributions {
    /** Beyond so many degrees of freedom Student's t is the normal to within 1e-9. */
    private static final double AS_NORMAL_DEGREES = 1e9;

    private static final double TINY = 1e-300;
    private static final double ENOUGH = 1e-15;
    private static final int MOST_TERMS = 10_000;

    /** From here on the continued fraction needs few terms, and below it nothing cancels yet. */
    private static final double SERIES_BELOW = 3;

    /** Leaves an error of about exp(-2 z sqrt(2 n)), below 1e-22. */
    private static final int FRACTION_TERMS = 40;

    /** Where the asymptotic series of the gamma family are good to the last digit. */
    private static final double ASYMPTOTIC_FROM = 12;

    private Distributions() {}

    /**
     * Returns the chance that a standard normal value is above {@code z}.
     *
     * @param z any number
     * @return 0..1
     */
    public static double normalAbove(double z) {
        if (z < 0) {
            return 1 - normalAbove(-z);
        }
        return z < SERIES_BELOW ? 0.5 - normalSeries(z) : normalTail(z);
    }

    /** Integral of the density from 0 to z, by its power series. */
    private static double normalSeries(double z) {
        double term = z;
        double sum = z;
        for (int n = 1; Math.abs(term) > ENOUGH * Math.abs(sum); n++) {
            term *= z * z / (2 * n + 1);
            sum += term;
        }
        return sum * Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    /** Laplace's continued fraction, from the far end. */
    private static double normalTail(double z) {
        double fraction = z;
        for (int n = FRACTION_TERMS; n >= 1; n--) {
            fraction = z + n / fraction;
        }
        return Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI) / fraction;
    }

    /**
     * Returns the value that a standard normal exceeds with a given chance.
     *
     * @param chance 0 &lt; chance &lt; 1
     * @return the quantile
     */
    public static double normalExceededWith(double chance) {
        if (!(chance > 0 && chance < 1)) {
            throw new IllegalArgumentException("chance=" + chance + ", need > 0 and < 1");
        }
        if (chance > 0.5) {
            return -normalExceededWith(1 - chance);
        }
        // A start good to 4.5e-4 (a handbook's rational approximation, from memory; what it gives
        // does not depend on it), then Newton on the logarithm of the tail, which is nearly a
        // parabola.
        double w = Math.sqrt(-2 * Math.log(chance));
        double z =
                w
                        - (2.515517 + w * (0.802853 + w * 0.010328))
                                / (1 + w * (1.432788 + w * (0.189269 + w * 0.001308)));
        for (int i = 0; i < 100; i++) {
            double above = normalAbove(z);
            double density = Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
            double step = (Math.log(above) - Math.log(chance)) * above / density;
            z += step;
            if (Math.abs(step) < 1e-9 * (1 + Math.abs(z))) {
                // Newton doubles the digits, so this step has left the last ones right.
                break;
            }
        }
        return z;
    }

    /**
     * Returns the chance that Student's t is above {@code t}.
     *
     * @param t any number
     * @param degrees degrees of freedom, &gt; 0, may be infinite
     * @return 0..1
     */
    public static double studentAbove(double t, double degrees) {
        if (!(degrees > 0)) {
            throw new IllegalArgumentException("degrees=" + degrees + ", need > 0");
        }
        if (degrees > AS_NORMAL_DEGREES) {
            return normalAbove(t);
        }
        double half = 0.5 * betaBelow(degrees / (degrees + t * t), degrees / 2, 0.5);
        return t < 0 ? 1 - half : half;
    }

    /**
     * Returns the value that Student's t exceeds with a given chance.
     *
     * @param chance 0 &lt; chance &lt;= 0.5
     * @param degrees degrees of freedom, &gt; 0, may be infinite
     * @return the quantile, &gt;= 0
     */
    public static double studentExceededWith(double chance, double degrees) {
        if (!(chance > 0 && chance <= 0.5)) {
            throw new IllegalArgumentException("chance=" + chance + ", need > 0 and <= 0.5");
        }
        // The tail is convex and above the normal one, so Newton climbs to the root from below.
        double t = chance == 0.5 ? 0 : normalExceededWith(chance);
        for (int i = 0; i < 200; i++) {
            double step = (studentAbove(t, degrees) - chance) / studentDensity(t, degrees);
            t += step;
            if (Math.abs(step) < 1e-13 * (1 + t)) {
                break;
            }
        }
        return t;
    }

    private static double studentDensity(double t, double degrees) {
        if (degrees > AS_NORMAL_DEGREES) {
            return Math.exp(-t * t / 2) / Math.sqrt(2 * Math.PI);
        }
        double log =
                logGamma((degrees + 1) / 2)
                        - logGamma(degrees / 2)
                        - (degrees + 1) / 2 * Math.log1p(t * t / degrees);
        return Math.exp(log) / Math.sqrt(degrees * Math.PI);
    }

    /**
     * Turns a value of Student's t into the standard normal value with the same chance above it.
     *
     * @param t any number
     * @param degrees degrees of freedom, &gt; 0, may be infinite
     * @return the normal score
     */
    public static double normalScore(double t, double degrees) {
        double above = Math.max(studentAbove(Math.abs(t), degrees), TINY);
        double z = above >= 0.5 ? 0 : normalExceededWith(above);
        return t < 0 ? -z : z;
    }

    /**
     * Returns the regularised incomplete beta function.
     *
     * @param x 0..1
     * @param a &gt; 0
     * @param b &gt; 0
     * @return chance that a beta(a, b) value is below {@code x}
     */
    static double betaBelow(double x, double a, double b) {
        if (x <= 0) {
            return 0;
        }
        if (x >= 1) {
            return 1;
        }
        double front =
                Math.exp(
                        logGamma(a + b)
                                - logGamma(a)
                                - logGamma(b)
                                + a * Math.log(x)
                                + b * Math.log1p(-x));
        return x < (a + 1) / (a + b + 2)
                ? front * betaFraction(x, a, b) / a
                : 1 - front * betaFraction(1 - x, b, a) / b;
    }

    /** The continued fraction of the incomplete beta function, by Lentz's method. */
    private static double betaFraction(double x, double a, double b) {
        double c = 1;
        double d = 1 / away(1 - (a + b) * x / (a + 1));
        double fraction = d;
        for (int m = 1; m <= MOST_TERMS; m++) {
            double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
            d = 1 / away(1 + even * d);
            c = away(1 + even / c);
            fraction *= d * c;
            double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
            d = 1 / away(1 + odd * d);
            c = away(1 + odd / c);
            double step = d * c;
            fraction *= step;
            if (Math.abs(step - 1) < ENOUGH) {
                break;
            }
        }
        return fraction;
    }

    private static double away(double value) {
        return Math.abs(value) < TINY ? TINY : value;
    }

    /**
     * Returns the logarithm of the gamma function.
     *
     * @param x &gt; 0
     * @return natural logarithm
     */
    static double logGamma(double x) {
        double shift = 1;
        double y = x;
        while (y < ASYMPTOTIC_FROM) {
            shift *= y;
            y += 1;
        }
        double w = 1 / (y * y);
        double series =
                (1.0 / 12 - w * (1.0 / 360 - w * (1.0 / 1260 - w * (1.0 / 1680 - w / 1188)))) / y;
        return (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + series - Math.log(shift);
    }

    /**
     * Returns the slope of the logarithm of the gamma function.
     *
     * @param x &gt; 0
     * @return digamma
     */
    public static double digamma(double x) {
        double shift = 0;
        double y = x;
        while (y < ASYMPTOTIC_FROM) {
            shift += 1 / y;
            y += 1;
        }
        double w = 1 / (y * y);
        double series = w * (1.0 / 12 - w * (1.0 / 120 - w * (1.0 / 252 - w * (1.0 / 240))));
        return Math.log(y) - 0.5 / y - series - shift;
    }

    /**
     * Returns the slope of digamma.
     *
     * @param x &gt; 0
     * @return trigamma
     */
    public static double trigamma(double x) {
        double shift = 0;
        double y = x;
        while (y < ASYMPTOTIC_FROM) {
            shift += 1 / (y * y);
            y += 1;
        }
        double w = 1 / (y * y);
        double series = w * (1.0 / 6 - w * (1.0 / 30 - w * (1.0 / 42 - w / 30)));
        return (1 + series) / y + 0.5 * w + shift;
    }
}
