package tickover.session;

import java.util.Objects;
import tickover.dsp.Kaiser;

/** Brings a sound to a rate that a loudspeaker takes. */
public final class SpeakerSound {
    /** Half the length of the interpolator, samples of the lower rate. */
    private static final int REACH = 24;

    /** Stop band below -80 dB, as a Kaiser window of this shape gives. */
    private static final double BETA = 8;

    /** Between them the interpolator is a straight line, -100 dB off at most. */
    private static final int STEPS = 512;

    /** Passed up to this share of half the lower rate. */
    private static final double PASSED_RATIO = 0.92;

    private SpeakerSound() {}

    /**
     * Changes the rate of a sound, band-limited.
     *
     * @param samples the sound; 1 at full scale
     * @param fromHz its rate, Hz
     * @param toHz the wanted rate, Hz
     * @return the same sound; the same array if the rates are equal
     */
    public static double[] at(double[] samples, double fromHz, double toHz) {
        Objects.requireNonNull(samples, "samples");
        if (!(fromHz > 0 && toHz > 0)) {
            throw new IllegalArgumentException(
                    "fromHz=" + fromHz + ", toHz=" + toHz + ", need > 0 Hz");
        }
        if (fromHz == toHz) {
            return samples;
        }
        double cut = PASSED_RATIO * Math.min(1, toHz / fromHz);
        double reach = REACH / Math.min(1, toHz / fromHz);
        double[] kernel = kernel(cut, reach);
        double[] out = new double[(int) Math.floor(samples.length * toHz / fromHz)];
        for (int i = 0; i < out.length; i++) {
            double at = i * fromHz / toHz;
            int first = (int) Math.max(0, Math.ceil(at - reach));
            int last = (int) Math.min(samples.length - 1, Math.floor(at + reach));
            double sum = 0;
            for (int k = first; k <= last; k++) {
                double place = Math.abs(k - at) * STEPS;
                int whole = (int) place;
                double rest = place - whole;
                sum += samples[k] * (kernel[whole] + rest * (kernel[whole + 1] - kernel[whole]));
            }
            out[i] = sum;
        }
        return out;
    }

    /** One side of the interpolator, {@link #STEPS} values per sample. */
    private static double[] kernel(double cut, double reach) {
        double[] kernel = new double[(int) Math.ceil(reach * STEPS) + 2];
        for (int i = 0; i < kernel.length; i++) {
            double x = (double) i / STEPS;
            double sinc = i == 0 ? 1 : Math.sin(Math.PI * cut * x) / (Math.PI * cut * x);
            kernel[i] = cut * sinc * Kaiser.weight(x / reach, BETA);
        }
        return kernel;
    }
}
