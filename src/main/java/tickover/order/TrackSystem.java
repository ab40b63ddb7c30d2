package tickover.order;

import java.util.Arrays;
import java.util.List;
import tickover.dsp.CosSin;
import tickover.dsp.SymmetricBand;

/**
 * The least-squares problem of a group of lines over spline coefficients: sums over samples, then
 * one banded solve.
 *
 * <p>Unknowns are, knot by knot, the real and the imaginary part of every line. The constant that
 * the record stands on is one more unknown, which couples to all; it is eliminated by a second
 * right-hand side, so that the band stays narrow.
 *
 * <p>Within one knot interval the splines are polynomials. So each product of lines is summed
 * against the powers of v only, and spread over the pairs of splines once per interval.
 */
final class TrackSystem {
    private static final int BLOCK = 1024;
    private static final int TERMS = SplineBasis.PRODUCT_TERMS;
    private static final int LINE_TERMS = 4;

    /** Below this part of it left unexplained by the lines, the constant cannot be told. */
    private static final double LEAST_FREE_RATIO = 1e-6;

    private final TrackInput input;
    private final List<TrackedLine> lines;
    private final int interval;
    private final int intervals;
    private final int stride;
    private final SymmetricBand matrix;
    private final double[] right;
    private final double[] ofConstant;
    private final boolean[][] far;
    private final boolean[] farFromZero;

    /** Intervals that are full and wholly in use. */
    private final boolean[] whole;

    /** Splines that reach beyond the samples or into what is left out. */
    private final boolean[] cut;

    /** Sums of an interval that is whole. */
    private final double[] wholeSums = new double[2 * TERMS];

    private double[] constantResponse = new double[0];
    private double sum;

    private final double[] turns = new double[BLOCK];
    private final double[] phase = new double[BLOCK];
    private final double[] data = new double[BLOCK];
    private final double[] used = new double[BLOCK];
    private final double[][] cos;
    private final double[][] sin;

    /** Sums of one interval: per line x cos, x sin, cos, sin; per pair of lines both signs. */
    private final double[][] lineSums;

    private final double[][] pairSums;
    private final double[] usedSums = new double[2 * TERMS];

    private TrackSystem(TrackInput input, List<TrackedLine> lines, int interval, double[] speeds) {
        int count = lines.size();
        this.input = input;
        this.lines = lines;
        this.interval = interval;
        this.intervals = (input.count() - 1) / interval + 1;
        this.stride = 2 * count;
        int size = stride * (intervals + SplineBasis.SPLINES - 1);
        this.matrix = new SymmetricBand(size, Math.min(size - 1, stride * SplineBasis.SPLINES));
        this.right = new double[size];
        this.ofConstant = new double[size];
        this.cos = new double[count][BLOCK];
        this.sin = new double[count][BLOCK];
        this.lineSums = new double[count][4 * LINE_TERMS];
        this.pairSums = new double[2 * count * count][2 * TERMS];
        this.far = new boolean[2][count * count];
        this.farFromZero = new boolean[count];
        double farHz = TrackGroup.FAR_TURNS * input.sampleRateHz() / interval;
        for (int k = 0; k < count; k++) {
            TrackedLine line = lines.get(k);
            for (int l = 0; l <= k; l++) {
                for (int plus = 0; plus < 2; plus++) {
                    double near = TrackGroup.nearestHz(line, lines.get(l), 2 * plus - 1, speeds);
                    // Mirror images at negative frequency come back from the sample rate.
                    double foldedHz =
                            input.sampleRateHz()
                                    - TrackGroup.highestSumHz(line, lines.get(l), speeds);
                    far[plus][k * count + l] = near > farHz && (plus == 0 || foldedHz > farHz);
                }
            }
            farFromZero[k] = line.frequencyHz(speeds[0]) > farHz;
        }
        this.whole = new boolean[intervals];
        this.cut = new boolean[intervals + SplineBasis.SPLINES - 1];
        findCuts();
        Arrays.fill(used, 1);
        for (int i = 0; i < interval; i += BLOCK) {
            double v = 2.0 * i / interval - 1;
            int n = Math.min(BLOCK, interval - i);
            IntervalSums.addPowers(used, 0, n, v, 2.0 / interval, wholeSums);
        }
    }

    private void findCuts() {
        for (int q = 0; q < intervals; q++) {
            int first = input.first() + q * interval;
            whole[q] =
                    (long) (q + 1) * interval <= input.count()
                            && input.gaps().count(first, first + interval) == 0;
        }
        for (int s = 0; s < cut.length; s++) {
            for (int q = s - SplineBasis.SPLINES + 1; q <= s; q++) {
                cut[s] |= q < 0 || q >= intervals || !whole[q];
            }
        }
    }

