package tickover.session;

/**
 * The latest rows of one waterfall. Written again and again by whoever owns the snapshot that it is
 * part of.
 */
public final class LiveFall {
    /** Rows that are kept: some seconds, for a screen that was held up. */
    public static final int ROWS = 64;

    private final float[][] row;
    private final boolean[] fresh = new boolean[ROWS];
    private final double[] rpm = new double[ROWS];
    private final double[] endS = new double[ROWS];
    private long rows;

    LiveFall(int bins) {
        this.row = new float[ROWS][bins];
    }

    /** Adds a row. */
    void add(boolean isFresh, double atS, double speedRpm, double[] rms) {
        int place = (int) (rows % ROWS);
        float[] into = row[place];
        for (int k = 0; k < into.length; k++) {
            into[k] = (float) rms[k];
        }
        fresh[place] = isFresh;
        rpm[place] = speedRpm;
        endS[place] = atS;
        rows++;
    }

    /** Takes over the rows that another one has and this one has not. */
    void follow(LiveFall other) {
        for (long i = Math.max(rows, other.rows - ROWS); i < other.rows; i++) {
            int place = (int) (i % ROWS);
            System.arraycopy(other.row[place], 0, row[place], 0, row[place].length);
            fresh[place] = other.fresh[place];
            rpm[place] = other.rpm[place];
            endS[place] = other.endS[place];
        }
        rows = other.rows;
    }

    /**
     * Returns how many rows there were.
     *
     * @return the latest has the number before this
     */
    public long rows() {
        return rows;
    }

    /**
     * Returns a row, shared and read-only.
     *
     * @param number one of the latest {@value #ROWS}
     * @return rms of each order bin, m/s²
     */
    public float[] row(long number) {
        return row[(int) (number % ROWS)];
    }

    /**
     * Returns whether there is a break before a row.
     *
     * @param number one of the latest {@value #ROWS}
     * @return true if speed or samples were missing
     */
    public boolean isFresh(long number) {
        return fresh[(int) (number % ROWS)];
    }

    /**
     * Returns the speed at a row's end.
     *
     * @param number one of the latest {@value #ROWS}
     * @return crank speed, rpm
     */
    public double rpm(long number) {
        return rpm[(int) (number % ROWS)];
    }

    /**
     * Returns when a row's frame ended.
     *
     * @param number one of the latest {@value #ROWS}
     * @return s of the probe's samples since it began
     */
    public double endS(long number) {
        return endS[(int) (number % ROWS)];
    }
}
