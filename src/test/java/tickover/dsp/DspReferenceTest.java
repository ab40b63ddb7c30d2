package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * The kernels against values from outside. Numbers of scipy are in {@code scipy.txt}, made by
 * {@code src/test/python/dsp_reference.py}.
 */
class DspReferenceTest {
    private static final ReferenceNumbers SCIPY = ReferenceNumbers.read("/tickover/dsp/scipy.txt");

    /** Round-off of a few hundred operations on numbers near one. */
    private static final double ROUND_OFF = 1e-12;

    @Test
    void transformMatchesScipyForAPowerOfTwo() {
        transformMatches(SCIPY.get("x256"), "rfft256");
    }

    @Test
    void transformMatchesScipyForAnOddSize() {
        transformMatches(Arrays.copyOf(SCIPY.get("x256"), 45), "rfft45");
    }

    private static void transformMatches(double[] x, String name) {
        RealFft fft = new RealFft(x.length);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(x, re, im);
        assertArrayEquals(SCIPY.get(name + ".re"), re, ROUND_OFF * x.length);
        assertArrayEquals(SCIPY.get(name + ".im"), im, ROUND_OFF * x.length);
    }

    @Test
    void windowsMatchScipyInBothLengths() {
        for (Window window : Window.values()) {
            if (window != Window.RECTANGULAR) {
                String name = "window." + scipyName(window);
                assertArrayEquals(SCIPY.get(name + ".periodic"), window.periodic(16), ROUND_OFF);
                assertArrayEquals(SCIPY.get(name + ".symmetric"), window.symmetric(16), ROUND_OFF);
            }
        }
        assertArrayEquals(SCIPY.get("window.kaiser"), Kaiser.symmetric(17, 8.6), ROUND_OFF);
    }

    private static String scipyName(Window window) {
        return switch (window) {
            case RECTANGULAR -> "boxcar";
            case HANN -> "hann";
            case HAMMING -> "hamming";
            case BLACKMAN_HARRIS -> "blackmanharris";
            case FLAT_TOP -> "flattop";
        };
    }

    /**
     * Coherent gain, noise bandwidth in bins and scallop loss in dB of long windows: table of
     * Harris 1978, from memory, recomputed.
     */
    @Test
    void windowsHaveTheirPublishedFiguresOfMerit() {
        assertFigures(Window.RECTANGULAR, 1, 1, 3.92);
        assertFigures(Window.HANN, 0.5, 1.5, 1.42);
        assertFigures(Window.HAMMING, 0.54, 1.363, 1.75);
        assertFigures(Window.BLACKMAN_HARRIS, 0.3588, 2.004, 0.83);
        assertFigures(Window.FLAT_TOP, 0.2156, 3.77, 0.01);
    }

    /** Rms of a Hann frame is that of its samples over 1.633, sqrt(8/3). */
    @Test
    void hannFactorForRmsIsThePublishedOne() {
        double printed = 0.0005;
        double[] hann = Window.HANN.periodic(4096);
        assertEquals(1.633, 1 / Statistics.rms(hann), printed);
        assertEquals(Math.sqrt(8.0 / 3), 1 / Statistics.rms(hann), ROUND_OFF);
    }

    private static void assertFigures(Window window, double gain, double enbw, double scallopDb) {
        double printedGain = 0.00005 + 1e-9; // four decimals
        double printedEnbw = enbw == 3.77 ? 0.005 : 0.0005; // as many decimals as the table gives
        double printedDb = 0.005; // two decimals
        double[] w = window.periodic(4096);
        assertEquals(gain, Window.coherentGain(w), printedGain, window + " gain");
        assertEquals(enbw, Window.enbwBins(w), printedEnbw, window + " noise bandwidth");
        double half = FirDesign.gainAt(w, 0.5 / w.length) / FirDesign.gainAt(w, 0);
        assertEquals(scallopDb, -20 * Math.log10(half), printedDb, window + " scallop loss");
    }

