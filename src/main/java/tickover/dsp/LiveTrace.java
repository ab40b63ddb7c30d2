package tickover.dsp;

/**
 * Lowest and highest value of one axis in even stretches, while samples come in: what a trace on a
 * screen can show of them.
 *
 * <p>Cutting the same samples into other blocks gives the same stretches, bit for bit. Allocates
 * nothing after construction. Thread: one per instance.
 */
public final class LiveTrace {
    private final int stretchSamples;
    private final float[] low;
    private final float[] high;
    private long stretches;
    private int inStretch;
    private double lowest = Double.POSITIVE_INFINITY;
    private double highest = Double.NEGATIVE_INFINITY;
    private double sum;
    private double sumSquares;
    private double meanMps2;
    private double rmsMps2;
    private final int perLevel;
    private int inLevel;

    /**
     * Makes an operator at the start of a stream.
     *
     * @param stretchSamples samples per stretch, &gt;= 1
     * @param kept how many stretches are kept, &gt;= 1
     * @param levelSamples after how many samples mean and rms are taken, &gt;= 1
     */
    public LiveTrace(int stretchSamples, int kept, int levelSamples) {
        if (!(stretchSamples >= 1 && kept >= 1 && levelSamples >= 1)) {
            throw new IllegalArgumentException(
                    "stretchSamples="
                            + stretchSamples
                            + ", kept="
                            + kept
                            + ", levelSamples="
                            + levelSamples
                            + ", need >= 1");
        }
        this.stretchSamples = stretchSamples;
        this.perLevel = levelSamples;
        this.low = new float[kept];
        this.high = new float[kept];
    }

    /**
     * Takes the next samples.
     *
     * @param accelMps2 m/s², sample by sample, read-only
     * @param axes values per sample
     * @param axis which of them, from 0
     * @param from first sample to read
     * @param count how many
     */
    public void accept(double[] accelMps2, int axes, int axis, int from, int count) {
        for (int i = from; i < from + count; i++) {
            double v = accelMps2[i * axes + axis];
            lowest = Math.min(lowest, v);
            highest = Math.max(highest, v);
            if (++inStretch == stretchSamples) {
                int place = (int) (stretches % low.length);
                low[place] = (float) lowest;
                high[place] = (float) highest;
                stretches++;
                inStretch = 0;
                lowest = Double.POSITIVE_INFINITY;
                highest = Double.NEGATIVE_INFINITY;
            }
            sum += v;
            sumSquares += v * v;
            if (++inLevel == perLevel) {
                meanMps2 = sum / perLevel;
                rmsMps2 = Math.sqrt(Math.max(0, sumSquares / perLevel - meanMps2 * meanMps2));
                inLevel = 0;
                sum = 0;
                sumSquares = 0;
            }
        }
    }

    /**
     * Returns how many stretches there were.
     *
     * @return since construction; the latest has the number before this
     */
    public long stretches() {
        return stretches;
    }

    /**
     * Returns how many are kept.
     *
     * @return stretches
     */
    public int kept() {
        return low.length;
    }

    /**
     * Returns the lowest value of a stretch.
     *
     * @param stretch its number, one of the latest {@link #kept}
     * @return m/s²
     */
    public float low(long stretch) {
        return low[(int) (stretch % low.length)];
    }

    /**
     * Returns the highest value of a stretch.
     *
     * @param stretch its number, one of the latest {@link #kept}
     * @return m/s²
     */
    public float high(long stretch) {
        return high[(int) (stretch % high.length)];
    }

    /**
     * Returns the mean of the last level's samples: gravity along the axis.
     *
     * @return m/s²; 0 before the first
     */
    public double meanMps2() {
        return meanMps2;
    }

    /**
     * Returns the rms about that mean.
     *
     * @return m/s²; 0 before the first
     */
    public double rmsMps2() {
        return rmsMps2;
    }
}
