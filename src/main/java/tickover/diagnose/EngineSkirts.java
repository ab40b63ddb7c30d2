package tickover.diagnose;

import tickover.dsp.Statistics;

/**
 * Takes the skirts of the engine's lines off a spectrum over its background.
 *
 * <p>No angle is perfect and no firing quite like the last, so every line of the engine stands in
 * the middle of skirts, and these are higher than many a line of a bearing. What stands beside all
 * of them alike, as far from the line, is theirs: bins are divided by the mean over all lines, the
 * highest left out, as those are lines of something else. The lines at multiples of the firing
 * order have skirts of their own.
 */
final class EngineSkirts {
    /** Skirts are taken off this far from a line, as a share of the lines' distance. */
    private static final double REACH_RATIO = 0.3;

    private static final double LEFT_OUT_RATIO = 0.1;

    /** Mean of an exponential of mean 1 without its highest tenth. */
    private static final double MEAN_OF_REST = 0.744;

    /** The mean of fewer bins than this is chance. */
    private static final int LEAST_BINS = 8;

    private EngineSkirts() {}

    /**
     * Levels the skirts.
     *
     * @param ratio power over background per bin; written to
     * @param spacingBins distance of the engine's lines, bins
     * @param perFiring every so many of them is one of the firing order
     */
    static void level(double[] ratio, double spacingBins, int perFiring) {
        int reach = (int) (REACH_RATIO * spacingBins);
        double[] firing = new double[reach + 1];
        double[] others = new double[reach + 1];
        for (int apart = 0; apart <= reach; apart++) {
            firing[apart] = height(ratio, spacingBins, perFiring, true, apart);
            others[apart] = height(ratio, spacingBins, perFiring, false, apart);
        }
        for (int line = 1; line * spacingBins < ratio.length; line++) {
            double[] skirt = line % perFiring == 0 ? firing : others;
            int centre = (int) Math.rint(line * spacingBins);
            for (int d = -reach; d <= reach; d++) {
                int bin = centre + d;
                if (bin > 0 && bin < ratio.length) {
                    ratio[bin] /= Math.max(1, smooth(skirt, Math.abs(d)));
                }
            }
        }
    }

    private static double smooth(double[] skirt, int at) {
        return (skirt[Math.max(0, at - 1)] + skirt[at] + skirt[Math.min(skirt.length - 1, at + 1)])
                / 3;
    }

    /** Mean height so far from the lines of one kind. */
    private static double height(
            double[] ratio, double spacingBins, int perFiring, boolean ofFiring, int apart) {
        double[] found = new double[2 * (int) (ratio.length / spacingBins)];
        int count = 0;
        for (int line = 1; 2 * line <= found.length; line++) {
            if ((line % perFiring == 0) == ofFiring) {
                int centre = (int) Math.rint(line * spacingBins);
                for (int bin : new int[] {centre - apart, centre + apart}) {
                    if (bin > 0 && bin < ratio.length) {
                        found[count++] = ratio[bin];
                    }
                }
            }
        }
        if (count < LEAST_BINS) {
            return 1;
        }
        int kept = (int) ((1 - LEFT_OUT_RATIO) * count);
        // Brings the lowest to the front.
        Statistics.nth(found, count, kept);
        double sum = 0;
        for (int i = 0; i < kept; i++) {
            sum += found[i];
        }
        return sum / kept / MEAN_OF_REST;
    }
}