    /**
     * Sets the system of a group up and solves it for the record.
     *
     * @param differences 1 or 2
     * @param narrowestHz no bandwidth goes below this, Hz
     * @param speedLimitsHz lowest and highest speed, Hz
     */
    static TrackSystem of(
            TrackInput input,
            List<TrackedLine> lines,
            TrackGroup group,
            int differences,
            double narrowestHz,
            double[] speedLimitsHz) {
        List<TrackedLine> chosen = Arrays.stream(group.places()).mapToObj(lines::get).toList();
        TrackSystem system = new TrackSystem(input, chosen, group.intervalSamples(), speedLimitsHz);
        system.addSamples(input.x(), true);
        system.addDifferences(differences, narrowestHz);
        system.factor();
        return system;
    }

    /** Solves for another signal on the same shaft, with one value per sample of the record. */
    void solveAgain(double[] signal) {
        Arrays.fill(right, 0);
        sum = 0;
        addSamples(signal, false);
    }

    /**
     * Adds up the right-hand side, and the matrix with it when it is not there yet.
     *
     * <p>Where lines are far apart, and no end or gap cuts the splines off, the sums of their
     * product vanish and are not made. Where a spline is cut off they do not.
     */
    private void addSamples(double[] signal, boolean matrixToo) {
        for (int at = 0; at < input.count(); at += BLOCK) {
            int n = Math.min(BLOCK, input.count() - at);
            load(signal, at, n);
            for (int i = 0; i < n; ) {
                int q = (at + i) / interval;
                int within = at + i - q * interval;
                int end = Math.min(n, i + interval - within);
                double v = 2.0 * within / interval - 1;
                addUp(i, end, v);
                if (matrixToo) {
                    addUpMatrix(q, i, end, v);
                }
                if (within + end - i == interval || at + end == input.count()) {
                    flush(q, matrixToo);
                }
                i = end;
            }
        }
    }

    private boolean meetsCut(int q) {
        return cut[q] || cut[q + 1] || cut[q + 2] || cut[q + 3];
    }

    /** Reads a block; samples that are left out become zero everywhere, and so count nowhere. */
    private void load(double[] signal, int at, int n) {
        int first = input.first() + at;
        input.angle().turnsAtSamples(first, input.sampleRateHz(), n, turns);
        System.arraycopy(signal, first, data, 0, n);
        Arrays.fill(used, 0, n, 1);
        for (int k = 0; k < cos.length; k++) {
            input.phaseTurns(lines.get(k), turns, at, n, phase);
            CosSin.ofTurns(phase, n, cos[k], sin[k]);
        }
        if (input.gaps().count(first, first + n) > 0) {
            input.gaps().zero(data, first, n);
            input.gaps().zero(used, first, n);
            for (int k = 0; k < cos.length; k++) {
                input.gaps().zero(cos[k], first, n);
                input.gaps().zero(sin[k], first, n);
            }
        }
        for (int i = 0; i < n; i++) {
            sum += data[i];
        }
    }

    private void addUp(int from, int to, double v) {
        double step = 2.0 / interval;
        for (int k = 0; k < cos.length; k++) {
            IntervalSums.addLine(data, cos[k], sin[k], from, to, v, step, lineSums[k], 0);
        }
    }

    private void addUpMatrix(int q, int from, int to, double v) {
        double step = 2.0 / interval;
        boolean all = meetsCut(q);
        if (!whole[q]) {
            IntervalSums.addPowers(used, from, to, v, step, usedSums);
        }
        for (int k = 0; k < cos.length; k++) {
            if (all || !farFromZero[k]) {
                int at = 2 * LINE_TERMS;
                IntervalSums.addLine(used, cos[k], sin[k], from, to, v, step, lineSums[k], at);
            }
            for (int l = 0; l <= k; l++) {
                int pair = k * cos.length + l;
                if (k != l && (all || !far[0][pair])) {
                    addPair(k, l, -1, from, to, v, pairSums[2 * pair]);
                }
                if (all || !far[1][pair]) {
                    addPair(k, l, 1, from, to, v, pairSums[2 * pair + 1]);
                }
            }
        }
    }

    private void addPair(int k, int l, double sign, int from, int to, double v, double[] sums) {
        IntervalSums.addPair(
                cos[k], sin[k], cos[l], sin[l], sign, from, to, v, 2.0 / interval, sums);
    }

    /** Spreads the sums of a finished interval over the unknowns. */
    private void flush(int q, boolean matrixToo) {
        for (int k = 0; k < cos.length; k++) {
            for (int a = 0; a < SplineBasis.SPLINES; a++) {
                int at = (q + a) * stride + 2 * k;
                right[at] += SplineBasis.weigh(a, lineSums[k], 0);
                right[at + 1] -= SplineBasis.weigh(a, lineSums[k], LINE_TERMS);
                if (matrixToo && (cut[q + a] || !farFromZero[k])) {
                    ofConstant[at] += SplineBasis.weigh(a, lineSums[k], 2 * LINE_TERMS);
                    ofConstant[at + 1] -= SplineBasis.weigh(a, lineSums[k], 3 * LINE_TERMS);
                }
            }
            for (int l = 0; l <= k && matrixToo; l++) {
                int pair = k * cos.length + l;
                double[] minus = k != l ? pairSums[2 * pair] : whole[q] ? wholeSums : usedSums;
                flushPair(q, k, l, minus, pairSums[2 * pair + 1]);
                Arrays.fill(pairSums[2 * pair], 0);
                Arrays.fill(pairSums[2 * pair + 1], 0);
            }
            Arrays.fill(lineSums[k], 0);
        }
        Arrays.fill(usedSums, 0);
    }

