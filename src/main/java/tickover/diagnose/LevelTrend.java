package tickover.diagnose;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Whether a part's newest level stands out of its own earlier ones. Levels are compared as
 * decibels, because their scatter is a share of the level.
 */
public final class LevelTrend {
    /** Fewer earlier visits say nothing of the scatter between visits. */
    public static final int FEWEST_EARLIER = 3;

    /** Two-sided 95 % points of Student's t for 2 to 10 degrees of freedom, then the normal. */
    private static final double[] T_95 = {
        4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228
    };

    private static final double NORMAL_95 = 1.96;

    private final double changeDb;
    private final Double limitDb;

    private LevelTrend(double changeDb, Double limitDb) {
        this.changeDb = changeDb;
        this.limitDb = limitDb;
    }

    /**
     * Judges the newest level.
     *
     * @param levelsRmsMps2 like levels, oldest first, at least two, m/s², each &gt; 0
     * @return the judgement
     */
    public static LevelTrend of(List<Double> levelsRmsMps2) {
        int earlier = levelsRmsMps2.size() - 1;
        if (!(earlier >= 1)) {
            throw new IllegalArgumentException(
                    "levels=" + levelsRmsMps2.size() + ", need at least 2");
        }
        double[] levelsDb = new double[earlier + 1];
        double mean = 0;
        for (int i = 0; i <= earlier; i++) {
            double level = levelsRmsMps2.get(i);
            if (!(level > 0)) {
                throw new IllegalArgumentException(
                        "levelsRmsMps2[" + i + "]=" + level + ", need > 0 m/s²");
            }
            levelsDb[i] = 20 * Math.log10(level);
            mean += i < earlier ? levelsDb[i] / earlier : 0;
        }
        double change = levelsDb[earlier] - mean;
        if (earlier < FEWEST_EARLIER) {
            return new LevelTrend(change, null);
        }
        double squares = 0;
        for (int i = 0; i < earlier; i++) {
            squares += (levelsDb[i] - mean) * (levelsDb[i] - mean);
        }
        double scatter = Math.sqrt(squares / (earlier - 1));
        return new LevelTrend(change, t95(earlier - 1) * scatter * Math.sqrt(1 + 1.0 / earlier));
    }

    private static double t95(int degreesOfFreedom) {
        int index = degreesOfFreedom - 2;
        return index < T_95.length ? T_95[index] : NORMAL_95;
    }

    /**
     * Returns how far the newest level stands from the earlier ones.
     *
     * @return dB re the mean of the earlier levels' decibels
     */
    public double changeDb() {
        return changeDb;
    }

    /**
     * Returns how far a new level of an unchanged part would stay within, 19 times of 20: Student's
     * t times the scatter of the earlier levels times sqrt(1 + 1/n).
     *
     * @return dB; empty with fewer than {@link #FEWEST_EARLIER} earlier levels
     */
    public OptionalDouble limitDb() {
        return limitDb == null ? OptionalDouble.empty() : OptionalDouble.of(limitDb);
    }

    /**
     * Returns whether the newest level stands out.
     *
     * @return false too where there are too few earlier levels to say
     */
    public boolean standsOut() {
        return limitDb != null && Math.abs(changeDb) > limitDb;
    }
}
