package tickover.order;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.dsp.Kaiser;

/** The kernel in two parts against the kernel in one. */
class GridKernelTest {
    private static final int HALF = ResamplingKernel.USUAL_HALF_STEPS;
    private static final double BETA = Kaiser.betaFor(ResamplingKernel.USUAL_ATTENUATION_DB);

    /** From 0 to where what is left of either is round-off; images of a tone lie anywhere. */
    @Test
    void bothPartsTogetherPassWhatTheKernelPasses() {
        double worstPassed = 0;
        double worstStopped = 0;
        double stopFrom = 0.6;
        for (double f = 0; f < 8; f += 0.0037) {
            double apart = Math.abs(twoPartGain(f) - wholeGain(f));
            worstPassed = f < stopFrom ? Math.max(worstPassed, apart) : worstPassed;
            worstStopped = f < stopFrom ? worstStopped : Math.max(worstStopped, apart);
        }
        double idle = 0.5;
        assertTrue(worstPassed < GridKernel.PASS_ERROR_RATIO, "passed: " + worstPassed);
        assertTrue(worstStopped < GridKernel.STOP_ERROR_RATIO, "stopped: " + worstStopped);
        assertTrue(worstPassed > idle * GridKernel.PASS_ERROR_RATIO, "passed: " + worstPassed);
        assertTrue(worstStopped > idle * GridKernel.STOP_ERROR_RATIO, "stopped: " + worstStopped);
    }

    /** Both parts together: the weights' transform times the spreading window's. */
    private static double twoPartGain(double perStep) {
        GridKernel kernel = GridKernel.usual();
        double sum = kernel.weight(0);
        for (int j = 1; j <= GridKernel.PER_STEP * kernel.halfSteps(); j++) {
            double turn = 2 * Math.PI * perStep / GridKernel.PER_STEP;
            sum += 2 * kernel.weight(j) * Math.cos(turn * j);
        }
        double spread = GridKernel.transform(perStep / GridKernel.PER_STEP);
        return sum * spread / GridKernel.transform(0);
    }

    /** Transform of the kernel by the trapezoidal rule, cycles per step. */
    private static double wholeGain(double perStep) {
        int fine = 64;
        double sum = ResamplingKernel.value(0, HALF, BETA);
        for (int i = 1; i <= HALF * fine; i++) {
            double u = (double) i / fine;
            double ends = i == HALF * fine ? 0.5 : 1;
            double h = ResamplingKernel.value(u, HALF, BETA);
            sum += 2 * ends * h * Math.cos(2 * Math.PI * perStep * u);
        }
        return sum / fine;
    }

    /** At a steady speed both ways are one filter, so any samples come out alike. */
    @ParameterizedTest
    @CsvSource({"11.3, 64", "17.9, 256", "49.7, 64", "98.1, 256", "98.9, 256"})
    void atSteadySpeedItIsThePlainKernel(double speedHz, int perTurn) {
        double rateHz = 25_600;
        double[] x = new double[20_000];
        Random random = new Random(perTurn);
        Arrays.setAll(x, i -> random.nextGaussian());
        ShaftAngle angle = ShaftAngle.steady(speedHz, x.length / rateHz);
        double[] plain = new double[x.length * 2];
        double[] onGrid = new double[x.length * 2];
        PlaceResampler place = new PlaceResampler(AngularResampler.Spec.of(perTurn), rateHz, angle);
        GridResampler grid = new GridResampler(perTurn, rateHz, angle);
        int plainCount = place.process(x, 0, x.length, plain, 0);
        int gridCount = grid.process(x, 0, x.length, onGrid, 0);
        int lead = (int) (grid.nextStep() - gridCount - place.nextStep() + plainCount);
        assertEquals(GridKernel.EXTRA_STEPS + 2, lead, 2, "the kernel is longer by so much");
        // Errors of all frequencies together, crest 5; and the plain kernel's table.
        double allowed =
                5 * (GridKernel.STOP_ERROR_RATIO + 2 * ResamplingDesign.tableImagesRatio());
        assertTrue(gridCount > 100);
        for (int i = 0; i < gridCount; i++) {
            assertEquals(plain[i + lead], onGrid[i], allowed, "value " + i);
        }
    }

    /** The angle may begin after the samples and end before them, and stand still between. */
    @Test
    void angleShorterThanTheSamplesAndAShaftAtRestAreFollowed() {
        double rateHz = 1000;
        double[] times = {0.31, 2, 2.4, 3.1, 3.6, 9.7};
        double[] speeds = {6, 6, 0, 0, 8, 8};
        ShaftAngle angle =
                new ShaftAngle(AnglePieces.ofSpeeds(times, speeds), new double[6], false);
        double[] x = new double[10_000];
        for (int i = 0; i < x.length; i++) {
            double t = Math.max(angle.startS(), Math.min(angle.endS(), i / rateHz));
            x[i] = Math.cos(2 * Math.PI * 3 * angle.turnsAt(t));
        }
        AngularRecord record = AngularResampler.resample(x, rateHz, angle, 64);
        double reachTurns = GridKernel.usual().reachSteps() / 64;
        assertEquals(reachTurns, record.startTurns(), 1.0 / 64 + 6 / rateHz);
        double end = record.startTurns() + record.lengthTurns();
        assertEquals(angle.endTurns() - reachTurns, end, 2.0 / 64 + 8 / rateHz);
        double[] wanted = new double[record.values().length];
        Arrays.setAll(wanted, i -> Math.cos(2 * Math.PI * 3 * record.turnsAt(i)));
        // The speed's corners are not band-limited: its slope jumps by 20 Hz/s in one sample.
        double corners = 2e-4;
        assertArrayEquals(wanted, record.values(), corners);
    }
}
