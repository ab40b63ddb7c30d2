package tickover.order;

import java.util.Arrays;
import java.util.Locale;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;

/**
 * Prints how exactly a unit tone that is locked to the shaft comes through: pulses to angle to even
 * steps of angle.
 *
 * <p>Run-ups 900 to 3000 rpm in 60 s at 25.6 kHz, one pulse per turn, 256 samples per turn; frames
 * of 16 turns under a Hann window, overlapping by half, 20 turns left out at either end; mean of
 * three seeds where there is jitter. The last line is what a fixed tone of 9 kHz leaves in the
 * first quarter of the turns.
 */
public final class AccuracyTable {
    private static final double RATE_HZ = 25_600;
    private static final int SAMPLES_PER_TURN = 256;

    private AccuracyTable() {}

    /**
     * Prints the table.
     *
     * @param args none
     */
    public static void main(String[] args) {
        for (String kind : new String[] {"linear", "exponential"}) {
            RunUp run =
                    kind.equals("linear")
                            ? RunUp.linear(900, 3000, 60)
                            : RunUp.exponential(900, 3000, 60);
            for (double order : new double[] {1, 10, 50, 100}) {
                double[] x = run.tone(RATE_HZ, order, 0.3);
                for (double jitterUs : new double[] {0, 0.5, 4, 50}) {
                    print(kind, order, jitterUs, fit(run, x, order, jitterUs * 1e-6));
                }
            }
        }
        System.out.printf(Locale.ROOT, "fixed tone of 9 kHz: %.1f dB re the tone%n", foldedInDb());
    }

    private static void print(String kind, double order, double jitterUs, double[] f) {
        System.out.printf(
                Locale.ROOT,
                "%-11s jitter %4.1f us order %3.0f: amplitude %+.4f %% (worst %+.4f), residual %.1f"
                        + " dB%n",
                kind,
                jitterUs,
                order,
                f[0],
                f[1],
                f[2]);
    }

    private static double[] fit(RunUp run, double[] x, double order, double jitterS) {
        int seeds = jitterS == 0 ? 1 : 3;
        double[] mean = new double[3];
        for (int seed = 0; seed < seeds; seed++) {
            ToneFit fit = ToneFit.of(resample(run, x, jitterS, seed), order);
            mean[0] += fit.meanErrorPercent() / seeds;
            mean[1] += fit.worstErrorPercent() / seeds;
            mean[2] += fit.floorDb() / seeds;
        }
        return mean;
    }

    private static double foldedInDb() {
        RunUp run = RunUp.linear(900, 3000, 60);
        double[] x = new double[(int) (60 * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.cos(2 * Math.PI * 9000 * i / RATE_HZ);
        }
        double[] y = resample(run, x, 0, 0).values();
        int quarter = y.length / 4;
        double square = Arrays.stream(y, 0, quarter).map(v -> v * v).sum() / quarter;
        return 10 * Math.log10(2 * square);
    }

    private static AngularRecord resample(RunUp run, double[] x, double jitterS, long seed) {
        double[] pulses = run.pulses(jitterS, seed);
        Arrays.sort(pulses);
        TachPulses tach = new TachPulses(pulses, 1, 1);
        CaptureSignal capture = new CaptureSignal(RATE_HZ, new double[][] {x}, tach);
        ShaftAngle angle = AngleFinder.find(capture, AnglePrior.of(4, 4)).angle().orElseThrow();
        return AngularResampler.resample(x, RATE_HZ, angle, SAMPLES_PER_TURN);
    }
}
