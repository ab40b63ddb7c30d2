package tickover.order;

/**
 * Weighted least squares of several orders and the mean, over segments of one length.
 *
 * <p>With angle counted from the segment's middle and weights that are symmetric about it, cosines
 * and sines do not mix, and the normal equations are the same for every segment: two Cholesky
 * factors serve for all.
 */
final class SegmentFit {
    private final int samplesPerTurn;
    private final int length;
    private final double[] orders;
    private final double[] weights;
    private final double sumWeights;
    private final double[] cosFactor;
    private final double[] sinFactor;
    private final double[] re;
    private final double[] im;
    private final double[] pair = new double[2];

    SegmentFit(int samplesPerTurn, int length, double[] orders) {
        this.samplesPerTurn = samplesPerTurn;
        this.length = length;
        this.orders = orders;
        // Weights in the middles of the steps of a window twice as fine are symmetric and periodic.
        double[] fine = OrderLines.WINDOW.periodic(2 * length);
        weights = new double[length];
        double sum = 0;
        for (int i = 0; i < length; i++) {
            weights[i] = fine[2 * i + 1];
            sum += weights[i];
        }
        sumWeights = sum;
        int n = orders.length;
        re = new double[n + 1];
        im = new double[n];
        cosFactor = new double[(n + 1) * (n + 1)];
        sinFactor = new double[n * n];
        for (int i = 0; i <= n; i++) {
            for (int j = 0; j <= i; j++) {
                double a = i < n ? orders[i] : 0;
                double b = j < n ? orders[j] : 0;
                double minus = weightSum(a - b);
                double plus = weightSum(a + b);
                cosFactor[(n + 1) * i + j] = (minus + plus) / 2;
                if (i < n) {
                    sinFactor[n * i + j] = (minus - plus) / 2;
                }
            }
        }
        factor(cosFactor, n + 1);
        factor(sinFactor, n);
    }

    int length() {
        return length;
    }

    /** How many segments, overlapping by three quarters, a record gives. */
    static int segments(int recordLength, int length) {
        if (recordLength < length) {
            return 0;
        }
        return 1 + (int) Math.ceil((recordLength - length) / (length / 4.0) - 1e-9);
    }

    /** Start of a segment: evenly spread, the last one ends with the record. */
    static int segmentStart(int segment, int count, int recordLength, int length) {
        return count == 1 ? 0 : (int) ((long) segment * (recordLength - length) / (count - 1));
    }

    /** How many overlapping segments carry as much as one independent one. */
    double overlapFactor() {
        double total = 1;
        for (int lag = 1; lag <= 3; lag++) {
            double sum = 0;
            double norm = 0;
            int shift = lag * length / 4;
            for (int i = 0; i < length; i++) {
                norm += weights[i] * weights[i];
                if (i + shift < length) {
                    sum += weights[i] * weights[i + shift];
                }
            }
            double rho = sum / norm;
            total += 2 * rho * rho;
        }
        return total;
    }

    /** Fits the segment that starts at a sample; amplitudes refer to angle zero of the record. */
    void fit(AngularRecord record, int from) {
        int n = orders.length;
        double[] x = record.values();
        for (int k = 0; k < n; k++) {
            project(x, from, orders[k]);
            re[k] = pair[0];
            im[k] = -pair[1];
        }
        double sum = 0;
        for (int i = 0; i < length; i++) {
            sum += weights[i] * x[from + i];
        }
        re[n] = sum;
        solve(cosFactor, n + 1, re);
        solve(sinFactor, n, im);
        // x = re cos + im sin about the middle; as a phasor re - j im, then turned to angle zero.
        double middle = record.turnsAt(from + (length - 1) / 2.0);
        for (int k = 0; k < n; k++) {
            double cycles = orders[k] * middle;
            double turn = -2 * Math.PI * (cycles - Math.rint(cycles));
            double c = Math.cos(turn);
            double s = Math.sin(turn);
            double a = re[k];
            double b = -im[k];
            re[k] = a * c - b * s;
            im[k] = a * s + b * c;
        }
    }

    /** Real part of the amplitude of fitted order k: of {@code A exp(j phase)}. */
    double re(int k) {
        return re[k];
    }

    /** Imaginary part of the amplitude of fitted order k. */
    double im(int k) {
        return im[k];
    }

    /** Adds the mean square of what stands at each of some orders, fitted each alone. */
    void addPower(double[] x, int from, double[] at, double[] power) {
        for (int k = 0; k < at.length; k++) {
            project(x, from, at[k]);
            power[k] += 2 * (pair[0] * pair[0] + pair[1] * pair[1]) / (sumWeights * sumWeights);
        }
    }

    /** Weighted sum of the segment times {@code exp(-j 2 pi order turns)}, about its middle. */
    private void project(double[] x, int from, double order) {
        double step = -2 * Math.PI * order / samplesPerTurn;
        double start = -step * (length - 1) / 2.0;
        double sumRe = 0;
        double sumIm = 0;
        // The turning phasor is set afresh every so often, before its round-off grows.
        int block = 256;
        double stepRe = Math.cos(step);
        double stepIm = Math.sin(step);
        for (int b = 0; b < length; b += block) {
            double c = Math.cos(start + step * b);
            double s = Math.sin(start + step * b);
            int end = Math.min(length, b + block);
            for (int i = b; i < end; i++) {
                double v = weights[i] * x[from + i];
                sumRe += v * c;
                sumIm += v * s;
                double turned = c * stepRe - s * stepIm;
                s = c * stepIm + s * stepRe;
                c = turned;
            }
        }
        pair[0] = sumRe;
        pair[1] = sumIm;
    }

    private double weightSum(double order) {
        return OrderLines.WINDOW.centredResponse(order * length / samplesPerTurn, length);
    }

    /** Cholesky factor in place, lower triangle. */
    private static void factor(double[] a, int n) {
        for (int j = 0; j < n; j++) {
            for (int i = j; i < n; i++) {
                double sum = a[n * i + j];
                for (int k = 0; k < j; k++) {
                    sum -= a[n * i + k] * a[n * j + k];
                }
                a[n * i + j] = i == j ? Math.sqrt(sum) : sum / a[n * j + j];
            }
        }
    }

    private static void solve(double[] factor, int n, double[] b) {
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < i; k++) {
                b[i] -= factor[n * i + k] * b[k];
            }
            b[i] /= factor[n * i + i];
        }
        for (int i = n - 1; i >= 0; i--) {
            for (int k = i + 1; k < n; k++) {
                b[i] -= factor[n * k + i] * b[k];
            }
            b[i] /= factor[n * i + i];
        }
    }
}
