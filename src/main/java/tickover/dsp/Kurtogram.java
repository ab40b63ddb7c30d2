package tickover.dsp;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The fast kurtogram: how spiky the envelope is in each band of a tree of ever narrower bands.
 *
 * <p>Level by level each band is cut into halves and, beside that, into thirds, by filters of 17
 * and 25 taps whose outputs are kept at the band's own rate. The figure of a band is the kurtosis
 * of its complex envelope z, {@code <|z|^4> / <|z|^2>^2 - 2}: 0 for Gaussian noise, -1 for a steady
 * tone. The whole record itself stands for level 0, with the kurtosis of its samples less 3. <br>
 * Cost: O(samples levels). The tree is walked depth first, so that most of it stays in the cache;
 * both halves, and all three thirds, are made from one set of sums, for their filters are one
 * low-pass shifted by multiples of an eighth and a twelfth of a turn per sample. Memory: six
 * numbers per sample. <br>
 * Source: [Antoni2007], from memory; the filters by {@link FirDesign} differ from the paper's.
 */
public final class Kurtogram {
    /** Kaiser windows of these filters would be longer for no gain; the paper's are as short. */
    private static final int HALF_ORDER = 16;

    private static final int THIRD_ORDER = 24;

    /** Outputs at either end that did not see the filter full. */
    private static final int HALF_TRIM = HALF_ORDER / 2 + 1;

    private static final int THIRD_TRIM = THIRD_ORDER / 3 + 1;

    /** Zeros before and after each band's values, so that no filter leaves the array. */
    private static final int PAD = THIRD_ORDER;

    private static final int BLOCK = 512;

    /** Corner of the low-pass that is shifted into the halves, over half the sample rate. */
    private static final double HALF_CORNER = 0.4;

    private static final double[] H = lowPass(HALF_ORDER, HALF_CORNER);
    private static final double[] T = lowPass(THIRD_ORDER, HALF_CORNER * 2 / 3);

    private static final double H0 = H[0];
    private static final double H2 = H[2];
    private static final double H4 = H[4];
    private static final double H6 = H[6];
    private static final double H8 = H[8];

    /** Odd taps meet a shift of an odd multiple of an eighth turn: cosine and sine are equal. */
    private static final double EIGHTH = Math.sqrt(0.5);

    private static final double H1 = EIGHTH * H[1];
    private static final double H3 = EIGHTH * H[3];
    private static final double H5 = EIGHTH * H[5];
    private static final double H7 = EIGHTH * H[7];

    private static final double T0 = T[0];
    private static final double T1 = T[1];
    private static final double T2 = T[2];
    private static final double T3 = T[3];
    private static final double T4 = T[4];
    private static final double T5 = T[5];
    private static final double T6 = T[6];
    private static final double T7 = T[7];
    private static final double T8 = T[8];
    private static final double T9 = T[9];
    private static final double T10 = T[10];
    private static final double T11 = T[11];
    private static final double T12 = T[12];

    /** Cosine of a twelfth of a turn. */
    private static final double TWELFTH = Math.sqrt(0.75);

    /**
     * One band and its figure.
     *
     * @param level how often the band was halved; thirds of a level L band stand at L + log2(3)
     * @param loHz lower edge, Hz
     * @param hiHz upper edge, Hz
     * @param kurtosis figure, 0 for Gaussian noise
     */
    public record Band(double level, double loHz, double hiHz, double kurtosis) {}

    private final double sampleRateHz;
    private final int levels;
    private final Node[] halves;
    private final double[][] thirdRe = new double[3][BLOCK];
    private final double[][] thirdIm = new double[3][BLOCK];
    private final List<Band> bands = new ArrayList<>();

    private Kurtogram(double sampleRateHz, int levels, int samples) {
        this.sampleRateHz = sampleRateHz;
        this.levels = levels;
        this.halves = new Node[2 * levels];
        int count = samples;
        for (int level = 1; level < levels; level++) {
            count = Node.halfOf(count);
            halves[2 * level - 2] = new Node(count);
            halves[2 * level - 1] = new Node(count);
        }
        halves[2 * levels - 2] = new Node(BLOCK);
        halves[2 * levels - 1] = new Node(BLOCK);
    }

