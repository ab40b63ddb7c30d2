package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.dsp.ReferenceNumbers;

/**
 * The resampler against scipy: noise of known bandwidth at even steps of a rising angle. Numbers
 * are in {@code order/scipy.txt}, made by {@code src/test/python/order_reference.py}.
 */
class ResamplerReferenceTest {
    private static final ReferenceNumbers SCIPY =
            ReferenceNumbers.read("/tickover/order/scipy.txt");

    private static final double RATE_HZ = 1000;

    /**
     * {@code dense}: up to 0.8 of half the sample rate. {@code sparse}: up to 0.8 of the angular
     * Nyquist order at the lowest speed, and as much again above 1.2 of it at the highest, which
     * must not come through.
     */
    @ParameterizedTest
    @CsvSource({"dense, 0", "sparse, 1"})
    void recordsOverAngleMatchScipy(String name, double above) {
        double[] motion = SCIPY.get(name + ".motion");
        double[] x = SCIPY.get(name + ".samples");
        double lengthS = x.length / RATE_HZ;
        double[] times = {0, lengthS};
        double[] speeds = {motion[0], motion[0] + motion[1] * lengthS};
        ShaftAngle angle = new ShaftAngle(AnglePieces.ofSpeeds(times, speeds), new double[2], true);
        int perTurn = (int) motion[2];
        AngularRecord record = AngularResampler.resample(x, RATE_HZ, angle, perTurn);
        double[] wanted = SCIPY.get(name + ".values");
        int shift = (int) (SCIPY.get(name + ".first")[0] - record.startTurns() * perTurn);
        ResamplingDesign design = AngularResampler.Spec.of(perTurn).design();
        double edge = 0.8 / 2;
        // As if all of the noise stood where the kernel is worst; nine digits are printed.
        double bound =
                design.amplitudeErrorRatio(edge)
                        + design.spuriousRatio(edge, 1)
                        + above * design.foldedRatio(1.2 / 2, 1.2)
                        + 1e-8;
        double squares = 0;
        for (int i = 0; i < wanted.length; i++) {
            double error = record.values()[i + shift] - wanted[i];
            squares += error * error / wanted.length;
            double crest = 5; // of Gaussian errors
            assertEquals(0, error, crest * bound, name + " value " + i);
        }
        assertTrue(Math.sqrt(squares) < bound, Math.sqrt(squares) + " rms, bound " + bound);
    }
}
