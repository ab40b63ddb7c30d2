package tickover.diagnose;

import java.util.List;

/**
 * The lines by which a fault shows in an envelope order spectrum: harmonics of one order, each with
 * sidebands. All orders are per turn of the spectrum's reference.
 *
 * @param order nominal order of the first harmonic, &gt; 0
 * @param harmonics how many harmonics are looked at, &gt;= 1
 * @param sidebandOrders distances of the sidebands from each harmonic, to both sides; empty if the
 *     fault makes none
 * @param tolerance how far the order may be from nominal
 * @param relatives other orders that the same bearing, its turning or its neighbours can make; no
 *     sample of the spectrum near them is used to learn what chance makes
 */
public record CombPattern(
        double order,
        int harmonics,
        List<Double> sidebandOrders,
        CombTolerance tolerance,
        List<Double> relatives) {
    public CombPattern {
        if (!(order > 0 && Double.isFinite(order))) {
            throw new IllegalArgumentException("order=" + order + ", need > 0 per turn");
        }
        if (!(harmonics >= 1)) {
            throw new IllegalArgumentException("harmonics=" + harmonics + ", need >= 1");
        }
        sidebandOrders = List.copyOf(sidebandOrders);
        relatives = List.copyOf(relatives);
        for (double sideband : sidebandOrders) {
            if (!(sideband > 0 && Double.isFinite(sideband))) {
                throw new IllegalArgumentException(
                        "sidebandOrder=" + sideband + ", need > 0 per turn");
            }
        }
    }
}
