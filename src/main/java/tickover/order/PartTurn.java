package tickover.order;

import tickover.dsp.RealFft;

/**
 * One turn of a part as a dense table of its harmonics, read at any angle.
 *
 * <p>Between entries a cubic through four of them is read. With 80 entries per cycle of the highest
 * harmonic its error is below {@code (9/16) / 24 (2 pi / 80)^4} = 9e-7 of that harmonic.
 */
final class PartTurn {
    private static final int ENTRIES_PER_CYCLE = 80;

    private final int entries;
    private final double[] table;

    /** Tables harmonics 0 (not used), 1, 2, … of amplitudes {@code re + j im}. */
    PartTurn(double[] re, double[] im) {
        int wanted = ENTRIES_PER_CYCLE * (re.length - 1);
        entries = Integer.highestOneBit(wanted - 1) << 1;
        double[] turn = of(re, im, entries);
        // Entry -1 stands first and entries 0 and 1 once more last, so that no index wraps.
        table = new double[entries + 3];
        table[0] = turn[entries - 1];
        System.arraycopy(turn, 0, table, 1, entries);
        table[entries + 1] = turn[0];
        table[entries + 2] = turn[1];
    }

    /** One turn of {@code sum over k of Re((re + j im) exp(j 2 pi k i / count))}. */
    static double[] of(double[] re, double[] im, int count) {
        RealFft fft = new RealFft(count);
        double[] binRe = new double[fft.bins()];
        double[] binIm = new double[fft.bins()];
        for (int k = 1; k < re.length; k++) {
            binRe[k] = re[k] * count / 2;
            binIm[k] = im[k] * count / 2;
        }
        double[] turn = new double[count];
        fft.inverse(binRe, binIm, turn);
        return turn;
    }

    /** The value at an angle in turns of the part. */
    double at(double turns) {
        double place = (turns - Math.floor(turns)) * entries;
        int i = Math.min(entries - 1, (int) place);
        double u = place - i;
        double a = table[i];
        double b = table[i + 1];
        double c = table[i + 2];
        double d = table[i + 3];
        double third = (d - a) / 6 + (b - c) / 2;
        double second = (a + c) / 2 - b;
        double first = c - a / 3 - b / 2 - d / 6;
        return b + u * (first + u * (second + u * third));
    }
}
