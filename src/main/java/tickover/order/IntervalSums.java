package tickover.order;

/**
 * Sums of products of lines against powers of v, which rises by {@code step} per sample from {@code
 * start} at the first one.
 */
final class IntervalSums {
    private IntervalSums() {}

    /** Adds up the samples in use, which are 1, the others 0, against 1 to v^6. */
    static void addPowers(
            double[] used, int from, int to, double start, double step, double[] sums) {
        for (int i = from; i < to; i++) {
            double v = start + (i - from) * step;
            double power = used[i];
            for (int m = 0; m < SplineBasis.PRODUCT_TERMS; m++) {
                sums[m] += power;
                power *= v;
            }
        }
    }

    /** Adds up the signal times cosine and times sine, against 1, v, v², v³. */
    static void addLine(
            double[] signal,
            double[] cos,
            double[] sin,
            int from,
            int to,
            double start,
            double step,
            double[] sums,
            int at) {
        double c0 = 0;
        double c1 = 0;
        double c2 = 0;
        double c3 = 0;
        double s0 = 0;
        double s1 = 0;
        double s2 = 0;
        double s3 = 0;
        for (int i = from; i < to; i++) {
            double v = start + (i - from) * step;
            double v2 = v * v;
            double v3 = v2 * v;
            double c = signal[i] * cos[i];
            double s = signal[i] * sin[i];
            c0 += c;
            c1 += c * v;
            c2 += c * v2;
            c3 += c * v3;
            s0 += s;
            s1 += s * v;
            s2 += s * v2;
            s3 += s * v3;
        }
        sums[at] += c0;
        sums[at + 1] += c1;
        sums[at + 2] += c2;
        sums[at + 3] += c3;
        sums[at + 4] += s0;
        sums[at + 5] += s1;
        sums[at + 6] += s2;
        sums[at + 7] += s3;
    }

    /** Adds up real and imaginary part of {@code exp(j (phase k + sign phase l))} against v^m. */
    static void addPair(
            double[] ck,
            double[] sk,
            double[] cl,
            double[] sl,
            double sign,
            int from,
            int to,
            double start,
            double step,
            double[] sums) {
        double r0 = 0;
        double r1 = 0;
        double r2 = 0;
        double r3 = 0;
        double r4 = 0;
        double r5 = 0;
        double r6 = 0;
        for (int i = from; i < to; i++) {
            double v = start + (i - from) * step;
            double v2 = v * v;
            double v3 = v2 * v;
            double re = ck[i] * cl[i] - sign * sk[i] * sl[i];
            r0 += re;
            r1 += re * v;
            r2 += re * v2;
            r3 += re * v3;
            double re3 = re * v3;
            r4 += re3 * v;
            r5 += re3 * v2;
            r6 += re3 * v3;
        }
        double i0 = 0;
        double i1 = 0;
        double i2 = 0;
        double i3 = 0;
        double i4 = 0;
        double i5 = 0;
        double i6 = 0;
        for (int i = from; i < to; i++) {
            double v = start + (i - from) * step;
            double v2 = v * v;
            double v3 = v2 * v;
            double im = sk[i] * cl[i] + sign * ck[i] * sl[i];
            i0 += im;
            i1 += im * v;
            i2 += im * v2;
            i3 += im * v3;
            double im3 = im * v3;
            i4 += im3 * v;
            i5 += im3 * v2;
            i6 += im3 * v3;
        }
        double[] added = {r0, r1, r2, r3, r4, r5, r6, i0, i1, i2, i3, i4, i5, i6};
        for (int m = 0; m < added.length; m++) {
            sums[m] += added[m];
        }
    }
}
