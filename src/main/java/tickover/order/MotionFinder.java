package tickover.order;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Finds under which motion of the shaft its angle readings are most likely: how smooth it is, how
 * noisy the readings are, and where it was shaken.
 *
 * <p>First the readings are cut into windows, and for each window and each of a row of cutoffs it
 * is worked out how well the readings before predict those inside. The path through the windows
 * with the highest likelihood, each change of cutoff paid for by the number of choices there were,
 * tells where a load step or a blip of the throttle needs a freer curve than the rest. The noise is
 * that under which the best path is likeliest. Windows are too short to see how stiff a curve may
 * be, so each cutoff on the path, and the number of integrations, are then set by the likelihood of
 * the whole record.
 */
final class MotionFinder {
    /** Cutoffs from a curve stiff over some 200 steps to interpolation within round-off. */
    private static final double STIFFEST = 0.03;

    private static final double FREEST = 600;
    private static final double LEVEL_RATIO = 2.5;
    private static final int LEVELS =
            1 + (int) (Math.log(FREEST / STIFFEST) / Math.log(LEVEL_RATIO));

    /** Knots of a window, so few that a load step at idle stands out, and before it. */
    private static final int WINDOW = 12;

    private static final int LEAD = 8;
    private static final int MOST_WINDOWS = 400;

    /** Noise levels that are tried, per decade. */
    private static final double NOISES_PER_DECADE = 8;

    /** Integrations of the motion that windows are judged by. */
    private static final int USUAL_INTEGRATIONS = 3;

    /** Readings that the whole record is judged by, in so many separate stretches. */
    private static final int STRETCH = 600;

    private static final int STRETCHES = 5;

    /** Round-off of times of a minute, over the turns of the record. */
    private static final double ROUND_OFF = 1e-13;

    private final double[] timesS;
    private final double[] turns;
    private final double[] weights;
    private final double unitS;
    private final double leastNoise;

    /**
     * Prepares a search.
     *
     * @param timesS knots, rising
     * @param turns reading at each knot
     * @param weights reciprocal noise of each reading up to a common factor; 0 for no reading
     * @param unitS usual step, s
     * @param leastNoise noise of a reading of weight 1 that is known beforehand, turns
     */
    MotionFinder(
            double[] timesS, double[] turns, double[] weights, double unitS, double leastNoise) {
        this.timesS = timesS;
        this.turns = turns;
        this.weights = weights;
        this.unitS = unitS;
        int last = turns.length - 1;
        double roundOff = ROUND_OFF * Math.max(Math.abs(turns[0]), Math.abs(turns[last]));
        this.leastNoise = Math.max(leastNoise, roundOff);
    }

    /** The likeliest motion. */
    AngleSmoother.Motion likeliest() {
        int[] levels = levels();
        Likeliest usual = new Likeliest(USUAL_INTEGRATIONS, levels, usedLevels(levels)[0]);
        Likeliest best = usual;
        for (int integrations : new int[] {2, 4}) {
            Likeliest here = new Likeliest(integrations, levels, usual.firstLevel());
            if (here.least < best.least) {
                best = here;
            }
        }
        return best.motion();
    }

    /** The likeliest motion that is equally smooth all the way. */
    AngleSmoother.Motion likeliestEven() {
        int[] levels = new int[timesS.length - 1];
        Arrays.fill(levels, level(1));
        return new Likeliest(USUAL_INTEGRATIONS, levels, levels[0]).motion();
    }

    private static int level(double cutoff) {
        return (int) Math.round(Math.log(cutoff / STIFFEST) / Math.log(LEVEL_RATIO));
    }

    private static double cutoff(double level) {
        return STIFFEST * Math.pow(LEVEL_RATIO, level);
    }

    /**
     * The cutoffs under which the whole record is likeliest. The cutoff of the level that most
     * steps have comes first, together with the noise, from the readings of that level alone: a
     * shock must not be taken for noise. With the noise known, the other levels follow.
     */
    private final class Likeliest {
        private final MotionFilter filter;
        private final int[] levels;
        private final int[] used;
        private final double[] tuned = new double[LEVELS];
        private final double[] cutoffs;
        private final Sums sums = new Sums();
        private double variance;
        private double least = Double.POSITIVE_INFINITY;

