package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * The lines by which a fault shows in an envelope order spectrum: harmonics of one order, each with
 * sidebands. All orders are per turn of the spectrum's reference.
 *
 * @param order nominal order of the first harmonic, &gt; 0
 * @param harmonics how many harmonics are looked at, &gt;= 1
 * @param sidebandOrders distances of the sidebands from each harmonic, to both sides; empty if the
 *     fault makes none
 * @param tolerance how far the order may be from nominal
 * @param turnOrder turns of the bearing's turning ring; lines of other parts on the same shaft
 *     stand whole turns beside their own harmonics
 * @param halfIsOwn whether the fault may also show at half its order, as a ball's spot does that
 *     strikes one race only
 */
public record CombPattern(
        double order,
        int harmonics,
        List<Double> sidebandOrders,
        CombTolerance tolerance,
        double turnOrder,
        boolean halfIsOwn) {
    private static final int OTHER_TURNS = 2;
    private static final int OTHER_MULTIPLES = 3;

    /** Slower rhythms than this share of the order are outside what is searched. */
    private static final double SLOWEST_OTHER_RATIO = 0.4;

    public CombPattern {
        if (!(order > 0 && Double.isFinite(order))) {
            throw new IllegalArgumentException("order=" + order + ", need > 0 per turn");
        }
        if (!(harmonics >= 1)) {
            throw new IllegalArgumentException("harmonics=" + harmonics + ", need >= 1");
        }
        if (!(turnOrder > 0 && Double.isFinite(turnOrder))) {
            throw new IllegalArgumentException("turnOrder=" + turnOrder + ", need > 0 per turn");
        }
        Objects.requireNonNull(tolerance, "tolerance");
        sidebandOrders = List.copyOf(sidebandOrders);
        for (double sideband : sidebandOrders) {
            if (!(sideband > 0 && Double.isFinite(sideband))) {
                throw new IllegalArgumentException(
                        "sidebandOrder=" + sideband + ", need > 0 per turn");
            }
        }
    }

    /**
     * Rhythms of something else of which one at that order would be the second or third multiple,
     * or a sideband by whole turns. None for what is slower than a turn: there the turn's own
     * fractions crowd.
     */
    List<Double> explainedBy(double found) {
        List<Double> others = new ArrayList<>();
        if (order < turnOrder) {
            return others;
        }
        for (int multiple = 1; multiple <= OTHER_MULTIPLES; multiple++) {
            for (int turns = -OTHER_TURNS; turns <= OTHER_TURNS; turns++) {
                boolean own = turns == 0 && (multiple == 1 || (multiple == 2 && halfIsOwn));
                double other = found / multiple + turns * turnOrder;
                if (!own && other > SLOWEST_OTHER_RATIO * order) {
                    others.add(other);
                }
            }
        }
        return others;
    }
}
