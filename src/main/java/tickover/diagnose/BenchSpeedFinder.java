package tickover.diagnose;

import java.util.Locale;
import java.util.OptionalDouble;
import tickover.dsp.Statistics;

/**
 * Finds the speed of a shaft of which nothing is said, from the lines that it leaves at whole
 * multiples of its speed.
 *
 * <p>Every speed within the range gets the sum of how far its first twelve harmonics stand out,
 * less what stands half-way between them. A speed that is a fraction of the true one finds every
 * second or third harmonic only, so odd harmonics and those that three does not divide must stand
 * out by themselves. A speed counts as found if it stands well above every other that is none of
 * its multiples or fractions, and is none that the mains would leave.
 */
final class BenchSpeedFinder {
    static final double LOWEST_RPM = 300;
    static final double HIGHEST_RPM = 3600;

    private static final int HARMONICS = 12;

    /** Width of the surroundings that a bin is held against, Hz. */
    private static final double WIDTH_HZ = 12;

    /** Scatters that the best must stand out by; chance reaches about 4.5 among ten thousand. */
    private static final double NEEDED_SCATTERS = 8;

    /** What a fraction of the true speed lacks must stand out by this much. */
    private static final double NEEDED_OF_EACH_SCATTERS = 3;

    /** The best must be this much above the next, which otherwise is as good an answer. */
    private static final double NEEDED_OVER_NEXT_RATIO = 1.25;

    /**
     * Where every second or third harmonic stands out by so many times the others' mean, those may
     * be fractions of a turn, which a part with play leaves.
     */
    private static final double UNEVEN_RATIO = 1.8;

    private static final double SAME_RATIO = 0.004;
    private static final double[] MAINS_HZ = {50, 60};
    private static final double MAINS_RATIO = 0.0015;
    private static final int MAINS_FRACTIONS = 6;

    private final double[] strength;
    private final double binHz;

    private BenchSpeedFinder(BenchRecord record) {
        double topHz = (HARMONICS + 1) * HIGHEST_RPM / 60;
        int n = EnvelopeOrders.smoothSizeAtMost(record.length());
        this.binHz = record.sampleRateHz() / n;
        this.strength =
                TurnComb.logStrength(record.channelsMps2(), record.sampleRateHz(), topHz, WIDTH_HZ);
    }

    /**
     * What came of the search.
     *
     * @param rpm the speed; empty if it cannot be told
     * @param why one sentence: why not, or how clear it is
     */
    record Found(OptionalDouble rpm, String why) {}

    static Found find(BenchRecord record) {
        return new BenchSpeedFinder(record).search();
    }

    private Found search() {
        double stepLog = Math.log1p(binHz / (3 * HARMONICS * HIGHEST_RPM / 60));
        int count = (int) (Math.log(HIGHEST_RPM / LOWEST_RPM) / stepLog) + 1;
        double[] score = new double[count];
        double[] odd = new double[count];
        double[] notThird = new double[count];
        double[] uneven = new double[count];
        for (int i = 0; i < count; i++) {
            double hz = LOWEST_RPM / 60 * Math.exp(i * stepLog);
            for (int h = 1; h <= HARMONICS; h++) {
                double line = at(h * hz);
                score[i] += line - at((h - 0.5) * hz);
                odd[i] += h % 2 == 1 ? line : 0;
                notThird[i] += h % 3 == 0 ? 0 : line;
            }
            double halves = (score(hz, 2) + 0.01) / (odd[i] / (HARMONICS / 2.0) + 0.01);
            double thirds = (score(hz, 3) + 0.01) / (notThird[i] / (HARMONICS * 2 / 3.0) + 0.01);
            uneven[i] = Math.max(halves, thirds);
        }
        double[] scoreZ = scatters(score);
        double[] oddZ = scatters(odd);
        double[] notThirdZ = scatters(notThird);
        int best = -1;
        for (int i = 0; i < count; i++) {
            boolean whole =
                    oddZ[i] > NEEDED_OF_EACH_SCATTERS && notThirdZ[i] > NEEDED_OF_EACH_SCATTERS;
            if (whole && (best < 0 || scoreZ[i] > scoreZ[best])) {
                best = i;
            }
        }
        if (best < 0 || !(scoreZ[best] > NEEDED_SCATTERS)) {
            return new Found(
                    OptionalDouble.empty(),
                    "no speed from "
                            + Math.round(LOWEST_RPM)
                            + " to "
                            + Math.round(HIGHEST_RPM)
                            + " rpm leaves lines at its multiples that stand out");
        }
        double bestRpm = LOWEST_RPM * Math.exp(best * stepLog);
        if (uneven[best] > UNEVEN_RATIO) {
            return new Found(
                    OptionalDouble.empty(),
                    String.format(
                            Locale.ROOT,
                            "it may be %.0f rpm or two or three times that: every second or third"
                                    + " multiple stands out more, as with a part that has play",
                            bestRpm));
        }
        for (int i = 0; i < count; i++) {
            boolean asGood = NEEDED_OVER_NEXT_RATIO * scoreZ[i] > scoreZ[best];
            double rpm = LOWEST_RPM * Math.exp(i * stepLog);
            if (asGood && !isSameComb(rpm / bestRpm)) {
                return new Found(
                        OptionalDouble.empty(),
                        String.format(
                                Locale.ROOT,
                                "%.0f and %.0f rpm explain its lines about as well",
                                bestRpm,
                                rpm));
            }
        }
        for (double mainsHz : MAINS_HZ) {
            for (int k = 1; k <= MAINS_FRACTIONS; k++) {
                if (Math.abs(bestRpm / 60 * k / mainsHz - 1) < MAINS_RATIO) {
                    return new Found(
                            OptionalDouble.empty(),
                            String.format(
                                    Locale.ROOT,
                                    "%.0f rpm fits best, but the mains at %.0f Hz leave the same"
                                            + " lines",
                                    bestRpm,
                                    mainsHz));
                }
            }
        }
        return new Found(
                OptionalDouble.of(bestRpm),
                String.format(
                        Locale.ROOT,
                        "found from the record: the multiples of %.1f rpm stand out and no other"
                                + " speed's do",
                        bestRpm));
    }

    /** Mean of every so-many-th harmonic. */
    private double score(double hz, int every) {
        double sum = 0;
        for (int h = every; h <= HARMONICS; h += every) {
            sum += at(h * hz) * every / HARMONICS;
        }
        return sum;
    }

    /** Fractions and multiples of the best share its lines and were told apart before. */
    private static boolean isSameComb(double ratio) {
        for (int a = 1; a <= 4; a++) {
            for (int b = 1; b <= 4; b++) {
                if (Math.abs(ratio * b / a - 1) < SAME_RATIO) {
                    return true;
                }
            }
        }
        return false;
    }

    private double at(double hz) {
        int k = (int) Math.rint(hz / binHz);
        return k < strength.length ? strength[k] : 0;
    }

    private static double[] scatters(double[] values) {
        double median = Statistics.median(values);
        // The 84 % point is one standard deviation up, for Gaussian values.
        double scatter = Statistics.quantile(values, 0.84) - median;
        double[] out = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            out[i] = scatter > 0 ? (values[i] - median) / scatter : 0;
        }
        return out;
    }
}
