package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import tickover.dsp.Statistics;

/**
 * Looks for a pattern of harmonics and sidebands in envelope order spectra and says how likely
 * chance would show one as strong.
 *
 * <p>Statistic of an order and a band: the sum of ln(1 + power / background) over the harmonics,
 * sidebands with half weight. The logarithm asks for several lines, not one strong one. It is
 * brought to the scatter of the band's other orders; the two best bands are averaged, so that one
 * odd band does not decide; and the expected deviation from nominal is charged.
 *
 * <p>Chance is learnt from the same spectrum: the same pattern is looked for, with the same
 * tolerance, around many orders that the bearing cannot make. The upper fifth of those results
 * gives an exponential tail, on which the pattern's own result is placed. So the look elsewhere
 * within the tolerance is paid for, and a spectrum that is full of some neighbour's lines asks for
 * more than a quiet one.
 */
public final class CombSearch {
    private static final double SIDEBAND_WEIGHT = 0.5;
    private static final int BANDS_AVERAGED = 2;

    /** Charge for a deviation of one sigma, in scatters of the statistic. */
    private static final double DEVIATION_CHARGE = 0.25;

    private static final double NULL_FROM_RATIO = 1 / 1.8;
    private static final double NULL_TO_RATIO = 2.2;
    private static final double TAIL_SHARE = 0.2;

    /** Fewer samples of chance give no tail. */
    private static final int FEWEST_NULL_WINDOWS = 12;

    /** The upper quartile of a Gaussian, in standard deviations. */
    private static final double QUARTILE_SIGMAS = 0.6745;

    /** Distance of a Gumbel variable's quartiles, in its scales. */
    private static final double GUMBEL_QUARTILES = 1.5725;

    private final EnvelopeOrders spectra;
    private final CombPattern pattern;
    private final double[] orders;
    private final double[] sidebandOrders;
    private final boolean[] chance;
    private final double stepLog;
    private final int reach;
    private final int points;
    private final int own;
    private final double[] statistic;
    private final double[][] perBand;
    private final boolean[] summit;

    private CombSearch(EnvelopeOrders spectra, CombPattern pattern) {
        this.spectra = spectra;
        this.pattern = pattern;
        double limit = pattern.tolerance().limitRatio();
        double finest = spectra.resolutionOrders() / (pattern.harmonics() * pattern.order());
        this.stepLog = Math.min(finest, Math.max(limit, 1e-3) / 20);
        this.reach = (int) Math.round(limit / stepLog);
        this.own = (int) Math.ceil(-Math.log(NULL_FROM_RATIO) / stepLog) + reach;
        this.points = own + (int) Math.ceil(Math.log(NULL_TO_RATIO) / stepLog) + reach + 1;
        this.orders = new double[points];
        for (int i = 0; i < points; i++) {
            orders[i] = pattern.order() * Math.exp((i - own) * stepLog);
        }
        this.sidebandOrders =
                pattern.sidebandOrders().stream().mapToDouble(Double::doubleValue).toArray();
        this.chance = chance();
        int count = spectra.bands().size();
        this.perBand = new double[count][];
        for (int b = 0; b < count; b++) {
            perBand[b] = standardised(spectra.bands().get(b));
        }
        this.statistic = bestBandsMean();
        this.summit = summits();
    }

    /**
     * Looks for a pattern.
     *
     * @param spectra where to look
     * @param pattern what to look for
     * @return where it fits best and how much that says
     */
    public static CombFinding search(EnvelopeOrders spectra, CombPattern pattern) {
        Objects.requireNonNull(spectra, "spectra");
        Objects.requireNonNull(pattern, "pattern");
        return new CombSearch(spectra, pattern).finding();
    }

    private double orderAt(int point) {
        return orders[point];
    }

    /** Points of the order grid that nothing of this bearing stands near. */
    private boolean[] chance() {
        boolean[] free = new boolean[points];
        for (int i = 0; i < points; i++) {
            free[i] = Math.abs(i - own) > 2 * reach;
        }
        for (double relative : pattern.relatives()) {
            double guard =
                    Math.max(
                            pattern.tolerance().limitRatio() * relative,
                            spectra.resolutionOrders());
            for (int i = 0; i < points; i++) {
                free[i] &= Math.abs(orderAt(i) - relative) > guard;
            }
        }
        return free;
    }

    private double[] standardised(EnvelopeBand band) {
        double[] sums = new double[points];
        double[] ground = new double[points];
        int count = 0;
        for (int i = 0; i < points; i++) {
            sums[i] = sum(band, orderAt(i));
            if (chance[i]) {
                ground[count++] = sums[i];
            }
        }
        double[] used = count > FEWEST_NULL_WINDOWS ? Arrays.copyOf(ground, count) : sums;
        double median = Statistics.median(used);
        double scatter = (Statistics.quantile(used, 0.75) - median) / QUARTILE_SIGMAS;
        for (int i = 0; i < points; i++) {
            sums[i] = scatter > 0 ? (sums[i] - median) / scatter : 0;
        }
        return sums;
    }

