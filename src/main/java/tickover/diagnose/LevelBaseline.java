package tickover.diagnose;

import java.util.List;
import java.util.Optional;

/**
 * The visits that a newer one is held against: the first ones since the last repair, {@value
 * #MOST_VISITS} at most, so that slow growth does not become the rule.
 *
 * @param visits how many count, &gt;= 1
 * @param medianDb their median, dB re 1 m/s²
 * @param robustScatterDb 1.4826 times their median distance from it, dB
 * @param meanDb their mean, dB re 1 m/s²
 * @param scatterDb standard deviation between visits, with the vehicle's other series heard, dB,
 *     &gt; 0
 * @param degrees degrees of freedom of {@code scatterDb}
 */
public record LevelBaseline(
        int visits,
        double medianDb,
        double robustScatterDb,
        double meanDb,
        double scatterDb,
        double degrees) {
    /** Fewer degrees of freedom make limits that nothing could exceed. */
    static final double FEWEST_DEGREES = 2;

    /** A longer baseline would take in what it is there to show. */
    public static final int MOST_VISITS = 8;

    private static final double STRAY_SIGMAS = 5;
    private static final int FEWEST_FOR_STRAYS = 5;
    private static final int FEWEST_FOR_STRAYS_ALONE = 7;

    public LevelBaseline {
        if (!(visits >= 1 && scatterDb > 0 && degrees > 0)) {
            throw new IllegalArgumentException(
                    "visits=" + visits + ", scatterDb=" + scatterDb + ", degrees=" + degrees);
        }
    }

    /** The baseline of some visits; empty where they are too few, or all equal. */
    static Optional<LevelBaseline> of(List<LevelSeries.Point> kept, ScatterPrior prior) {
        double degrees = prior.degrees() + kept.size() - 1;
        if (kept.isEmpty() || !(degrees >= FEWEST_DEGREES)) {
            return Optional.empty();
        }
        double[] values = SeriesTrend.levels(kept);
        double scatter = Math.sqrt(prior.variance(squares(values), values.length - 1.0));
        return !(scatter > 0)
                ? Optional.empty()
                : Optional.of(
                        new LevelBaseline(
                                values.length,
                                Robust.median(values),
                                Robust.scatter(values),
                                mean(values),
                                scatter,
                                degrees));
    }

    /** Visits that stand alone, such as a probe put down badly. Many of them are no strays. */
    static List<LevelSeries.Point> strays(List<LevelSeries.Point> earlier, ScatterPrior prior) {
        boolean alone = prior.degrees() == 0;
        if (earlier.size() < (alone ? FEWEST_FOR_STRAYS_ALONE : FEWEST_FOR_STRAYS)) {
            return List.of();
        }
        double[] values = SeriesTrend.levels(earlier);
        double median = Robust.median(values);
        double scatter = Math.max(Robust.scatter(values), alone ? 0 : prior.scatterDb());
        List<LevelSeries.Point> far =
                earlier.stream()
                        .filter(p -> Math.abs(p.levelDb() - median) > STRAY_SIGMAS * scatter)
                        .toList();
        return far.size() * 4 <= earlier.size() ? far : List.of();
    }

    static double mean(double[] values) {
        double sum = 0;
        for (double v : values) {
            sum += v;
        }
        return sum / values.length;
    }

    static double squares(double[] values) {
        double mean = mean(values);
        double sum = 0;
        for (double v : values) {
            sum += (v - mean) * (v - mean);
        }
        return sum;
    }

    /**
     * Returns the standard deviation of one more visit about the baseline's mean.
     *
     * @return scatter times sqrt(1 + 1/n), dB
     */
    public double predictionDb() {
        return scatterDb * Math.sqrt(1 + 1.0 / visits);
    }
}
