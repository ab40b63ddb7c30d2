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
 * odd band does not decide.
 *
 * <p>Chance is learnt from the same spectrum: the range from a third to three times the nominal
 * order is cut into blocks, eight to the width of the tolerance, and the best summit of each block
 * that nothing of the pattern falls into is a sample of what this spectrum shows where nothing of
 * this bearing can be ({@link ChanceBlocks}). So a spectrum that is full of some neighbour's lines
 * asks for more than a quiet one. The blocks within the tolerance share the false-alarm probability
 * by the normal prior of the deviation: the p-value of a block is divided by its share (weighted
 * Bonferroni), which pays for the look elsewhere and asks more of orders that are further off.
 *
 * <p>A rhythm of which this one is a multiple or a sideband, and which fits better, belongs to
 * something else that turns here; what is left then counts as one nat at most.
 */
public final class CombSearch {
    private static final double SIDEBAND_WEIGHT = 0.5;
    private static final int BANDS_AVERAGED = 2;

    /** Chance is looked for from a third of the order to three times it. */
    private static final double CHANCE_RANGE_RATIO = 3;

    private static final int BLOCKS_IN_TOLERANCE = 8;

    /** Share of all blocks that must be left when what the pattern itself reaches is left out. */
    private static final double NEEDED_BLOCKS_RATIO = 0.5;

    /** Own lines reach so many turns to either side, and in ratios of whole numbers up to four. */
    private static final int OWN_TURNS = 3;

    private static final int OWN_MULTIPLES = 4;
    private static final double OWN_LINE_BINS = 2;

    /** A rhythm that explains the lines better is better by this factor, or it is the same. */
    private static final double BETTER_RATIO = 1.1;

    /** What is left of the evidence for a rhythm that another explains: no accusation. */
    private static final double EXPLAINED_NATS = 1;

    /** A Gaussian has its 16 % point one standard deviation below the median. */
    private static final double ONE_SIGMA_BELOW = 0.16;

    private final EnvelopeOrders spectra;
    private final CombPattern pattern;
    private final double[] orders;
    private final double[] sidebandOrders;
    private final double stepLog;
    private final int reach;
    private final int points;
    private final int own;
    private final int blockPoints;
    private final double priorSum;
    private final double[] statistic;
    private final double[][] perBand;
    private final boolean[] summit;