    @Test
    void kaiserFormulasMatchScipy() {
        double[] i0 = SCIPY.get("i0");
        double[] at = {0, 0.5, 3, 9, 20};
        for (int i = 0; i < at.length; i++) {
            assertEquals(i0[i], Kaiser.besselI0(at[i]), ROUND_OFF * i0[i]);
        }
        double[] beta = SCIPY.get("kaiser_beta");
        double[] attenuationDb = {20, 30, 60, 100};
        for (int i = 0; i < beta.length; i++) {
            assertEquals(beta[i], Kaiser.betaFor(attenuationDb[i]), ROUND_OFF);
        }
    }

    /**
     * Length by Kaiser's formula is scipy's, made odd; attenuation of that length is what was
     * asked.
     */
    @Test
    void filterLengthsMatchScipy() {
        double[] attenuationDb = {40, 60, 80, 106};
        double[] overHalfTheRate = {0.2, 0.1, 0.05, 0.02};
        for (int i = 0; i < attenuationDb.length; i++) {
            double[] order = SCIPY.get("kaiserord." + (int) attenuationDb[i]);
            int taps = Kaiser.tapsFor(attenuationDb[i], overHalfTheRate[i] / 2);
            assertEquals((int) order[0] | 1, taps, attenuationDb[i] + " dB");
            assertEquals(order[1], Kaiser.betaFor(attenuationDb[i]), ROUND_OFF);
        }
        int[] taps = {61, 101, 301};
        double[] width = {0.1, 0.2, 0.03};
        double[] reached = SCIPY.get("kaiser_atten");
        for (int i = 0; i < taps.length; i++) {
            // The formula backwards: so many decibels need this many taps and no fewer.
            assertEquals(taps[i], Kaiser.tapsFor(reached[i] - 0.01, width[i] / 2));
            assertEquals(taps[i] + 2, Kaiser.tapsFor(reached[i] + 0.01, width[i] / 2));
        }
        assertArrayEquals(
                SCIPY.get("firwin.kaiserord"),
                FirDesign.design(FirDesign.Spec.lowPass(0.2, 0.05, 60)),
                ROUND_OFF);
    }

    @Test
    void filtersMatchScipy() {
        assertArrayEquals(
                SCIPY.get("firwin.lowpass"), FirDesign.design(41, 7.0, 0, 0.2), ROUND_OFF);
        assertArrayEquals(
                SCIPY.get("firwin.bandpass"), FirDesign.design(61, 7.0, 0.1, 0.2), ROUND_OFF);
    }

    @Test
    void decimatorMatchesScipy() {
        double[] taps = FirDesign.design(41, 7.0, 0, 0.2);
        FirDecimator decimator = new FirDecimator(taps, 2);
        double[] out = new double[decimator.maxOutput(256)];
        int count = decimator.process(SCIPY.get("x256"), 0, 256, out, 0);
        assertEquals(128, count);
        assertArrayEquals(SCIPY.get("fir.decimated"), Arrays.copyOf(out, count), ROUND_OFF);
        FirDecimator fifth = new FirDecimator(FirDesign.design(31, 6.0, 0, 0.08), 5);
        int fifths = fifth.process(SCIPY.get("x256"), 0, 256, out, 0);
        assertArrayEquals(SCIPY.get("decimate.5"), Arrays.copyOf(out, fifths), ROUND_OFF);
    }

    /** The whole band at the record's own rate, except what scipy keeps of bins 0 and n/2. */
    @Test
    void squaredEnvelopeMatchesScipysHilbert() {
        double[] x = SCIPY.get("x256");
        RealFft fft = new RealFft(256);
        double[] re = new double[129];
        double[] im = new double[129];
        fft.forward(x, re, im);
        // Take off what lies in bins 0 and n/2: scipy keeps them, a band of waves has none.
        double[] banded = x.clone();
        for (int i = 0; i < 256; i++) {
            banded[i] -= re[0] / 256 + (i % 2 == 0 ? 1 : -1) * re[128] / 256;
        }
        BandEnvelope envelope = BandEnvelope.squared(banded, 256, 0, 128);
        double[] hilbert = SCIPY.get("hilbert.squared");
        assertEquals(256, envelope.rateHz(), 0);
        for (int i = 0; i < 256; i++) {
            double constant = re[0] / 256 + (i % 2 == 0 ? 1 : -1) * re[128] / 256;
            double imaginarySquared = envelope.valuesSquared()[i] - banded[i] * banded[i];
            double whole = banded[i] + constant;
            assertEquals(hilbert[i], whole * whole + imaginarySquared, 1e-10);
        }
    }

