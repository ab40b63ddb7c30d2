package tickover.order;

import tickover.dsp.Kaiser;

/**
 * What a resampling kernel does to a tone, worked out from its design instead of tried.
 *
 * <p>The kernel is a sinc under a Kaiser window of half length H = {@code halfSteps} and shape
 * beta. Frequencies f are in cycles per step of the slower rate: 0.5 is the corner, and the samples
 * lie 1/s apart, s &gt;= 1 being the stretch. A tone comes out with gain G(f), and with images at
 * {@code f + m s}, m = ±1, ±2, …, of gain {@code G(f + m s)}. The sinc's transform is a rectangle,
 * so G is the window's transform W integrated from f - 1/2 to f + 1/2, and all errors come from one
 * tail:
 *
 * <pre>
 * T(d) = integral of W from d up = 1/(pi I0(beta)) integral of sin(v) / sqrt(v² + beta²) dv
 *        from v = sqrt((2 pi H d)² - beta²) up
 * gain error in the pass band   T(1/2 - f) + T(1/2 + f)
 * gain of what must not pass    T(f - 1/2) - T(f + 1/2)
 * </pre>
 *
 * <p>Beyond the main lobe, {@code d >= beta / (2 pi H)}, the tail is at most {@link #tail}: with q
 * = 1/(2 pi H d), one integration by parts and the second mean value theorem give {@code (q + 1.54
 * / beta²) / (pi I0(beta))}, and the theorem alone {@code 2 q / (pi I0(beta))}. At the edge of the
 * main lobe that is 1 to 2 dB above the true tail.
 *
 * <p>The kernel is tabled with P = {@link #ENTRIES_PER_STEP} entries per step and read straight
 * between them, which multiplies its transform by sinc²(f/P) and repeats it every P: {@link
 * #tableDroopRatio} and {@link #tableImagesRatio}.
 *
 * <p>The usual kernel is applied in two parts where it can be; {@link GridKernel} says how that
 * changes its gain at most, and the bounds here include it.
 *
 * <p>Source: derived here; the window's transform is Kaiser's, from memory.
 *
 * @param halfSteps half length of the kernel, steps of the slower rate, &gt;= 1
 * @param attenuationDb stop-band attenuation that beta is chosen for, dB, above 21
 */
public record ResamplingDesign(int halfSteps, double attenuationDb) {
    /** Entries of the table per step. */
    static final int ENTRIES_PER_STEP = 2048;

    /** Images summed one by one; those beyond are bounded by an integral. */
    private static final int IMAGES = 32;

    /** 4 times the largest slope of 1/sqrt(v² + 1), 2/(3 sqrt 3). */
    private static final double SLOPES = 8 / (3 * Math.sqrt(3));

    public ResamplingDesign {
        if (!(halfSteps >= 1)) {
            throw new IllegalArgumentException("halfSteps=" + halfSteps + ", need >= 1");
        }
        if (!(attenuationDb > 21 && Double.isFinite(attenuationDb))) {
            throw new IllegalArgumentException(
                    "attenuationDb=" + attenuationDb + ", need above 21 dB");
        }
    }

    /**
     * The window's shape.
     *
     * @return Kaiser's beta
     */
    public double beta() {
        return Kaiser.betaFor(attenuationDb);
    }

    /**
     * The pass band over half the slower rate; the stop band begins as far beyond it.
     *
     * @return {@code 1 - beta / (pi H)}; 0 or less if the kernel is too short to have one
     */
    public double passRatio() {
        return 1 - beta() / (Math.PI * halfSteps);
    }

    /**
     * Bound of the window's tail.
     *
     * @param distance d, cycles per step, at least {@code beta / (2 pi H)}
     * @return bound of |T(d)|
     */
    public double tail(double distance) {
        double beta = beta();
        double q = q(distance);
        return (q + Math.min(q, SLOPES / (beta * beta))) / (Math.PI * Kaiser.besselI0(beta));
    }

    /**
     * Bound of the error of a tone's amplitude in the pass band, over the amplitude.
     *
     * @param frequency f, cycles per step, 0 to {@code passRatio() / 2}
     * @return share of the amplitude
     */
    public double amplitudeErrorRatio(double frequency) {
        return tail(0.5 - frequency)
                + tail(0.5 + frequency)
                + tableDroopRatio(frequency)
                + (isUsual() ? GridKernel.PASS_ERROR_RATIO : 0);
    }

    /**
     * Bound of what else comes out with a tone in the pass band, rms over the tone's rms: all
     * images and those of the table.
     *
     * @param frequency f, cycles per step, 0 to {@code passRatio() / 2}
     * @param stretch samples per step, &gt;= 1
     * @return share of the tone
     */
    public double spuriousRatio(double frequency, double stretch) {
        return Math.sqrt(images(frequency, stretch)) + tableImagesRatio() + gridRatio();
    }

    /**
     * Bound of what comes out of a tone beyond the stop band's edge, rms over the tone's rms: of
     * what folds in.
     *
     * @param frequency f, cycles per step, at least {@code 1 - passRatio() / 2}, at most half of
     *     the stretch
     * @param stretch samples per step, &gt;= 1
     * @return share of the tone
     */
    public double foldedRatio(double frequency, double stretch) {
        double own = stopGain(frequency);
        return Math.sqrt(own * own + images(frequency, stretch)) + tableImagesRatio() + gridRatio();
    }

    /** Sum of the squares of the bounds of all images. */
    private double images(double frequency, double stretch) {
        double squares = 0;
        for (int m = 1; m <= IMAGES; m++) {
            squares += square(stopGain(m * stretch - frequency));
            squares += square(stopGain(m * stretch + frequency));
        }
        // Of those beyond, image m has a gain of at most this over m - 1; 1/m² sums to 1/(m - 1/2).
        double far = 2 * q(stretch) * 2 / (Math.PI * Kaiser.besselI0(beta()));
        return squares + 2 * far * far / (IMAGES - 0.5);
    }

    /**
     * What reading the table straight between entries takes off a tone.
     *
     * @param frequency f, cycles per step
     * @return {@code 1 - sinc²(f/P)} to its first term, {@code (pi f / P)² / 3}
     */
    static double tableDroopRatio(double frequency) {
        return square(Math.PI * frequency / ENTRIES_PER_STEP) / 3;
    }

    /**
     * Images that reading the table straight between entries makes, rms over the tone's rms: {@code
     * (f/(k P))²} at every multiple k of P, both sides, at most for f = 1/2.
     */
    static double tableImagesRatio() {
        double zeta4 = Math.pow(Math.PI, 4) / 90;
        return square(0.5 / ENTRIES_PER_STEP) * Math.sqrt(2 * zeta4);
    }

    /** What the grid, which the usual kernel alone is laid on, adds to images. */
    private double gridRatio() {
        return isUsual() ? GridKernel.STOP_ERROR_RATIO : 0;
    }

    /** Whether this is the kernel that {@link AngularResampler.Spec#of} asks for. */
    boolean isUsual() {
        return halfSteps == ResamplingKernel.USUAL_HALF_STEPS
                && attenuationDb == ResamplingKernel.USUAL_ATTENUATION_DB;
    }

    private double q(double distance) {
        return 1 / (2 * Math.PI * halfSteps * distance);
    }

    private double stopGain(double frequency) {
        return tail(frequency - 0.5) + tail(frequency + 0.5);
    }

    private static double square(double value) {
        return value * value;
    }
}