    private double sum(EnvelopeBand band, double order) {
        double sum = 0;
        for (int h = 1; h <= pattern.harmonics(); h++) {
            sum += band.logStrength(spectra.binOf(h * order));
            for (double sideband : sidebandOrders) {
                sum +=
                        SIDEBAND_WEIGHT
                                * (band.logStrength(spectra.binOf(h * order - sideband))
                                        + band.logStrength(spectra.binOf(h * order + sideband)));
            }
        }
        return sum;
    }

    private double[] bestBandsMean() {
        double[] means = new double[points];
        int averaged = Math.min(BANDS_AVERAGED, perBand.length);
        double[] column = new double[perBand.length];
        for (int i = 0; i < points; i++) {
            for (int b = 0; b < perBand.length; b++) {
                column[b] = perBand[b][i];
            }
            Arrays.sort(column);
            for (int j = 1; j <= averaged; j++) {
                means[i] += column[column.length - j] / averaged;
            }
        }
        return means;
    }

    /**
     * Best summit of the window around a point, with the deviation charged. The flank of a summit
     * outside the window is somebody else's line.
     */
    private int best(int centre) {
        int best = centre;
        double bestValue = summit[centre] ? charged(centre, centre) : Double.NEGATIVE_INFINITY;
        for (int i = centre - reach; i <= centre + reach; i++) {
            if (summit[i] && charged(i, centre) > bestValue) {
                best = i;
                bestValue = charged(i, centre);
            }
        }
        return best;
    }

    private boolean[] summits() {
        double twoBins = 2 * spectra.resolutionOrders() / pattern.order();
        int half = (int) Math.round(twoBins / stepLog);
        boolean[] summits = new boolean[points];
        for (int i = 0; i < points; i++) {
            boolean highest = true;
            for (int j = Math.max(0, i - half); j <= Math.min(points - 1, i + half); j++) {
                highest &= statistic[j] <= statistic[i];
            }
            summits[i] = highest;
        }
        return summits;
    }

    private double charged(int point, int centre) {
        double sigmas = (point - centre) * stepLog / pattern.tolerance().sigmaRatio();
        return statistic[point] - DEVIATION_CHARGE * sigmas * sigmas;
    }

    private double evidenceNats(double found) {
        int hop = Math.max(1, reach / 2);
        List<Double> windows = new ArrayList<>();
        for (int c = reach; c < points - reach; c += hop) {
            if (chance[c]) {
                windows.add(charged(best(c), c));
            }
        }
        if (windows.size() < FEWEST_NULL_WINDOWS) {
            return 0;
        }
        double[] v = windows.stream().mapToDouble(Double::doubleValue).toArray();
        double from = Statistics.quantile(v, 1 - TAIL_SHARE);
        double excess = 0;
        int above = 0;
        for (double value : v) {
            if (value > from) {
                excess += value - from;
                above++;
            }
        }
        double quartiles = Statistics.quantile(v, 0.75) - Statistics.quantile(v, 0.25);
        double scale = Math.max(quartiles / GUMBEL_QUARTILES, above > 0 ? excess / above : 0);
        return scale > 0 ? Math.max(0, (found - from) / scale - Math.log(TAIL_SHARE)) : 0;
    }

    private CombFinding finding() {
        int at = best(own);
        int bestBand = 0;
        for (int b = 1; b < perBand.length; b++) {
            if (perBand[b][at] > perBand[bestBand][at]) {
                bestBand = b;
            }
        }
        EnvelopeBand band = spectra.bands().get(bestBand);
        double order = orderAt(at);
        List<CombLine> lines = new ArrayList<>();
        double power = 0;
        double modulationSquared = 0;
        for (int h = 1; h <= pattern.harmonics(); h++) {
            lines.add(line(band, h, 0, h * order));
            power += band.strength(spectra.binOf(h * order)) / pattern.harmonics();
            modulationSquared += band.modulationSquared(spectra.binOf(h * order));
            for (int s = 0; s < pattern.sidebandOrders().size(); s++) {
                double distance = pattern.sidebandOrders().get(s);
                lines.add(line(band, h, -(s + 1), Math.abs(h * order - distance)));
                lines.add(line(band, h, s + 1, h * order + distance));
            }
        }
        double modulation = Math.sqrt(modulationSquared);
        // A train of bursts with mean square r² puts 2 r² into each of its first harmonics of the
        // squared envelope, whose mean is twice the mean square of the band.
        double share = Math.min(1, modulation / (2 * Math.sqrt(pattern.harmonics())));
        return new CombFinding(
                order,
                order / pattern.order() - 1,
                evidenceNats(charged(at, own)),
                10 * Math.log10(Math.max(power, 1e-3)),
                modulation,
                band.rmsMps2() * Math.sqrt(share),
                band.loHz(),
                band.hiHz(),
                lines);
    }

    private CombLine line(EnvelopeBand band, int harmonic, int sideband, double order) {
        int bin = spectra.binOf(order);
        return new CombLine(
                harmonic,
                sideband,
                order,
                10 * Math.log10(Math.max(band.strength(bin), 1e-3)),
                Math.sqrt(band.modulationSquared(bin)));
    }
}
