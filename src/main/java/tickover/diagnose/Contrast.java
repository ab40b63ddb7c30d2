package tickover.diagnose;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Level difference between two conditions at one point, with its interval.
 *
 * @param differenceDb first against second, dB (power ratio of the means)
 * @param lowDb lower end of the 95 % interval, dB
 * @param highDb upper end of the 95 % interval, dB
 * @param touches the smaller number of touches on either side; with one touch the interval knows
 *     nothing of how the next touch would differ
 */
public record Contrast(double differenceDb, double lowDb, double highDb, int touches) {
    /** Bootstrap repeats; common practice asks for at least 2000. */
    private static final int REPEATS = 2000;

    private static final long SEED = 20260304L;

    /** Keeps the ratio finite where a line vanishes altogether, (m/s²)². */
    private static final double LEAST_POWER = 1e-12;

    private static final double LOW_QUANTILE = 0.025;
    private static final double HIGH_QUANTILE = 0.975;

    public Contrast {
        if (!(lowDb <= highDb)) {
            throw new IllegalArgumentException(
                    "lowDb=" + lowDb + ", highDb=" + highDb + ", need low <= high");
        }
        if (!(touches >= 1)) {
            throw new IllegalArgumentException("touches=" + touches + ", need >= 1");
        }
    }

    /**
     * Compares two sets of touches by bootstrap over touches and, within a touch, over segments.
     *
     * <p>Segments are stretches of the recording long enough to be nearly independent, so drawing
     * them anew with replacement is a block bootstrap.
     *
     * @param first for each touch the power of each segment, (m/s²)²; no touch without a segment
     * @param second the same for the other condition
     * @return the contrast
     */
    public static Contrast between(List<double[]> first, List<double[]> second) {
        requireSegments(first, "first");
        requireSegments(second, "second");
        double difference = ratioDb(mean(first), mean(second));
        double[] drawn = new double[REPEATS];
        SplittableRandom random = new SplittableRandom(SEED);
        for (int i = 0; i < REPEATS; i++) {
            drawn[i] = ratioDb(redrawn(first, random), redrawn(second, random));
        }
        Arrays.sort(drawn);
        double low = drawn[(int) (LOW_QUANTILE * REPEATS)];
        double high = drawn[(int) (HIGH_QUANTILE * REPEATS)];
        return new Contrast(difference, low, high, Math.min(first.size(), second.size()));
    }

    private static void requireSegments(List<double[]> touches, String name) {
        if (touches.isEmpty() || touches.stream().anyMatch(t -> t.length == 0)) {
            throw new IllegalArgumentException(
                    name + " has a touch without segments, need at least one of each");
        }
    }

    private static double mean(List<double[]> touches) {
        double sum = 0;
        for (double[] touch : touches) {
            sum += Arrays.stream(touch).average().orElse(0) / touches.size();
        }
        return sum;
    }

    private static double redrawn(List<double[]> touches, SplittableRandom random) {
        double sum = 0;
        for (int t = 0; t < touches.size(); t++) {
            double[] touch = touches.get(random.nextInt(touches.size()));
            double touchSum = 0;
            for (int s = 0; s < touch.length; s++) {
                touchSum += touch[random.nextInt(touch.length)];
            }
            sum += touchSum / touch.length / touches.size();
        }
        return sum;
    }

    private static double ratioDb(double a, double b) {
        return 10 * Math.log10((a + LEAST_POWER) / (b + LEAST_POWER));
    }
}
