package tickover.diagnose;

import java.util.Arrays;
import tickover.dsp.Statistics;

/**
 * How a band's power runs over one working cycle of the engine, averaged over all cycles.
 *
 * <p>An even engine repeats itself once per firing. What one cylinder does alone, a ticking
 * injector or valve, stands out of that repetition as a narrow peak; combustion is broad. In:
 * squared envelope on an even angle grid. Out: the mean cycle, and how far the sharpest cylinder's
 * peak rises above the others'.
 */
final class CycleProfile {
    /** Ticks are narrower than this share of a cycle; 720 degrees make a cycle of four strokes. */
    private static final double NARROW_SHARE = 0.004;

    /** What is broader than this share of a cycle is combustion. */
    private static final double BROAD_SHARE = 0.04;

    /** Quieter than this share of the cycle: where firings and ticks have died away. */
    private static final double QUIET_SHARE = 0.2;

    private final double[] mean;
    private final double[] narrow;
    private final double level;
    private final double sharpest;
    private final double usual;
    private final double quiet;

    private CycleProfile(
            double[] mean, double[] narrow, double level, double sharpest, double usual) {
        this.mean = mean;
        this.narrow = narrow;
        this.level = level;
        this.sharpest = sharpest;
        this.usual = usual;
        double[] smooth = smooth(mean, NARROW_SHARE);
        this.quiet = Statistics.nth(smooth, smooth.length, (int) (QUIET_SHARE * smooth.length));
    }

    /**
     * Averages over cycles.
     *
     * @param envelope squared envelope, (m/s²)², {@code binsPerCycle} values per working cycle
     * @param binsPerCycle values per cycle
     * @param firings firings per cycle, &gt;= 1
     * @param usable which values count
     */
    static CycleProfile of(double[] envelope, int binsPerCycle, int firings, boolean[] usable) {
        int cycles = envelope.length / binsPerCycle;
        double[] mean = meanCycle(envelope, binsPerCycle, usable);
        if (cycles == 0) {
            Arrays.fill(mean, 1);
            return new CycleProfile(mean, new double[binsPerCycle], 0, 0, 0);
        }
        double level = Arrays.stream(mean).average().orElse(0);
        double[] narrow = narrow(mean, NARROW_SHARE);
        int top = 0;
        for (int i = 0; i < binsPerCycle; i++) {
            top = narrow[i] > narrow[top] ? i : top;
        }
        return new CycleProfile(mean, narrow, level, narrow[top], usual(narrow, top, firings));
    }

    /** Mean of the usable values at each place in the cycle, over whole cycles. */
    static double[] meanCycle(double[] x, int binsPerCycle, boolean[] usable) {
        double[] mean = new double[binsPerCycle];
        int[] counts = new int[binsPerCycle];
        double sum = 0;
        int all = 0;
        for (int i = 0; i < x.length / binsPerCycle * binsPerCycle; i++) {
            if (usable[i]) {
                mean[i % binsPerCycle] += x[i];
                counts[i % binsPerCycle]++;
                sum += x[i];
                all++;
            }
        }
        for (int i = 0; i < binsPerCycle; i++) {
            mean[i] = counts[i] > 0 ? mean[i] / counts[i] : all > 0 ? sum / all : 0;
        }
        return mean;
    }

    /** Highest peak of the median other cylinder, each in the stretch around its own place. */
    private static double usual(double[] narrow, int top, int firings) {
        int n = narrow.length;
        int others = Math.max(1, firings - 1);
        int reach = Math.max(1, n / (2 * Math.max(2, firings)));
        double[] peaks = new double[others];
        for (int f = 1; f <= others; f++) {
            int centre = top + (int) Math.rint((double) f * n / Math.max(2, firings));
            for (int d = -reach; d < reach; d++) {
                peaks[f - 1] = Math.max(peaks[f - 1], narrow[Math.floorMod(centre + d, n)]);
            }
        }
        Arrays.sort(peaks);
        return peaks[others / 2];
    }

    /** What is narrower than combustion, seen through a window of so large a share of the cycle. */
    private static double[] narrow(double[] mean, double share) {
        double[] narrow = smooth(mean, share);
        double[] broad = smooth(mean, BROAD_SHARE);
        for (int i = 0; i < narrow.length; i++) {
            narrow[i] -= broad[i];
        }
        return narrow;
    }

    private static double[] smooth(double[] x, double share) {
        int n = x.length;
        int reach = Math.max(1, (int) Math.rint(share * n / 2));
        double[] out = new double[n];
        double sum = 0;
        for (int d = -reach; d <= reach; d++) {
            sum += x[Math.floorMod(d, n)];
        }
        for (int i = 0; i < n; i++) {
            out[i] = sum / (2 * reach + 1);
            sum += x[Math.floorMod(i + reach + 1, n)] - x[Math.floorMod(i - reach, n)];
        }
        return out;
    }

    /** Mean cycle, (m/s²)². */
    double[] mean() {
        return mean;
    }

    /** The mean cycle less what is broad in it: ticks, (m/s²)². */
    double[] narrow() {
        return narrow;
    }

    /** The same, knocks being as wide as a share of the cycle, (m/s²)². */
    double[] narrow(double share) {
        return narrow(mean, share);
    }

    /**
     * The level of the cycle's quieter moments, between firings and ticks: what runs on without
     * regard to the cycle, (m/s²)².
     */
    double quiet() {
        return quiet;
    }

    /** Mean of the cycle, (m/s²)². */
    double level() {
        return level;
    }

    /** The sharpest cylinder's narrow peak, (m/s²)². */
    double sharpest() {
        return sharpest;
    }

    /** The same of the median other cylinder, (m/s²)². */
    double usual() {
        return usual;
    }
}
