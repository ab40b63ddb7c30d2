package tickover.order;

/**
 * The smooth run of speed over time that scores best on a {@link CombMap}: found by dynamic
 * programming over all runs that change speed no faster than an engine can.
 */
final class SpeedPath {
    /** Largest change from frame to frame, in steps of the grid: 30 % a second. */
    private static final int MOST_STEPS = 10;

    /** What a change of one step costs; grows with the square. */
    private static final double STEP_COST = 0.012;

    private final double[] timesS;
    private final double[] speedsHz;
    private final double meanScore;

    private SpeedPath(double[] timesS, double[] speedsHz, double meanScore) {
        this.timesS = timesS;
        this.speedsHz = speedsHz;
        this.meanScore = meanScore;
    }

    double[] timesS() {
        return timesS;
    }

    double[] speedsHz() {
        return speedsHz;
    }

    /** Mean score per frame. */
    double meanScore() {
        return meanScore;
    }

    /**
     * Finds the best run.
     *
     * @param map scores
     * @param from lowest place allowed in each frame
     * @param to highest place allowed in each frame
     */
    static SpeedPath best(CombMap map, int[] from, int[] to) {
        int frames = map.frames();
        int speeds = map.speeds();
        double[] best = new double[speeds];
        double[] next = new double[speeds];
        short[][] step = new short[frames][speeds];
        for (int s = 0; s < speeds; s++) {
            best[s] = s >= from[0] && s <= to[0] ? map.score(0, s) : -1e9;
        }
        for (int f = 1; f < frames; f++) {
            for (int s = 0; s < speeds; s++) {
                next[s] = -1e9;
                if (s < from[f] || s > to[f]) {
                    continue;
                }
                for (int d = -MOST_STEPS; d <= MOST_STEPS; d++) {
                    int before = s - d;
                    if (before >= 0 && before < speeds) {
                        double value = best[before] - STEP_COST * d * d;
                        if (value > next[s]) {
                            next[s] = value;
                            step[f][s] = (short) d;
                        }
                    }
                }
                next[s] += map.score(f, s);
            }
            double[] swap = best;
            best = next;
            next = swap;
        }
        int at = 0;
        for (int s = 1; s < speeds; s++) {
            if (best[s] > best[at]) {
                at = s;
            }
        }
        double[] times = new double[frames];
        double[] found = new double[frames];
        double sum = 0;
        for (int f = frames - 1; f >= 0; f--) {
            times[f] = map.timeS(f);
            found[f] = map.speedHz(at);
            sum += map.score(f, at);
            at -= step[f][at];
        }
        return new SpeedPath(times, found, sum / frames);
    }
}
