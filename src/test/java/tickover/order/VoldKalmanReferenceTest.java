package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.dsp.SymmetricBand;

/** The filter against published formulas, closed forms and its plain full-rate twin. */
class VoldKalmanReferenceTest {
    /** Weights at B = 10 Hz and 1000 Hz, five and six digits, from [Tuma2005] (from memory). */
    @Test
    void weightsMatchTheirFormula() {
        double printedFirst = 0.0005;
        double printedSecond = 0.005;
        assertEquals(20.487, VoldKalman.weight(1, 0.01), printedFirst);
        assertEquals(652.15, VoldKalman.weight(2, 0.01), printedSecond);
        // For narrow bands r goes to .204862 / ratio and .0652097 / ratio².
        double printedRatio = 1e-5;
        assertEquals(1, VoldKalman.weight(1, 1e-6) / (0.204862 / 1e-6), printedRatio);
        assertEquals(1, VoldKalman.weight(2, 1e-6) / (0.0652097 / 1e-12), printedRatio);
    }

    /** What passes of a lone line at an offset, dB to two decimals, B = 10 Hz at 1000 Hz. */
    @ParameterizedTest
    @CsvSource({
        "1, 2.5, -0.86",
        "1, 5, -3.01",
        "1, 10, -8.49",
        "2, 2.5, -0.22",
        "2, 5, -3.01",
        "2, 10, -17.64"
    })
    void gainsMatchTheTable(int differences, double offsetHz, double gainDb) {
        double printed = 0.005;
        double formulaDb = 20 * Math.log10(VoldKalman.gain(differences, 0.01, offsetHz / 1000));
        assertEquals(gainDb, formulaDb, printed, "formula");
        // Order 10 of a shaft at 20 Hz stands at 200 Hz.
        for (int side = -1; side <= 1; side += 2) {
            SweptRecord record = new SweptRecord(1000, 1200, 1200, 20);
            record.add(0, 200 + side * offsetHz, 0.4, 1);
            double[] signal =
                    record.track(differences, TrackedLine.orderWithinHz(10, 10)).signal(0);
            double[] middle = Arrays.copyOfRange(signal, 5000, 15_000);
            double measuredDb = 20 * Math.log10(SweptRecord.rms(middle) * Math.sqrt(2));
            assertEquals(gainDb, measuredDb, printed, "measured at " + side * offsetHz + " Hz");
        }
    }

    /** The wanted accuracy is 0.5 %; what is held here is that of the sums. */
    @ParameterizedTest
    @CsvSource({"1, 0.1", "2, 0.1", "1, 1", "2, 1", "2, 2", "1, 8", "2, 8", "2, 100"})
    void constantAmplitudeIsExactAtAnyBandwidth(int differences, double bandwidthHz) {
        double wanted = 1e-6;
        SweptRecord record = new SweptRecord(25_600, 900, 3000, 60).add(4, 0, 0.3, 2);
        LineTrack track =
                record.track(differences, TrackedLine.orderWithinHz(4, bandwidthHz))
                        .tracks()
                        .get(0);
        assertTrue(track.rms().length >= 12 * bandwidthHz * 60);
        assertEquals(0, SweptRecord.worstError(track, 2), wanted);
        for (double phase : track.phaseDeg()) {
            assertEquals(0.3, Math.toRadians(phase), wanted);
        }
    }

    /**
     * Orders a twentieth apart and a tone that two of them cross, solved together in noise at a
     * tenth of a hertz and 25.6 kHz: wanted within 0.5 %.
     */
    @ParameterizedTest
    @CsvSource({"1, 0.1", "2, 0.1", "1, 1", "2, 1"})
    void severalLinesTogetherAreSoundAtATenthOfAHertz(int differences, double bandwidthHz) {
        double wanted = 0.005;
        SweptRecord record =
                new SweptRecord(25_600, 900, 1500, 60)
                        .add(2, 0, 0.3, 1)
                        .add(2.05, 0, 1.3, 0.5)
                        .add(0, 40, 2.3, 0.8)
                        .addNoise(0.02, 9);
        List<LineTrack> tracks =
                record.track(
                                differences,
                                TrackedLine.orderWithinHz(2, bandwidthHz),
                                TrackedLine.orderWithinHz(2.05, bandwidthHz),
                                TrackedLine.toneWithinHz(40, bandwidthHz))
                        .tracks();
        assertEquals(0, SweptRecord.worstError(tracks.get(0), 1), wanted, "order 2");
        assertEquals(0, SweptRecord.worstError(tracks.get(1), 0.5), wanted, "order 2.05");
        assertEquals(0, SweptRecord.worstError(tracks.get(2), 0.8), wanted, "tone");
    }

