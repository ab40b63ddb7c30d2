package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;

/** Order tracking against closed forms and recomputed textbook values. */
class OrderReferenceTest {
    private static final double RATE_HZ = 25_600;

    /**
     * A unit tone on an exactly known run-up from 900 to 3000 rpm, one exact pulse per turn, 256
     * samples per turn: the aim is 0.1 % and -90 dB up to 0.8 of the angular Nyquist order.
     */
    @ParameterizedTest
    @CsvSource({"1, lin", "10, lin", "50, lin", "100, lin", "1, exp", "50, exp", "100, exp"})
    void exactPulsesGiveExactAmplitudesAndAQuietFloor(double order, String kind) {
        RunUp run =
                kind.equals("lin") ? RunUp.linear(900, 3000, 60) : RunUp.exponential(900, 3000, 60);
        ToneFit fit = fitTone(run, order, 0);
        assertEquals(0, fit.worstErrorPercent(), 0.1, "amplitude, %");
        assertTrue(fit.floorDb() < -90, "floor " + fit.floorDb() + " dB");
    }

    /**
     * Jitter of 50 µs at each pulse would, unsmoothed, shift the phase at the pulses by a sigma of
     * 2 pi order jitter / period and so cost 20 log10 exp(-sigma²/2): textbook, recomputed. What is
     * lost must not exceed that bound.
     */
    @ParameterizedTest
    @CsvSource({"10, 50e-6", "50, 50e-6", "100, 50e-6", "100, 4e-6"})
    void jitterCostsLessThanItsBound(double order, double jitterS) {
        RunUp run = RunUp.exponential(900, 3000, 60);
        ToneFit fit = fitTone(run, order, jitterS);
        double meanHz = run.turnsAt(60) / 60;
        double sigma = 2 * Math.PI * order * jitterS * meanHz;
        double bound = 100 * Math.expm1(-sigma * sigma / 2);
        assertTrue(fit.meanErrorPercent() > bound, fit + " against " + bound + " %");
        // Smoothing alone has to bring the floor well below the -22 dB (4 µs) and -2 dB (50 µs)
        // that a spline through every pulse leaves at order 100.
        double spline = 20 * Math.log10(sigma);
        assertTrue(fit.floorDb() < spline - 10, fit + " against " + spline + " dB");
    }

    /**
     * What cubic splines, a 32-tap sinc and pulses smoothed over 20 turns leave on the same signals
     * (numpy and scipy, recomputed): the best of them at each order and jitter.
     */
    @ParameterizedTest
    @CsvSource({
        "10, 0, lin, 0.0000, -140.4", "50, 0, lin, 0.0009, -104.8",
        "100, 0, lin, 0.0007, -104.6", "10, 0.5e-6, exp, 0.0001, -78.9",
        "50, 0.5e-6, exp, 0.0003, -64.9", "100, 0.5e-6, exp, 0.0006, -58.9",
        "10, 4e-6, exp, 0.0005, -60.9", "50, 4e-6, exp, 0.0007, -46.9",
        "100, 4e-6, exp, 0.0053, -40.9", "10, 50e-6, exp, 0.0088, -38.9",
        "50, 50e-6, exp, 0.2347, -25.0", "100, 50e-6, exp, 0.9326, -19.0"
    })
    void noErrorIsAboveThatOfSplinesAndFixedSmoothing(
            double order, double jitterS, String kind, double bestPercent, double bestDb) {
        RunUp run =
                kind.equals("lin") ? RunUp.linear(900, 3000, 60) : RunUp.exponential(900, 3000, 60);
        ToneFit fit = fitTone(run, order, jitterS);
        double printed = 0.00005;
        assertTrue(fit.floorDb() < bestDb, fit + " against " + bestDb + " dB");
        assertEquals(0, fit.meanErrorPercent(), bestPercent + printed, "amplitude, %");
    }

    private static ToneFit fitTone(RunUp run, double order, double jitterS) {
        double[] x = run.tone(RATE_HZ, order, 0.3);
        double[] pulses = run.pulses(jitterS, 3);
        Arrays.sort(pulses);
        CaptureSignal capture =
                new CaptureSignal(RATE_HZ, new double[][] {x}, new TachPulses(pulses, 1, 1));
        ShaftAngle angle = AngleFinder.find(capture, AnglePrior.of(4, 4)).angle().orElseThrow();
        return ToneFit.of(AngularResampler.resample(x, RATE_HZ, angle, 256), order);
    }