    @Test
    void averagedSpectrumMatchesScipysWelch() {
        Welch welch = Welch.of(SCIPY.get("x256"), 100, new Welch.Spec(64, 32, Window.HANN));
        assertArrayEquals(SCIPY.get("welch"), welch.densityPerHz(), ROUND_OFF);
        for (Window window : Window.values()) {
            if (window != Window.HANN) {
                Welch odd = Welch.of(SCIPY.get("x256"), 100, new Welch.Spec(45, 15, window));
                String name = "welch." + scipyName(window);
                assertArrayEquals(SCIPY.get(name), odd.densityPerHz(), ROUND_OFF, name);
            }
        }
    }

    /** Line powers of scipy's scaling 'spectrum' are density times the window's noise bandwidth. */
    @Test
    void densityTimesNoiseBandwidthIsScipysLinePower() {
        Welch welch = Welch.of(SCIPY.get("x256"), 100, new Welch.Spec(64, 32, Window.FLAT_TOP));
        double bandHz = Window.enbwBins(Window.FLAT_TOP.periodic(64)) * welch.binHz();
        double[] power = Arrays.stream(welch.densityPerHz()).map(d -> d * bandHz).toArray();
        assertArrayEquals(SCIPY.get("welch.spectrum"), power, ROUND_OFF);
    }

    @Test
    void statisticsMatchScipy() {
        double[] x = SCIPY.get("x256");
        assertEquals(SCIPY.get("kurtosis")[0], Statistics.kurtosis(x), ROUND_OFF);
        assertEquals(SCIPY.get("mad")[0], Statistics.mad(x), ROUND_OFF);
        double[] quantiles = SCIPY.get("quantiles");
        double[] shares = {0, 0.1, 0.25, 0.5, 0.77, 1};
        for (int i = 0; i < shares.length; i++) {
            assertEquals(quantiles[i], Statistics.quantile(x, shares[i]), ROUND_OFF);
        }
    }

    /**
     * Squared envelope of (1 + m cos Wt) cos wt, closed form: constant 1 + m²/2, line at W 2m, at
     * 2W m²/2.
     */
    @Test
    void squaredEnvelopeOfAModulatedToneHasItsClosedForm() {
        int n = 8192;
        double rateHz = 8192;
        double[] x = new double[n];
        for (int i = 0; i < n; i++) {
            double t = i / rateHz;
            x[i] = (1 + 0.5 * Math.cos(2 * Math.PI * 10 * t)) * Math.cos(2 * Math.PI * 2000 * t);
        }
        BandEnvelope envelope = BandEnvelope.squared(x, rateHz, 1900, 2100);
        double[] squared = envelope.valuesSquared();
        RealFft fft = new RealFft(squared.length);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(squared, re, im);
        assertEquals(1.125, re[0] / squared.length, ROUND_OFF * n);
        assertEquals(1.0, 2 * Math.hypot(re[10], im[10]) / squared.length, ROUND_OFF * n);
        assertEquals(0.125, 2 * Math.hypot(re[20], im[20]) / squared.length, ROUND_OFF * n);
        double rest = 0;
        for (int k = 1; k < fft.bins(); k++) {
            if (k != 10 && k != 20) {
                rest = Math.max(rest, Math.hypot(re[k], im[k]) / squared.length);
            }
        }
        assertTrue(rest < ROUND_OFF * n, "other lines: " + rest);
    }

    /** Robust z of the outlier in {12,14,13,15,13,14,40}: closed form 17.54. */
    @Test
    void medianDeviationFindsTheOutlier() {
        double[] values = {12, 14, 13, 15, 13, 14, 40};
        double printed = 0.005;
        assertEquals(14, Statistics.median(values), 0);
        assertEquals(1, Statistics.mad(values), 0);
        double z = (40 - 14) / (Statistics.mad(values) * Statistics.MAD_TO_SIGMA);
        assertEquals(17.54, z, printed);
    }

