package tickover.diagnose;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import tickover.dsp.Statistics;

/**
 * Order spectra of one channel of a bench record in which the turn's own lines are kept: of the
 * acceleration itself, and of how the upper range's power swings.
 *
 * <p>Both run over bins of {@link #resolutionOrders} per turn. Segments are whole turns without a
 * window, so a line at a whole order stands in one bin as long as the speed is right and steady;
 * {@link #motionSquare} and {@link #swingSquare} take as many bins as the speed may be wrong by.
 */
final class TurnOrders {
    /** Highest order kept, per turn. */
    static final double HIGHEST_ORDERS = 24;

    /** Below it lie the tones of the machine rather than what rough contacts excite. */
    private static final double LOWEST_SWING_HZ = 800;

    private static final double USABLE_RATIO = 0.98;
    private static final int BACKGROUND_BINS = 41;

    /** Mean over median of an exponentially distributed power, which noise bins are. */
    private static final double MEAN_OVER_MEDIAN = 1 / Math.log(2);

    private final double resolutionOrders;
    private final int turns;
    private final double errorRatio;
    private final double[] motion;
    private final double[] motionGround;
    private final double[] swing;
    private final double[] swingGround;

    private TurnOrders(EnvelopeAngle angle, double errorRatio, double[] motion, double[] swing) {
        this.resolutionOrders = angle.resolutionOrders();
        this.turns = angle.turns();
        this.errorRatio = errorRatio;
        this.motion = motion;
        this.motionGround = ground(motion);
        this.swing = swing;
        this.swingGround = ground(swing);
    }

    /**
     * Computes both spectra.
     *
     * @param accelMps2 one channel, m/s²
     * @param sampleRateHz samples per second, Hz
     * @param turnsAtS turns of the turning ring at a time in s
     * @param errorRatio how far the speed may be wrong, as a share of it
     */
    static TurnOrders of(
            double[] accelMps2,
            double sampleRateHz,
            DoubleUnaryOperator turnsAtS,
            double errorRatio) {
        EnvelopeSource source = EnvelopeSource.of(accelMps2, sampleRateHz);
        EnvelopeAngle angle = EnvelopeAngle.of(turnsAtS, source.durationS(), HIGHEST_ORDERS);
        int samples = (int) Math.round(source.durationS() * sampleRateHz);
        double[] x = Arrays.copyOf(accelMps2, samples);
        double mean = Statistics.mean(x);
        for (int i = 0; i < samples; i++) {
            x[i] -= mean;
        }
        double topHz = 0.5 * USABLE_RATIO * sampleRateHz;
        double fromHz = Math.min(LOWEST_SWING_HZ, 0.5 * topHz);
        return new TurnOrders(
                angle,
                errorRatio,
                angle.averagedPower(x, source.durationS()),
                angle.averagedPower(source.relativeEnvelope(fromHz, topHz), source.durationS()));
    }

    private static double[] ground(double[] power) {
        double[] ground = new double[power.length];
        for (int k = 0; k < power.length; k++) {
            int from = Math.max(1, Math.min(k - BACKGROUND_BINS / 2, power.length - 1));
            int to = Math.max(from + 1, Math.min(power.length, from + BACKGROUND_BINS));
            ground[k] =
                    Math.max(
                            Double.MIN_NORMAL,
                            MEAN_OVER_MEDIAN
                                    * Statistics.median(Arrays.copyOfRange(power, from, to)));
        }
        return ground;
    }

    double resolutionOrders() {
        return resolutionOrders;
    }

    int turns() {
        return turns;
    }

    /** Mean square of the acceleration's line at an order above its ground, (m/s²)². */
    double motionSquare(double order) {
        return 0.5 * excess(motion, motionGround, order);
    }

    /** Square by which the upper range's power swings at an order, relative to its mean. */
    double swingSquare(double order) {
        return excess(swing, swingGround, order);
    }

    /** The largest {@link #swingSquare} where a bearing's line may be: slip moves it. */
    double swingSquareNear(double order) {
        double slipRatio = 0.02;
        double best = 0;
        int reach = (int) Math.ceil(slipRatio * order / resolutionOrders);
        for (int k = -reach; k <= reach; k++) {
            best = Math.max(best, swingSquare(order + k * resolutionOrders));
        }
        return best;
    }

    /** ln(1 + power / ground) of the acceleration at an order, bounded. */
    double motionStrength(double order) {
        return strength(motion, motionGround, order);
    }

    /** ln(1 + power / ground) of the swing at an order, bounded. */
    double swingStrength(double order) {
        return strength(swing, swingGround, order);
    }

    private int half(double order) {
        return 1 + (int) Math.ceil(errorRatio * order / resolutionOrders);
    }

    private double excess(double[] power, double[] ground, double order) {
        int at = (int) Math.rint(order / resolutionOrders);
        double sum = 0;
        for (int k = Math.max(1, at - half(order)); k <= at + half(order); k++) {
            if (k < power.length) {
                sum += Math.max(0, power[k] - ground[k]);
            }
        }
        return sum;
    }

    private double strength(double[] power, double[] ground, double order) {
        // A line counts for at most this factor over its ground, so that several are asked for.
        double strongest = 30;
        int at = (int) Math.rint(order / resolutionOrders);
        double best = 0;
        for (int k = Math.max(1, at - half(order)); k <= at + half(order); k++) {
            if (k < power.length) {
                best = Math.max(best, Math.min(strongest, power[k] / ground[k]));
            }
        }
        return Math.log1p(best);
    }
}
