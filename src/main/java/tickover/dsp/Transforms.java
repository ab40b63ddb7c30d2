package tickover.dsp;

import org.jtransforms.fft.DoubleFFT_1D;
import org.visnow.jlargearrays.ConcurrencyUtils;

/** Makes the transforms of this package, which all run in the caller's thread. */
final class Transforms {
    static {
        // The library would otherwise start threads of its own for long transforms.
        ConcurrencyUtils.setNumberOfThreads(1);
    }

    private Transforms() {}

    static DoubleFFT_1D ofSize(int n) {
        return new DoubleFFT_1D(n);
    }

    /** Refuses a buffer that is too short for what is to be read from it or written to it. */
    static void requireLength(double[] values, int need, String name) {
        if (!(values.length >= need)) {
            throw new IllegalArgumentException(
                    name + ".length=" + values.length + ", need >= " + need);
        }
    }
}
