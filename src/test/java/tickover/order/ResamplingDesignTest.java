package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What the resampler does to tones against what its design says it does. */
class ResamplingDesignTest {
    private static final double RATE_HZ = 1000;

    /** Golden section: places between samples fall everywhere, on no pattern. */
    private static final double UNEVEN = (Math.sqrt(5) - 1) / 2;

    /** Round-off of sums of some hundred products near one. */
    private static final double ROUND_OFF = 1e-13;

    /**
     * Amplitude and spurious floor over a grid of kernels, tones and speeds stay within the bound,
     * and the bound is no idle one: the worst tone of each kernel comes close to it.
     */
    @ParameterizedTest
    @CsvSource({
        "6, 40", "12, 40", "12, 60", "12, 80", "18, 80", "18, 106", "18, 120", "32, 60", "32, 106",
        "32, 140", "64, 106", "64, 140"
    })
    void measuredErrorsStayWithinTheBoundAndComeCloseToIt(int halfSteps, double attenuationDb) {
        ResamplingDesign design = new ResamplingDesign(halfSteps, attenuationDb);
        double closestAmplitude = 0;
        double closestSpurious = 0;
        for (double stretch : new double[] {1, 1.37, 2.9, 6.7}) {
            for (int i = 1; i <= 10; i++) {
                double frequency = design.passRatio() / 2 * i / 10;
                double[] seen = tone(halfSteps, attenuationDb, frequency, stretch);
                double amplitudeBound = design.amplitudeErrorRatio(frequency) + ROUND_OFF;
                double spuriousBound = design.spuriousRatio(frequency, stretch) + ROUND_OFF;
                String where = "f=" + frequency + ", stretch=" + stretch;
                assertEquals(0, seen[0], amplitudeBound, where + ", amplitude error");
                assertTrue(seen[1] <= spuriousBound, where + ": " + seen[1] + " spurious");
                closestAmplitude = Math.max(closestAmplitude, Math.abs(seen[0]) / amplitudeBound);
                closestSpurious = Math.max(closestSpurious, seen[1] / spuriousBound);
            }
        }
        // Tails are bounded 1 to 2 dB above their crests, those of both sides are added, and the
        // table's images reach their bound at f = 1/2 only: 6 dB.
        double idle = 0.5;
        assertTrue(closestAmplitude > idle, "amplitude at most " + closestAmplitude);
        assertTrue(closestSpurious > idle, "spurious at most " + closestSpurious);
    }

    /** What folds in of tones beyond the stop band's edge, at steady speeds. */
    @ParameterizedTest
    @CsvSource({"6, 40", "12, 60", "18, 106", "32, 106", "32, 140"})
    void whatFoldsInStaysWithinTheBound(int halfSteps, double attenuationDb) {
        ResamplingDesign design = new ResamplingDesign(halfSteps, attenuationDb);
        double closest = 0;
        for (double stretch : new double[] {2.3, 4.1, 6.7}) {
            double edge = 1 - design.passRatio() / 2;
            for (int i = 0; i <= 10; i++) {
                double frequency = edge + (stretch / 2 - edge) * i / 10;
                double[] seen = tone(halfSteps, attenuationDb, frequency, stretch);
                double rms = Math.hypot(1 + seen[0], seen[1]);
                double bound = design.foldedRatio(frequency, stretch) + ROUND_OFF;
                assertTrue(rms <= bound, frequency + " at " + stretch + ": " + rms + " > " + bound);
                closest = Math.max(closest, rms / bound);
            }
        }
        double idle = 0.5; // as above
        assertTrue(closest > idle, "at most " + closest);
    }

    /** Amplitude error and residual rms over the tone's rms of a tone put through the resampler. */
    private static double[] tone(
            int halfSteps, double attenuationDb, double frequency, double stretch) {
        // Below a stretch of one the corner is that of the samples; outputs may be as dense as
        // wanted.
        double outputsPerSample = stretch > 1 ? 1 / stretch : 1 + UNEVEN;
        int perTurn = 64;
        double speedHz = RATE_HZ * outputsPerSample / perTurn;
        int samples = (int) Math.ceil(2 * halfSteps * stretch + 300 * stretch) + 4;
        double[] x = new double[samples];
        double cyclesPerSample = frequency / stretch;
        for (int i = 0; i < samples; i++) {
            x[i] = Math.cos(2 * Math.PI * cyclesPerSample * i + 0.4);
        }
        AngularResampler.Spec spec =
                new AngularResampler.Spec(perTurn, halfSteps, attenuationDb, 1e-3);
        ShaftAngle angle = ShaftAngle.steady(speedHz, samples / RATE_HZ);
        AngularResampler resampler = new AngularResampler(spec, RATE_HZ, angle);
        double[] y = new double[resampler.maxOutput(samples)];
        int count = resampler.process(x, 0, samples, y, 0);
        long first = resampler.nextStep() - count;
        return leastSquares(y, count, first, cyclesPerSample / outputsPerSample);
    }

