package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A filter and its twin in one walk, against both apart. */
class QuadratureSquaresTest {
    private static final int FACTOR = 3;

    private static double[] taps(int count, boolean symmetric) {
        Random random = new Random(symmetric ? 5 : 6);
        double[] taps = new double[count];
        for (int i = 0; i < count / 2; i++) {
            taps[i] = random.nextGaussian();
            taps[count - 1 - i] = symmetric ? taps[i] : -taps[i];
        }
        if (count % 2 == 1) {
            taps[count / 2] = symmetric ? random.nextGaussian() : 0;
        }
        return taps;
    }

    private static double[] noise(int count) {
        Random random = new Random(7);
        double[] x = new double[count];
        for (int i = 0; i < count; i++) {
            x[i] = random.nextGaussian();
        }
        return x;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 6, 7, 8, 41, 64})
    void agreesWithTwoFiltersWorkedOutApart(int taps) {
        double[] even = taps(taps, true);
        double[] odd = taps(taps, false);
        double[] x = noise(1000);
        double[] values = new double[x.length];
        int count = new QuadratureSquares(even, odd, FACTOR).addTo(x, 0, 1, x.length, values);
        double[] re = new double[x.length];
        double[] im = new double[x.length];
        assertEquals(count, new FirDecimator(even, FACTOR).process(x, 0, x.length, re, 0));
        new FirDecimator(odd, FACTOR).process(x, 0, x.length, im, 0);
        // Round-off of as many additions in another order, of values about as large as taps.
        double roundOff = 1e-13 * taps;
        for (int i = 0; i < count; i++) {
            double apart = re[i] * re[i] + im[i] * im[i];
            assertEquals(apart, values[i], roundOff * (1 + apart));
        }
    }

    @Test
    void addsToWhatIsThereAndReadsItsOwnChannelOnly() {
        double[] x = noise(300);
        double[] twoChannels = new double[600];
        for (int i = 0; i < x.length; i++) {
            twoChannels[2 * i + 1] = x[i];
        }
        double[] even = taps(9, true);
        double[] odd = taps(9, false);
        double[] alone = new double[300];
        int count = new QuadratureSquares(even, odd, FACTOR).addTo(x, 0, 1, 300, alone);
        double[] added = new double[300];
        Arrays.fill(added, 1);
        new QuadratureSquares(even, odd, FACTOR).addTo(twoChannels, 1, 2, 300, added);
        for (int i = 0; i < count; i++) {
            assertEquals(1 + alone[i], added[i]);
        }
    }

    @Test
    void blocksOfAnySizeGiveTheSameToTheLastBit() {
        double[] x = noise(2000);
        double[] even = taps(33, true);
        double[] odd = taps(33, false);
        double[] whole = new double[2000];
        new QuadratureSquares(even, odd, FACTOR).addTo(x, 0, 1, 2000, whole);
        QuadratureSquares cut = new QuadratureSquares(even, odd, FACTOR);
        Random random = new Random(8);
        int seen = 0;
        for (int from = 0; from < 2000; ) {
            int block = Math.min(1 + random.nextInt(90), 2000 - from);
            double[] piece = new double[block];
            int count = cut.addTo(x, from, 1, block, piece);
            for (int i = 0; i < count; i++) {
                assertEquals(whole[seen++], piece[i]);
            }
            from += block;
        }
    }

    @Test
    void nothingIsAllocatedWhenWarm() {
        QuadratureSquares squares = new QuadratureSquares(taps(65, true), taps(65, false), FACTOR);
        double[] x = noise(512);
        double[] values = new double[512];
        assertEquals(0, AllocationMeter.bytesOf(() -> squares.addTo(x, 0, 1, 512, values)));
    }
}