    /**
     * Jitter table at 800 rpm, one pulse per turn (textbook, recomputed): 50 µs moves order 100 by
     * 0.419 rad and costs 0.76 dB when it is not smoothed.
     */
    @Test
    void unsmoothedJitterLosesWhatTheTextbookSays() {
        double sigma = 2 * Math.PI * 100 * 50e-6 * 800 / 60;
        double printed = 0.005;
        assertEquals(0.419, sigma, printed);
        assertEquals(-0.76, 20 * Math.log10(Math.exp(-sigma * sigma / 2)), printed);
        java.util.Random random = new java.util.Random(31);
        int n = 100_000;
        double re = 0;
        for (int i = 0; i < n; i++) {
            re += Math.cos(sigma * random.nextGaussian()) / n;
        }
        double fourSigma = 4 * sigma * sigma / Math.sqrt(2.0 * n) * 8.7;
        assertEquals(-0.76, 20 * Math.log10(re), printed + fourSigma);
    }

    /**
     * A fixed 9 kHz tone lies above the angular Nyquist frequency (128 orders) up to 4219 rpm, and
     * must not fold in. Without a low-pass it does so at -3 to 0 dB.
     */
    @Test
    void aFixedToneAboveTheAngularNyquistDoesNotFoldIn() {
        RunUp run = RunUp.linear(900, 3000, 10);
        double[] x = new double[(int) (10 * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.cos(2 * Math.PI * 9000 * i / RATE_HZ);
        }
        double[] y = AngularResampler.resample(x, RATE_HZ, exact(run), 256).values();
        double sum = 0;
        for (double v : y) {
            sum += v * v;
        }
        double levelDb = 10 * Math.log10(sum / y.length * 2);
        assertTrue(levelDb < -90, "9 kHz folds in at " + levelDb + " dB");
    }

    /** The interpolator is flat where linear and cubic ones droop: f/fs = 0.05 to 0.4. */
    @ParameterizedTest
    @CsvSource({"0.05", "0.1", "0.2", "0.3", "0.4"})
    void interpolationDoesNotDroop(double frequencyRatio) {
        double speedHz = 30;
        ShaftAngle angle = ShaftAngle.steady(speedHz, 4);
        double[] x = new double[(int) (4 * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.cos(2 * Math.PI * frequencyRatio * i + 0.2);
        }
        // So many samples per turn that the low-pass is that of the sample rate.
        AngularRecord record = AngularResampler.resample(x, RATE_HZ, angle, 1024);
        double order = frequencyRatio * RATE_HZ / speedHz;
        OrderLine line = OrderLines.of(record, order).get(0);
        double droopDb = 20 * Math.log10(line.rms() * Math.sqrt(2));
        double flat = 0.002; // a tenth of a part in a thousand is 0.001 dB
        assertEquals(0, droopDb, flat);
    }

    /**
     * Pulse check, textbook, recomputed: shaft 10 + 5 t turns per second; pulses of turns 0, 1, 2
     * at 0, 0.097618, 0.190890 s; half turns at 0.049390 and 0.144761 s; angle 10 t + 2.5 t².
     */
    @Test
    void constantAccelerationThroughThreePulses() {
        double printed = 0.5e-6;
        RunUp run = RunUp.linear(600, 900, 1);
        double[] pulses = run.pulses(0, 1);
        assertEquals(0.097618, pulses[1], printed);
        assertEquals(0.190890, pulses[2], printed);
        CaptureSignal capture =
                new CaptureSignal(1000, new double[1][1000], new TachPulses(pulses, 1, 1));
        ShaftAngle angle = AngleFinder.find(capture, AnglePrior.of(4, 4)).angle().orElseThrow();
        assertEquals(0.049390, angle.timeAt(0.5), printed);
        assertEquals(0.144761, angle.timeAt(1.5), printed);
        double roundOff = 1e-7;
        assertEquals(10 * 0.15 + 2.5 * 0.15 * 0.15, angle.turnsAt(0.15), roundOff);
        assertEquals(10 + 5 * 0.15, angle.speedHzAt(0.15), roundOff);
    }

    /** An exact curve for tests that are about resampling alone. */
    static ShaftAngle exact(RunUp run) {
        int n = 2001;
        double[] times = new double[n];
        double[] states = new double[3 * n];
        for (int k = 0; k < n; k++) {
            times[k] = run.durationS * k / (n - 1);
            double d = 1e-3;
            states[3 * k] = run.turnsAt(times[k]);
            states[3 * k + 1] = (run.turnsAt(times[k] + d) - run.turnsAt(times[k] - d)) / (2 * d);
            states[3 * k + 2] =
                    (run.turnsAt(times[k] + d)
                                    - 2 * run.turnsAt(times[k])
                                    + run.turnsAt(times[k] - d))
                            / (d * d);
        }
        return new ShaftAngle(AnglePieces.ofStates(times, states), new double[n], true);
    }
}
