package tickover.diagnose;

import tickover.dsp.Statistics;

/**
 * A power spectrum over orders with its local background: the ground on which patterns are sought.
 *
 * <p>In: power per bin on an even order grid. Out: power over background, which is exponential with
 * mean 1 where there is nothing but noise, so that {@code exp(-ratio)} is the chance of a bin that
 * high. Bins next to multiples of {@code blindSpacingOrders} answer nothing: what the engine does
 * once per cycle stands there.
 */
final class OrderField {
    /** Width of the stretches whose medians make the background, orders. */
    private static final double BACKGROUND_ORDERS = 0.6;

    /** The highest of a handful of bins of background, over its mean. */
    private static final double CHANCE_RATIO = 3;

    /** Beyond a peak's own width, bins from here to there are its surroundings. */
    private static final int SKIRT_FROM = 5;

    private static final int SKIRT_TO = 9;

    /** The highest of a few bins of a skirt over its geometric mean. */
    private static final double SKIRT_RATIO = 4;

    private final double stepOrders;
    private final double[] power;
    private final double[] ratio;
    private final double[] oddsBefore;
    private final double blindSpacingOrders;
    private final double blindHalfWidthOrders;

    /**
     * Computes the background.
     *
     * @param stepOrders distance of bins, orders, &gt; 0
     * @param power power per bin from order 0; not copied, not written
     * @param blindSpacingOrders distance of the lines that are left out, orders; 0 for none
     * @param blindHalfWidthOrders half width of what is left out, orders
     */
    OrderField(
            double stepOrders,
            double[] power,
            double blindSpacingOrders,
            double blindHalfWidthOrders) {
        this(
                stepOrders,
                power,
                blindSpacingOrders,
                blindHalfWidthOrders,
                overBackground(power, stepOrders));
    }

    private OrderField(
            double stepOrders,
            double[] power,
            double blindSpacingOrders,
            double blindHalfWidthOrders,
            double[] ratio) {
        this.stepOrders = stepOrders;
        this.power = power;
        this.blindSpacingOrders = blindSpacingOrders;
        this.blindHalfWidthOrders = blindHalfWidthOrders;
        this.ratio = ratio;
        this.oddsBefore = new double[ratio.length + 1];
        for (int i = 0; i < ratio.length; i++) {
            oddsBefore[i + 1] = oddsBefore[i] + LineOdds.of(ratio[i]);
        }
    }

    /**
     * Computes the background, and takes off what stands beside the engine's lines.
     *
     * @param stepOrders distance of bins, orders, &gt; 0
     * @param power power per bin from order 0; not copied, not written
     * @param blindSpacingOrders distance of the engine's lines, orders, &gt; 0
     * @param blindHalfWidthOrders half width of what is left out, orders
     * @param firingOrders distance of those among them that are much stronger, a multiple of theirs
     */
    static OrderField besideEngine(
            double stepOrders,
            double[] power,
            double blindSpacingOrders,
            double blindHalfWidthOrders,
            double firingOrders) {
        double[] ratio = overBackground(power, stepOrders);
        EngineSkirts.level(
                ratio,
                blindSpacingOrders / stepOrders,
                (int) Math.rint(firingOrders / blindSpacingOrders));
        return new OrderField(stepOrders, power, blindSpacingOrders, blindHalfWidthOrders, ratio);
    }

    double topOrders() {
        return (power.length - 2) * stepOrders;
    }

    double stepOrders() {
        return stepOrders;
    }

    /** Whether an order is left out because the engine's own lines stand there. */
    boolean isBlind(double order) {
        return isBlind(order, 0);
    }

    /** The same for a stretch of a half width around an order. */
    boolean isBlind(double order, double halfWidthOrders) {
        double half = blindHalfWidthOrders + halfWidthOrders;
        if (order < half || order > topOrders()) {
            return true;
        }
        if (!(blindSpacingOrders > 0)) {
            return false;
        }
        double place = order / blindSpacingOrders;
        // Orders are not negative, so that the cast rounds down.
        double off = Math.abs(place - (int) (place + 0.5));
        return off * blindSpacingOrders < half;
    }

