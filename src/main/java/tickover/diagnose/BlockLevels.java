package tickover.diagnose;

import java.util.Arrays;
import tickover.dsp.Statistics;

/**
 * How loud a capture is from one short block to the next, treble and bass apart.
 *
 * <p>Treble is the rms of first differences: gravity, tilt and a trembling hand hardly show in it,
 * and a contact that loosens loses treble first. Bass is the rms, about the block's own mean, of
 * the mean over {@value #BASS_S} s, which lets pass what lies below some 200 Hz: a bump of the hand
 * or the lead. Middle is the rms of the same mean's change over {@value #BASS_S} s, which is
 * strongest near 200 Hz and takes a trembling hand, at 10 Hz, down by 20 dB. All channels are
 * added. Cost: O(samples).
 */
final class BlockLevels {
    /** Length of a block, s: shorter than a hand can do anything, longer than a firing at idle. */
    static final double BLOCK_S = 0.05;

    /** A mean over this long has its first zero at 500 Hz and loses 3 dB at 220 Hz, s. */
    static final double BASS_S = 0.002;

    /** A speed sweep is louder at its end; blocks are held against those this near, s. */
    private static final double NEAR_S = 2.0;

    /** In a steady capture contact may be missing from this share of the blocks. */
    private static final double STEADY_QUANTILE = 0.75;

    private final int blockSamples;
    private final double sampleRateHz;
    private final double[] treble;
    private final double[] middle;
    private final double[] bass;

    private BlockLevels(
            int blockSamples,
            double sampleRateHz,
            double[] treble,
            double[] middle,
            double[] bass) {
        this.blockSamples = blockSamples;
        this.sampleRateHz = sampleRateHz;
        this.treble = treble;
        this.middle = middle;
        this.bass = bass;
    }

    static BlockLevels of(double[][] accelMps2, double sampleRateHz) {
        int span = Math.max(2, (int) Math.round(BLOCK_S * sampleRateHz));
        int blocks = accelMps2[0].length / span;
        double[] treble = new double[blocks];
        double[] middle = new double[blocks];
        double[] bass = new double[blocks];
        int low = Math.max(1, (int) Math.round(BASS_S * sampleRateHz));
        for (double[] x : accelMps2) {
            double[] slow = slidingMean(x, low);
            for (int b = 0; b < blocks; b++) {
                double mean = 0;
                for (int i = b * span; i < (b + 1) * span; i++) {
                    mean += slow[i] / span;
                }
                for (int i = b * span; i < (b + 1) * span; i++) {
                    double d = i > b * span ? x[i] - x[i - 1] : 0;
                    treble[b] += d * d / (span - 1);
                    bass[b] += (slow[i] - mean) * (slow[i] - mean) / span;
                    double change = i >= 2 * low ? slow[i] - slow[i - low] : 0;
                    middle[b] += change * change / span;
                }
            }
        }
        Arrays.setAll(treble, b -> Math.sqrt(treble[b]));
        Arrays.setAll(middle, b -> Math.sqrt(middle[b]));
        Arrays.setAll(bass, b -> Math.sqrt(bass[b]));
        return new BlockLevels(span, sampleRateHz, treble, middle, bass);
    }

    private static double[] slidingMean(double[] x, int span) {
        double[] out = new double[x.length];
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            sum += x[i];
            if (i >= span) {
                sum -= x[i - span];
            }
            out[i] = sum / Math.min(span, i + 1);
        }
        return out;
    }

    int count() {
        return treble.length;
    }

    /** Not to be written to. */
    double[] treble() {
        return treble;
    }

    /** Not to be written to. */
    double[] middle() {
        return middle;
    }

    /** Not to be written to. */
    double[] bass() {
        return bass;
    }

    double blockS() {
        return blockSamples / sampleRateHz;
    }

    double startS(int block) {
        return block * blockS();
    }

    /**
     * What each block is held against: the usual level around it, and in a steady capture that of
     * the whole, so that a probe which is off for most of the time does not make its own usual.
     */
    double[] usual(double[] levels, boolean steady) {
        double[] out = new double[levels.length];
        if (steady) {
            Arrays.fill(out, Statistics.quantile(levels, STEADY_QUANTILE));
            return out;
        }
        int reach = (int) Math.round(NEAR_S / blockS());
        for (int b = 0; b < out.length; b++) {
            int from = Math.max(0, Math.min(b - reach, levels.length - 2 * reach));
            int to = Math.min(levels.length, Math.max(b + reach, 2 * reach));
            out[b] = Statistics.median(Arrays.copyOfRange(levels, from, to));
        }
        return out;
    }
}
