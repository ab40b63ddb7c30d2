package tickover.drive;

import java.util.List;
import java.util.Objects;

/**
 * One line that a part can make.
 *
 * @param part the pulley's name, or {@code belt:NAME}
 * @param kind {@code turn}, {@code belt}, the name of a pass line, or the fault that makes it:
 *     {@code bearing-outer-ring}, {@code bearing-inner-ring}, {@code rolling-element}, {@code cage}
 * @param order per crank turn
 * @param sidebandOrders where the first sidebands stand, per crank turn; empty if none is expected
 */
public record PartLine(String part, String kind, double order, List<Double> sidebandOrders) {
    public PartLine {
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(kind, "kind");
        sidebandOrders = List.copyOf(sidebandOrders);
        if (!(order > 0 && Double.isFinite(order))) {
            throw new IllegalArgumentException("order=" + order + ", need > 0 per crank turn");
        }
    }
}
