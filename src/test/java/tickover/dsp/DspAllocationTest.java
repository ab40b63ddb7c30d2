package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Hot kernels allocate nothing. */
class DspAllocationTest {
    @Test
    void theMeterSeesAnAllocation() {
        double[][] held = new double[1][];
        assertTrue(AllocationMeter.bytesOf(() -> held[0] = new double[1000]) >= 8000);
    }

    @Test
    void transformsAllocateNothing() {
        RealFft fft = new RealFft(1024);
        double[] x = new double[1024];
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        assertEquals(
                0,
                AllocationMeter.bytesOf(
                        () -> {
                            fft.forward(x, re, im);
                            fft.inverse(re, im, x);
                        }));
    }

    @Test
    void decimatorAllocatesNothing() {
        FirDecimator decimator =
                new FirDecimator(FirDesign.design(FirDesign.Spec.lowPass(0.1, 0.1, 60)), 4);
        double[] in = new double[1000];
        double[] out = new double[decimator.maxOutput(in.length)];
        assertEquals(0, AllocationMeter.bytesOf(() -> decimator.process(in, 0, in.length, out, 0)));
    }
}