    private void flushPair(int q, int k, int l, double[] minus, double[] plus) {
        int pair = k * cos.length + l;
        for (int a = 0; a < SplineBasis.SPLINES; a++) {
            for (int b = 0; b < SplineBasis.SPLINES; b++) {
                int row = (q + a) * stride + 2 * k;
                int column = (q + b) * stride + 2 * l;
                boolean cutOff = cut[q + a] || cut[q + b];
                if (cutOff || k == l || !far[0][pair]) {
                    double re = SplineBasis.weighProduct(a, b, minus, 0) / 2;
                    double im = SplineBasis.weighProduct(a, b, minus, TERMS) / 2;
                    addOnce(k == l, row, column, re);
                    addOnce(k == l, row, column + 1, im);
                    addOnce(k == l, row + 1, column, -im);
                    addOnce(k == l, row + 1, column + 1, re);
                }
                if (cutOff || !far[1][pair]) {
                    double re = SplineBasis.weighProduct(a, b, plus, 0) / 2;
                    double im = SplineBasis.weighProduct(a, b, plus, TERMS) / 2;
                    addOnce(k == l, row, column, re);
                    addOnce(k == l, row, column + 1, -im);
                    addOnce(k == l, row + 1, column, -im);
                    addOnce(k == l, row + 1, column + 1, -re);
                }
            }
        }
    }

    /** A line paired with itself meets every element twice, once from either side. */
    private void addOnce(boolean met, int row, int column, double value) {
        if (!met || row >= column) {
            matrix.add(row, column, value);
        }
    }

    /**
     * Adds what change costs. The amplitude runs on, at no cost, to the end of the last interval.
     */
    private void addDifferences(int differences, double narrowestHz) {
        int n = SplineBasis.DIFFERENCE_SPLINES;
        double[] inside = SplineBasis.differenceProducts(interval, differences, interval);
        double[] last =
                SplineBasis.differenceProducts(interval, differences, interval - differences);
        for (int q = 0; q < intervals; q++) {
            boolean isLast = q == intervals - 1;
            double speedHz = input.speedHzAt((long) q * interval + interval / 2);
            for (int k = 0; k < cos.length; k++) {
                double wide = Math.max(narrowestHz, lines.get(k).bandwidthHzAt(speedHz));
                double weight = VoldKalman.weight(differences, wide / input.sampleRateHz());
                // A cosine of amplitude 1 has mean square 1/2, so the change costs half, too.
                double cost = weight * weight / 2;
                for (int a = 0; a < n; a++) {
                    for (int b = 0; b <= a; b++) {
                        if (a == n - 1 && isLast) {
                            continue;
                        }
                        double value = cost * (isLast ? last : inside)[n * a + b];
                        int row = (q + a) * stride + 2 * k;
                        int column = (q + b) * stride + 2 * k;
                        matrix.add(row, column, value);
                        matrix.add(row + 1, column + 1, value);
                    }
                }
            }
        }
    }

    private void factor() {
        if (!matrix.factor()) {
            throw new IllegalArgumentException(
                    "lines "
                            + lines
                            + " cannot be told apart in this record, need a longer record, fewer"
                            + " lines or less left out");
        }
        constantResponse = matrix.solve(ofConstant);
    }

    /** The solution, one curve per line of the group. */
    TrackCurve[] curves() {
        if (!Arrays.stream(right).allMatch(Double::isFinite)) {
            throw new IllegalArgumentException(
                    "x has values that are not finite, need all finite or in stretches left out");
        }
        double[] solution = matrix.solve(right);
        takeConstantOff(solution);
        TrackCurve[] curves = new TrackCurve[cos.length];
        int points = solution.length / stride;
        for (int k = 0; k < curves.length; k++) {
            double[] re = new double[points];
            double[] im = new double[points];
            for (int i = 0; i < points; i++) {
                re[i] = solution[i * stride + 2 * k];
                im[i] = solution[i * stride + 2 * k + 1];
            }
            curves[k] = new TrackCurve(interval, re, im);
        }
        return curves;
    }

    private void takeConstantOff(double[] solution) {
        int end = input.first() + input.count();
        double count = input.count() - input.gaps().count(input.first(), end);
        double free = count;
        double left = sum;
        for (int i = 0; i < solution.length; i++) {
            free -= ofConstant[i] * constantResponse[i];
            left -= ofConstant[i] * solution[i];
        }
        if (free > LEAST_FREE_RATIO * count) {
            for (int i = 0; i < solution.length; i++) {
                solution[i] -= left / free * constantResponse[i];
            }
        }
    }
}
