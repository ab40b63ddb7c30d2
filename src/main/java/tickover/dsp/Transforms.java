package tickover.dsp;

import java.lang.ref.SoftReference;
import java.util.HashMap;
import java.util.Map;
import org.jtransforms.fft.DoubleFFT_1D;
import org.visnow.jlargearrays.ConcurrencyUtils;

/** Makes the transforms of this package, which all run in the caller's thread. */
final class Transforms {
    static {
        // The library would otherwise start threads of its own for long transforms.
        ConcurrencyUtils.setNumberOfThreads(1);
    }

    private Transforms() {}

    /** Recently used transforms: their tables of sines take as long to make as to use once. */
    private static final Map<Integer, SoftReference<DoubleFFT_1D>> KNOWN = new HashMap<>();

    /**
     * A transform of a size. Several threads may use it at once: it is only read after it is made.
     */
    static DoubleFFT_1D ofSize(int n) {
        synchronized (KNOWN) {
            SoftReference<DoubleFFT_1D> known = KNOWN.get(n);
            DoubleFFT_1D transform = known == null ? null : known.get();
            if (transform == null) {
                KNOWN.values().removeIf(r -> r.get() == null);
                transform = new DoubleFFT_1D(n);
                KNOWN.put(n, new SoftReference<>(transform));
            }
            return transform;
        }
    }

    /** Refuses a buffer that is too short for what is to be read from it or written to it. */
    static void requireLength(double[] values, int need, String name) {
        if (!(values.length >= need)) {
            throw new IllegalArgumentException(
                    name + ".length=" + values.length + ", need >= " + need);
        }
    }
}
