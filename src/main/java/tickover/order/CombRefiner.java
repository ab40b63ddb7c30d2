package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tickover.align.CaptureSignal;
import tickover.dsp.RealFft;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/**
 * Sharpens a shaft angle by the engine's own orders.
 *
 * <p>The record is resampled with the angle as it is. Each order that repeats with the working
 * cycle then stands nearly still; how it turns is the error of the angle times the order. Over
 * windows of a few turns all such orders together say by how much the angle ran ahead since two
 * turns before (first rounds), or against the mean of the surrounding turns (last rounds). Speed
 * ripple within a cycle averages out and is left alone.
 */
final class CombRefiner {
    private static final int PER_TURN = 64;

    /** Windows are this many working cycles long: neighbouring orders are nulls of each other. */
    private static final int WINDOW_CYCLES = 2;

    /** Windows follow each other by this part of a turn. */
    private static final int PER_HOP = PER_TURN / 2;

    private static final int LAG_HOPS = 4;

    /** Top order of each round; later rounds may trust higher ones. */
    private static final double[] ROUND_ORDERS = {8, 12, 16, 24, 24, 24, 24};

    /** First round that compares with the surrounding turns instead of two turns before. */
    private static final int FIRST_AGAINST_MEAN = 4;

    private static final int MEAN_HOPS = 32;

    /** Largest error looked for, turns. */
    private static final double REACH_TURNS = 0.05;

    private static final int GRID = 40;

    /** A shorter record has too few windows. */
    private static final double LEAST_TURNS = 16;

    private static final int TRUST_PASSES = 3;

    /** Neighbouring windows speak together, for they share most of their turns. */
    private static final int BLUR_HOPS = 2;

    /** Windows this far apart share little, so that their errors count as independent. */
    private static final int THINNED_HOPS = 2;

    private final CaptureSignal capture;
    private final double cycleOrder;

    CombRefiner(CaptureSignal capture, AnglePrior prior) {
        this.capture = capture;
        this.cycleOrder = prior.cycleOrder();
    }

    /** A sharpened angle and how sharp the engine's orders are with it. */
    record Refined(ShaftAngle angle, double sharpness) {}

    /**
     * Runs all rounds, and the last ones alone, and keeps the sharpest angle, perhaps the one it
     * was given: a good start may lose in the first rounds, a poor one needs them.
     */
    Refined refine(ShaftAngle start) {
        List<AngularRecord> startRecords = records(start);
        Refined best = new Refined(start, sharpness(start, startRecords));
        for (int first = 0; first <= FIRST_AGAINST_MEAN; first += FIRST_AGAINST_MEAN) {
            ShaftAngle angle = start;
            List<AngularRecord> records = startRecords;
            for (int round = first; round < ROUND_ORDERS.length; round++) {
                if (!(angle.endTurns() - angle.startTurns() > LEAST_TURNS)) {
                    return best;
                }
                angle = round(angle, records, round);
                records = records(angle);
                double sharpness = sharpness(angle, records);
                if (sharpness > best.sharpness) {
                    best = new Refined(angle, sharpness);
                }
            }
        }
        return best;
    }

    List<AngularRecord> records(ShaftAngle angle) {
        List<AngularRecord> records = new ArrayList<>();
        for (int c = 0; c < capture.channels(); c++) {
            records.add(
                    AngularResampler.resample(
                            capture.accelMps2(c), capture.sampleRateHz(), angle, PER_TURN));
        }
        return records;
    }

    private ShaftAngle round(ShaftAngle angle, List<AngularRecord> records, int round) {
        double top = Math.min(ROUND_ORDERS[round], topOrder(angle));
        int orders = (int) Math.floor(top / cycleOrder);
        int window = (int) Math.round(WINDOW_CYCLES / cycleOrder * PER_TURN);
        int points = (records.get(0).values().length - window) / PER_HOP + 1;
        List<double[][]> tracks = new ArrayList<>();
        for (AngularRecord record : records) {
            tracks.addAll(tracks(record, orders, window, points));
        }
        double[] trust = trust(tracks, orders);
        boolean againstMean = round >= FIRST_AGAINST_MEAN;
        double[] all = errors(tracks, orders, trust, againstMean, 1, 0);
        // Two halves of the orders share no noise: half their difference is the error of all.
        double[] even = errors(tracks, orders, trust, false, 2, 0);
        double[] odd = errors(tracks, orders, trust, false, 2, 1);
        double[] difference = new double[points];
        for (int n = 0; n < points; n++) {
            difference[n] = (even[n] - odd[n]) / 2;
        }
        double sigma = Math.sqrt(Statistics.variance(difference));
        return shifted(angle, records.get(0), window, all, sigma);
    }

