package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class KurtogramTest {
    private static final double RATE_HZ = 25_600;

    @Test
    void figuresAreThoseOfThePlainFilters() {
        double[] x = noise(1000, 1);
        for (int i = 0; i < x.length; i += 77) {
            x[i] += 8;
        }
        List<Kurtogram.Band> bands = Kurtogram.of(x, RATE_HZ, 3);
        List<Kurtogram.Band> plain = plain(x, 3);
        assertEquals(plain.size(), bands.size());
        for (int i = 0; i < plain.size(); i++) {
            assertEquals(plain.get(i).level(), bands.get(i).level(), 1e-12);
            assertEquals(plain.get(i).loHz(), bands.get(i).loHz(), 1e-9);
            assertEquals(plain.get(i).hiHz(), bands.get(i).hiHz(), 1e-9);
            double roundOff = 1e-11; // of sums over 1000 values
            assertEquals(plain.get(i).kurtosis(), bands.get(i).kurtosis(), roundOff);
        }
    }

    @Test
    void aSteadyToneReadsMinusOneInItsBand() {
        double[] x = new double[1 << 15];
        Arrays.setAll(x, i -> Math.cos(2 * Math.PI * 4000 * i / RATE_HZ));
        double stopBand = 0.01; // of the short filters, from the mirror image at -4 kHz
        Kurtogram.of(x, RATE_HZ, 3).stream()
                .filter(b -> b.level() == 3 && b.loHz() == 3200)
                .forEach(b -> assertEquals(-1, b.kurtosis(), stopBand));
    }

    @Test
    void ringingKnocksStandOutInTheirOwnBand() {
        double[] x = noise(1 << 17, 2);
        for (int at = 500; at + 200 < x.length; at += 1700) {
            for (int i = 0; i < 200; i++) {
                double t = i / RATE_HZ;
                x[at + i] += 12 * Math.exp(-900 * t) * Math.sin(2 * Math.PI * 4200 * t);
            }
        }
        Kurtogram.Band best =
                Kurtogram.of(x, RATE_HZ, 5).stream()
                        .max(Comparator.comparingDouble(Kurtogram.Band::kurtosis))
                        .orElseThrow();
        assertTrue(best.loHz() < 4200 && best.hiHz() > 4200, best.toString());
    }

    @Test
    void refusesMoreLevelsThanTheRecordHolds() {
        assertThrows(
                IllegalArgumentException.class, () -> Kurtogram.of(new double[1000], RATE_HZ, 4));
    }

    private static double[] noise(int count, long seed) {
        Random random = new Random(seed);
        double[] x = new double[count];
        Arrays.setAll(x, i -> random.nextGaussian());
        return x;
    }

    private static List<Kurtogram.Band> plain(double[] x, int levels) {
        double mean = Statistics.mean(x);
        double[][] root = {x.clone(), new double[x.length]};
        Arrays.setAll(root[0], i -> x[i] - mean);
        List<Kurtogram.Band> out = new ArrayList<>();
        double whole = figure(root, 0) - 1;
        out.add(new Kurtogram.Band(0, 0, RATE_HZ / 2, whole));
        List<double[][]> bands = new ArrayList<>();
        bands.add(root);
        for (int level = 1; level <= levels; level++) {
            List<double[][]> halves = new ArrayList<>();
            double wideHz = RATE_HZ / (1 << level);
            for (int i = 0; i < bands.size(); i++) {
                for (int j = 0; j < 3; j++) {
                    double[][] z = filter(bands.get(i), 24, 0.8 / 3, (2 * j + 1) / 12.0, 3);
                    double lo = (i + j / 3.0) * wideHz;
                    double at = level - 1 + Math.log(3) / Math.log(2);
                    out.add(new Kurtogram.Band(at, lo, lo + wideHz / 3, figure(z, 9)));
                }
                for (int j = 0; j < 2; j++) {
                    double[][] z = filter(bands.get(i), 16, 0.4, (2 * j + 1) / 8.0, 2);
                    double lo = (i + j / 2.0) * wideHz;
                    out.add(new Kurtogram.Band(level, lo, lo + wideHz / 2, figure(z, 9)));
                    for (int m = 1; j == 1 && m < z[0].length; m += 2) {
                        z[0][m] = -z[0][m];
                        z[1][m] = -z[1][m];
                    }
                    halves.add(z);
                }
            }
            bands = halves;
        }
        out.sort(
                Comparator.comparingDouble(Kurtogram.Band::level)
                        .thenComparingDouble(Kurtogram.Band::loHz));
        return out;
    }

    private static double figure(double[][] z, int trim) {
        double squares = 0;
        double fourths = 0;
        int n = z[0].length - 2 * trim;
        for (int i = trim; i < trim + n; i++) {
            double e = z[0][i] * z[0][i] + z[1][i] * z[1][i];
            squares += e / n;
            fourths += e * e / n;
        }
        return fourths / (squares * squares) - 2;
    }

    /** A low-pass of a corner over half the rate, shifted by some turns per sample. */
    private static double[][] filter(
            double[][] z, int order, double corner, double shiftTurns, int keepEvery) {
        double[] taps = Window.HAMMING.symmetric(order + 1);
        Arrays.setAll(taps, k -> taps[k] * FirDesign.sinc(corner * (k - order / 2)));
        double gain = Arrays.stream(taps).sum();
        int n = z[0].length;
        double[][] out = new double[2][(n + order - 1) / keepEvery + 1];
        for (int m = 0; m < out[0].length; m++) {
            for (int k = 0; k <= order; k++) {
                int i = m * keepEvery - k;
                if (i >= 0 && i < n) {
                    double cos = taps[k] / gain * Math.cos(2 * Math.PI * shiftTurns * k);
                    double sin = taps[k] / gain * Math.sin(2 * Math.PI * shiftTurns * k);
                    out[0][m] += cos * z[0][i] - sin * z[1][i];
                    out[1][m] += cos * z[1][i] + sin * z[0][i];
                }
            }
        }
        return out;
    }
}
