package tickover.dsp;

/**
 * Designs linear-phase filters: an ideal response cut to length by a Kaiser window.
 *
 * <p>All frequencies are ratios to the sample rate. A request at or above half the rate is refused.
 */
public final class FirDesign {
    private FirDesign() {}

    /**
     * What a filter has to do.
     *
     * @param loRatio lower corner (-6 dB) over the sample rate; 0 for a low-pass
     * @param hiRatio upper corner (-6 dB) over the sample rate, below 0.5
     * @param transitionRatio full width of the transition around each corner over the sample rate
     * @param attenuationDb stop-band attenuation re the pass band, dB, 21 to 180
     */
    public record Spec(
            double loRatio, double hiRatio, double transitionRatio, double attenuationDb) {
        public Spec {
            if (!(hiRatio > 0 && hiRatio < 0.5)) {
                throw new IllegalArgumentException(
                        "hiRatio=" + hiRatio + ", need above 0 and below 0.5 of the sample rate");
            }
            if (!(loRatio >= 0 && loRatio < hiRatio)) {
                throw new IllegalArgumentException(
                        "loRatio=" + loRatio + ", need 0 to below hiRatio=" + hiRatio);
            }
            if (!(transitionRatio > 0 && hiRatio + transitionRatio / 2 <= 0.5)) {
                throw new IllegalArgumentException(
                        "transitionRatio="
                                + transitionRatio
                                + ", need > 0 and to end at or below 0.5 of the sample rate");
            }
            if (!(attenuationDb >= 21 && attenuationDb <= 180)) {
                throw new IllegalArgumentException(
                        "attenuationDb=" + attenuationDb + ", need 21 to 180 dB");
            }
        }

        /**
         * A low-pass.
         *
         * @param cornerRatio corner (-6 dB) over the sample rate
         * @param transitionRatio full width of the transition over the sample rate
         * @param attenuationDb stop-band attenuation re the pass band, dB
         * @return the spec
         */
        public static Spec lowPass(
                double cornerRatio, double transitionRatio, double attenuationDb) {
            return new Spec(0, cornerRatio, transitionRatio, attenuationDb);
        }
    }

    /**
     * Taps of a filter with the fewest that meet the spec by Kaiser's formula. Gain is 1 at
     * frequency zero for a low-pass, in the middle of the band otherwise.
     *
     * @param spec what the filter has to do
     * @return taps, an odd number, symmetric
     */
    public static double[] design(Spec spec) {
        int taps = Kaiser.tapsFor(spec.attenuationDb(), spec.transitionRatio());
        return design(taps, Kaiser.betaFor(spec.attenuationDb()), spec.loRatio(), spec.hiRatio());
    }

    /**
     * Taps of a filter of given length and shape.
     *
     * @param taps number of taps, &gt;= 1
     * @param beta shape of the Kaiser window
     * @param loRatio lower corner over the sample rate, 0 for a low-pass
     * @param hiRatio upper corner over the sample rate
     * @return taps, symmetric, scaled to gain 1 at zero (low-pass) or mid-band
     */
    public static double[] design(int taps, double beta, double loRatio, double hiRatio) {
        double[] h = Kaiser.symmetric(taps, beta);
        double middle = (taps - 1) / 2.0;
        for (int i = 0; i < taps; i++) {
            double d = i - middle;
            h[i] *= 2 * hiRatio * sinc(2 * hiRatio * d) - 2 * loRatio * sinc(2 * loRatio * d);
        }
        double gain = gainAt(h, loRatio == 0 ? 0 : (loRatio + hiRatio) / 2);
        for (int i = 0; i < taps; i++) {
            h[i] /= gain;
        }
        return h;
    }

    /**
     * The magnitude of a filter's response.
     *
     * @param taps the filter
     * @param frequencyRatio frequency over the sample rate
     * @return gain
     */
    public static double gainAt(double[] taps, double frequencyRatio) {
        double re = 0;
        double im = 0;
        for (int i = 0; i < taps.length; i++) {
            double angle = 2 * Math.PI * frequencyRatio * i;
            re += taps[i] * Math.cos(angle);
            im -= taps[i] * Math.sin(angle);
        }
        return Math.hypot(re, im);
    }

    /**
     * The largest distance of a filter's gain from a wanted one over a range, on a grid eight times
     * as dense as the filter is long: 1 gives the pass-band ripple, 0 the stop-band leakage.
     *
     * @param taps the filter
     * @param fromRatio start of the range over the sample rate
     * @param toRatio end of the range over the sample rate
     * @param wantedGain gain that is wanted throughout
     * @return largest absolute error of gain
     */
    public static double worstError(
            double[] taps, double fromRatio, double toRatio, double wantedGain) {
        int steps = Math.max(8, (int) Math.ceil(8 * taps.length * (toRatio - fromRatio)));
        double worst = 0;
        for (int i = 0; i <= steps; i++) {
            double at = fromRatio + (toRatio - fromRatio) * i / steps;
            worst = Math.max(worst, Math.abs(gainAt(taps, at) - wantedGain));
        }
        return worst;
    }

    static double sinc(double x) {
        return x == 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    }
}
