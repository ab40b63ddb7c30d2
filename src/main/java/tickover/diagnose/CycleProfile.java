package tickover.diagnose;

import java.util.Arrays;

/**
 * How a band's power runs over one working cycle of the engine, averaged over all cycles.
 *
 * <p>An even engine repeats itself once per firing. What one cylinder does alone, a ticking
 * injector or valve, stands out of that repetition. In: squared envelope on an even angle grid.
 * Out: the mean cycle, and how far one cylinder's stretch rises above the others'.
 */
final class CycleProfile {
    private final double[] mean;
    private final double oddPeak;
    private final double level;
    private final double crestRatio;

    private CycleProfile(double[] mean, double oddPeak, double level, double crestRatio) {
        this.mean = mean;
        this.oddPeak = oddPeak;
        this.level = level;
        this.crestRatio = crestRatio;
    }

    /**
     * Averages over cycles.
     *
     * @param envelope squared envelope, (m/s²)², {@code binsPerCycle} values per working cycle
     * @param binsPerCycle values per cycle
     * @param firings firings per cycle, &gt;= 1
     */
    static CycleProfile of(double[] envelope, int binsPerCycle, int firings) {
        int cycles = envelope.length / binsPerCycle;
        double[] mean = new double[binsPerCycle];
        if (cycles == 0) {
            Arrays.fill(mean, 1);
            return new CycleProfile(mean, 0, 0, 1);
        }
        for (int c = 0; c < cycles; c++) {
            for (int i = 0; i < binsPerCycle; i++) {
                mean[i] += envelope[c * binsPerCycle + i] / cycles;
            }
        }
        double level = Arrays.stream(mean).average().orElse(0);
        double top = Arrays.stream(mean).max().orElse(0);
        return new CycleProfile(mean, oddPeak(mean, firings), level, level > 0 ? top / level : 1);
    }

    /**
     * The largest rise of one stretch above what the median cylinder does at the same place in its
     * own stretch, smoothed over two hundredths of a cycle.
     */
    private static double oddPeak(double[] mean, int firings) {
        int n = mean.length;
        int reach = Math.max(1, n / 100);
        double[] smooth = new double[n];
        for (int i = 0; i < n; i++) {
            double sum = 0;
            for (int d = -reach; d <= reach; d++) {
                sum += mean[Math.floorMod(i + d, n)];
            }
            smooth[i] = sum / (2 * reach + 1);
        }
        double best = 0;
        double[] others = new double[Math.max(1, firings - 1)];
        for (int i = 0; i < n; i++) {
            double usual;
            if (firings == 1) {
                usual = 0;
                for (double v : smooth) {
                    usual += v / n;
                }
            } else {
                for (int f = 1; f < firings; f++) {
                    others[f - 1] =
                            smooth[Math.floorMod(i + (int) Math.rint((double) f * n / firings), n)];
                }
                Arrays.sort(others);
                usual = others[others.length / 2];
            }
            best = Math.max(best, smooth[i] - usual);
        }
        return best;
    }

    /** Mean cycle, (m/s²)². */
    double[] mean() {
        return mean;
    }

    /** Rise of the odd cylinder above the others, (m/s²)². */
    double oddPeak() {
        return oddPeak;
    }

    /** Mean of the cycle, (m/s²)². */
    double level() {
        return level;
    }

    /** Largest value of the mean cycle over its mean. */
    double crestRatio() {
        return crestRatio;
    }
}