    /** Largest power over background within ± halfWidth of an order. */
    double ratioNear(double order, double halfWidthOrders) {
        return ratio[peakBin(order, halfWidthOrders)];
    }

    /** Odds for a line somewhere within ± halfWidth of an order, anywhere with even chance. */
    double lineOdds(double order, double halfWidthOrders) {
        int from = bin((order - halfWidthOrders) / stepOrders);
        int to = bin((order + halfWidthOrders) / stepOrders);
        return (oddsBefore[to + 1] - oddsBefore[from]) / (to + 1 - from);
    }

    private int bin(double at) {
        return Math.max(1, Math.min(ratio.length - 1, (int) (at + 0.5)));
    }

    /** Power at the highest ratio near an order, in the spectrum's own unit. */
    double powerNear(double order, double halfWidthOrders) {
        return power[peakBin(order, halfWidthOrders)];
    }

    /**
     * Power near an order above what the highest of a few bins of background reaches by chance; a
     * hundredth of the power where nothing stands out, so that a ratio of two stays finite.
     */
    double excessNear(double order, double halfWidthOrders) {
        int bin = peakBin(order, halfWidthOrders);
        double share = ratio[bin] > 0 ? 1 - CHANCE_RATIO / ratio[bin] : 0;
        return power[bin] * Math.max(0.01, share);
    }

    /**
     * Power of a peak near an order above the skirts of what stands beside it; a hundredth of the
     * power where there is no peak.
     */
    double peakNear(double order, double halfWidthOrders) {
        int bin = peakBin(order, halfWidthOrders);
        double beside = 0;
        int count = 0;
        for (int d = SKIRT_FROM; d <= SKIRT_TO; d++) {
            for (int i : new int[] {bin - d, bin + d}) {
                if (i >= 1 && i < power.length) {
                    beside += Math.log(power[i] + 1e-30);
                    count++;
                }
            }
        }
        double skirt = count == 0 ? 0 : Math.exp(beside / count);
        return Math.max(0.01 * power[bin], power[bin] - SKIRT_RATIO * skirt);
    }

    /** The order at which the largest power over background near an order stands. */
    double peakOrder(double order, double halfWidthOrders) {
        return peakBin(order, halfWidthOrders) * stepOrders;
    }

    private int peakBin(double order, double halfWidthOrders) {
        int from = Math.max(1, (int) Math.ceil((order - halfWidthOrders) / stepOrders));
        int to =
                Math.min(
                        power.length - 1, (int) Math.floor((order + halfWidthOrders) / stepOrders));
        int best = Math.max(1, Math.min(power.length - 1, (int) Math.rint(order / stepOrders)));
        for (int i = from; i <= to; i++) {
            if (ratio[i] > ratio[best]) {
                best = i;
            }
        }
        return best;
    }

    /** Divides by a background drawn through the medians of neighbouring stretches. */
    private static double[] overBackground(double[] power, double stepOrders) {
        int span = Math.max(8, (int) (BACKGROUND_ORDERS / stepOrders));
        int stretches = Math.max(1, power.length / span);
        double[] level = new double[stretches];
        double[] scratch = new double[span];
        for (int s = 0; s < stretches; s++) {
            int from = s * span;
            int count = Math.min(span, power.length - from);
            System.arraycopy(power, from, scratch, 0, count);
            // The median of an exponential is ln 2 times its mean.
            level[s] = Statistics.nth(scratch, count, count / 2) / Math.log(2);
        }
        double[] out = new double[power.length];
        for (int i = 0; i < power.length; i++) {
            double at = (i + 0.5) / span - 0.5;
            int s = at > 0 ? Math.min(stretches - 1, (int) at) : 0;
            int next = Math.min(stretches - 1, s + 1);
            double past = at - s;
            double part = past > 0 ? past < 1 ? past : 1 : 0;
            double background = level[s] + part * (level[next] - level[s]);
            out[i] = background > 0 ? power[i] / background : 0;
        }
        return out;
    }
}
