package tickover.diagnose;

/**
 * What {@link LiveParts} says at one moment, in arrays that are written again and again: parts and
 * lines by their numbers there. Whoever holds it may read it until the next writing. One thread at
 * a time.
 */
public final class LivePartLevels {
    private final double[] levels;
    private final double[] errors;
    private final double[] orders;
    private final double[] lineLevels;
    private final double[] lineErrors;
    private final boolean[][] shared;
    private int segments;

    /**
     * Makes room.
     *
     * @param parts how many parts
     * @param lines how many lines
     */
    public LivePartLevels(int parts, int lines) {
        this.levels = new double[parts];
        this.errors = new double[parts];
        this.orders = new double[lines];
        this.lineLevels = new double[lines];
        this.lineErrors = new double[lines];
        this.shared = new boolean[lines][parts];
    }

    void begin(int count) {
        segments = count;
    }

    void part(int part, double levelMps2, double errorMps2) {
        levels[part] = levelMps2;
        errors[part] = errorMps2;
    }

    void line(int line, double order, double levelMps2, double errorMps2, boolean[] with) {
        orders[line] = order;
        lineLevels[line] = levelMps2;
        lineErrors[line] = errorMps2;
        System.arraycopy(with, 0, shared[line], 0, with.length);
    }

    /**
     * Returns how many segments the levels rest on.
     *
     * @return 0 where there is no level yet
     */
    public int segments() {
        return segments;
    }

    /**
     * Returns whether there are enough segments for standard errors.
     *
     * @return false as long as errors read 0
     */
    public boolean hasErrors() {
        return segments >= SegmentPlan.FEWEST;
    }

    /**
     * Returns a part's level.
     *
     * @param part its number
     * @return m/s² rms of the lines that are its own
     */
    public double levelMps2(int part) {
        return levels[part];
    }

    /**
     * Returns the standard error of a part's level.
     *
     * @param part its number
     * @return m/s²
     */
    public double errorMps2(int part) {
        return errors[part];
    }

    /**
     * Returns where a line was found.
     *
     * @param line its number
     * @return per crank turn
     */
    public double orders(int line) {
        return orders[line];
    }

    /**
     * Returns a line's level.
     *
     * @param line its number
     * @return m/s² rms, background taken off
     */
    public double lineMps2(int line) {
        return lineLevels[line];
    }

    /**
     * Returns the standard error of a line's level.
     *
     * @param line its number
     * @return m/s²
     */
    public double lineErrorMps2(int line) {
        return lineErrors[line];
    }

    /**
     * Returns whether a part has a line that cannot be told from this one.
     *
     * @param line the line's number
     * @param part the part's number
     * @return whether the two share it
     */
    public boolean isShared(int line, int part) {
        return shared[line][part];
    }
}