        Likeliest(int integrations, int[] levels, double start) {
            filter = new MotionFilter(timesS, turns, weights, unitS, integrations, LEVELS);
            this.levels = levels;
            this.used = usedLevels(levels);
            cutoffs = new double[levels.length];
            for (int l = 0; l < LEVELS; l++) {
                tuned[l] = l;
            }
            tuneFirst(start);
            tuneOthers();
        }

        /** Climbs from a level that cannot be far off, in smaller and smaller steps. */
        private void tuneFirst(double start) {
            double best = start;
            double lowest = firstUnlikelihood(start);
            for (double step = 1; step > 0.2; step /= 2) {
                double centre = best;
                for (int side = -1; side <= 1; side += 2) {
                    // From the second side on, what the first one gained is kept.
                    int worse = 0;
                    double at = centre + side * step;
                    while (worse < 2 && at >= 0 && at <= LEVELS - 1) {
                        double value = firstUnlikelihood(at);
                        worse = value < lowest ? 0 : worse + 1;
                        best = value < lowest ? at : best;
                        lowest = Math.min(lowest, value);
                        at += side * step;
                        if (step < 1) {
                            break;
                        }
                    }
                }
            }
            firstUnlikelihood(best);
        }

        /** The level of most steps. */
        double firstLevel() {
            return tuned[used[0]];
        }

        private double firstUnlikelihood(double at) {
            int first = used[0];
            tuned[first] = at;
            run();
            int counted = Math.max(1, sums.counted[first]);
            variance = Math.max(leastNoise * leastNoise, sums.squares[first] / counted);
            return sums.squares[first] / variance + counted * Math.log(variance) + sums.logs[first];
        }

        private void tuneOthers() {
            least = unlikelihood();
            for (int i = 1; i < used.length; i++) {
                for (double step = 1; step > 0.2; step /= 2) {
                    walk(used[i], -step);
                    walk(used[i], step);
                }
            }
        }

        private void walk(int level, double step) {
            int worse = 0;
            double best = tuned[level];
            double at = best + step;
            while (worse < 2 && at >= 0 && at <= LEVELS - 1) {
                tuned[level] = at;
                double value = unlikelihood();
                if (value < least) {
                    least = value;
                    best = at;
                    worse = 0;
                } else {
                    worse++;
                }
                at += step;
            }
            tuned[level] = best;
        }

        private double unlikelihood() {
            run();
            double sum = 0;
            for (int level : used) {
                sum +=
                        sums.squares[level] / variance
                                + sums.counted[level] * Math.log(variance)
                                + sums.logs[level];
            }
            return sum;
        }

        private void run() {
            fill();
            sums.clear();
            for (int from : stretchStarts()) {
                filter.run(cutoffs, levels, from, from, from + stretchLength(), null);
                sums.add(filter);
            }
        }

        private void fill() {
            double[] cutoffOf = new double[LEVELS];
            for (int l = 0; l < LEVELS; l++) {
                cutoffOf[l] = cutoff(tuned[l]);
            }
            for (int k = 0; k < cutoffs.length; k++) {
                cutoffs[k] = cutoffOf[levels[k]];
            }
        }

        AngleSmoother.Motion motion() {
            fill();
            return new AngleSmoother.Motion(filter.size(), cutoffs, Math.sqrt(variance));
        }
    }

    /** What a filter counted in each level, over some stretches. */
    private static final class Sums {
        private final double[] squares = new double[LEVELS];
        private final double[] logs = new double[LEVELS];
        private final int[] counted = new int[LEVELS];

        void clear() {
            Arrays.fill(squares, 0);
            Arrays.fill(logs, 0);
            Arrays.fill(counted, 0);
        }

        void add(MotionFilter filter) {
            for (int l = 0; l < LEVELS; l++) {
                squares[l] += filter.squares(l);
                logs[l] += filter.logs(l);
                counted[l] += filter.counted(l);
            }
        }
    }