    /**
     * Computes the kurtogram of a record.
     *
     * @param x samples; their mean is taken off
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param levels how often to halve, 1 to 16; each of the narrowest bands needs 64 values
     * @return the bands, the whole record first, then by level and frequency
     */
    public static List<Band> of(double[] x, double sampleRateHz, int levels) {
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        if (!(levels >= 1 && levels <= 16)) {
            throw new IllegalArgumentException("levels=" + levels + ", need 1 to 16");
        }
        if (!(x.length >> levels >= 64)) {
            throw new IllegalArgumentException(
                    "x.length=" + x.length + ", need >= " + (64 << levels) + " samples");
        }
        Kurtogram made = new Kurtogram(sampleRateHz, levels, x.length);
        Node root = new Node(x.length);
        double mean = Statistics.mean(x);
        for (int i = 0; i < x.length; i++) {
            root.re[PAD + i] = x[i] - mean;
        }
        Moments whole = new Moments();
        whole.add(root.re, root.im, PAD, PAD + x.length);
        made.bands.add(new Band(0, 0, sampleRateHz / 2, whole.kurtosis() - 1));
        made.split(root, 1, 0);
        made.bands.sort(Comparator.comparingDouble(Band::level).thenComparingDouble(Band::loHz));
        return List.copyOf(made.bands);
    }

    /** A band's complex values at its own rate, between zeros. */
    private static final class Node {
        private final int count;
        private final double[] re;
        private final double[] im;

        Node(int count) {
            this.count = count;
            this.re = new double[count + 2 * PAD];
            this.im = new double[count + 2 * PAD];
        }

        static int halfOf(int count) {
            return (count + HALF_ORDER + 1) / 2;
        }
    }

    /** Sums of |z|² and |z|^4. */
    private static final class Moments {
        private double squares;
        private double fourths;
        private long count;

        void add(double[] re, double[] im, int from, int to) {
            double s = 0;
            double f = 0;
            for (int i = from; i < to; i++) {
                double e = re[i] * re[i] + im[i] * im[i];
                s += e;
                f += e * e;
            }
            squares += s;
            fourths += f;
            count += Math.max(0, to - from);
        }

        double kurtosis() {
            return squares > 0 ? count * fourths / (squares * squares) - 2 : 0;
        }
    }

    /** Splits band {@code place} of a level into what belongs to the next one. */
    private void split(Node band, int level, int place) {
        thirds(band, level, place);
        boolean last = level == levels;
        Node low = halves[2 * level - 2];
        Node high = halves[2 * level - 1];
        int outputs = Node.halfOf(band.count);
        Moments ofLow = new Moments();
        Moments ofHigh = new Moments();
        for (int from = 0; from < outputs; from += BLOCK) {
            int to = Math.min(outputs, from + BLOCK);
            int at = last ? PAD : PAD + from;
            halve(band, from, to, low, high, at);
            int a = at - from + Math.max(from, HALF_TRIM);
            int b = at - from + Math.min(to, outputs - HALF_TRIM);
            ofLow.add(low.re, low.im, a, b);
            ofHigh.add(high.re, high.im, a, b);
        }
        double widthHz = sampleRateHz / 2 / (1 << level);
        add(level, 2 * place, widthHz, ofLow);
        add(level, 2 * place + 1, widthHz, ofHigh);
        if (!last) {
            split(low, level + 1, 2 * place);
            split(high, level + 1, 2 * place + 1);
        }
    }

    private void add(double level, int place, double widthHz, Moments moments) {
        bands.add(new Band(level, place * widthHz, (place + 1) * widthHz, moments.kurtosis()));
    }

    /** Both halves for outputs {@code from} to before {@code to}, written from {@code at} on. */
    private static void halve(Node band, int from, int to, Node low, Node high, int at) {
        double[] re = band.re;
        double[] im = band.im;
        for (int m = from; m < to; m++) {
            int i = PAD + 2 * m;
            int o = at + m - from;
            double oneRe = half1(re, i);
            double oneIm = half1(im, i);
            double threeRe = half3(re, i);
            double threeIm = half3(im, i);
            double turnedRe = oneRe - threeRe - half2(im, i);
            double turnedIm = oneIm - threeIm + half2(re, i);
            double commonRe = half0(re, i) - (oneIm + threeIm);
            double commonIm = half0(im, i) + (oneRe + threeRe);
            low.re[o] = commonRe + turnedRe;
            low.im[o] = commonIm + turnedIm;
            // Every other value of the upper half changes sign, which puts its lower edge at zero.
            double sign = 1 - 2 * (m & 1);
            high.re[o] = sign * (commonRe - turnedRe);
            high.im[o] = sign * (commonIm - turnedIm);
        }
    }

    // Taps that meet the same shift, modulo half a turn, belong to one sum. The low-pass is
    // symmetric, so that tap k equals tap 16 - k.

