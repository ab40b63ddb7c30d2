package tickover.order;

import java.util.List;

/**
 * Which part of the power that a track's short windows let through stands at the order itself. A
 * belt-driven line beside it, however loud, turns the track at a rate of its own.
 */
final class TrackPurity {
    /** Frames that tell a line beside an order from the order, turns. */
    private static final int PURE_TURNS = 32;

    /** An order stands so near to its place while the angle is still rough. */
    private static final double SLACK_RATIO = 0.006;

    /** Trust in an order at which a belt-driven line may stand, against others. */
    private static final double NEAR_DRIVE = 0.1;

    private final AnglePrior prior;
    private final double bandwidthOrders;

    TrackPurity(AnglePrior prior, int windowCycles) {
        this.prior = prior;
        this.bandwidthOrders = prior.cycleOrder() / windowCycles;
    }

    /** Purity of each track: all orders of the first record, then of the next. */
    double[] of(List<AngularRecord> records, int orders) {
        double[] purity = new double[records.size() * orders];
        for (int r = 0; r < records.size(); r++) {
            AngularRecord record = records.get(r);
            int turns = (int) Math.min(PURE_TURNS, record.lengthTurns());
            double[] power =
                    OrderSpectrum.of(record, OrderSpectrum.Spec.hann(turns))
                            .values(OrderSpectrum.Scaling.POWER_PER_ORDER);
            for (int k = 0; k < orders; k++) {
                double order = (k + 1) * prior.cycleOrder();
                double own = own(power, turns, order);
                purity[r * orders + k] = own * (prior.nearDrive(order) ? NEAR_DRIVE : 1);
            }
        }
        return purity;
    }

    private double own(double[] power, int turns, double order) {
        double near = Math.max(2.0 / turns, SLACK_RATIO * order);
        double own = 1e-300;
        double all = 1e-300;
        int from = (int) Math.ceil((order - 2 * bandwidthOrders) * turns);
        int to = (int) Math.floor((order + 2 * bandwidthOrders) * turns);
        for (int bin = Math.max(1, from); bin <= Math.min(to, power.length - 1); bin++) {
            double off = (double) bin / turns - order;
            double passed = power[bin] * hannGain(off / bandwidthOrders);
            all += passed;
            own += Math.abs(off) <= near ? passed : 0;
        }
        return own / all;
    }

    /** Power gain of a Hann window at a distance in bins. */
    private static double hannGain(double bins) {
        double x = Math.PI * bins;
        if (Math.abs(bins) < 1e-6) {
            return 1;
        }
        double gain =
                Math.abs(Math.abs(bins) - 1) < 1e-6 ? 0.5 : Math.sin(x) / (x * (1 - bins * bins));
        return gain * gain;
    }
}
