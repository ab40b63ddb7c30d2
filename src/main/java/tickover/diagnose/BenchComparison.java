package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tickover.drive.BearingOrders;

/**
 * Holds a bench record against records of known-good parts, level by level.
 *
 * <p>Each record is cut into pieces; the means of the pieces' levels in dB are compared, and their
 * scatter gives the interval (Student's t). With three known-good records or more their scatter
 * among each other, which is what mounting and touching do, goes into the interval too.
 */
final class BenchComparison {
    static final String TURN = "turn-1";
    private static final int MOST_PIECES = 8;
    private static final int FEWEST_PIECES = 3;

    /** A piece holds at least so many turns, for lines to stand clear of each other. */
    private static final double TURNS_PER_PIECE = 24;

    /** Fewer known-good records do not tell how much another mounting moves. */
    private static final int FEWEST_FOR_TOUCHES = 3;

    private static final int SWING_HARMONICS = 3;
    private static final double MMPS_PER_MPS = 1000;

    /** Keeps logarithms finite; far below any level that a probe can show. */
    private static final double FLOOR_SQUARE = 1e-16;

    private BenchComparison() {}

    /** A level's name and its unit. */
    private record Quantity(String name, String unit) {}

    /** Levels in dB, one per piece. */
    private static final class Pieces {
        private final double[] db;

        Pieces(double[] db) {
            this.db = db;
        }

        double mean() {
            return Arrays.stream(db).average().orElse(0);
        }

        double variance() {
            double mean = mean();
            double sum = 0;
            for (double d : db) {
                sum += (d - mean) * (d - mean);
            }
            return sum / (db.length - 1);
        }
    }

    /**
     * Compares.
     *
     * @param take the record
     * @param goods known-good records, at least one
     * @return one difference per level that all records have; empty if one is too short
     */
    static List<BenchDifference> of(BenchTake take, List<BenchTake> goods) {
        Optional<Map<Quantity, Pieces>> own = pieces(take);
        List<Map<Quantity, Pieces>> others = new ArrayList<>();
        for (BenchTake good : goods) {
            pieces(good).ifPresent(others::add);
        }
        List<BenchDifference> out = new ArrayList<>();
        if (own.isEmpty() || others.size() < goods.size()) {
            return out;
        }
        own.get()
                .forEach(
                        (quantity, levels) -> {
                            if (others.stream().allMatch(o -> o.containsKey(quantity))) {
                                out.add(
                                        difference(
                                                quantity,
                                                levels,
                                                others.stream()
                                                        .map(o -> o.get(quantity))
                                                        .toList()));
                            }
                        });
        return out;
    }

    private static BenchDifference difference(Quantity q, Pieces own, List<Pieces> goods) {
        int n = goods.size();
        double good = 0;
        double square = own.variance() / own.db.length;
        int freedom = own.db.length - 1;
        for (Pieces p : goods) {
            good += p.mean() / n;
            square += p.variance() / p.db.length / n / n;
            freedom += p.db.length - 1;
        }
        double half = StudentT.twoSided95(freedom) * Math.sqrt(square);
        boolean touches = n >= FEWEST_FOR_TOUCHES;
        if (touches) {
            double scatter = 0;
            for (Pieces p : goods) {
                scatter += (p.mean() - good) * (p.mean() - good) / (n - 1);
            }
            half =
                    Math.hypot(
                            half, StudentT.twoSided95(n - 1) * Math.sqrt(scatter * (1 + 1.0 / n)));
        }
        double change = own.mean() - good;
        return new BenchDifference(
                q.name,
                q.unit,
                Math.pow(10, own.mean() / 20),
                Math.pow(10, good / 20),
                new PartChange.Interval(change, change - half, change + half),
                touches);
    }

    private static Optional<Map<Quantity, Pieces>> pieces(BenchTake take) {
        int count = (int) Math.min(MOST_PIECES, take.turns() / TURNS_PER_PIECE);
        if (count < FEWEST_PIECES) {
            return Optional.empty();
        }
        Map<Quantity, double[]> all = new LinkedHashMap<>();
        for (int i = 0; i < count; i++) {
            int piece = i;
            squares(take.piece(i, count))
                    .forEach(
                            (quantity, square) ->
                                    all.computeIfAbsent(quantity, k -> new double[count])[piece] =
                                            10 * Math.log10(Math.max(square, FLOOR_SQUARE)));
        }
        Map<Quantity, Pieces> out = new LinkedHashMap<>();
        all.forEach((quantity, db) -> out.put(quantity, new Pieces(db)));
        return Optional.of(out);
    }

    /** Squares of levels, summed over channels; swings as their mean. */
    private static Map<Quantity, Double> squares(BenchTake take) {
        Map<Quantity, Double> out = new LinkedHashMap<>();
        BearingOrders bearing = take.orders();
        List<double[]> channels = take.record().channelsMps2();
        for (double[] x : channels) {
            for (IsoBand.Level level : IsoBand.levels(x, take.record().sampleRateHz())) {
                out.merge(
                        new Quantity(level.band().accelerationName(), "m/s²"),
                        level.accelSquare(),
                        Double::sum);
            }
            TurnOrders orders =
                    TurnOrders.of(
                            x,
                            take.record().sampleRateHz(),
                            take.turnsAtS(),
                            Bench.speedErrorRatio(take));
            double turn = MMPS_PER_MPS / (2 * Math.PI * take.meanHz());
            out.merge(
                    new Quantity(TURN, "mm/s"), turn * turn * orders.motionSquare(1), Double::sum);
            double share = 1.0 / channels.size();
            swing(out, "turn", orders, 1, share);
            swing(out, BenchVerdict.OUTER_RING.word(), orders, bearing.outerRaceOrder(), share);
            swing(out, BenchVerdict.INNER_RING.word(), orders, bearing.innerRaceOrder(), share);
            swing(
                    out,
                    BenchVerdict.ROLLING_ELEMENT.word(),
                    orders,
                    2 * bearing.ballSpinOrder(),
                    share);
            swing(out, BenchVerdict.CAGE.word(), orders, bearing.cageOrder(), share);
        }
        return out;
    }

    private static void swing(
            Map<Quantity, Double> out, String name, TurnOrders orders, double order, double share) {
        double square = 0;
        for (int h = 1; h <= SWING_HARMONICS; h++) {
            square += orders.swingSquareNear(h * order);
        }
        out.merge(new Quantity("swing-" + name, "of mean"), share * square, Double::sum);
    }
}
