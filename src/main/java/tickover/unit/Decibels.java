package tickover.unit;

/**
 * Ratios in decibels. A decibel is always a ratio of two named quantities; this class only does the
 * arithmetic.
 */
public final class Decibels {
    private Decibels() {}

    /**
     * Ratio of two amplitudes (rms, peak) in decibels.
     *
     * @param amplitude what was measured, &gt; 0
     * @param reference what it is held against, same unit, &gt; 0
     * @return 20 log10(amplitude / reference)
     */
    public static double ofAmplitudes(double amplitude, double reference) {
        return 20.0 * Math.log10(amplitude / reference);
    }

    /**
     * Ratio of two powers in decibels.
     *
     * @param power what was measured, &gt; 0
     * @param reference what it is held against, same unit, &gt; 0
     * @return 10 log10(power / reference)
     */
    public static double ofPowers(double power, double reference) {
        return 10.0 * Math.log10(power / reference);
    }

    /**
     * Amplitude ratio of a level difference.
     *
     * @param levelDb level difference, dB
     * @return 10^(levelDb / 20)
     */
    public static double toAmplitudeRatio(double levelDb) {
        return Math.pow(10.0, levelDb / 20.0);
    }
}
