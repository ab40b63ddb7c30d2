package tickover.wire;

/**
 * One block of tach edges, as a view into the decoder: valid until the call that handed it over
 * returns.
 */
public final class TachBlock {
    /** Most edges of a block. */
    static final int MOST_EDGES = 60;

    final long[] ticks = new long[MOST_EDGES];
    int number;
    int missed;
    int count;

    TachBlock() {}

    /**
     * Returns the number of the first edge.
     *
     * @return edges since START, modulo 2^16
     */
    public int number() {
        return number;
    }

    /**
     * Returns how many edges before these were seen but not timed.
     *
     * @return 0 to 255; 255 means that many or more
     */
    public int missed() {
        return missed;
    }

    /**
     * Returns the number of edges.
     *
     * @return 1 to 60
     */
    public int count() {
        return count;
    }

    /**
     * Returns when an edge came.
     *
     * @param edge 0-based, below {@link #count}
     * @return ticks modulo 2^32
     */
    public long tick(int edge) {
        return ticks[edge];
    }
}
