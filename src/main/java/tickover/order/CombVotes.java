package tickover.order;

import java.util.ArrayList;
import java.util.List;
import tickover.dsp.RealFft;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/**
 * What the engine's own orders say about an angle: each turns by the error of the angle times the
 * order, and over windows of a few turns all of them vote for one error.
 */
final class CombVotes {
    /** Windows are this many working cycles long: neighbouring orders are nulls of each other. */
    private static final int WINDOW_CYCLES = 2;

    private static final int LAG_HOPS = 4;
    private static final int MEAN_HOPS = 32;

    /** One period of the weight of what lies around a point. */
    private static final double[] HOP_COS = new double[2 * (MEAN_HOPS + 1)];

    private static final double[] HOP_SIN = new double[HOP_COS.length];

    static {
        for (int n = 0; n < HOP_COS.length; n++) {
            HOP_COS[n] = Math.cos(Math.PI * n / (MEAN_HOPS + 1));
            HOP_SIN[n] = Math.sin(Math.PI * n / (MEAN_HOPS + 1));
        }
    }

    /** Largest error looked for, turns. */
    private static final double REACH_TURNS = 0.05;

    private static final int GRID = 40;

    /** Places of the grid that are passed over at first: an eighth of a turn of order 25. */
    private static final int COARSE = 4;

    private static final int TRUST_PASSES = 3;

    /** Neighbouring windows speak together, for they share most of their turns. */
    private static final int BLUR_HOPS = 2;

    private final double cycleOrder;
    private final AngularRecord first;
    private final int hop;
    private final int window;
    private final int points;
    private final int orders;

    /** For every place of the grid and every order: what its phase would be, from 1 on. */
    private final double[][] cos;

    private final double[][] sin;
    private final List<double[][]> tracks = new ArrayList<>();
    private final double[] trust;
    private final double[] errors;

    /**
     * Counts the votes of all channels.
     *
     * @param records channels over the angle, alike
     * @param hop values from one window to the next
     * @param prior cylinders, strokes, and where belt-driven lines may stand
     * @param topOrder highest order that votes
     * @param againstMean whether tracks are held against the mean around them instead of what they
     *     were two turns before
     */
    CombVotes(
            List<AngularRecord> records,
            int hop,
            AnglePrior prior,
            double topOrder,
            boolean againstMean) {
        this.cycleOrder = prior.cycleOrder();
        this.first = records.get(0);
        this.hop = hop;
        this.window = (int) Math.round(WINDOW_CYCLES / cycleOrder * first.samplesPerTurn());
        this.points = (first.values().length - window) / hop + 1;
        this.orders = (int) Math.floor(topOrder / cycleOrder);
        this.cos = new double[2 * GRID + 1][orders];
        this.sin = new double[2 * GRID + 1][orders];
        for (int g = -GRID; g <= GRID; g++) {
            for (int k = 0; k < orders; k++) {
                double turn = 2 * Math.PI * orderOf(k) * place(g);
                cos[g + GRID][k] = Math.cos(turn);
                sin[g + GRID][k] = Math.sin(turn);
            }
        }
        for (AngularRecord record : records) {
            tracks.addAll(tracks(record));
        }
        this.trust = trust(new TrackPurity(prior, WINDOW_CYCLES).of(records, orders));
        this.errors = errors(againstMean, 1, 0);
    }

    /** Windows. */
    int points() {
        return points;
    }

    /** Middle of a window by the angle voted on, turns. */
    double turnsAt(int point) {
        return first.turnsAt(point * hop + window / 2.0);
    }

    /** By how much the true angle runs ahead in a window, turns. */
    double errorTurns(int point) {
        return errors[point];
    }

    /**
     * One standard deviation of the errors. Two halves of the orders share no noise: half their
     * difference is the error of all.
     */
    double sigmaTurns() {
        double[] even = errors(false, 2, 0);
        double[] odd = errors(false, 2, 1);
        double[] difference = new double[points];
        for (int n = 0; n < points; n++) {
            difference[n] = (even[n] - odd[n]) / 2;
        }
        return Math.sqrt(Statistics.variance(difference));
    }

