package tickover.order;

import java.util.Arrays;
import java.util.Objects;
import java.util.OptionalDouble;
import tickover.dsp.RealFft;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/**
 * Finds how fast a part turns by what it does once, twice, … per turn, within a range of turns per
 * crank turn.
 *
 * <p>For each ratio the power of the spectrum over the whole record, over the background of its
 * neighbourhood, is summed over the first harmonics. The largest sum wins if noise would reach it
 * once in a thousand searches at most. It tells a line from noise, not one part from another: of
 * two parts in the range it takes the stronger.
 */
public final class TurnSearch {
    private static final int HARMONICS = 3;
    private static final double FALSE_ALARM = 1e-3;

    /** Bins per line of the spectrum: finer only repeats. */
    private static final int FINER = 8;

    /** Background is taken over the range, and at least this many lines beside it either way. */
    private static final int LINES_BESIDE = 20;

    private TurnSearch() {}

    /**
     * Finds the ratio.
     *
     * @param record record over the crank's angle, what the engine itself repeats taken out
     * @param fromTurns lowest turns per crank turn, &gt; 0
     * @param toTurns highest turns per crank turn
     * @return turns of the part per crank turn, to about a tenth of a turn over the record; empty
     *     if nothing stands out
     */
    public static OptionalDouble find(AngularRecord record, double fromTurns, double toTurns) {
        Objects.requireNonNull(record, "record");
        double highest = record.samplesPerTurn() / 2.0;
        if (!(fromTurns > 0 && toTurns > fromTurns && toTurns < highest)) {
            throw new IllegalArgumentException(
                    "turns "
                            + fromTurns
                            + " to "
                            + toTurns
                            + ", need a range above 0 and below "
                            + highest);
        }
        Spectrum spectrum = new Spectrum(record);
        int harmonics = (int) Math.min(HARMONICS, Math.floor(0.8 * highest / toTurns));
        double[] backgrounds = new double[harmonics + 1];
        for (int k = 1; k <= harmonics; k++) {
            backgrounds[k] = spectrum.background(k * fromTurns, k * toTurns);
        }
        double step = 1.0 / (FINER * harmonics * record.lengthTurns());
        double best = 0;
        double found = 0;
        for (double ratio = fromTurns; ratio <= toTurns; ratio += step) {
            double sum = 0;
            for (int k = 1; k <= harmonics; k++) {
                sum += backgrounds[k] > 0 ? spectrum.powerAt(k * ratio) / backgrounds[k] : 0;
            }
            if (sum > best) {
                best = sum;
                found = ratio;
            }
        }
        double tries = Math.max(1, (toTurns - fromTurns) * harmonics * record.lengthTurns());
        return best > limit(tries, harmonics) ? OptionalDouble.of(found) : OptionalDouble.empty();
    }

    /**
     * What a sum of exponential powers of mean one exceeds once in a thousand times so many tries.
     */
    private static double limit(double tries, int harmonics) {
        double limit = harmonics;
        while (tail(limit, harmonics) * tries > FALSE_ALARM) {
            limit += 0.1;
        }
        return limit;
    }

    /** Probability that a sum of {@code count} exponential values of mean one exceeds a limit. */
    private static double tail(double limit, int count) {
        double term = Math.exp(-limit);
        double sum = 0;
        for (int i = 0; i < count; i++) {
            sum += term;
            term *= limit / (i + 1);
        }
        return sum;
    }

    /** Power over order of a whole record under a Hann window. */
    private static final class Spectrum {
        private final double binOrders;
        private final double lineOrders;
        private final double[] power;

        Spectrum(AngularRecord record) {
            double[] x = record.values();
            double[] weights = Window.HANN.periodic(x.length);
            RealFft fft = new RealFft(RealFft.goodSize(FINER / 2 * x.length));
            double[] padded = new double[fft.n()];
            double mean = Statistics.mean(x);
            for (int i = 0; i < x.length; i++) {
                padded[i] = weights[i] * (x[i] - mean);
            }
            double[] re = new double[fft.bins()];
            double[] im = new double[fft.bins()];
            fft.forward(padded, re, im);
            power = new double[fft.bins()];
            Arrays.setAll(power, k -> re[k] * re[k] + im[k] * im[k]);
            binOrders = (double) record.samplesPerTurn() / fft.n();
            lineOrders = 1 / record.lengthTurns();
        }

        double powerAt(double order) {
            return power[(int) Math.min(power.length - 1, Math.rint(order / binOrders))];
        }

        /** Mean of exponential powers by their median, so that lines do not count. */
        double background(double fromOrders, double toOrders) {
            double beside = LINES_BESIDE * lineOrders;
            int from = (int) Math.max(1, (fromOrders - beside) / binOrders);
            int to = (int) Math.min(power.length, (toOrders + beside) / binOrders + 1);
            return Statistics.median(Arrays.copyOfRange(power, from, Math.max(from + 1, to)))
                    / Math.log(2);
        }
    }
}
