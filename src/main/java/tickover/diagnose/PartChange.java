package tickover.diagnose;

import java.util.Objects;

/**
 * How one part's level changed between two occasions or conditions.
 *
 * @param part as {@link PartLevel#part}
 * @param interval the change
 * @param pairs pairs of like captures that it rests on, &gt;= 1
 * @param coversTouches whether the interval holds what putting the probe down again does, and not
 *     the scatter within the captures alone
 * @param luckRatio chance that an unchanged part shows a change as large, up or down: of the
 *     scatter that the interval covers
 * @param afterHeard whether the level after stands above its error
 * @param beforeRmsMps2 level before, over the pairs, or its error if it does not stand above that,
 *     m/s²
 * @param afterRmsMps2 level after, likewise, m/s²
 */
public record PartChange(
        String part,
        Interval interval,
        int pairs,
        boolean coversTouches,
        double luckRatio,
        boolean afterHeard,
        double beforeRmsMps2,
        double afterRmsMps2) {
    public PartChange {
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(interval, "interval");
        if (!(pairs >= 1)) {
            throw new IllegalArgumentException("pairs=" + pairs + ", need >= 1");
        }
        if (!(luckRatio >= 0 && luckRatio <= 1)) {
            throw new IllegalArgumentException("luckRatio=" + luckRatio + ", need 0 to 1");
        }
        if (!(beforeRmsMps2 >= 0 && afterRmsMps2 >= 0)) {
            throw new IllegalArgumentException(
                    "beforeRmsMps2="
                            + beforeRmsMps2
                            + ", afterRmsMps2="
                            + afterRmsMps2
                            + ", need >= 0 m/s²");
        }
    }

    /**
     * A level change with its 95 % interval, dB: level after over level before.
     *
     * @param changeDb the change; negative is quieter
     * @param lowDb lower end
     * @param highDb upper end
     */
    public record Interval(double changeDb, double lowDb, double highDb) {
        public Interval {
            if (!(lowDb <= changeDb && changeDb <= highDb)) {
                throw new IllegalArgumentException(
                        "lowDb="
                                + lowDb
                                + ", changeDb="
                                + changeDb
                                + ", highDb="
                                + highDb
                                + ", need low <= change <= high");
            }
            if (!(Double.isFinite(lowDb) && Double.isFinite(highDb))) {
                throw new IllegalArgumentException("interval is not finite, need finite dB");
            }
        }
    }

    /**
     * Returns the change.
     *
     * @return dB, negative is quieter
     */
    public double changeDb() {
        return interval.changeDb();
    }

    /**
     * Returns the lower end of the 95 % interval.
     *
     * @return dB
     */
    public double lowDb() {
        return interval.lowDb();
    }

    /**
     * Returns the upper end of the 95 % interval.
     *
     * @return dB
     */
    public double highDb() {
        return interval.highDb();
    }

    /**
     * Returns whether the change is told apart from none.
     *
     * @return true if the interval leaves out 0 dB
     */
    public boolean isClear() {
        return lowDb() > 0 || highDb() < 0;
    }
}
