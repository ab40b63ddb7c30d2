package tickover.dsp;

/**
 * The Kaiser window and the filters made with it.
 *
 * <p>Design rules: shape from the wanted attenuation and length from the transition width, by
 * Kaiser's published fits (from memory, and checked against scipy); {@link FirDesign#worstError}
 * measures what was really reached.
 */
public final class Kaiser {
    private Kaiser() {}

    /**
     * Modified Bessel function of the first kind, order 0.
     *
     * @param x any finite number
     * @return I0(x), relative error below 1e-14
     */
    public static double besselI0(double x) {
        double quarter = x * x / 4;
        double term = 1;
        double sum = 1;
        for (int k = 1; term > 1e-17 * sum; k++) {
            term *= quarter / ((double) k * k);
            sum += term;
        }
        return sum;
    }

    /**
     * One weight of the continuous window.
     *
     * @param place distance from the middle over the half width, -1 to 1; 0 outside
     * @param beta shape, &gt;= 0
     * @return 1 in the middle
     */
    public static double weight(double place, double beta) {
        double inside = 1 - place * place;
        return inside < 0 ? 0 : besselI0(beta * Math.sqrt(inside)) / besselI0(beta);
    }

    /**
     * The transform of the continuous window.
     *
     * @param frequency cycles per unit
     * @param width the window's whole width, units
     * @param beta shape, &gt;= 0
     * @return real, in units; {@link #weight} is 1 in the middle
     */
    public static double transform(double frequency, double width, double beta) {
        double phase = Math.PI * width * frequency;
        double square = beta * beta - phase * phase;
        double root = Math.sqrt(Math.abs(square));
        double bump = root == 0 ? 1 : (square > 0 ? Math.sinh(root) : Math.sin(root)) / root;
        return width * bump / besselI0(beta);
    }

    /**
     * A symmetric window.
     *
     * @param n weights, &gt;= 1
     * @param beta shape, &gt;= 0
     * @return a new array
     */
    public static double[] symmetric(int n, double beta) {
        if (!(n >= 1 && beta >= 0)) {
            throw new IllegalArgumentException(
                    "n=" + n + ", beta=" + beta + ", need n >= 1 and beta >= 0");
        }
        double[] weights = new double[n];
        for (int i = 0; i < n; i++) {
            weights[i] = n == 1 ? 1 : weight(2.0 * i / (n - 1) - 1, beta);
        }
        return weights;
    }

    /**
     * The shape that reaches a wanted attenuation.
     *
     * @param attenuationDb stop-band attenuation re the pass band, dB, &gt;= 0
     * @return beta
     */
    public static double betaFor(double attenuationDb) {
        if (!(attenuationDb >= 0)) {
            throw new IllegalArgumentException("attenuationDb=" + attenuationDb + ", need >= 0 dB");
        }
        if (attenuationDb > 50) {
            return 0.1102 * (attenuationDb - 8.7);
        }
        if (attenuationDb > 21) {
            return 0.5842 * Math.pow(attenuationDb - 21, 0.4) + 0.07886 * (attenuationDb - 21);
        }
        return 0;
    }

    /**
     * The number of taps that a transition needs, odd so that the delay is whole.
     *
     * @param attenuationDb stop-band attenuation re the pass band, dB
     * @param transitionRatio width of the transition over the sample rate, 0 to 0.5
     * @return taps, odd, &gt;= 3
     */
    public static int tapsFor(double attenuationDb, double transitionRatio) {
        if (!(transitionRatio > 0 && transitionRatio < 0.5)) {
            throw new IllegalArgumentException(
                    "transitionRatio=" + transitionRatio + ", need 0 to 0.5 of the sample rate");
        }
        double width = 2 * Math.PI * transitionRatio;
        int taps = (int) Math.ceil((Math.max(attenuationDb, 21) - 7.95) / (2.285 * width)) + 1;
        return Math.max(3, taps | 1);
    }
}