    /** Highest order of samples at 3200 Hz, textbook: 120 at 800 rpm, 32 at 3000 rpm. */
    @ParameterizedTest
    @CsvSource({"800, 120", "3000, 32"})
    void highestOrderIsHalfTheRateOverTheSpeed(double rpm, double highestOrders) {
        SweptRecord record = new SweptRecord(3200, rpm, rpm, 10);
        // 1.6 Hz below half the rate, and so 3.2 Hz from where it folds to: several bandwidths.
        TrackedLine below = TrackedLine.orderWithinHz(0.999 * highestOrders, 0.5);
        record.add(below.order(), 0, 0, 1);
        LineTrack track = record.track(2, below).tracks().get(0);
        double roundOff = 1e-6;
        assertEquals(0, SweptRecord.worstError(track, 1), roundOff);
        TrackedLine above = TrackedLine.orderWithinHz(1.001 * highestOrders, 0.5);
        assertThrows(IllegalArgumentException.class, () -> record.track(2, above));
    }

    /** At a tenth of a hertz the width is still what was asked for. */
    @ParameterizedTest
    @CsvSource({"1", "2"})
    void narrowBandIsThreeDecibelsDownAtItsEdge(int differences) {
        SweptRecord record = new SweptRecord(25_600, 1500, 1500, 60).add(0, 200.05, 0, 1);
        LineTrack track =
                record.track(differences, TrackedLine.orderWithinHz(8, 0.1)).tracks().get(0);
        int n = track.rms().length;
        double[] middle = Arrays.copyOfRange(track.rms(), n / 3, 2 * n / 3);
        // Three time constants of the filter lie between the ends and the middle third.
        double ends = 0.2;
        assertEquals(
                -3.01, 20 * Math.log10(SweptRecord.rms(middle) * Math.sqrt(2)), ends, "gain, dB");
    }

    /**
     * The plain filter solves for an amplitude at every sample. Two lines that cross, noise, and a
     * bandwidth at which it is still sound.
     */
    @ParameterizedTest
    @CsvSource({"1, 0", "2, 0", "2, 0.5"})
    void agreesWithThePlainFilterAtFullRate(int differences, double noise) {
        double rateHz = 1000;
        TrackedLine order = TrackedLine.orderWithinHz(4, 8);
        TrackedLine tone = TrackedLine.toneWithinHz(100, 4);
        SweptRecord record =
                new SweptRecord(rateHz, 900, 2100, 4)
                        .add(4, 0, 0.5, t -> 1 + 0.3 * Math.sin(2 * t))
                        .add(0, 100, 2, t -> 0.5 + 0.1 * t)
                        .addNoise(noise, 7);
        double[][] plain = plain(record, differences, order, tone);
        LineTracks tracks = record.track(differences, order, tone);
        // Below -88 dB of what stands in the band, and as much of the noise in its skirts.
        double spline = 2e-4 + 1e-3 * noise;
        for (int k = 0; k < 2; k++) {
            double[] difference = SweptRecord.minus(tracks.signal(k), plain[k]);
            assertEquals(0, SweptRecord.rms(difference), spline, "line " + k);
        }
    }

    /** Signals of lines by the normal equations over samples; no constant, no splines. */
    private static double[][] plain(SweptRecord record, int differences, TrackedLine... lines) {
        int samples = record.x.length;
        int stride = 2 * lines.length;
        SymmetricBand matrix = new SymmetricBand(stride * samples, stride * (differences + 1));
        double[] right = new double[stride * samples];
        double[][] shape = new double[samples][stride];
        double[] step = differences == 1 ? new double[] {-1, 1} : new double[] {1, -2, 1};
        for (int i = 0; i < samples; i++) {
            double t = i / record.rateHz;
            for (int k = 0; k < lines.length; k++) {
                double turns = lines[k].order() * record.turnsAt(t) + lines[k].toneHz() * t;
                shape[i][2 * k] = Math.cos(2 * Math.PI * turns);
                shape[i][2 * k + 1] = -Math.sin(2 * Math.PI * turns);
            }
            for (int a = 0; a < stride; a++) {
                right[i * stride + a] = shape[i][a] * record.x[i];
                for (int b = 0; b <= a; b++) {
                    matrix.add(i * stride + a, i * stride + b, shape[i][a] * shape[i][b]);
                }
            }
            for (int a = 0; i + differences < samples && a < stride; a++) {
                double r =
                        VoldKalman.weight(differences, lines[a / 2].bandwidthHz() / record.rateHz);
                for (int p = 0; p < step.length; p++) {
                    for (int q = 0; q <= p; q++) {
                        matrix.add(
                                (i + p) * stride + a,
                                (i + q) * stride + a,
                                r * r / 2 * step[p] * step[q]);
                    }
                }
            }
        }
        assertTrue(matrix.factor());
        double[] solution = matrix.solve(right);
        double[][] out = new double[lines.length][samples];
        for (int i = 0; i < samples; i++) {
            for (int a = 0; a < stride; a++) {
                out[a / 2][i] += shape[i][a] * solution[i * stride + a];
            }
        }
        return out;
    }
}
