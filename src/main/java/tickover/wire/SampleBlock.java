package tickover.wire;

/**
 * One block of samples, as a view into the decoder: valid until the call that handed it over
 * returns.
 */
public final class SampleBlock {
    /** Most values of a block: a frame's room at two bytes each. */
    static final int MOST_VALUES = 128;

    final int[] values = new int[MOST_VALUES];
    long number;
    long tick;
    int axes;
    int bits;
    int count;
    boolean atLimit;

    SampleBlock() {}

    /**
     * Returns the number of the first sample.
     *
     * @return samples since START, modulo 2^32, 0 to 2^32-1
     */
    public long number() {
        return number;
    }

    /**
     * Returns when the first sample was taken.
     *
     * @return ticks modulo 2^32, 0 to 2^32-1
     */
    public long tick() {
        return tick;
    }

    /**
     * Returns the number of axes.
     *
     * @return 1 to 3
     */
    public int axes() {
        return axes;
    }

    /**
     * Returns the width of a value on the wire.
     *
     * @return 16 or 24 bits
     */
    public int bits() {
        return bits;
    }

    /**
     * Returns the number of samples.
     *
     * @return &gt;= 1
     */
    public int count() {
        return count;
    }

    /**
     * Returns whether the probe marked a value as being at the end of the range.
     *
     * @return true if so
     */
    public boolean atLimit() {
        return atLimit;
    }

    /**
     * Returns one value.
     *
     * @param sample 0-based, below {@link #count}
     * @param axis 0-based, below {@link #axes}
     * @return counts
     */
    public int value(int sample, int axis) {
        return values[sample * axes + axis];
    }
}
