package tickover.dsp;

import java.util.Arrays;

/**
 * The discrete Fourier transform of a record at any frequency, not only at whole bins.
 *
 * <p>The record, lifted towards its ends, is padded to at least one and a half times its length and
 * transformed once; a value between bins is then a sum over the {@value #WIDTH} bins next to it,
 * weighed by a Kaiser window whose own transform undoes the lifting. Convention: {@code X(f) = sum
 * over i of x[i] exp(-j 2 pi f (i - m))} with {@code m = length / 2}, unscaled, f in cycles per
 * sample, 0 to 0.5.
 *
 * <p>Accuracy: 1e-13 of the sum of magnitudes. <br>
 * Cost: one transform of one and a half to three times the length for each record, then O(1) for
 * each value. <br>
 * Thread: one per instance; a {@link Spectrum} any. <br>
 * Source: derived here; the transform of Kaiser's window is from memory.
 */
public final class OffGridTransform {
    /** Bins that make one value. */
    private static final int WIDTH = 16;

    /** Least length after padding over the length before. */
    private static final double LEAST_RATIO = 1.5;

    private final int length;
    private final int size;

    /** Shape of the window: it has died away where the padded length folds. */
    private final double beta;

    private final double[] lift;
    private final RealFft fft;
    private final double[] padded;

    /**
     * Prepares for records of one length.
     *
     * @param length samples, &gt;= 2
     */
    public OffGridTransform(int length) {
        if (!(length >= 2)) {
            throw new IllegalArgumentException("length=" + length + ", need >= 2 samples");
        }
        this.length = length;
        this.size = Math.max(2 * WIDTH, RealFft.goodSize((int) Math.ceil(LEAST_RATIO * length)));
        double fold = (1 - 0.5 * length / size) * WIDTH;
        this.beta = Math.PI * Math.sqrt(fold * fold - 0.8);
        this.fft = new RealFft(size);
        this.padded = new double[size];
        this.lift = new double[length];
        int middle = length / 2;
        for (int d = 0; d <= middle; d++) {
            double here = 1 / Kaiser.transform((double) d / size, WIDTH, beta);
            lift[middle - d] = here;
            if (middle + d < length) {
                lift[middle + d] = here;
            }
        }
    }

    /**
     * Transforms a record.
     *
     * @param x samples, as many as prepared for; not kept
     * @return its transform
     */
    public Spectrum of(double[] x) {
        if (x.length != length) {
            throw new IllegalArgumentException("x.length=" + x.length + ", need " + length);
        }
        int middle = length / 2;
        Arrays.fill(padded, 0);
        for (int i = 0; i < length; i++) {
            padded[i < middle ? size + i - middle : i - middle] = x[i] * lift[i];
        }
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(padded, re, im);
        return new Spectrum(re, im);
    }

    /**
     * Weights for one frequency, the same for all records of this length.
     *
     * @param cyclesPerSample 0 to 0.5
     * @return weights
     */
    public Between between(double cyclesPerSample) {
        if (!(cyclesPerSample >= 0 && cyclesPerSample <= 0.5)) {
            throw new IllegalArgumentException(
                    "cyclesPerSample=" + cyclesPerSample + ", need 0 to 0.5");
        }
        double at = cyclesPerSample * size;
        int first = (int) Math.floor(at) - WIDTH / 2 + 1;
        double[] weights = new double[WIDTH];
        for (int k = 0; k < WIDTH; k++) {
            weights[k] = Kaiser.weight((first + k - at) / (WIDTH / 2.0), beta);
        }
        return new Between(first, weights);
    }

    /** What a value between bins is made of. */
    public static final class Between {
        private final int first;
        private final double[] weights;

        private Between(int first, double[] weights) {
            this.first = first;
            this.weights = weights;
        }
    }

    /** The transform of one record. Immutable. */
    public static final class Spectrum {
        private final double[] re;
        private final double[] im;

        private Spectrum(double[] re, double[] im) {
            this.re = re;
            this.im = im;
        }

        /**
         * Returns the squared magnitude at a frequency.
         *
         * @param place the frequency, prepared for records of this length
         * @return unit of the samples squared
         */
        public double squared(Between place) {
            double sumRe = 0;
            double sumIm = 0;
            int top = re.length - 1;
            for (int k = 0; k < WIDTH; k++) {
                int bin = place.first + k;
                double w = place.weights[k];
                if (bin < 0) {
                    sumRe += w * re[-bin];
                    sumIm -= w * im[-bin];
                } else if (bin > top) {
                    sumRe += w * re[2 * top - bin];
                    sumIm -= w * im[2 * top - bin];
                } else {
                    sumRe += w * re[bin];
                    sumIm += w * im[bin];
                }
            }
            return sumRe * sumRe + sumIm * sumIm;
        }
    }
}
