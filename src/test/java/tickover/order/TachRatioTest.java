package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;

class TachRatioTest {
    private static final double CRANK_HZ = 13.4;
    private static final double TRUE_RATIO = 2.5;
    private static final double DURATION_S = 9;
    private static final double RATE_HZ = 6400;

    @Test
    void engineLinesCorrectARatioFromTheTapeMeasure() {
        for (double off : new double[] {-0.016, -0.005, 0, 0.009, 0.018}) {
            CaptureSignal capture = capture(TRUE_RATIO * (1 + off));
            ShaftAngle angle = AngleFinder.find(capture, AnglePrior.of(4, 4)).angle().orElseThrow();
            double seen = (angle.turnsAt(8) - angle.turnsAt(1)) / 7;
            // A step of the search, and what pulses and line widths add.
            double allowedRatio = 4e-4;
            assertEquals(CRANK_HZ, seen, CRANK_HZ * allowedRatio, "off by " + off);
        }
    }

    private static CaptureSignal capture(double statedRatio) {
        Random random = new Random(5);
        double[] x = new double[(int) (RATE_HZ * DURATION_S)];
        for (int half = 1; half <= 40; half++) {
            double amplitude = half % 4 == 0 ? 1 : 0.1;
            double phase = random.nextDouble() * 2 * Math.PI;
            double step = 2 * Math.PI * CRANK_HZ * half / 2 / RATE_HZ;
            for (int i = 0; i < x.length; i++) {
                x[i] += amplitude * Math.cos(step * i + phase);
            }
        }
        for (int i = 0; i < x.length; i++) {
            x[i] += 0.3 * random.nextGaussian();
        }
        double[] pulses = new double[(int) (DURATION_S * CRANK_HZ * TRUE_RATIO)];
        Arrays.setAll(pulses, i -> (i + 0.5) / (CRANK_HZ * TRUE_RATIO));
        return new CaptureSignal(
                RATE_HZ, new double[][] {x}, new TachPulses(pulses, 1, statedRatio));
    }
}
