package tickover.order;

import java.util.Arrays;
import tickover.dsp.Statistics;

/**
 * Decides between a speed and its simple multiples by the lines that an order spectrum shows.
 *
 * <p>The right speed has lines at the engine's orders, strongest at firings, and none between them.
 * A multiple of it leaves lines between its own unexplained; a fraction of it finds places empty
 * where it needs lines. Places between lines are looked at by halves, thirds and quarters, and the
 * fullest of these counts against the speed.
 */
final class MultipleCheck {
    private static final int FIRING_LINES = 4;
    private static final int CYCLE_LINES = 12;
    private static final int[] PARTS = {2, 3, 4, 5};

    /**
     * Weight of all engine lines against the firing lines: cylinders are never quite alike, so that
     * lines between firings are to be expected, if weaker.
     */
    private static final double CYCLE_WEIGHT = 1.5;

    /** Logarithms of power over the surroundings are held within these. */
    private static final double LEAST_LOG = -1;

    private static final double MOST_LOG = 7;

    /** Places closer to a line are not between lines: they hear it through the window, bins. */
    private static final double CLEAR_BINS = 1.9;

    private static final double SURROUNDINGS_ORDERS = 1;

    private final double cycleOrder;
    private final double firingOrder;
    private final int turns;
    private final double[] power;

    /** Logarithm over the surroundings of each bin that was asked for, and which these are. */
    private final double[] above;

    private final boolean[] known;

    /**
     * Looks at a spectrum.
     *
     * @param record record over angle, at least 16 turns
     * @param prior cylinders and strokes
     */
    MultipleCheck(AngularRecord record, AnglePrior prior) {
        this.cycleOrder = prior.cycleOrder();
        this.firingOrder = prior.firingOrder();
        double length = record.lengthTurns();
        this.turns = length > 96 ? 64 : length > 40 ? 32 : 16;
        this.power =
                OrderSpectrum.of(record, OrderSpectrum.Spec.hann(turns))
                        .values(OrderSpectrum.Scaling.POWER_PER_ORDER);
        this.above = new double[power.length];
        this.known = new boolean[power.length];
    }

    private double above(int bin) {
        if (!known[bin]) {
            int reach = (int) (SURROUNDINGS_ORDERS * turns);
            int from = Math.max(1, bin - reach);
            int to = Math.min(power.length, bin + reach + 1);
            double around = Statistics.median(Arrays.copyOfRange(power, from, to));
            double log = Math.log((power[bin] + 1e-30) / (around + 1e-30));
            above[bin] = Math.max(LEAST_LOG, Math.min(MOST_LOG, log));
            known[bin] = true;
        }
        return above[bin];
    }

    /** How well a multiple of the speed that the record was resampled with explains its lines. */
    double score(double multiple) {
        return contrast(multiple * firingOrder, FIRING_LINES)
                + CYCLE_WEIGHT * contrast(multiple * cycleOrder, CYCLE_LINES);
    }

    private double contrast(double spacing, int lines) {
        double between = Double.NEGATIVE_INFINITY;
        for (int part : PARTS) {
            if (spacing * turns / part >= CLEAR_BINS) {
                double low = mean(spacing, lines, 1.0 / part);
                double high = mean(spacing, lines, 1 - 1.0 / part);
                between = Math.max(between, (low + high) / 2);
            }
        }
        return mean(spacing, lines, 1) - Math.max(0, between);
    }

    /** Mean level at places so far into each gap; 1 is the line at its end. */
    private double mean(double spacing, int lines, double into) {
        double sum = 0;
        int used = 0;
        for (int k = 0; k < lines; k++) {
            double bin = (k + into) * spacing * turns;
            int low = (int) bin;
            if (low >= 1 && low + 1 < above.length * 0.8) {
                sum += above(low) + (bin - low) * (above(low + 1) - above(low));
                used++;
            }
        }
        return used == 0 ? 0 : sum / used;
    }
}
