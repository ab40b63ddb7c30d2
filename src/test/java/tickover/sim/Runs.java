package tickover.sim;

import java.util.Arrays;
import tickover.drive.Condition;

/** Short runs at a known speed, and a plain Fourier sum at given orders. */
final class Runs {
    private static final double[] NO_RIPPLE = new double[16];

    private Runs() {}

    static CrankMotion steady(double speedHz, double durationS) {
        double[] grid = new double[(int) Math.ceil((durationS + 3) / CrankMotion.STEP_S)];
        Arrays.fill(grid, speedHz);
        return new CrankMotion(-1, 0, grid, NO_RIPPLE);
    }

    static Run at(double speedHz, double sampleRateHz, double durationS, Condition condition) {
        return new Run(
                sampleRateHz,
                (int) Math.rint(durationS * sampleRateHz),
                steady(speedHz, durationS),
                condition,
                speedHz,
                new Draw(11));
    }

    static PartMotion part(Run run, double ratio) {
        return new PartMotion(run.motion(), ratio, 1, 0);
    }

    /** Amplitude of a component at an order of the crank, over whole turns of a steady run. */
    static double amplitude(double[] x, Run run, double order) {
        double re = 0;
        double im = 0;
        double weight = 0;
        for (int i = 0; i < x.length; i++) {
            double hann = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / x.length);
            double phase = 2 * Math.PI * order * run.meanTurns()[i];
            re += hann * x[i] * Math.cos(phase);
            im -= hann * x[i] * Math.sin(phase);
            weight += hann;
        }
        return 2 * Math.hypot(re, im) / weight;
    }

    static double[] squared(double[] x) {
        return Arrays.stream(x).map(v -> v * v).toArray();
    }

    static double rms(double[] x) {
        return Math.sqrt(Arrays.stream(x).map(v -> v * v).average().orElseThrow());
    }
}
