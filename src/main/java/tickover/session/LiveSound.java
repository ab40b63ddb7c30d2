package tickover.session;

import java.util.List;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicLong;
import tickover.diagnose.LivePartSound;

/**
 * The latest seconds of one part's sound while the probe is held. One thread writes, others read
 * what is not older than {@value #KEPT_S} s; neither waits for the other.
 */
public final class LiveSound {
    /** So much can be read back, s. */
    public static final int KEPT_S = 20;

    private static final int LENGTH = 1 << 20;
    private static final int MASK = LENGTH - 1;

    private final String part;
    private final float[] ring = new float[LENGTH];
    private final AtomicLong written = new AtomicLong();

    LiveSound(String part) {
        this.part = Objects.requireNonNull(part, "part");
    }

    /** Takes the next value, m/s². */
    void add(double mps2) {
        long at = written.get();
        ring[(int) (at & MASK)] = (float) mps2;
        // The value is there before its number is.
        written.lazySet(at + 1);
    }

    /**
     * Returns whose sound it is.
     *
     * @return the part's name
     */
    public String part() {
        return part;
    }

    /**
     * Returns how many values there were.
     *
     * @return at {@link LivePartSound#RATE_HZ}; the latest has the number before this
     */
    public long written() {
        return written.get();
    }

    /** One of the latest values, m/s². */
    double at(long number) {
        return ring[(int) (number & MASK)];
    }

    /**
     * Copies what was heard lately.
     *
     * @return the latest {@value #KEPT_S} s at most; silent before anything came
     */
    public PartAudio latest() {
        long end = written();
        int count = (int) Math.min(end, (long) KEPT_S * LivePartSound.RATE_HZ);
        double[] out = new double[Math.max(1, count)];
        for (int i = 0; i < count; i++) {
            out[i] = at(end - count + i);
        }
        return new PartAudio(part, LivePartSound.RATE_HZ, out, "", List.of());
    }
}