    /** Kurtosis closed forms: sine 1.5, Gaussian 3, Bernoulli-Gaussian 3/p. */
    @Test
    void kurtosisHasItsClosedForms() {
        int n = 200_000;
        double[] sine = new double[1000];
        for (int i = 0; i < sine.length; i++) {
            sine[i] = Math.cos(2 * Math.PI * 7 * i / sine.length);
        }
        assertEquals(1.5, Statistics.kurtosis(sine), ROUND_OFF);
        Random random = new Random(11);
        double[] gaussian = new double[n];
        double[] bernoulli = new double[n];
        for (int i = 0; i < n; i++) {
            gaussian[i] = random.nextGaussian();
            bernoulli[i] = random.nextDouble() < 0.1 ? random.nextGaussian() : 0;
        }
        double fourSigma = 4 * Math.sqrt(24.0 / n); // variance of the estimate for Gaussian values
        assertEquals(3, Statistics.kurtosis(gaussian), fourSigma);
        // Relative variance of a mean fourth power is (E x^8 / (E x^4)^2 - 1)/n = (35/3/p - 1)/n;
        // that of the variance adds less.
        double fourSigmaRatio = 4 * Math.sqrt((35.0 / 3 / 0.1 + 4 * 3 / 0.1) / n);
        assertEquals(30, Statistics.kurtosis(bernoulli), 30 * fourSigmaRatio);
    }

    /**
     * Spectral kurtosis closed forms (Antoni 2006, from memory): steady tone -1, Gaussian 0, on/off
     * Gaussian 2/p - 2.
     */
    @Test
    void spectralKurtosisHasItsClosedForms() {
        int frames = 100_000;
        Random random = new Random(12);
        double[] toneRe = new double[frames];
        double[] toneIm = new double[frames];
        double[] noiseRe = new double[frames];
        double[] noiseIm = new double[frames];
        double[] onRe = new double[frames];
        double[] onIm = new double[frames];
        for (int i = 0; i < frames; i++) {
            double phase = 2 * Math.PI * random.nextDouble();
            toneRe[i] = Math.cos(phase);
            toneIm[i] = Math.sin(phase);
            noiseRe[i] = random.nextGaussian();
            noiseIm[i] = random.nextGaussian();
            boolean on = random.nextDouble() < 0.1;
            onRe[i] = on ? random.nextGaussian() : 0;
            onIm[i] = on ? random.nextGaussian() : 0;
        }
        assertEquals(-1, Statistics.spectralKurtosis(toneRe, toneIm), ROUND_OFF);
        double fourSigma = 4 * Math.sqrt(4.0 / frames); // estimator variance 4/M
        assertEquals(0, Statistics.spectralKurtosis(noiseRe, noiseIm), fourSigma);
        // E P^4 / (E P^2)^2 = 24 / (4 p) for exponential power that is on in p of the frames.
        double fourSigmaRatio = 4 * Math.sqrt((6 / 0.1 + 4 * 2 / 0.1) / frames);
        assertEquals(18, Statistics.spectralKurtosis(onRe, onIm), 20 * fourSigmaRatio);
    }

    @Test
    void designedFiltersReachTheirAttenuation() {
        for (double attenuationDb : new double[] {40, 60, 80, 100}) {
            double[] taps = FirDesign.design(FirDesign.Spec.lowPass(0.2, 0.05, attenuationDb));
            // The formula is a fit, and scaling to gain 1 at zero can add to the ripple: 2 dB.
            double allowed = Math.pow(10, -(attenuationDb - 2) / 20);
            double pass = FirDesign.worstError(taps, 0, 0.175, 1);
            double stop = FirDesign.worstError(taps, 0.225, 0.5, 0);
            assertTrue(pass < allowed, attenuationDb + " dB: pass-band ripple " + pass);
            assertTrue(stop < allowed, attenuationDb + " dB: stop-band leakage " + stop);
        }
    }
}