    /** Level of each step. */
    private int[] levels() {
        int n = timesS.length;
        int length = Math.max(WINDOW, n / MOST_WINDOWS);
        int windows = Math.max(1, (n - LEAD) / length);
        double[][] squares = new double[windows][LEVELS];
        double[][] logs = new double[windows][LEVELS];
        int[] counted = new int[windows];
        MotionFilter filter =
                new MotionFilter(timesS, turns, weights, unitS, USUAL_INTEGRATIONS, 1);
        double[] flat = new double[n - 1];
        int[] together = new int[n - 1];
        for (int l = 0; l < LEVELS; l++) {
            Arrays.fill(flat, cutoff(l));
            for (int w = 0; w < windows; w++) {
                int to = w == windows - 1 ? n : LEAD + (w + 1) * length;
                filter.run(flat, together, w * length, w * length + LEAD, to, null);
                squares[w][l] = filter.squares(0);
                logs[w][l] = filter.logs(0);
                counted[w] = filter.counted(0);
            }
        }
        int[] path = likeliestPath(squares, logs, counted);
        int[] levels = new int[n - 1];
        for (int k = 0; k < n - 1; k++) {
            int w = Math.max(0, Math.min(windows - 1, (k + 1 - LEAD) / length));
            levels[k] = path[w];
        }
        return levels;
    }

    private int stretchLength() {
        return timesS.length <= STRETCH * STRETCHES ? timesS.length : STRETCH;
    }

    /** First knots of the stretches that the whole record is judged by. */
    private int[] stretchStarts() {
        int room = timesS.length - stretchLength();
        return room == 0
                ? new int[1]
                : IntStream.range(0, STRETCHES)
                        .map(s -> (int) ((long) s * room / (STRETCHES - 1)))
                        .toArray();
    }

    /** The levels that occur in those stretches, the most frequent first. */
    private int[] usedLevels(int[] levels) {
        int[] votes = new int[LEVELS];
        for (int from : stretchStarts()) {
            for (int k = from; k + 1 < from + stretchLength(); k++) {
                votes[levels[k]]++;
            }
        }
        return IntStream.range(0, LEVELS)
                .filter(l -> votes[l] > 0)
                .boxed()
                .sorted((a, b) -> Integer.compare(votes[b], votes[a]))
                .mapToInt(l -> l)
                .toArray();
    }

    private int[] likeliestPath(double[][] squares, double[][] logs, int[] counted) {
        int windows = counted.length;
        double lowest = Double.POSITIVE_INFINITY;
        double highest = leastNoise;
        for (int l = 0; l < LEVELS; l++) {
            double sum = 0;
            int count = 0;
            for (int w = 0; w < windows; w++) {
                sum += squares[w][l];
                count += counted[w];
            }
            double noise = Math.max(leastNoise, Math.sqrt(sum / Math.max(1, count)));
            lowest = Math.min(lowest, noise);
            highest = Math.max(highest, noise);
        }
        // The freest curve hides noise in motion, so the true noise may lie below the lowest.
        lowest = Math.max(leastNoise, lowest / 10);
        int noises = 1 + (int) Math.ceil(NOISES_PER_DECADE * Math.log10(highest / lowest));
        Path best = null;
        for (int j = 0; j < noises; j++) {
            double noise = lowest * Math.pow(10, j / NOISES_PER_DECADE);
            Path path = new Path(squares, logs, counted, noise * noise);
            if (best == null || path.least < best.least) {
                best = path;
            }
        }
        return best.levels;
    }

    /** The likeliest path through the windows for one noise, by dynamic programming. */
    private static final class Path {
        private final int[] levels;
        private final double least;

        Path(double[][] squares, double[][] logs, int[] counted, double variance) {
            int windows = counted.length;
            double change = 2 * Math.log((double) windows * LEVELS);
            double[] sum = new double[LEVELS];
            int[][] from = new int[windows][LEVELS];
            for (int w = 0; w < windows; w++) {
                int lowest = argMin(sum);
                double moved = sum[lowest] + change;
                for (int l = 0; l < LEVELS; l++) {
                    boolean stays = w == 0 || sum[l] <= moved;
                    from[w][l] = stays ? l : lowest;
                    sum[l] = stays ? sum[l] : moved;
                    sum[l] +=
                            squares[w][l] / variance + logs[w][l] + counted[w] * Math.log(variance);
                }
            }
            levels = new int[windows];
            int at = argMin(sum);
            least = sum[at];
            for (int w = windows - 1; w >= 0; w--) {
                levels[w] = at;
                at = from[w][at];
            }
        }

        private static int argMin(double[] x) {
            int best = 0;
            for (int i = 1; i < x.length; i++) {
                best = x[i] < x[best] ? i : best;
            }
            return best;
        }
    }
}
