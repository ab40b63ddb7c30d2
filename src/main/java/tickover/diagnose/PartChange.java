package tickover.diagnose;

import java.util.Objects;

/**
 * How one part's level changed between two occasions or conditions.
 *
 * @param part as {@link PartLevel#part}
 * @param changeDb level after over level before, dB; negative is quieter
 * @param lowDb lower end of the 95 % interval, dB
 * @param highDb upper end of the 95 % interval, dB
 * @param pairs pairs of like captures that it rests on, &gt;= 1
 * @param beforeRmsMps2 level before, m/s², mean over the pairs
 * @param afterRmsMps2 level after, m/s², mean over the pairs
 */
public record PartChange(
        String part,
        double changeDb,
        double lowDb,
        double highDb,
        int pairs,
        double beforeRmsMps2,
        double afterRmsMps2) {
    public PartChange {
        Objects.requireNonNull(part, "part");
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
        if (!(pairs >= 1)) {
            throw new IllegalArgumentException("pairs=" + pairs + ", need >= 1");
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
     * Returns whether the change is told apart from none.
     *
     * @return true if the interval leaves out 0 dB
     */
    public boolean isClear() {
        return lowDb > 0 || highDb < 0;
    }
}
