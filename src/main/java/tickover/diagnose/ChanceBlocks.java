package tickover.diagnose;

import java.util.Arrays;
import tickover.dsp.Statistics;

/**
 * What a spectrum shows by chance: the best summit of each of many equally wide blocks of orders
 * that nothing sought can reach. Their upper tenth gives an exponential tail.
 */
final class ChanceBlocks {
    private static final double TAIL_SHARE = 0.1;

    /** With fewer blocks the tail is not known and nothing is evidence. */
    private static final int FEWEST_BLOCKS = 30;

    /** A block without a summit: below every value that a summit has. */
    private static final double NO_SUMMIT = -10;

    private final double[] sorted;

    private ChanceBlocks(double[] sorted) {
        this.sorted = sorted;
    }

    /**
     * Takes the blocks of which at least half the points are free.
     *
     * @param statistic how well the pattern fits, per point, in scatters
     * @param summit which points are summits
     * @param free which points nothing sought can reach
     * @param blockPoints points of a block
     */
    static ChanceBlocks of(double[] statistic, boolean[] summit, boolean[] free, int blockPoints) {
        double[] best = new double[statistic.length / blockPoints];
        int count = 0;
        for (int from = 0; from + blockPoints <= statistic.length; from += blockPoints) {
            double highest = NO_SUMMIT;
            int freePoints = 0;
            for (int i = from; i < from + blockPoints; i++) {
                freePoints += free[i] ? 1 : 0;
                highest = free[i] && summit[i] ? Math.max(highest, statistic[i]) : highest;
            }
            if (2 * freePoints >= blockPoints) {
                best[count++] = highest;
            }
        }
        double[] sorted = Arrays.copyOf(best, count);
        Arrays.sort(sorted);
        return new ChanceBlocks(sorted);
    }

    /** Takes samples of chance that were gathered in another way. */
    static ChanceBlocks ofSamples(double[] samples) {
        double[] sorted = samples.clone();
        Arrays.sort(sorted);
        return new ChanceBlocks(sorted);
    }

    int count() {
        return sorted.length;
    }

    /** Minus the logarithm of the chance that one block shows as much. */
    double nats(double found) {
        if (sorted.length < FEWEST_BLOCKS) {
            return 0;
        }
        double from = Statistics.quantile(sorted, 1 - TAIL_SHARE);
        if (!(found > from)) {
            int at = Arrays.binarySearch(sorted, found);
            int below = at >= 0 ? at : -at - 1;
            return -Math.log((sorted.length - below + 0.5) / (sorted.length + 1));
        }
        double excess = 0;
        int above = 0;
        for (int i = sorted.length - 1; i >= 0 && sorted[i] > from; i--) {
            excess += sorted[i] - from;
            above++;
        }
        // Every summit above would be level with it if this were 0: then nothing can be said.
        return above > 0 && excess > 0
                ? (found - from) * above / excess - Math.log(TAIL_SHARE)
                : -Math.log(TAIL_SHARE);
    }
}
