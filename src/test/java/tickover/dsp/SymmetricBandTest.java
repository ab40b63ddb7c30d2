package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The banded solver and the cosines it is fed with. */
class SymmetricBandTest {
    @ParameterizedTest
    @CsvSource({"1, 0", "2, 1", "5, 4", "40, 3", "200, 17"})
    void solutionSatisfiesTheEquations(int size, int reach) {
        Random random = new Random(size);
        double[][] dense = new double[size][size];
        SymmetricBand band = new SymmetricBand(size, reach);
        for (int i = 0; i < size; i++) {
            for (int j = Math.max(0, i - reach); j <= i; j++) {
                double value = random.nextGaussian() + (i == j ? 4 * reach + 4 : 0);
                dense[i][j] = value;
                dense[j][i] = value;
                // Either triangle may be filled; the diagonal gets both halves.
                band.add(i, j, value / 2);
                band.add(j, i, value / 2);
            }
        }
        double[] right = random.doubles(size).toArray();
        assertTrue(band.factor());
        double[] x = band.solve(right);
        double roundOff = 1e-13;
        for (int i = 0; i < size; i++) {
            double sum = 0;
            for (int j = 0; j < size; j++) {
                sum += dense[i][j] * x[j];
            }
            assertEquals(right[i], sum, roundOff);
        }
    }

    @Test
    void noticesWhatIsNotPositiveDefinite() {
        SymmetricBand band = new SymmetricBand(3, 1);
        band.add(0, 0, 1);
        band.add(1, 1, 1);
        band.add(0, 1, 1);
        band.add(2, 2, 1);
        assertFalse(band.factor());
        assertThrows(IllegalStateException.class, () -> band.solve(new double[3]));
        assertThrows(IllegalArgumentException.class, () -> band.add(0, 2, 1));
    }

    /** Java's own are within 1 ulp; the reduction to half a turn is exact for whole sixteenths. */
    @Test
    void cosinesOfTurnsMatchTheLibrarys() {
        double[] turns = new double[32_001];
        for (int i = 0; i < turns.length; i++) {
            turns[i] = (i - 16_000) / 16_384.0 * 3;
        }
        double[] cos = new double[turns.length];
        double[] sin = new double[turns.length];
        CosSin.ofTurns(turns, turns.length, cos, sin);
        double roundOff = 5e-15;
        for (int i = 0; i < turns.length; i++) {
            double angle = 2 * Math.PI * (turns[i] - Math.rint(turns[i]));
            assertEquals(Math.cos(angle), cos[i], roundOff);
            assertEquals(Math.sin(angle), sin[i], roundOff);
        }
        CosSin.ofTurns(new double[] {1e9 + 0.25}, 1, cos, sin);
        assertEquals(0, cos[0], roundOff);
        assertEquals(1, sin[0], roundOff);
    }
}