    /**
     * Amplitude less one, and rms of the rest over sqrt(1/2), of a cosine fitted by least squares.
     */
    private static double[] leastSquares(double[] y, int count, long first, double cycles) {
        double cc = 0;
        double ss = 0;
        double cs = 0;
        double yc = 0;
        double ys = 0;
        for (int i = 0; i < count; i++) {
            double c = Math.cos(2 * Math.PI * cycles * (first + i));
            double s = Math.sin(2 * Math.PI * cycles * (first + i));
            cc += c * c;
            ss += s * s;
            cs += c * s;
            yc += y[i] * c;
            ys += y[i] * s;
        }
        double det = cc * ss - cs * cs;
        double a = (yc * ss - ys * cs) / det;
        double b = (ys * cc - yc * cs) / det;
        double rest = 0;
        for (int i = 0; i < count; i++) {
            double c = Math.cos(2 * Math.PI * cycles * (first + i));
            double s = Math.sin(2 * Math.PI * cycles * (first + i));
            rest += (y[i] - a * c - b * s) * (y[i] - a * c - b * s);
        }
        return new double[] {Math.hypot(a, b) - 1, Math.sqrt(2 * rest / count)};
    }

    /** The usual kernel: what docs/orders.md states. */
    @Test
    void usualKernelIsGoodToATenThousandthOfAPercent() {
        ResamplingDesign design = AngularResampler.Spec.of(256).design();
        double rounded = 0.005;
        assertEquals(0.81, design.passRatio(), rounded);
        double usable = 0.8 / 2;
        assertTrue(design.amplitudeErrorRatio(usable) < 1e-5, "amplitude at 0.8");
        assertTrue(20 * Math.log10(design.spuriousRatio(usable, 1)) < -100, "spurious at 0.8");
        assertTrue(20 * Math.log10(design.foldedRatio(1.2 / 2, 2)) < -100, "folded at 1.2");
    }

    /** A fixed tone of 9 kHz at 25.6 kHz with 256 samples per turn: at most -80 dB is wanted. */
    @ParameterizedTest
    @ValueSource(doubles = {600, 700, 800, 900, 1100, 1350, 1700, 2200, 2800, 3500})
    void nineKilohertzDoesNotFoldInAtAnySteadySpeed(double rpm) {
        RunUp run = RunUp.of(4, t -> rpm / 60 * t);
        assertQuiet(run, 9000, 256, 4);
    }

    /** On sweeps each turn is looked at by itself, so that no fast turn hides a slow one. */
    @ParameterizedTest
    @CsvSource({"600, 3500, 3", "3500, 600, 3", "800, 3000, 8", "900, 1000, 4"})
    void nineKilohertzDoesNotFoldInDuringSweeps(double fromRpm, double toRpm, double lengthS) {
        assertQuiet(RunUp.linear(fromRpm, toRpm, lengthS), 9000, 256, lengthS);
        assertQuiet(RunUp.exponential(fromRpm, toRpm, lengthS), 9000, 256, lengthS);
    }

    /** Any tone above 1.19 of the angular Nyquist frequency at the fastest speed of any sweep. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void noToneAboveTheAngularNyquistFoldsIn(long seed) {
        Random random = new Random(seed);
        double fromRpm = 600 + 2400 * random.nextDouble();
        double toRpm = 600 + 2400 * random.nextDouble();
        int perTurn = 64 << random.nextInt(3);
        double stopHz = 0.6 * perTurn * Math.max(fromRpm, toRpm) / 60;
        double toneHz = stopHz + (12_700 - stopHz) * random.nextDouble();
        assertQuiet(RunUp.exponential(fromRpm, toRpm, 3), toneHz, perTurn, 3);
    }

    private static void assertQuiet(RunUp run, double toneHz, int perTurn, double lengthS) {
        double rateHz = 25_600;
        double[] x = new double[(int) (lengthS * rateHz)];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.cos(2 * Math.PI * toneHz * i / rateHz);
        }
        AngularRecord record =
                AngularResampler.resample(x, rateHz, OrderReferenceTest.exact(run), perTurn);
        double wantedDb = -80;
        double designDb = -100;
        double[] y = record.values();
        assertTrue(y.length > 10 * perTurn);
        for (int from = 0; from + perTurn <= y.length; from += perTurn) {
            double squares = 0;
            for (int i = from; i < from + perTurn; i++) {
                squares += y[i] * y[i] / perTurn;
            }
            double levelDb = 10 * Math.log10(2 * squares + 1e-30);
            assertTrue(
                    levelDb < Math.min(wantedDb, designDb),
                    toneHz + " Hz, turn " + from / perTurn + ": " + levelDb + " dB");
        }
    }

    @Test
    void refusesAKernelWithoutAPassBand() {
        IllegalArgumentException refusal =
                assertThrows(
                        IllegalArgumentException.class,
                        () -> new AngularResampler.Spec(64, 4, 140, 2));
        assertTrue(refusal.getMessage().contains("need a longer kernel"), refusal.getMessage());
        assertThrows(IllegalArgumentException.class, () -> new ResamplingDesign(18, 20));
        assertThrows(IllegalArgumentException.class, () -> new ResamplingDesign(18, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> new ResamplingDesign(0, 106));
    }
}
