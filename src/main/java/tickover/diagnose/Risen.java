package tickover.diagnose;

/**
 * How far one part has risen over the earlier visits of its vehicle.
 *
 * @param part as {@link PartLevel#part}
 * @param riseDb against the mean of the earlier visits, less what all parts have risen alike, dB
 * @param errorDb standard deviation of it for a part that has not changed, dB, &gt; 0
 * @param visits earlier visits that it is held against, &gt;= 1
 * @param placeWords where it was measured, like with like
 */
public record Risen(String part, double riseDb, double errorDb, int visits, String placeWords) {
    /** Levels stray further than the normal distribution says: Student's t with so many degrees. */
    private static final double DEGREES = 4;

    /** Chance that a fault is new since the earlier visits; it may have been there before. */
    private static final double NEW_SINCE = 0.6;

    /** By how much a new fault lifts its part's level, dB, with even chance: judgement. */
    private static final double[] LIFTS_DB = {3, 6, 9, 12, 15, 18, 21};

    /** However clear, levels alone do not say more: what else may have lifted one is unknown. */
    private static final double MOST_NATS = 4;

    public Risen {
        if (!(Double.isFinite(riseDb) && errorDb > 0 && visits >= 1)) {
            throw new IllegalArgumentException(
                    "riseDb=" + riseDb + ", errorDb=" + errorDb + ", visits=" + visits);
        }
    }

    /**
     * Returns how far this speaks for a fault in the part.
     *
     * @return logarithm of the odds for a fault in it against none, nats
     */
    public double nats() {
        // Far out the two are alike for want of data; there the odds stay what they were.
        double mostDb = LIFTS_DB[LIFTS_DB.length - 1];
        double rise = Math.max(-errorDb, Math.min(mostDb, riseDb));
        double unchanged = density(rise);
        double lifted = 0;
        for (double lift : LIFTS_DB) {
            lifted += density(rise - lift) / LIFTS_DB.length;
        }
        double odds = 1 - NEW_SINCE + NEW_SINCE * lifted / unchanged;
        return Math.min(MOST_NATS, Math.log(odds));
    }

    /** Student's density but for its constant. */
    private double density(double offDb) {
        double t = offDb / errorDb;
        return Math.pow(1 + t * t / DEGREES, -(DEGREES + 1) / 2);
    }
}
