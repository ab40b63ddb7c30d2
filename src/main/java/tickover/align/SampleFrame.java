package tickover.align;

import tickover.unit.HostNanos;
import tickover.wire.Hello;
import tickover.wire.SampleBlock;

/** A SAMPLES frame, copied out of the decoder. */
@SuppressWarnings("ArrayRecordComponent") // handed on and never compared
record SampleFrame(
        HostNanos at, long number, long tick, int axes, int bits, boolean atLimit, int[] counts) {
    static SampleFrame of(HostNanos at, SampleBlock b) {
        int[] counts = new int[b.count() * b.axes()];
        for (int i = 0; i < b.count(); i++) {
            for (int a = 0; a < b.axes(); a++) {
                counts[i * b.axes() + a] = b.value(i, a);
            }
        }
        return new SampleFrame(at, b.number(), b.tick(), b.axes(), b.bits(), b.atLimit(), counts);
    }

    int count() {
        return counts.length / axes;
    }

    boolean fits(Hello hello) {
        return axes == hello.axes() && bits == hello.bits();
    }

    double[] accelMps2(Hello hello) {
        double[] accel = new double[counts.length];
        for (int i = 0; i < counts.length; i++) {
            accel[i] = counts[i] * hello.countMps2();
        }
        return accel;
    }
}
