package tickover.drive;

import java.util.List;
import java.util.Objects;

/**
 * One line that a part can make, and how far from its nominal place it may stand.
 *
 * @param part the pulley's name, {@code belt:NAME}, or {@code engine}
 * @param kind a word of {@link LineKind}, or the name of a pass line
 * @param source what of the part makes it: {@code pulley}, {@code belt}, {@code engine}, or the
 *     label of a {@link PartBearing}
 * @param order per crank turn, nominal: no slip, typical or given internals
 * @param uncertaintyRatio how far the real order may be from the nominal one, as a share of it;
 *     search from order·(1 - ratio) to order·(1 + ratio); 0 up to below 1
 * @param sidebandOrders where the first sidebands stand, per crank turn; empty if none is expected
 */
public record PartLine(
        String part,
        String kind,
        String source,
        double order,
        double uncertaintyRatio,
        List<Double> sidebandOrders) {
    /** The part to which the engine's own lines belong. */
    public static final String ENGINE = "engine";

    public PartLine {
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(source, "source");
        sidebandOrders = List.copyOf(sidebandOrders);
        if (!(order > 0 && Double.isFinite(order))) {
            throw new IllegalArgumentException("order=" + order + ", need > 0 per crank turn");
        }
        if (!(uncertaintyRatio >= 0 && uncertaintyRatio < 1)) {
            throw new IllegalArgumentException(
                    "uncertaintyRatio=" + uncertaintyRatio + ", need 0 to below 1");
        }
    }

    /**
     * Returns where a search for the line begins.
     *
     * @return per crank turn
     */
    public double lowestOrders() {
        return order * (1 - uncertaintyRatio);
    }

    /**
     * Returns where a search for the line ends.
     *
     * @return per crank turn
     */
    public double highestOrders() {
        return order * (1 + uncertaintyRatio);
    }
}