    private double topOrder(ShaftAngle angle) {
        double meanHz = (angle.endTurns() - angle.startTurns()) / (angle.endS() - angle.startS());
        return Math.min(0.4 * PER_TURN, 0.4 * capture.sampleRateHz() / meanHz);
    }

    /** Amplitudes of the engine's orders over sliding windows: real parts, imaginary parts. */
    private List<double[][]> tracks(AngularRecord record, int orders, int window, int points) {
        double[] w = Window.HANN.periodic(window);
        double[] x = record.values();
        List<double[][]> tracks = new ArrayList<>();
        for (int k = 0; k < orders; k++) {
            tracks.add(new double[2][points]);
        }
        RealFft fft = new RealFft(window);
        double[] windowed = new double[window];
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        for (int n = 0; n < points; n++) {
            int from = n * PER_HOP;
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
                tracks.get(k)[0][n] = re[bin] * cos - im[bin] * sin;
                tracks.get(k)[1][n] = re[bin] * sin + im[bin] * cos;
            }
        }
        return tracks;
    }

    /**
     * How far each track can be trusted: by how much of it keeps step with the rest over the whole
     * record. Noise keeps no step; a belt-driven line that stands near an engine order does, but
     * not the right one.
     */
    private double[] trust(List<double[][]> tracks, int orders) {
        double[] trust = new double[tracks.size()];
        double[][] mean = new double[tracks.size()][2];
        for (int k = 0; k < trust.length; k++) {
            double[][] p = againstLag(tracks.get(k));
            double size = 1e-300;
            for (int n = 0; n < p[0].length; n++) {
                size += Math.hypot(p[0][n], p[1][n]);
            }
            mean[k][0] = Statistics.mean(p[0]) * p[0].length / size;
            mean[k][1] = Statistics.mean(p[1]) * p[1].length / size;
            trust[k] = 1;
        }
        for (int pass = 0; pass < TRUST_PASSES; pass++) {
            double[] gain = new double[2 * GRID + 1];
            for (int k = 0; k < trust.length; k++) {
                for (int g = -GRID; g <= GRID; g++) {
                    gain[g + GRID] += trust[k] * inStep(mean[k], orderOf(k, orders), place(g));
                }
            }
            double common = peak(gain);
            for (int k = 0; k < trust.length; k++) {
                double step = Math.max(0, inStep(mean[k], orderOf(k, orders), common));
                trust[k] = step * step;
            }
        }
        return trust;
    }

    private double orderOf(int track, int orders) {
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
    private double[] errors(
            List<double[][]> tracks,
            int orders,
            double[] trust,
            boolean againstMean,
            int stride,
            int first) {
        int points = tracks.get(0)[0].length;
        double[][] gain = new double[points][2 * GRID + 1];
        for (int k = first; k < tracks.size(); k += stride) {
            double[][] z = tracks.get(k);
            double[][] p = againstMean ? againstMean(z) : againstLag(z);
            double power = 1e-300;
            for (int n = 0; n < points; n++) {
                power += Math.hypot(p[0][n], p[1][n]) / points;
            }
            double[] c = new double[2 * GRID + 1];
            double[] s = new double[2 * GRID + 1];
            for (int g = -GRID; g <= GRID; g++) {
                double turn = 2 * Math.PI * orderOf(k, orders) * place(g);
                c[g + GRID] = trust[k] * Math.cos(turn) / power;
                s[g + GRID] = trust[k] * Math.sin(turn) / power;
            }
            for (int n = 0; n < points; n++) {
                double re = p[0][n];
                double im = p[1][n];
                double[] row = gain[n];
                for (int g = 0; g < row.length; g++) {
                    row[g] += re * c[g] + im * s[g];
                }
            }
        }
        double[] found = new double[points];
        double[] around = new double[2 * GRID + 1];
        for (int n = 0; n < points; n++) {
            Arrays.fill(around, 0);
            for (int m = Math.max(0, n - BLUR_HOPS);
                    m <= Math.min(points - 1, n + BLUR_HOPS);
                    m++) {
                double w = 1 - Math.abs(m - n) / (BLUR_HOPS + 1.0);
                for (int g = 0; g < around.length; g++) {
                    around[g] += w * gain[m][g];
                }
            }
            found[n] = peak(around);
        }
        return againstMean ? found : integrated(found);
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
        double[] weight = new double[2 * MEAN_HOPS + 1];
        for (int m = -MEAN_HOPS; m <= MEAN_HOPS; m++) {
            weight[m + MEAN_HOPS] = 1 + Math.cos(Math.PI * m / (MEAN_HOPS + 1));
        }
        for (int n = 0; n < points; n++) {
            double re = 0;
            double im = 0;
            int from = Math.max(0, n - MEAN_HOPS);
            int to = Math.min(points - 1, n + MEAN_HOPS);
            for (int m = from; m <= to; m++) {
                double w = weight[m - n + MEAN_HOPS];
                re += w * z[0][m];
                im += w * z[1][m];
            }
            p[0][n] = z[0][n] * re + z[1][n] * im;
            p[1][n] = z[1][n] * re - z[0][n] * im;
        }
        return p;
    }

    /** Place of the highest value, refined by a parabola, turns. */
    private static double peak(double[] gain) {
        int best = 0;
        for (int g = 1; g < gain.length; g++) {
            if (gain[g] > gain[best]) {
                best = g;
            }
        }
        double place = best;
        if (best > 0 && best + 1 < gain.length) {
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

    /** The angle with its errors added, smoothed as far as they justify. */
    private ShaftAngle shifted(
            ShaftAngle angle, AngularRecord record, int window, double[] errors, double sigma) {
        int n = (errors.length - 1) / THINNED_HOPS + 1;
        double[] t = new double[n];
        double[] turns = new double[n];
        for (int i = 0; i < n; i++) {
            double at = record.turnsAt(i * THINNED_HOPS * PER_HOP + window / 2.0);
            t[i] = angle.timeAt(at);
            turns[i] = at + errors[i * THINNED_HOPS];
        }
        double[] steps = new double[n - 1];
        for (int i = 0; i + 1 < n; i++) {
            steps[i] = t[i + 1] - t[i];
        }
        double unitS = Statistics.median(steps);
        double typicalHz = (turns[n - 1] - turns[0]) / (t[n - 1] - t[0]);
        KnotGrid grid = new KnotGrid(t, turns, unitS, angle.startS(), angle.endS(), typicalHz);
        AngleSmoother smoother =
                new AngleSmoother(grid.timesS(), grid.turns(), grid.weights(), unitS);
        MotionFinder motion =
                new MotionFinder(grid.timesS(), grid.turns(), grid.weights(), unitS, 0);
        AngleSmoother.Curve curve = smoother.smooth(motion.likeliestEven());
        double[] sigmas = curve.sigmaTurns().clone();
        for (int i = 0; i < sigmas.length; i++) {
            sigmas[i] = Math.hypot(sigmas[i], sigma);
        }
        double[] states = curve.states().clone();
        double zero = states[0];
        for (int i = 0; i < states.length; i += 3) {
            states[i] -= zero;
        }
        return new ShaftAngle(AnglePieces.ofStates(grid.timesS(), states), sigmas, false);
    }

    /**
     * How far the engine's orders stand out of what lies beside them, over frames of 16 turns: mean
     * logarithm of power, orders up to 20.
     */
    double sharpness(ShaftAngle angle) {
        return sharpness(angle, records(angle));
    }

    private double sharpness(ShaftAngle angle, List<AngularRecord> records) {
        int turns = 16;
        double sum = 0;
        int count = 0;
        double top = Math.min(20, topOrder(angle));
        for (AngularRecord record : records) {
            if (record.lengthTurns() < turns) {
                continue;
            }
            double[] rms =
                    OrderSpectrum.of(record, OrderSpectrum.Spec.hann(turns))
                            .values(OrderSpectrum.Scaling.LINE_RMS);
            for (double order = cycleOrder; order <= top; order += cycleOrder) {
                int k = (int) Math.round(order * turns);
                double beside =
                        Statistics.median(
                                new double[] {rms[k - 3], rms[k - 4], rms[k + 3], rms[k + 4]});
                sum += Math.log((rms[k] + 1e-15) / (beside + 1e-15));
                count++;
            }
        }
        return count == 0 ? 0 : sum / count;
    }
}
