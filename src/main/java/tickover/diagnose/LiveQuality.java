package tickover.diagnose;

import java.util.Arrays;
import java.util.Objects;

/**
 * What is wrong with the signal just now: driven to the end of its range, off the part, not moving.
 *
 * <p>In: samples as they come. Out: answers about the latest half second, block by block of 50 ms.
 * A capture's own check looks back and forth over all of it; this one knows only what has been: it
 * takes the loudness of the last ten seconds as usual and says what falls out of it. <br>
 * Cutting the same samples into other calls gives the same answers. Allocates nothing after
 * construction. Thread: one per instance.
 */
public final class LiveQuality {
    private static final double BLOCK_S = 0.05;

    /** How many blocks make what is usual: 10 s. */
    private static final int USUAL_BLOCKS = 200;

    /** How many blocks an answer is about: 0.5 s. */
    private static final int LATEST_BLOCKS = 10;

    /** Before so many there is nothing usual. */
    private static final int FEWEST_BLOCKS = 20;

    /** More than one sample in a thousand at the end of the range is clipping. Common practice. */
    private static final double CLIPPED_RATIO = 1e-3;

    /** Within 1 % of the range is its end. Common practice. */
    private static final double LIMIT_RATIO = 0.99;

    /** Below this share of the usual treble contact is lost; 16 dB, as in a capture's check. */
    private static final double LIFTED_RATIO = 0.15;

    /** An engine that ticks once per working cycle is silent in between: 2 turns at 600 rpm. */
    private static final int QUIET_BLOCKS = 4;

    private final int axes;
    private final double limitMps2;
    private final int blockSamples;
    private final double[] before;
    private final double[] loudness = new double[USUAL_BLOCKS];
    private final double[] sorted = new double[USUAL_BLOCKS];
    private final int[] atLimit = new int[LATEST_BLOCKS];
    private long blocks;
    private boolean any;
    private int inBlock;
    private int limitsInBlock;
    private boolean moved;
    private double squares;
    private int quiet;
    private int still;
    private boolean clipped;
    private boolean lifted;
    private boolean flat;

    /**
     * Begins to listen.
     *
     * @param axes values per sample, &gt;= 1
     * @param sampleRateHz samples per second, Hz
     * @param fullScaleMps2 end of the range, m/s²; 0 if it is not known
     */
    public LiveQuality(int axes, double sampleRateHz, double fullScaleMps2) {
        if (!(axes >= 1 && sampleRateHz > 0 && fullScaleMps2 >= 0)) {
            throw new IllegalArgumentException(
                    "axes="
                            + axes
                            + ", sampleRateHz="
                            + sampleRateHz
                            + ", fullScaleMps2="
                            + fullScaleMps2
                            + ", need >= 1, > 0 Hz and >= 0 m/s²");
        }
        this.axes = axes;
        this.limitMps2 = fullScaleMps2 > 0 ? LIMIT_RATIO * fullScaleMps2 : Double.POSITIVE_INFINITY;
        this.blockSamples = Math.max(2, (int) Math.round(BLOCK_S * sampleRateHz));
        this.before = new double[axes];
    }

    /**
     * Takes the next samples.
     *
     * @param accelMps2 m/s², sample by sample, read-only
     * @param from first sample to read
     * @param count how many
     * @param marked whether the probe itself says that one of them is at the end of its range
     */
    public void accept(double[] accelMps2, int from, int count, boolean marked) {
        if (marked && limitMps2 == Double.POSITIVE_INFINITY) {
            limitsInBlock += (int) Math.ceil(CLIPPED_RATIO * LATEST_BLOCKS * blockSamples) + 1;
        }
        for (int i = from; i < from + count; i++) {
            boolean limit = false;
            for (int a = 0; a < axes; a++) {
                double v = accelMps2[i * axes + a];
                double d = any ? v - before[a] : 0;
                before[a] = v;
                squares += d * d;
                moved |= d != 0;
                limit |= Math.abs(v) >= limitMps2;
            }
            any = true;
            limitsInBlock += limit ? 1 : 0;
            if (++inBlock == blockSamples) {
                finish();
            }
        }
    }

    private void finish() {
        double rms = Math.sqrt(squares / blockSamples);
        int place = (int) (blocks % LATEST_BLOCKS);
        atLimit[place] = limitsInBlock;
        int sum = 0;
        for (int n : atLimit) {
            sum += n;
        }
        clipped = sum > CLIPPED_RATIO * LATEST_BLOCKS * blockSamples;
        quiet = rms < LIFTED_RATIO * usual() ? quiet + 1 : 0;
        lifted = quiet >= QUIET_BLOCKS;
        still = moved ? 0 : still + 1;
        flat = still >= LATEST_BLOCKS;
        loudness[(int) (blocks % USUAL_BLOCKS)] = rms;
        blocks++;
        inBlock = 0;
        limitsInBlock = 0;
        moved = false;
        squares = 0;
    }

    /** Median of the latest blocks; 0 before there are enough. */
    private double usual() {
        int count = (int) Math.min(blocks, USUAL_BLOCKS);
        if (count < FEWEST_BLOCKS) {
            return 0;
        }
        System.arraycopy(loudness, 0, sorted, 0, count);
        Arrays.sort(sorted, 0, count);
        return sorted[count / 2];
    }

    /** The probe is to be held somewhere else: what was usual is not any more. */
    public void restart() {
        blocks = 0;
        quiet = 0;
        lifted = false;
    }

    /**
     * Returns whether the sensor is driven to the end of its range.
     *
     * @return true if that happened to more than one sample in a thousand of the last half second
     */
    public boolean isClipped() {
        return clipped;
    }

    /**
     * Returns whether the probe seems to be off the part.
     *
     * @return true while treble is 16 dB below the median of the last ten seconds
     */
    public boolean isLifted() {
        return lifted;
    }

    /**
     * Returns whether the signal does not move at all.
     *
     * @return true after half a second without any change
     */
    public boolean isFlat() {
        return flat;
    }

    /**
     * Returns up to which frequency a mount carries what the part does.
     *
     * @param mount how the probe is held
     * @return the lower of the published limits, Hz
     */
    public static double limitHz(Mount mount) {
        return MountBand.limitHz(Objects.requireNonNull(mount, "mount"));
    }
}
