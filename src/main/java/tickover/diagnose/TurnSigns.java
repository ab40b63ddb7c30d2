package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import tickover.drive.BearingOrders;

/**
 * What one channel of a bench record says about how the part turns: its own turn's lines, fractions
 * of a turn, and how the ringing swells with turn and cage.
 *
 * @param turnMmps velocity once per turn, rms, mm/s
 * @param harmonicMmps root of the summed squares of two to six times per turn, rms, mm/s
 * @param turnMps2 acceleration once per turn, rms, m/s²
 * @param fraction the clearest fraction of a turn
 * @param turnSwingRatio how deep the ringing swells one to three times per turn, over its mean
 * @param cageSwingRatio the same for the cage's rhythm
 */
record TurnSigns(
        double turnMmps,
        double harmonicMmps,
        double turnMps2,
        Fraction fraction,
        double turnSwingRatio,
        double cageSwingRatio) {
    private static final double MMPS_PER_MPS = 1000;
    private static final int TURN_HARMONICS = 6;
    private static final int SWING_HARMONICS = 3;

    /** Fractions are looked at up to this order. */
    private static final double HIGHEST_FRACTION_ORDERS = 8;

    /** Halves and thirds moved by this much meet no other half or third. */
    private static final double LEAST_SHIFT_ORDERS = 0.03;

    private static final double LARGEST_SHIFT_ORDERS = 0.14;

    /**
     * Lines are moved all alike, and in so many ways less one each by its own shift: a short record
     * has few bins to move by, and a comb that something else makes shows where all move alike.
     */
    private static final int WAYS_TO_MOVE = 7;

    /** A bearing's own orders may be off by this much. */
    private static final double BEARING_ERROR_RATIO = 0.03;

    private static final int BEARING_HARMONICS = 6;

    /**
     * A rhythm of every second or third turn.
     *
     * @param everyTurns 2 or 3
     * @param evidenceNats minus the logarithm of the chance that moved combs show as much
     * @param motionRatio its acceleration over that of whole multiples of the turn
     * @param swingRatio how deep the ringing swells in it, over its mean
     */
    record Fraction(int everyTurns, double evidenceNats, double motionRatio, double swingRatio) {}

    static TurnSigns of(TurnOrders orders, double meanHz, BearingOrders bearing) {
        double harmonics = 0;
        for (int h = 2; h <= TURN_HARMONICS; h++) {
            double mmps = mmps(orders.motionSquare(h), h * meanHz);
            harmonics += mmps * mmps;
        }
        double swing = 0;
        double cage = 0;
        for (int h = 1; h <= SWING_HARMONICS; h++) {
            swing += orders.swingSquare(h);
            cage += orders.swingSquare(h * bearing.cageOrder());
        }
        Fraction halves = fraction(orders, 2, bearing);
        Fraction thirds = fraction(orders, 3, bearing);
        return new TurnSigns(
                mmps(orders.motionSquare(1), meanHz),
                Math.sqrt(harmonics),
                Math.sqrt(orders.motionSquare(1)),
                halves.evidenceNats >= thirds.evidenceNats ? halves : thirds,
                Math.sqrt(swing),
                Math.sqrt(cage));
    }

    private static double mmps(double square, double hz) {
        return MMPS_PER_MPS * Math.sqrt(square) / (2 * Math.PI * hz);
    }

    private static Fraction fraction(TurnOrders orders, int everyTurns, BearingOrders bearing) {
        List<Double> lines = new ArrayList<>();
        double motion = 0;
        double swing = 0;
        double whole = 0;
        for (int k = 1; k <= HIGHEST_FRACTION_ORDERS * everyTurns; k++) {
            double order = (double) k / everyTurns;
            if (k % everyTurns == 0) {
                whole += orders.motionSquare(order);
            } else if (!isBearings(order, bearing)) {
                lines.add(order);
                motion += orders.motionSquare(order);
                swing += orders.swingSquare(order);
            }
        }
        return new Fraction(
                everyTurns,
                chance(orders, lines)
                        .nats(lines.stream().mapToDouble(line -> strength(orders, line)).sum()),
                Math.sqrt(motion / Math.max(whole, Double.MIN_NORMAL)),
                Math.sqrt(swing));
    }

    private static boolean isBearings(double order, BearingOrders bearing) {
        double[] own = {
            bearing.cageOrder(),
            bearing.outerRaceOrder(),
            bearing.innerRaceOrder(),
            2 * bearing.ballSpinOrder()
        };
        for (double base : own) {
            double multiple = Math.max(1, Math.rint(order / base));
            if (multiple <= BEARING_HARMONICS
                    && Math.abs(multiple * base / order - 1) < BEARING_ERROR_RATIO) {
                return true;
            }
        }
        return false;
    }

    private static ChanceBlocks chance(TurnOrders orders, List<Double> lines) {
        int first = (int) Math.ceil(LEAST_SHIFT_ORDERS / orders.resolutionOrders());
        int last = (int) Math.floor(LARGEST_SHIFT_ORDERS / orders.resolutionOrders());
        int places = Math.max(0, 2 * (last - first + 1));
        double[] shifts = new double[places];
        for (int i = 0; i < places; i++) {
            int steps = first + i / 2;
            shifts[i] = (i % 2 == 0 ? steps : -steps) * orders.resolutionOrders();
        }
        double[] sums = new double[WAYS_TO_MOVE * places];
        for (int way = 0; way < WAYS_TO_MOVE; way++) {
            for (int i = 0; i < places; i++) {
                double sum = 0;
                for (int k = 0; k < lines.size(); k++) {
                    sum += strength(orders, lines.get(k) + shifts[(i + way * k) % places]);
                }
                sums[way * places + i] = sum;
            }
        }
        return ChanceBlocks.ofSamples(sums);
    }

    private static double strength(TurnOrders orders, double order) {
        return orders.motionStrength(order) + orders.swingStrength(order);
    }
}
