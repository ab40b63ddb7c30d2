package tickover.diagnose;

import java.util.List;
import java.util.Optional;
import tickover.dsp.Distributions;

/**
 * What lasts over visits, in standard deviations of one visit: the moving average and the
 * cumulative sum over the normal scores of the visits, each held against those before it.
 *
 * @param visits how many scores went in
 * @param average moving average
 * @param averageLimit how far an unchanged part's stays within, 19 times of 20
 * @param chanceOfRise how often an unchanged part's average would be as high, 0..1
 * @param up cumulative sum upwards
 * @param down cumulative sum downwards
 * @param upFor visits since the upward sum left zero
 * @param downFor visits since the downward sum left zero
 */
public record LastingShift(
        int visits,
        double average,
        double averageLimit,
        double chanceOfRise,
        double up,
        double down,
        int upFor,
        int downFor) {
    /** Weight of the newest visit in the moving average. */
    static final double EWMA_WEIGHT = 0.3;

    /** Half the shift, in standard deviations, for which the cumulative sum is made. */
    static final double CUSUM_ALLOWANCE_SIGMAS = 0.5;

    /** Cumulative sum that counts as a lasting shift: once in 465 visits without one. */
    static final double CUSUM_LIMIT_SIGMAS = 5;

    /** One strange visit alone may not make the cumulative sum signal. */
    private static final double MOST_SCORE = 4;

    static Optional<LastingShift> of(
            List<LevelSeries.Point> visits, List<LevelSeries.Point> strays, ScatterPrior prior) {
        EwmaChart average = new EwmaChart(new EwmaChart.Spec(0, 1, EWMA_WEIGHT, 1));
        CusumChart sum =
                new CusumChart(
                        new CusumChart.Spec(0, 1, CUSUM_ALLOWANCE_SIGMAS, CUSUM_LIMIT_SIGMAS));
        int scores = 0;
        int kept = 0;
        double mean = 0;
        double squares = 0;
        for (LevelSeries.Point p : visits) {
            double level = p.levelDb();
            double degrees = prior.degrees() + kept - 1;
            if (kept > 0 && degrees >= LevelBaseline.FEWEST_DEGREES) {
                double unit = Math.sqrt(prior.variance(squares, kept - 1.0) * (1 + 1.0 / kept));
                if (unit > 0) {
                    double score = score((level - mean) / unit, degrees);
                    average.add(score);
                    sum.add(score);
                    scores++;
                }
            }
            if (!strays.contains(p)) {
                kept++;
                double step = level - mean;
                mean += step / kept;
                squares += step * (level - mean);
            }
        }
        if (scores < 2) {
            return Optional.empty();
        }
        double scatter = average.scatterOfValue();
        return Optional.of(
                new LastingShift(
                        scores,
                        average.value(),
                        scatter
                                * Distributions.normalExceededWith(
                                        (1 - SeriesTrend.CONFIDENCE) / 2),
                        Distributions.normalAbove(average.value() / scatter),
                        sum.up(),
                        sum.down(),
                        sum.upFor(),
                        sum.downFor()));
    }

    private static double score(double t, double degrees) {
        double score = Distributions.normalScore(t, degrees);
        return Math.max(-MOST_SCORE, Math.min(MOST_SCORE, score));
    }

    /**
     * Returns whether a rise lasts.
     *
     * @return true if the upward sum is above its limit
     */
    public boolean rises() {
        return up > CUSUM_LIMIT_SIGMAS;
    }

    /**
     * Returns whether a fall lasts.
     *
     * @return true if the downward sum is above its limit
     */
    public boolean falls() {
        return down > CUSUM_LIMIT_SIGMAS;
    }
}
