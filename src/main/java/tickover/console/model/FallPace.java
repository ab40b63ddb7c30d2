package tickover.console.model;

/**
 * Spreads a waterfall's rows over the time between their arrivals. Rows are known when the tach
 * reports its marks, some at once, ten times a second; shown as they come they would jerk. Here
 * they are let out one after another at their own rate, a little later than they came, and no row
 * is ever left out or shown at another row's time.
 *
 * <p>One thread.
 */
public final class FallPace {
    /** So many rows wait in the mean: a report's worth, and a little for reports that are late. */
    private static final double WAITING_ROWS = 3.5;

    /** More than so many waiting rows are a screen that was held up: they come at once. */
    private static final double MOST_ROWS = 12;

    /** How strongly the rate follows the number of waiting rows, share per row. */
    private static final double STEER_RATIO = 0.08;

    private static final double NANOS_PER_S = 1e9;

    private double let;
    private long lastNs;
    private boolean begun;

    /** Begins with the rows that come first. */
    public FallPace() {}

    /**
     * Says up to which row is to be shown.
     *
     * @param rows rows that are known
     * @param rowsPerS how many come in a second
     * @param nowNs the clock's time, ns
     * @return number of rows to be shown, never less than before while rows come, at most {@code
     *     rows}
     */
    public long upTo(long rows, double rowsPerS, long nowNs) {
        double waiting = rows - let;
        if (!begun || waiting < 0 || waiting > MOST_ROWS) {
            // From the begin, after a new begin, or after a standstill.
            let = Math.max(0, rows - WAITING_ROWS);
            begun = rows > 0;
            lastNs = nowNs;
            return (long) let;
        }
        double sinceS = (nowNs - lastNs) / NANOS_PER_S;
        lastNs = nowNs;
        double rate = rowsPerS * Math.max(0, 1 + STEER_RATIO * (waiting - WAITING_ROWS));
        let = Math.min((double) rows, let + rate * sinceS);
        return (long) let;
    }
}
