package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;
import tickover.dsp.SymmetricBand;
import tickover.dsp.Welch;
import tickover.dsp.Window;

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
     * Jitter table at 800 rpm, one pulse per turn (textbook, recomputed): what timing noise of
     * independent samples, not smoothed, moves an order by and takes off it.
     */
    @ParameterizedTest
    @CsvSource({
        "50e-6, 10, 0.0419, -0.008",
        "50e-6, 100, 0.419, -0.76",
        "250e-6, 100, 2.094, -19.05",
        "1e-3, 10, 0.838, -3.05"
    })
    void unsmoothedJitterLosesWhatTheTextbookSays(
            double jitterS, double order, double sigmaRad, double lossDb) {
        double sigma = 2 * Math.PI * order * jitterS * 800 / 60;
        double printed = 0.005;
        assertEquals(sigmaRad, sigma, printed);
        assertEquals(lossDb, 20 * Math.log10(Math.exp(-sigma * sigma / 2)), printed);
        Random random = new Random(31);
        int perTurn = 256;
        double[] x = new double[1000 * perTurn];
        for (int i = 0; i < x.length; i++) {
            double late = jitterS * 800 / 60 * random.nextGaussian();
            x[i] = Math.cos(2 * Math.PI * order * ((double) i / perTurn + late));
        }
        double rms = OrderLines.of(new AngularRecord(perTurn, 0, x), order).get(0).rms();
        // Scatter of a mean of cosines at the lost level, the windows' overlap allowed for.
        double level = Math.pow(10, lossDb / 20);
        double fourSigmaDb = 8.7 * 4 * 2 / Math.sqrt(x.length) / level;
        assertEquals(lossDb, 20 * Math.log10(rms * Math.sqrt(2)), printed + fourSigmaDb);
    }

    /**
     * Droop of interpolators, textbook, recomputed: straight lines sinc², cubic B-splines through
     * the samples. Measured on plain ones with the order lines that other levels come from; the
     * resampler on the same tone has none.
     */
    @ParameterizedTest
    @CsvSource({
        "0.05, -0.071, 0",
        "0.1, -0.287, -0.002",
        "0.2, -1.158, -0.043",
        "0.3, -2.653, -0.325",
        "0.4, -4.840, -1.656"
    })
    void plainInterpolatorsDroopAsTheTextbookSays(
            double frequencyRatio, double straightDb, double splineDb) {
        double[] x = new double[20_000];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.cos(2 * Math.PI * frequencyRatio * i + 0.2);
        }
        double[] b = splineCoefficients(x);
        int perSample = 10;
        int first = 1000;
        double[] straight = new double[15_000 * perSample];
        double[] cubic = new double[straight.length];
        for (int i = 0; i < straight.length; i++) {
            int k = first + i / perSample;
            double u = (double) (i % perSample) / perSample;
            straight[i] = x[k] + u * (x[k + 1] - x[k]);
            double v = 1 - u;
            cubic[i] =
                    (v * v * v * b[k - 1]
                                    + (3 * u * u * u - 6 * u * u + 4) * b[k]
                                    + (3 * v * v * v - 6 * v * v + 4) * b[k + 1]
                                    + u * u * u * b[k + 2])
                            / 6;
        }
        double printed = 0.0005 + 1e-4; // cubic images at ten samples' distance fold in below that
        // Those of straight lines do not: they make it sinc²(f) / sinc²(f/10), exactly.
        double f = Math.PI * frequencyRatio / perSample;
        double foldedDb = 40 * Math.log10(f / Math.sin(f));
        assertEquals(straightDb + foldedDb, lineDb(straight, perSample, frequencyRatio), printed);
        assertEquals(splineDb, lineDb(cubic, perSample, frequencyRatio), printed);
    }

    /** Level re the tone's; a "turn" is a hundred samples long. */
    private static double lineDb(double[] y, int perSample, double frequencyRatio) {
        AngularRecord record = new AngularRecord(100 * perSample, 0, y);
        double rms = OrderLines.of(record, 100 * frequencyRatio).get(0).rms();
        return 20 * Math.log10(rms * Math.sqrt(2));
    }

    /** Coefficients of the cubic B-spline through samples; its ends do not matter here. */
    private static double[] splineCoefficients(double[] x) {
        SymmetricBand matrix = new SymmetricBand(x.length, 1);
        for (int i = 0; i < x.length; i++) {
            matrix.add(i, i, 4.0 / 6);
            if (i > 0) {
                matrix.add(i, i - 1, 1.0 / 6);
            }
        }
        assertTrue(matrix.factor());
        return matrix.solve(x);
    }

    /** Bins 1/turns apart, Hann bandwidth 1.5/turns, main lobe 4/turns, Nyquist steps/2. */
    @Test
    void orderSpectraResolveWhatTheTextbookSays() {
        int perTurn = 64;
        int turns = 20;
        double[] x = new double[perTurn * turns];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.sqrt(2) * Math.cos(2 * Math.PI * 7 * i / perTurn);
        }
        OrderSpectrum spectrum =
                OrderSpectrum.of(new AngularRecord(perTurn, 0, x), OrderSpectrum.Spec.hann(turns));
        double roundOff = 1e-12;
        assertEquals(1.0 / turns, spectrum.orderOf(1), roundOff);
        double[] rms = spectrum.values(OrderSpectrum.Scaling.LINE_RMS);
        assertEquals(perTurn / 2.0, spectrum.orderOf(rms.length - 1), roundOff);
        double[] density = spectrum.values(OrderSpectrum.Scaling.POWER_PER_ORDER);
        int line = 7 * turns;
        assertEquals(1.5 / turns, rms[line] * rms[line] / density[line], roundOff);
        // Two bins to either side of the line are the first where nothing of it is left.
        assertEquals(0.5, rms[line + 1], roundOff);
        assertEquals(0, rms[line + 2], roundOff);
        assertEquals(0, rms[line - 2], roundOff);
    }

    /** A speed that is off by ±1 % spreads order 100 at 800 rpm over ±13.3 Hz, without tracking. */
    @Test
    void trackingGathersWhatAChangingSpeedSmears() {
        double hz = 800.0 / 60;
        double lengthS = 8;
        RunUp run = RunUp.linear(0.99 * 800, 1.01 * 800, lengthS);
        double[] x = run.tone(RATE_HZ, 100, 0);
        double printedHz = 0.05;
        assertEquals(13.3, 100 * hz * 0.01, printedHz);
        Welch welch = Welch.of(x, RATE_HZ, new Welch.Spec(x.length, x.length, Window.HANN));
        double inside = 0;
        double middle = 0;
        for (int k = 0; k < welch.densityPerHz().length; k++) {
            double off = Math.abs(k * welch.binHz() - 100 * hz);
            double power = welch.densityPerHz()[k] * welch.binHz();
            inside += off < 14.3 ? power : 0;
            middle += off < 2 ? power : 0;
        }
        assertEquals(0.5, inside, 0.001, "power within the smear");
        // A seventh of the time is spent there, which the window weighs at most 8/3 times.
        assertTrue(middle < 0.5 * 8 / 3 / 6, "power within 2 Hz " + middle);
        AngularRecord record = AngularResampler.resample(x, RATE_HZ, exact(run), 256);
        double[] rms =
                OrderSpectrum.of(record, OrderSpectrum.Spec.hann(50))
                        .values(OrderSpectrum.Scaling.LINE_RMS);
        assertEquals(Math.sqrt(0.5), rms[100 * 50], 1e-4);
        assertEquals(0, rms[100 * 50 + 3], 1e-4);
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
