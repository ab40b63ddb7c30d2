package tickover.order;

import java.util.Arrays;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;
import tickover.dsp.RealFft;
import tickover.dsp.Window;

/**
 * The crank's angle from pulses of another pulley.
 *
 * <p>How often that pulley turns per crank turn comes from a tape measure and a belt that slips, so
 * the angle would be off by a per cent, and every order with it. The pulses keep the lines sharp;
 * where the engine's own lines stand, multiples of its working cycle, tells the ratio.
 */
final class TachRatio {
    /** A tape measure and slip are off by less than this. */
    private static final double REACH_RATIO = 0.03;

    /** Spread of a ratio of two tape-measured diameters. */
    private static final double TAPE_RATIO = 0.0095;

    private static final double STEP_RATIO = 1e-4;
    private static final int PER_TURN = 64;

    /** The engine's lines count up to this order. */
    private static final double TOP_ORDER = 20;

    /** Power of one line above its surroundings counts up to this, nats. */
    private static final double MOST_NATS = 12;

    /** Half the stretch that makes a line's surroundings, orders. */
    private static final double AROUND_ORDERS = 0.22;

    private static final double LEAST_TURNS = 20;

    private TachRatio() {}

    static AngleFinding find(
            CaptureSignal capture, TachPulses pulses, Ripple ripple, AnglePrior prior) {
        double durationS = capture.durationS();
        int cycleTurns = prior.strokes() / 2;
        AngleFinding plain = TachAngle.find(pulses, durationS, ripple, cycleTurns);
        if (pulses.turnsPerCrankTurn() == 1 || plain.angle().isEmpty()) {
            return plain;
        }
        ShaftAngle given = plain.angle().get();
        if (!(given.endTurns() - given.startTurns() > LEAST_TURNS)) {
            return plain;
        }
        double scale = engineLines(capture, given, prior.cycleOrder());
        return TachAngle.find(
                new TachPulses(
                        pulses.timesS(),
                        pulses.pulsesPerTurn(),
                        pulses.turnsPerCrankTurn() / scale),
                durationS,
                ripple,
                cycleTurns);
    }

    /** Where the engine's lines stand over where they should. */
    private static double engineLines(CaptureSignal capture, ShaftAngle angle, double cycleOrder) {
        double[] nats = new double[0];
        double stepOrders = 1;
        for (int c = 0; c < capture.channels(); c++) {
            double[] x =
                    AngularResampler.resample(
                                    capture.accelMps2(c), capture.sampleRateHz(), angle, PER_TURN)
                            .values();
            int size = RealFft.goodSize(2 * x.length);
            stepOrders = (double) PER_TURN / size;
            double[] channel = overSurroundings(power(x, size), stepOrders);
            nats = nats.length == 0 ? new double[channel.length] : nats;
            for (int i = 0; i < nats.length; i++) {
                nats[i] += channel[i];
            }
        }
        double best = Double.NEGATIVE_INFINITY;
        double bestScale = 1;
        int steps = (int) Math.rint(REACH_RATIO / STEP_RATIO);
        for (int i = -steps; i <= steps; i++) {
            double scale = 1 + i * STEP_RATIO;
            double off = (scale - 1) / TAPE_RATIO;
            double sum = -off * off / 2;
            for (double order = cycleOrder; order <= TOP_ORDER; order += cycleOrder) {
                int bin = (int) Math.rint(order * scale / stepOrders);
                sum += bin < nats.length ? nats[bin] : 0;
            }
            if (sum > best) {
                best = sum;
                bestScale = scale;
            }
        }
        return bestScale;
    }

    private static double[] power(double[] x, int size) {
        double[] window = Window.HANN.periodic(x.length);
        double mean = Arrays.stream(x).average().orElse(0);
        double[] padded = new double[size];
        for (int i = 0; i < x.length; i++) {
            padded[i] = (x[i] - mean) * window[i];
        }
        double[] re = new double[size / 2 + 1];
        double[] im = new double[size / 2 + 1];
        new RealFft(size).forward(padded, re, im);
        double[] out = new double[size / 2 + 1];
        Arrays.setAll(out, i -> re[i] * re[i] + im[i] * im[i]);
        return out;
    }

    /** Logarithm of power over the mean of what stands to both sides, within bounds. */
    private static double[] overSurroundings(double[] power, double stepOrders) {
        int reach = Math.max(1, (int) Math.rint(AROUND_ORDERS / stepOrders));
        double[] before = new double[power.length + 1];
        for (int i = 0; i < power.length; i++) {
            before[i + 1] = before[i] + Math.log(power[i] + 1e-30);
        }
        double[] out = new double[power.length];
        for (int i = 0; i < power.length; i++) {
            int from = Math.max(0, i - reach);
            int to = Math.min(power.length, i + reach + 1);
            double usual = (before[to] - before[from]) / (to - from);
            out[i] = Math.max(0, Math.min(MOST_NATS, Math.log(power[i] + 1e-30) - usual));
        }
        return out;
    }
}
