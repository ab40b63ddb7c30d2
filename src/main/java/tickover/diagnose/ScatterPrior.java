package tickover.diagnose;

import java.util.List;
import tickover.dsp.Distributions;

/**
 * How much levels scatter from visit to visit, learned over many series, so that one with few
 * visits need not guess it from itself alone.
 *
 * <p>Each series' variance is taken to be drawn around a common one; how closely, is found from the
 * spread of the logarithms of the series' own variances. A series' variance is then the mean of its
 * own, weighted by its degrees of freedom, and the common one, weighted by {@code degrees}.
 * Student's t with the sum of both degrees of freedom holds for it exactly. Source: empirical Bayes
 * variances after G. Smyth (2004), from memory; its false alarms are measured in {@code
 * docs/trend.md}.
 *
 * @param degrees degrees of freedom that the common variance is worth, &gt;= 0; 0 if nothing is
 *     known
 * @param scatterDb common standard deviation between visits, dB, &gt;= 0
 */
public record ScatterPrior(double degrees, double scatterDb) {
    /** Nothing is known: each series stands alone. */
    public static final ScatterPrior NONE = new ScatterPrior(0, 0);

    /**
     * Series of one vehicle are not independent, so however alike they are, more is not granted.
     */
    public static final double MOST_DEGREES = 30;

    /** Fewer series say too little of how alike they are. */
    public static final int FEWEST_SERIES = 6;

    /** Scatter below a tenth of a decibel is rounding, not knowledge. */
    private static final double LEAST_SCATTER_DB = 0.1;

    public ScatterPrior {
        if (!(degrees >= 0 && degrees <= MOST_DEGREES && scatterDb >= 0)) {
            throw new IllegalArgumentException(
                    "degrees="
                            + degrees
                            + ", scatterDb="
                            + scatterDb
                            + ", need 0.."
                            + MOST_DEGREES
                            + " and >= 0 dB");
        }
    }

    /**
     * One series' own scatter.
     *
     * @param degrees its degrees of freedom: visits less one, &gt;= 1
     * @param scatterDb standard deviation over its visits, dB, &gt;= 0
     */
    public record Own(int degrees, double scatterDb) {
        public Own {
            if (!(degrees >= 1 && scatterDb >= 0)) {
                throw new IllegalArgumentException(
                        "degrees=" + degrees + ", scatterDb=" + scatterDb);
            }
        }
    }

    /**
     * Learns from series.
     *
     * @param all scatter of each series
     * @return {@link #NONE} if they are fewer than {@value #FEWEST_SERIES}
     */
    public static ScatterPrior of(List<Own> all) {
        int n = all.size();
        if (n < FEWEST_SERIES) {
            return NONE;
        }
        double[] logs = new double[n];
        double mean = 0;
        double expected = 0;
        for (int i = 0; i < n; i++) {
            double half = all.get(i).degrees() / 2.0;
            double scatter = Math.max(all.get(i).scatterDb(), LEAST_SCATTER_DB);
            logs[i] = 2 * Math.log(scatter) - Distributions.digamma(half) + Math.log(half);
            mean += logs[i] / n;
            expected += Distributions.trigamma(half) / n;
        }
        double spread = 0;
        for (double l : logs) {
            spread += (l - mean) * (l - mean) / (n - 1);
        }
        double half = halfDegrees(spread - expected);
        double log = mean + Distributions.digamma(half) - Math.log(half);
        return new ScatterPrior(Math.min(2 * half, MOST_DEGREES), Math.exp(log / 2));
    }

    /** Half the degrees of freedom whose log variance spreads so much: trigamma backwards. */
    private static double halfDegrees(double spread) {
        double low = 0.05;
        double high = MOST_DEGREES / 2;
        if (!(spread > Distributions.trigamma(high))) {
            return high;
        }
        while (high - low > 1e-6) {
            double middle = (low + high) / 2;
            if (Distributions.trigamma(middle) > spread) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }

    /**
     * Returns the variance to use for a series.
     *
     * @param ownSquaresDb sum of its squared deviations, dB², &gt;= 0
     * @param ownDegrees its degrees of freedom, &gt;= 0
     * @return dB²
     */
    double variance(double ownSquaresDb, double ownDegrees) {
        return (degrees * scatterDb * scatterDb + ownSquaresDb) / (degrees + ownDegrees);
    }
}
