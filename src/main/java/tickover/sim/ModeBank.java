package tickover.sim;

import java.util.List;

/**
 * Resonances side by side, as second-order recursions whose poles are those of the continuous
 * resonance: an impact of strength A rings with initial amplitude A times the mode's gain and dies
 * with its decay time, whatever the sample rate.
 *
 * <p>Modes above 0.45 of the rate are left out: an anti-aliased probe does not see them.
 */
final class ModeBank {
    private static final double TOP_OF_RATE_RATIO = 0.45;

    private final double[] feedback1;
    private final double[] feedback2;
    private final double[] input;

    private ModeBank(double[] feedback1, double[] feedback2, double[] input) {
        this.feedback1 = feedback1;
        this.feedback2 = feedback2;
        this.input = input;
    }

    /** A bank in which an impact of unit strength rings with amplitude 1. */
    static ModeBank ringing(List<Mode> modes, double sampleRateHz) {
        return of(modes, sampleRateHz, false);
    }

    /** A bank in which a steady tone at a mode's frequency passes with amplitude 1. */
    static ModeBank passing(List<Mode> modes, double sampleRateHz) {
        return of(modes, sampleRateHz, true);
    }

    private static ModeBank of(List<Mode> modes, double sampleRateHz, boolean peakIsOne) {
        List<Mode> kept =
                modes.stream()
                        .filter(m -> m.frequencyHz() < TOP_OF_RATE_RATIO * sampleRateHz)
                        .toList();
        double[] a1 = new double[kept.size()];
        double[] a2 = new double[kept.size()];
        double[] b = new double[kept.size()];
        for (int k = 0; k < kept.size(); k++) {
            Mode m = kept.get(k);
            double w = 2 * Math.PI * m.frequencyHz() / sampleRateHz;
            double r = Math.exp(-m.dampingRatio() * w);
            double angle = w * Math.sqrt(1 - m.dampingRatio() * m.dampingRatio());
            a1[k] = 2 * r * Math.cos(angle);
            a2[k] = -r * r;
            b[k] = m.gainRatio() * (peakIsOne ? (1 - r * r) / 2 : 0.5);
        }
        return new ModeBank(a1, a2, b);
    }

    int size() {
        return input.length;
    }

    /** Fresh state for {@link #add}: four numbers per mode. */
    double[] state() {
        return new double[4 * input.length];
    }

    /** Adds every mode's answer to {@code in} to {@code out}. */
    void addAll(double[] in, double[] out, int count) {
        double[] state = state();
        for (int k = 0; k < input.length; k++) {
            add(k, in, 0, out, 0, count, state);
        }
    }

    /** Adds one mode's answer, carrying its state from call to call. */
    void add(int mode, double[] in, int inFrom, double[] out, int outFrom, int n, double[] state) {
        double a1 = feedback1[mode];
        double a2 = feedback2[mode];
        double b = input[mode];
        int s = 4 * mode;
        double y1 = state[s];
        double y2 = state[s + 1];
        double x1 = state[s + 2];
        double x2 = state[s + 3];
        for (int i = 0; i < n; i++) {
            double x = in[inFrom + i];
            double y = a1 * y1 + a2 * y2 + b * (x - x2);
            out[outFrom + i] += y;
            x2 = x1;
            x1 = x;
            y2 = y1;
            y1 = y;
        }
        state[s] = y1;
        state[s + 1] = y2;
        state[s + 2] = x1;
        state[s + 3] = x2;
    }
}
