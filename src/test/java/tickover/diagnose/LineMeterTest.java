package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tickover.dsp.Window;

/** The line meter's sums against the plain definition. */
class LineMeterTest {
    private static final int PER_TURN = 256;

    /** Bins of a segment between a line and what it is held against. */
    private static final double ASIDE_BINS = 3;

    @ParameterizedTest
    @ValueSource(ints = {8192, 8200, 8222})
    void powersAreThoseOfThePlainSums(int steps) {
        double[][] channels = new double[2][steps + 5];
        Random random = new Random(steps);
        for (double[] channel : channels) {
            Arrays.setAll(
                    channel,
                    i -> random.nextGaussian() + Math.cos(2 * Math.PI * 7.3 * i / PER_TURN));
        }
        boolean[] usable = new boolean[steps];
        Arrays.fill(usable, true);
        SegmentPlan plan = SegmentPlan.of(usable, PER_TURN);
        LineMeter meter = new LineMeter(channels, PER_TURN, plan, 5);
        for (double order : new double[] {1, 7.3, 50.123, 120}) {
            double[] powers = meter.segmentPowers(order);
            double aside = ASIDE_BINS * PER_TURN / plan.length();
            for (int s = 0; s < plan.count(); s++) {
                double plain = 0;
                for (double[] channel : channels) {
                    int from = 5 + plan.start(s);
                    plain +=
                            power(channel, from, plan.length(), order)
                                    - power(channel, from, plan.length(), order - aside) / 2
                                    - power(channel, from, plan.length(), order + aside) / 2;
                }
                double roundOff = 1e-12; // of powers of about 1
                assertEquals(plain, powers[s], roundOff);
            }
        }
    }

    private static double power(double[] x, int from, int length, double order) {
        double[] window = Window.HANN.periodic(length);
        double re = 0;
        double im = 0;
        for (int i = 0; i < length; i++) {
            double angle = 2 * Math.PI * order * i / PER_TURN;
            re += window[i] * x[from + i] * Math.cos(angle);
            im += window[i] * x[from + i] * Math.sin(angle);
        }
        double amplitude = 2 * Math.hypot(re, im) / Arrays.stream(window).sum();
        return amplitude * amplitude / 2;
    }
}