    private CombSearch(EnvelopeOrders spectra, CombPattern pattern) {
        this.spectra = spectra;
        this.pattern = pattern;
        double limit = pattern.tolerance().limitRatio();
        double bin = spectra.resolutionOrders() / (pattern.harmonics() * pattern.order());
        double binsPerStep = 0.7;
        int fewestSteps = 20;
        this.stepLog = Math.min(binsPerStep * bin, limit / fewestSteps);
        this.reach = (int) Math.round(limit / stepLog);
        this.own = (int) Math.ceil(Math.log(CHANCE_RANGE_RATIO) / stepLog);
        this.points = 2 * own + 1;
        this.blockPoints = Math.max(3, Math.round(2f * reach / BLOCKS_IN_TOLERANCE));
        this.orders = new double[points];
        for (int i = 0; i < points; i++) {
            orders[i] = pattern.order() * Math.exp((i - own) * stepLog);
        }
        double sum = 0;
        for (int i = own - reach; i <= own + reach; i++) {
            sum += prior(i);
        }
        this.priorSum = sum;
        this.sidebandOrders =
                pattern.sidebandOrders().stream().mapToDouble(Double::doubleValue).toArray();
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

    private double[] standardised(EnvelopeBand band) {
        double[] sums = new double[points];
        for (int i = 0; i < points; i++) {
            sums[i] = sum(band, orders[i]);
        }
        double median = Statistics.median(sums);
        // From the lower half alone: lines lift the upper one.
        double scatter = median - Statistics.quantile(sums, ONE_SIGMA_BELOW);
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

    /** The flank of a summit outside the tolerance is somebody else's line. */
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

    private CombFinding finding() {
        int at = own;
        double best = Double.NEGATIVE_INFINITY;
        for (int i = own - reach; i <= own + reach; i++) {
            // A unit of the statistic is worth about a nat; only the choice of summit needs it.
            double value = statistic[i] + lnShare(i);
            if (summit[i] && value > best) {
                best = value;
                at = i;
            }
        }
        return describe(at, summit[at] ? evidenceNats(at) : 0);
    }

    private double evidenceNats(int at) {
        double nats = Math.max(0, chance(orders[at]).nats(statistic[at]) + lnShare(at));
        return bestOfOthers(at) > BETTER_RATIO * statistic[at]
                ? Math.min(nats, EXPLAINED_NATS)
                : nats;
    }

    /** Logarithm of a block's share of the prior, which is normal and cut at the limit. */
    private double lnShare(int point) {
        return Math.log(blockPoints * prior(point) / priorSum);
    }

    private double prior(int point) {
        double sigmas = (point - own) * stepLog / pattern.tolerance().sigmaRatio();
        return Math.exp(-0.5 * sigmas * sigmas);
    }

    /** Best fit of a rhythm of which one at that point would be a multiple or a sideband. */
    private double bestOfOthers(int at) {
        double best = 0;
        for (double other : pattern.explainedBy(orders[at])) {
            int centre = pointAt(other);
            int half = binsToPoints(2, other);
            for (int i = Math.max(0, centre - half);
                    i <= Math.min(points - 1, centre + half);
                    i++) {
                best = Math.max(best, statistic[i]);
            }
        }
        return best;
    }

    private int pointAt(double order) {
        return (int) Math.round(Math.log(order / pattern.order()) / stepLog) + own;
    }

    private int binsToPoints(double bins, double order) {
        return (int) Math.ceil(bins * spectra.resolutionOrders() / order / stepLog);
    }

    /**
     * Blocks that show chance. As much of what the pattern itself reaches is left out as a short
     * record's wide bins allow.
     */
    private ChanceBlocks chance(double found) {
        double all = (points - 2.0 * reach) / blockPoints;
        for (int turns = OWN_TURNS; turns >= 0; turns--) {
            ChanceBlocks blocks = blocks(free(found, OWN_MULTIPLES, turns));
            if (blocks.count() > NEEDED_BLOCKS_RATIO * all) {
                return blocks;
            }
        }
        return blocks(free(found, 0, 0));
    }

    private ChanceBlocks blocks(boolean[] free) {
        return ChanceBlocks.of(statistic, summit, free, blockPoints);
    }

    private boolean[] free(double found, int multiples, int turns) {
        boolean[] free = new boolean[points];
        for (int i = 0; i < points; i++) {
            free[i] = Math.abs(i - own) > reach;
        }
        for (int a = 1; a <= multiples; a++) {
            for (int b = 1; b <= multiples; b++) {
                for (int m = -turns; m <= turns; m++) {
                    exclude(free, Math.abs(a * found + m * pattern.turnOrder()) / b);
                }
            }
        }
        return free;
    }

    private void exclude(boolean[] free, double order) {
        if (!(order > 0)) {
            return;
        }
        int centre = pointAt(order);
        int half = binsToPoints(OWN_LINE_BINS, order);
        for (int i = Math.max(0, centre - half); i <= Math.min(points - 1, centre + half); i++) {
            free[i] = false;
        }
    }

    private CombFinding describe(int at, double nats) {
        int bestBand = 0;
        for (int b = 1; b < perBand.length; b++) {
            if (perBand[b][at] > perBand[bestBand][at]) {
                bestBand = b;
            }
        }
        EnvelopeBand band = spectra.bands().get(bestBand);
        double order = orders[at];
        List<CombLine> lines = new ArrayList<>();
        double power = 0;
        double modulationSquared = 0;
        for (int h = 1; h <= pattern.harmonics(); h++) {
            lines.add(line(band, h, 0, h * order));
            power += band.strength(spectra.binOf(h * order)) / pattern.harmonics();
            modulationSquared += band.modulationSquared(spectra.binOf(h * order));
            for (int s = 0; s < sidebandOrders.length; s++) {
                lines.add(line(band, h, -(s + 1), Math.abs(h * order - sidebandOrders[s])));
                lines.add(line(band, h, s + 1, h * order + sidebandOrders[s]));
            }
        }
        double modulation = Math.sqrt(modulationSquared);
        // A train of bursts with mean square r² puts 2 r² into each of its first harmonics of the
        // squared envelope, whose mean is twice the mean square of the band.
        double share = Math.min(1, modulation / (2 * Math.sqrt(pattern.harmonics())));
        return new CombFinding(
                order,
                order / pattern.order() - 1,
                nats,
                10 * Math.log10(Math.max(power, 1e-3)),
                modulation,
                band.edges().rmsMps2() * Math.sqrt(share),
                band.edges(),
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
