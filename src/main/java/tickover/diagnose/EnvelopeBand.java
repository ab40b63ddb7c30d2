package tickover.diagnose;

import java.util.Arrays;
import tickover.dsp.Statistics;

/**
 * Squared-envelope order spectrum of one frequency band, held against its own background.
 *
 * <p>All three arrays run over the order bins of the {@link EnvelopeOrders} that made it. Bins that
 * belong to the reference's own turning (see {@link EnvelopeOrders.Spec}) are neutral: at the
 * background and without modulation.
 */
final class EnvelopeBand {
    /** Mean over median of an exponentially distributed power, which noise bins are. */
    private static final double MEAN_OVER_MEDIAN = 1 / Math.log(2);

    /** So few bins give no useful median; the window is never narrower. */
    private static final int NARROWEST_BACKGROUND_BINS = 15;

    /** Width of the background at order 0, as a share of its full width. */
    private static final double LOW_ORDER_SHARE = 0.25;

    private final SignalBand edges;
    private final double[] strength;
    private final double[] logStrength;
    private final double[] modulationSquared;

    private EnvelopeBand(
            SignalBand edges, double[] strength, double[] logStrength, double[] modulationSquared) {
        this.edges = edges;
        this.strength = strength;
        this.logStrength = logStrength;
        this.modulationSquared = modulationSquared;
    }

    /**
     * Normalises a spectrum.
     *
     * @param edges lower and upper edge, Hz, and rms of the acceleration inside, m/s²
     * @param power squared amplitude of the relative modulation per bin, averaged over segments
     * @param averages how many independent segments were averaged
     * @param backgroundBins over how many bins the background is taken
     * @param neutral which bins belong to the reference's own turning
     */
    static EnvelopeBand of(
            SignalBand edges,
            double[] power,
            int averages,
            double backgroundBins,
            boolean[] neutral) {
        double[] background = background(power, backgroundBins, neutral);
        int bins = power.length;
        double[] own = new double[bins];
        double[] excess = new double[bins];
        double sharpening = Math.sqrt(averages);
        for (int k = 0; k < bins; k++) {
            // Averaging narrows the scatter of noise; this restores the scatter of one segment, so
            // that a bin means the same however long the record is.
            double ratio = power[k] / Math.max(background[k], Double.MIN_NORMAL);
            own[k] = neutral[k] ? 1 : Math.max(0, 1 + (ratio - 1) * sharpening);
            excess[k] = neutral[k] ? 0 : Math.max(0, power[k] - background[k]);
        }
        double[] strength = largestOfThree(own);
        double[] log = new double[bins];
        for (int k = 0; k < bins; k++) {
            strength[k] = neutral[k] ? 1 : strength[k];
            log[k] = Math.log1p(strength[k]);
        }
        return new EnvelopeBand(edges, strength, log, largestOfThree(excess));
    }

    SignalBand edges() {
        return edges;
    }

    /** How many bins there are. */
    int bins() {
        return strength.length;
    }

    /** Power over background, the largest of the bin and its two neighbours. */
    double strength(int bin) {
        return bin < strength.length ? strength[bin] : 1;
    }

    /** ln(1 + strength), which keeps one strong line from passing for a pattern of several. */
    double logStrength(int bin) {
        return logStrength[Math.min(bin, logStrength.length - 1)];
    }

    /** Squared amplitude of the modulation above background, relative to the mean envelope. */
    double modulationSquared(int bin) {
        return bin < modulationSquared.length ? modulationSquared[bin] : 0;
    }

    private static double[] largestOfThree(double[] x) {
        double[] y = new double[x.length];
        for (int k = 0; k < x.length; k++) {
            double left = x[Math.max(k - 1, 0)];
            double right = x[Math.min(k + 1, x.length - 1)];
            y[k] = Math.max(x[k], Math.max(left, right));
        }
        return y;
    }

    /**
     * Medians of overlapping stretches, joined by straight lines. Towards low orders the background
     * is steep and the lines of a cage stand close, so the stretches are narrower there.
     */
    private static double[] background(double[] power, double wishedBins, boolean[] neutral) {
        int bins = power.length;
        double[] background = new double[bins];
        double lastLevel = 0;
        int lastAt = -1;
        int at = 0;
        while (lastAt < bins - 1) {
            double share = Math.min(1, LOW_ORDER_SHARE * (1 + at / wishedBins));
            int width = (int) Math.max(NARROWEST_BACKGROUND_BINS, share * wishedBins);
            double level = MEAN_OVER_MEDIAN * median(power, neutral, at - width / 2, width);
            for (int k = lastAt + 1; k <= at; k++) {
                double part = lastAt < 0 ? 1 : (k - lastAt) / (double) (at - lastAt);
                background[k] = lastLevel + part * (level - lastLevel);
            }
            lastLevel = level;
            lastAt = at;
            at = Math.min(bins - 1, at + Math.max(1, width / 4));
        }
        return background;
    }

    private static double median(double[] power, boolean[] neutral, int wishedFrom, int width) {
        int from = Math.max(0, Math.min(wishedFrom, power.length - width));
        int to = Math.min(power.length, from + width);
        double[] kept = new double[to - from];
        int count = 0;
        for (int k = from; k < to; k++) {
            if (!neutral[k]) {
                kept[count++] = power[k];
            }
        }
        return count > 0
                ? Statistics.median(Arrays.copyOf(kept, count))
                : Statistics.median(Arrays.copyOfRange(power, from, to));
    }
}