    /** Amplitudes of the engine's orders over sliding windows: real parts, imaginary parts. */
    private List<double[][]> tracks(AngularRecord record) {
        double[] w = Window.HANN.periodic(window);
        double[] x = record.values();
        List<double[][]> found = new ArrayList<>();
        for (int k = 0; k < orders; k++) {
            found.add(new double[2][points]);
        }
        RealFft fft = new RealFft(window);
        double[] windowed = new double[window];
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        for (int n = 0; n < points; n++) {
            int from = n * hop;
            for (int i = 0; i < window; i++) {
                windowed[i] = w[i] * x[from + i];
            }
            fft.forward(windowed, re, im);
            for (int k = 0; k < orders; k++) {
                // A window is WINDOW_CYCLES cycles long, so every such bin is a multiple of the
                // cycle; phases count from angle zero, not from the window's start.
                int bin = WINDOW_CYCLES * (k + 1);
                double start = -2 * Math.PI * (k + 1) * cycleOrder * record.turnsAt(from);
                double cos = Math.cos(start);
                double sin = Math.sin(start);
                found.get(k)[0][n] = re[bin] * cos - im[bin] * sin;
                found.get(k)[1][n] = re[bin] * sin + im[bin] * cos;
            }
        }
        return found;
    }

    /**
     * How far each track can be trusted: by how much of it keeps step with the rest over the whole
     * record. Noise keeps no step; a belt-driven line that stands near an engine order does, but
     * not the right one.
     */
    private double[] trust(double[] purity) {
        double[] trusted = new double[tracks.size()];
        double[][] mean = new double[tracks.size()][2];
        for (int k = 0; k < trusted.length; k++) {
            double[][] p = againstLag(tracks.get(k));
            double size = 1e-300;
            for (int n = 0; n < p[0].length; n++) {
                size += Math.sqrt(p[0][n] * p[0][n] + p[1][n] * p[1][n]);
            }
            mean[k][0] = Statistics.mean(p[0]) * p[0].length / size;
            mean[k][1] = Statistics.mean(p[1]) * p[1].length / size;
            trusted[k] = purity[k];
        }
        for (int pass = 0; pass < TRUST_PASSES; pass++) {
            double[] gain = new double[2 * GRID + 1];
            for (int k = 0; k < trusted.length; k++) {
                for (int g = -GRID; g <= GRID; g++) {
                    gain[g + GRID] += trusted[k] * inStep(mean[k], orderOf(k), place(g));
                }
            }
            double common = peak(gain, 0, gain.length - 1);
            for (int k = 0; k < trusted.length; k++) {
                double step = Math.max(0, inStep(mean[k], orderOf(k), common));
                trusted[k] = purity[k] * step * step;
            }
        }
        return trusted;
    }

    private double orderOf(int track) {
        return (track % orders + 1) * cycleOrder;
    }

    private static double place(int g) {
        return REACH_TURNS * g / GRID;
    }

    private static double inStep(double[] phasor, double order, double turns) {
        double angle = 2 * Math.PI * order * turns;
        return phasor[0] * Math.cos(angle) + phasor[1] * Math.sin(angle);
    }

    /**
     * The error of the angle at each point, turns, from every {@code stride}-th track.
     *
     * <p>Sign: where the true angle runs ahead of the assumed one, phases of orders rise.
     */
    private double[] errors(boolean againstMean, int stride, int from) {
        double[][] re = new double[points][orders];
        double[][] im = new double[points][orders];
        for (int k = from; k < tracks.size(); k += stride) {
            double[][] z = tracks.get(k);
            double[][] p = againstMean ? againstMean(z) : againstLag(z);
            double power = 1e-300;
            for (int n = 0; n < points; n++) {
                power += Math.sqrt(p[0][n] * p[0][n] + p[1][n] * p[1][n]) / points;
            }
            addBlurred(p[0], trust[k] / power, re, k % orders);
            addBlurred(p[1], trust[k] / power, im, k % orders);
        }
        double[] found = new double[points];
        double[] gain = new double[2 * GRID + 1];
        for (int n = 0; n < points; n++) {
            found[n] = peak(re[n], im[n], gain);
        }
        return againstMean ? found : integrated(found);
    }

    /** Adds a track, every point with its neighbours. */
    private static void addBlurred(double[] track, double factor, double[][] to, int order) {
        for (int n = 0; n < to.length; n++) {
            double sum = 0;
            for (int m = Math.max(0, n - BLUR_HOPS);
                    m <= Math.min(to.length - 1, n + BLUR_HOPS);
                    m++) {
                sum += (1 - Math.abs(m - n) / (BLUR_HOPS + 1.0)) * track[m];
            }
            to[n][order] += factor * sum;
        }
    }

