package tickover.diagnose;

import tickover.dsp.Distributions;

/**
 * The newest visit against its baseline.
 *
 * @param changeDb against the baseline's mean, dB
 * @param limitDb how far an unchanged part stays within, 19 times of 20, dB
 * @param chanceOfRise how often an unchanged part would rise as much, 0..1
 */
public record NewestLevel(double changeDb, double limitDb, double chanceOfRise) {
    static NewestLevel of(LevelBaseline baseline, double levelDb) {
        double change = levelDb - baseline.meanDb();
        double unit = baseline.predictionDb();
        double t =
                Distributions.studentExceededWith(
                        (1 - SeriesTrend.CONFIDENCE) / 2, baseline.degrees());
        return new NewestLevel(
                change, t * unit, Distributions.studentAbove(change / unit, baseline.degrees()));
    }

    /**
     * Returns whether the newest visit stands out.
     *
     * @return true above or below the limit
     */
    public boolean standsOut() {
        return Math.abs(changeDb) > limitDb;
    }
}