    private static double half0(double[] c, int i) {
        return H0 * (c[i] + c[i - 16]) - H4 * (c[i - 4] + c[i - 12]) + H8 * c[i - 8];
    }

    private static double half1(double[] c, int i) {
        return H1 * c[i - 1] - H5 * c[i - 5] + H7 * c[i - 9] - H3 * c[i - 13];
    }

    private static double half2(double[] c, int i) {
        return H2 * (c[i - 2] - c[i - 14]) - H6 * (c[i - 6] - c[i - 10]);
    }

    private static double half3(double[] c, int i) {
        return H3 * c[i - 3] - H7 * c[i - 7] + H5 * c[i - 11] - H1 * c[i - 15];
    }

    private void thirds(Node band, int level, int place) {
        int outputs = (band.count + THIRD_ORDER + 2) / 3;
        Moments[] moments = {new Moments(), new Moments(), new Moments()};
        int end = outputs - THIRD_TRIM;
        for (int from = THIRD_TRIM; from < end; from += BLOCK) {
            int count = Math.min(BLOCK, end - from);
            cut(band, from, count);
            for (int j = 0; j < 3; j++) {
                moments[j].add(thirdRe[j], thirdIm[j], 0, count);
            }
        }
        double widthHz = sampleRateHz / 2 / (1 << (level - 1)) / 3;
        for (int j = 0; j < 3; j++) {
            add(level - 1 + Math.log(3) / Math.log(2), 3 * place + j, widthHz, moments[j]);
        }
    }

    private void cut(Node band, int from, int count) {
        double[] re = band.re;
        double[] im = band.im;
        for (int m = 0; m < count; m++) {
            int i = PAD + 3 * (from + m);
            double re1 = third1(re, i);
            double im1 = third1(im, i);
            double re2 = third2(re, i);
            double im2 = third2(im, i);
            double re4 = third4(re, i);
            double im4 = third4(im, i);
            double re5 = third5(re, i);
            double im5 = third5(im, i);
            double re0 = third0(re, i);
            double im0 = third0(im, i);
            double re3 = third3(re, i);
            double im3 = third3(im, i);
            double evenRe = re0 - im3 + (re2 - re4 - im1 - im5) / 2;
            double evenIm = im0 + re3 + (im2 - im4 + re1 + re5) / 2;
            double oddRe = TWELFTH * (re1 - re5 - im2 - im4);
            double oddIm = TWELFTH * (im1 - im5 + re2 + re4);
            thirdRe[0][m] = evenRe + oddRe;
            thirdIm[0][m] = evenIm + oddIm;
            thirdRe[1][m] = re0 - re2 + re4 - im1 + im3 - im5;
            thirdIm[1][m] = im0 - im2 + im4 + re1 - re3 + re5;
            thirdRe[2][m] = evenRe - oddRe;
            thirdIm[2][m] = evenIm - oddIm;
        }
    }

    private static double third0(double[] c, int i) {
        return T0 * (c[i] + c[i - 24]) - T6 * (c[i - 6] + c[i - 18]) + T12 * c[i - 12];
    }

    private static double third1(double[] c, int i) {
        return T1 * c[i - 1] - T7 * c[i - 7] + T11 * c[i - 13] - T5 * c[i - 19];
    }

    private static double third2(double[] c, int i) {
        return T2 * c[i - 2] - T8 * c[i - 8] + T10 * c[i - 14] - T4 * c[i - 20];
    }

    private static double third3(double[] c, int i) {
        return T3 * (c[i - 3] - c[i - 21]) - T9 * (c[i - 9] - c[i - 15]);
    }

    private static double third4(double[] c, int i) {
        return T4 * c[i - 4] - T10 * c[i - 10] + T8 * c[i - 16] - T2 * c[i - 22];
    }

    private static double third5(double[] c, int i) {
        return T5 * c[i - 5] - T11 * c[i - 11] + T7 * c[i - 17] - T1 * c[i - 23];
    }

    /** A low-pass under a Hamming window, gain 1 at zero; corner over half the sample rate. */
    private static double[] lowPass(int order, double corner) {
        double[] taps = Window.HAMMING.symmetric(order + 1);
        double sum = 0;
        for (int i = 0; i <= order; i++) {
            taps[i] *= FirDesign.sinc(corner * (i - order / 2));
            sum += taps[i];
        }
        for (int i = 0; i <= order; i++) {
            taps[i] /= sum;
        }
        return taps;
    }
}
