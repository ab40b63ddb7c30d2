package tickover.unit;

/**
 * A moment on the host's monotonic clock. Only differences mean anything.
 *
 * @param value nanoseconds since an arbitrary origin, which is one and the same for a recording
 */
public record HostNanos(long value) implements Comparable<HostNanos> {
    private static final double NANOS_PER_S = 1e9;

    /**
     * Returns how long after another moment this is.
     *
     * @param earlier the other moment
     * @return s, negative if this is the earlier one
     */
    public double secondsAfter(HostNanos earlier) {
        return (value - earlier.value) / NANOS_PER_S;
    }

    /**
     * Returns a moment some time later.
     *
     * @param durationS s, may be negative
     * @return the moment, to the nearest nanosecond
     */
    public HostNanos plusS(double durationS) {
        return new HostNanos(value + Math.round(durationS * NANOS_PER_S));
    }

    @Override
    public int compareTo(HostNanos other) {
        return Long.compare(value, other.value);
    }
}