    /**
     * The error for which all orders at a point vote most, turns. The highest order swings far
     * slower than the places follow each other, so every few are looked at first, and the places
     * around the best of these.
     */
    private double peak(double[] re, double[] im, double[] gain) {
        int best = 0;
        for (int g = 0; g < gain.length; g += COARSE) {
            gain[g] = votes(re, im, g);
            best = gain[g] > gain[best] ? g : best;
        }
        int from = Math.max(0, best - COARSE);
        int to = Math.min(gain.length - 1, best + COARSE);
        for (int g = from; g <= to; g++) {
            gain[g] = g % COARSE == 0 ? gain[g] : votes(re, im, g);
        }
        return peak(gain, from, to);
    }

    private double votes(double[] re, double[] im, int g) {
        double[] c = cos[g];
        double[] s = sin[g];
        double sum = 0;
        for (int k = 0; k < orders; k++) {
            sum += re[k] * c[k] + im[k] * s[k];
        }
        return sum;
    }

    /** Product of each point with the conjugate of the one a lag before, about their middle. */
    private static double[][] againstLag(double[][] z) {
        int points = z[0].length;
        double[][] p = new double[2][points];
        for (int n = 0; n < points; n++) {
            int a = Math.max(0, Math.min(points - 1 - LAG_HOPS, n - LAG_HOPS / 2));
            int b = a + LAG_HOPS;
            p[0][n] = z[0][b] * z[0][a] + z[1][b] * z[1][a];
            p[1][n] = z[1][b] * z[0][a] - z[0][b] * z[1][a];
        }
        return p;
    }

    /** Product of each point with the conjugate of the mean around it. */
    private static double[][] againstMean(double[][] z) {
        int points = z[0].length;
        double[][] p = new double[2][points];
        double[] re = around(z[0]);
        double[] im = around(z[1]);
        for (int n = 0; n < points; n++) {
            p[0][n] = z[0][n] * re[n] + z[1][n] * im[n];
            p[1][n] = z[1][n] * re[n] - z[0][n] * im[n];
        }
        return p;
    }

    /**
     * Sum of what lies around each point, weighed by {@code 1 + cos}: differences of running sums
     * of the values, and of the values turned by the cosine's angle.
     */
    private static double[] around(double[] x) {
        int points = x.length;
        double[] plain = new double[points + 1];
        double[] cos = new double[points + 1];
        double[] sin = new double[points + 1];
        double[] out = new double[points];
        for (int n = 0; n < points; n++) {
            plain[n + 1] = plain[n] + x[n];
            cos[n + 1] = cos[n] + x[n] * HOP_COS[n % HOP_COS.length];
            sin[n + 1] = sin[n] + x[n] * HOP_SIN[n % HOP_SIN.length];
        }
        for (int n = 0; n < points; n++) {
            int from = Math.max(0, n - MEAN_HOPS);
            int to = Math.min(points - 1, n + MEAN_HOPS) + 1;
            out[n] =
                    plain[to]
                            - plain[from]
                            + HOP_COS[n % HOP_COS.length] * (cos[to] - cos[from])
                            + HOP_SIN[n % HOP_SIN.length] * (sin[to] - sin[from]);
        }
        return out;
    }

    /** Place of the highest value, refined by a parabola, turns. */
    private static double peak(double[] gain, int from, int to) {
        int best = from;
        for (int g = from + 1; g <= to; g++) {
            if (gain[g] > gain[best]) {
                best = g;
            }
        }
        double place = best;
        if (best > from && best < to) {
            double curve = gain[best - 1] - 2 * gain[best] + gain[best + 1];
            if (curve < 0) {
                place += (gain[best - 1] - gain[best + 1]) / (2 * curve);
            }
        }
        return REACH_TURNS * (place - GRID) / GRID;
    }

    /** Sums what the angle gains per lag. */
    private static double[] integrated(double[] perLag) {
        double[] sum = new double[perLag.length];
        for (int n = 1; n < sum.length; n++) {
            sum[n] = sum[n - 1] + (perLag[n - 1] + perLag[n]) / (2 * LAG_HOPS);
        }
        return sum;
    }
}
