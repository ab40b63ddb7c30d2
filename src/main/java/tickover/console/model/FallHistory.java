package tickover.console.model;

import tickover.session.LiveFall;
import tickover.session.LiveSetup;

/**
 * The rows of the waterfall that a screen shows, and what colour each place of them has.
 *
 * <p>In: snapshots, from which every row that is not known yet is taken. Out: places of colours, 0
 * for the lowest level shown to 1 for the highest. Levels are in dB re 1 m/s² rms; the scale
 * follows the loudest line in steps of 10 dB, down only when it has been quieter for some seconds.
 * One thread.
 */
public final class FallHistory {
    /** Rows that are kept: 40 s. */
    public static final int ROWS = 1024;

    private static final double STEPS = 6;

    /** How fast the loudest line is forgotten, dB per row. */
    private static final double FORGOTTEN_DB = 0.04;

    /** Quieter than any sensor, dB re 1 m/s². */
    private static final float SILENT_DB = -140;

    private final double spanDb;
    private final double stepDb;
    private final double newestRatio;
    private double[] meanSquare = new double[0];
    private LiveSetup setup;
    private float[][] db = new float[ROWS][];
    private final boolean[] fresh = new boolean[ROWS];
    private final double[] rpm = new double[ROWS];
    private final double[] endS = new double[ROWS];
    private long rows;
    private double loudestDb = SILENT_DB;
    private double topDb;
    private int scale;

    /**
     * Makes an empty history.
     *
     * @param spanDb span of the scale, dB; it moves in sixths of that
     * @param newestRatio weight of a new row in the running mean square that is shown: 1 shows rows
     *     as they are
     */
    FallHistory(double spanDb, double newestRatio) {
        this.spanDb = spanDb;
        this.stepDb = spanDb / STEPS;
        this.newestRatio = newestRatio;
    }

    /** Forgets all rows. */
    void clear() {
        setup = null;
        rows = 0;
        loudestDb = SILENT_DB;
        scale++;
    }

    /** Takes the rows that are not known yet. */
    void take(LiveSetup of, LiveFall next) {
        if (setup == null || of.stream() != setup.stream()) {
            clear();
            setup = of;
            db = new float[ROWS][setup.bins()];
            meanSquare = new double[setup.bins()];
        }
        for (long r = Math.max(rows, next.rows() - LiveFall.ROWS); r < next.rows(); r++) {
            float[] row = next.row(r);
            int place = (int) (r % ROWS);
            float[] into = db[place];
            float loudest = SILENT_DB;
            double newest = next.isFresh(r) ? 1 : newestRatio;
            for (int k = 0; k < into.length; k++) {
                meanSquare[k] += newest * ((double) row[k] * row[k] - meanSquare[k]);
                into[k] =
                        meanSquare[k] > 1e-14
                                ? (float) (10 * Math.log10(meanSquare[k]))
                                : SILENT_DB;
                // Order 0 is gravity, and its window's main lobe.
                loudest = k > 2 ? Math.max(loudest, into[k]) : loudest;
            }
            fresh[place] = next.isFresh(r);
            rpm[place] = next.rpm(r);
            endS[place] = next.endS(r);
            loudestDb = Math.max(loudest, loudestDb - FORGOTTEN_DB);
        }
        rows = next.rows();
        double wanted = stepDb * Math.ceil(loudestDb / stepDb);
        if (rows > 0 && (wanted > topDb || wanted < topDb - stepDb || scale == 0)) {
            topDb = wanted;
            scale++;
        }
    }

    /**
     * Returns how many rows there were.
     *
     * @return the latest has the number before this; 0 if there is none
     */
    public long rows() {
        return rows;
    }

    /**
     * Returns the number of the scale.
     *
     * @return another one where all colours have changed
     */
    public int scale() {
        return scale;
    }

    /**
     * Returns the bottom of the scale.
     *
     * @return dB re 1 m/s² rms
     */
    public double bottomDb() {
        return topDb - spanDb;
    }

    /**
     * Returns the top of the scale.
     *
     * @return dB re 1 m/s² rms
     */
    public double topDb() {
        return topDb;
    }

    /**
     * Returns whether there is a break before a row.
     *
     * @param row one of the latest {@value #ROWS}
     * @return true if speed or samples were missing before it
     */
    public boolean isFresh(long row) {
        return fresh[(int) (row % ROWS)];
    }

    /**
     * Returns when a row was.
     *
     * @param row one of the latest {@value #ROWS}
     * @return s of the probe's samples
     */
    public double endS(long row) {
        return endS[(int) (row % ROWS)];
    }

    /**
     * Returns the speed at a row.
     *
     * @param row one of the latest {@value #ROWS}
     * @return crank speed, rpm
     */
    public double rpm(long row) {
        return rpm[(int) (row % ROWS)];
    }

    /**
     * Colours a row: the loudest bin of each place, or a straight line between bins where places
     * are narrower.
     *
     * @param row one of the latest {@value #ROWS}
     * @param topOrders order at the right end
     * @param table colours from the lowest level to the highest
     * @param out colours, written
     * @param from first place in it
     * @param width places to write
     */
    public void colour(long row, double topOrders, int[] table, int[] out, int from, int width) {
        float[] levels = db[(int) (row % ROWS)];
        double perPlace = topOrders * setup.turnsPerFrame() / width;
        double floor = topDb - spanDb;
        double toTable = (table.length - 1) / spanDb;
        for (int x = 0; x < width; x++) {
            double level = level(levels, x * perPlace, perPlace);
            int index = (int) ((level - floor) * toTable + 0.5);
            out[from + x] = table[Math.max(0, Math.min(table.length - 1, index))];
        }
    }

    private static double level(float[] levels, double atBins, double spanBins) {
        if (spanBins >= 1) {
            int first = Math.min(levels.length - 1, (int) Math.round(atBins));
            int end =
                    Math.min(
                            levels.length,
                            Math.max(first + 1, (int) Math.round(atBins + spanBins)));
            float loudest = levels[first];
            for (int k = first + 1; k < end; k++) {
                loudest = Math.max(loudest, levels[k]);
            }
            return loudest;
        }
        double middle = atBins + spanBins / 2;
        int whole = (int) (atBins + spanBins);
        if (whole >= atBins && whole < levels.length) {
            // A bin stands in this place: a line keeps its height.
            return levels[whole];
        }
        int k = (int) middle;
        if (k + 1 >= levels.length) {
            return levels[levels.length - 1];
        }
        return levels[k] + (middle - k) * (levels[k + 1] - levels[k]);
    }

    /**
     * Returns the level near an order in the latest row: the loudest within one bin.
     *
     * @param order per crank turn
     * @return m/s² rms; 0 if there is no row
     */
    public double levelMps2(double order) {
        if (rows == 0) {
            return 0;
        }
        float[] levels = db[(int) ((rows - 1) % ROWS)];
        int bin = (int) Math.round(order * setup.turnsPerFrame());
        float loudest = SILENT_DB;
        for (int k = Math.max(0, bin - 1); k <= Math.min(levels.length - 1, bin + 1); k++) {
            loudest = Math.max(loudest, levels[k]);
        }
        return Math.pow(10, loudest / 20);
    }
}
