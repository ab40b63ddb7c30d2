package tickover.diagnose;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import tickover.drive.BearingOrders;
import tickover.dsp.Statistics;

/**
 * Sharpens a speed that is roughly known, from the lines that every turning shaft leaves at whole
 * multiples of its speed.
 *
 * <p>The comb of the first harmonics is tried at every speed within the tolerance; what the same
 * comb reaches at speeds that are certainly wrong tells whether the best one means anything. If it
 * does not, the given speed stands.
 *
 * <p>A damaged bearing draws combs of its own. Where a multiple of one of its orders stands so
 * close to a whole number that another speed would make it one, that harmonic is left out: the
 * outer race of a 6203 passes 3.05 balls per turn, which at a speed 1.8 % higher would be three.
 */
public final class BenchSpeed {
    private static final int HARMONICS = 12;
    private static final int[] ALL = IntStream.rangeClosed(1, HARMONICS).toArray();
    private static final double TOLERANCE_RATIO = 0.025;

    /** Wrong speeds, as shares of the given one, away from simple fractions of it. */
    private static final double WRONG_FROM_RATIO = 0.53;

    private static final double WRONG_TO_RATIO = 0.97;
    private static final double[] FRACTIONS = {0.6, 2.0 / 3, 0.75, 0.8};
    private static final double FRACTION_GUARD_RATIO = 0.01;

    /**
     * Scatters above the median of wrong speeds that count as found. Some three hundred speeds are
     * tried, whose best is about 3 by chance; wrong ones with a line or two of their own reach 5.
     */
    private static final double NEEDED_SCATTERS = 6.5;

    /** One speed alone is asked about its own harmonics; this is passed by chance once in fifty. */
    private static final double OWN_SCATTERS = 2;

    private final double turnsHz;
    private final boolean refined;
    private final double[] logStrength;
    private final double binHz;

    private BenchSpeed(
            List<double[]> channels, double sampleRateHz, double givenHz, BearingOrders bearing) {
        int n = EnvelopeOrders.smoothSizeAtMost(channels.get(0).length);
        this.binHz = sampleRateHz / n;
        double topHz = (HARMONICS + 1) * givenHz * (1 + TOLERANCE_RATIO);
        this.logStrength = TurnComb.logStrength(channels, sampleRateHz, topHz, givenHz);
        double stepRatio = binHz / (2 * HARMONICS * givenHz);
        int steps = (int) Math.ceil(TOLERANCE_RATIO / stepRatio);
        double best = 0;
        double bestSum = Double.NEGATIVE_INFINITY;
        for (int i = -steps; i <= steps; i++) {
            double sum = sum(ALL, givenHz * (1 + i * stepRatio));
            if (sum > bestSum) {
                bestSum = sum;
                best = i * stepRatio;
            }
        }
        int[] own = ownHarmonics(bearing);
        double bestHz = givenHz * (1 + best);
        this.refined =
                scatters(bestSum, wrongSums(ALL, givenHz, stepRatio)) > NEEDED_SCATTERS
                        && scatters(sum(own, bestHz), wrongSums(own, givenHz, stepRatio))
                                > OWN_SCATTERS;
        this.turnsHz = refined ? bestHz : givenHz;
    }

    /** How far a sum stands above those of wrong speeds, in their scatters. */
    private static double scatters(double sum, double[] wrong) {
        double median = Statistics.median(wrong);
        // The 84 % point is one standard deviation up, for Gaussian values.
        double scatter = Statistics.quantile(wrong, 0.84) - median;
        return scatter > 0 ? (sum - median) / scatter : 0;
    }

    /**
     * Sharpens a speed.
     *
     * @param channels samples at steady speed, m/s², at least one channel, all as long
     * @param sampleRateHz samples per second, Hz
     * @param givenHz speed as given, turns per second, within 2.5 % of the truth
     * @param bearing orders of the bearing that turns, whose lines must not pass for the shaft's
     * @return the speed to use
     */
    public static BenchSpeed near(
            List<double[]> channels, double sampleRateHz, double givenHz, BearingOrders bearing) {
        Objects.requireNonNull(channels, "channels");
        if (!(givenHz > 0 && givenHz < sampleRateHz / (4 * HARMONICS))) {
            throw new IllegalArgumentException(
                    "givenHz="
                            + givenHz
                            + ", need > 0 and below "
                            + sampleRateHz / (4 * HARMONICS)
                            + " Hz at this sample rate");
        }
        return new BenchSpeed(channels, sampleRateHz, givenHz, bearing);
    }

    /** Harmonics of the shaft that no line of the bearing can stand for at a speed tried here. */
    private static int[] ownHarmonics(BearingOrders bearing) {
        double[] orders = {
            bearing.outerRaceOrder(), bearing.innerRaceOrder(), 2 * bearing.ballSpinOrder()
        };
        // The given speed and the one tried may be off to opposite sides.
        double reachRatio = 2 * TOLERANCE_RATIO;
        return Arrays.stream(ALL)
                .filter(
                        h ->
                                Arrays.stream(orders)
                                        .noneMatch(
                                                o -> {
                                                    double k = Math.max(1, Math.rint(h / o));
                                                    return Math.abs(k * o / h - 1) < reachRatio;
                                                }))
                .toArray();
    }

    /**
     * Returns the speed to use.
     *
     * @return turns per second, Hz
     */
    public double turnsHz() {
        return turnsHz;
    }

    /**
     * Tells whether the record itself shows the speed.
     *
     * @return false if the given speed stands unchecked
     */
    public boolean refined() {
        return refined;
    }

    private double sum(int[] harmonics, double turnsHz) {
        double sum = 0;
        for (int h : harmonics) {
            int k = (int) Math.rint(h * turnsHz / binHz);
            sum += k < logStrength.length ? logStrength[k] : 0;
        }
        return sum;
    }

    private double[] wrongSums(int[] harmonics, double givenHz, double stepRatio) {
        int count = (int) ((WRONG_TO_RATIO - WRONG_FROM_RATIO) / stepRatio);
        double[] sums = new double[Math.max(1, count)];
        int kept = 0;
        for (int i = 0; i < sums.length; i++) {
            double ratio = WRONG_FROM_RATIO + i * stepRatio;
            boolean simple = false;
            for (double fraction : FRACTIONS) {
                simple |= Math.abs(ratio - fraction) < FRACTION_GUARD_RATIO;
            }
            if (!simple) {
                sums[kept++] = sum(harmonics, givenHz * ratio);
            }
        }
        return Arrays.copyOf(sums, Math.max(1, kept));
    }
}
