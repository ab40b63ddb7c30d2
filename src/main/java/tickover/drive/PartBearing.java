package tickover.drive;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * A bearing of a pulley with internals to compute from. Where a designation stands for more than
 * one typical number of balls, each is a PartBearing of its own and the data must tell which it is.
 *
 * @param label tells it from the pulley's other bearings, such as {@code bearing 1 (6203)}
 * @param geometry its internals
 * @param typical whether the internals were looked up by designation, and so are only typical
 * @param turningRing the ring that turns with the pulley
 */
public record PartBearing(
        String label, BearingGeometry geometry, boolean typical, Ring turningRing) {
    public PartBearing {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(geometry, "geometry");
        Objects.requireNonNull(turningRing, "turningRing");
    }

    /**
     * Lists the bearings of a pulley of which internals are known.
     *
     * @param pulley the pulley
     * @return given internals first choice, else typical ones; a bearing with neither is left out
     */
    static List<PartBearing> of(Pulley pulley) {
        List<PartBearing> found = new ArrayList<>();
        for (int i = 0; i < pulley.bearings().size(); i++) {
            PulleyBearing bearing = pulley.bearings().get(i);
            List<BearingGeometry> choices = choices(bearing);
            for (BearingGeometry geometry : choices) {
                String label = label(i, bearing);
                found.add(
                        new PartBearing(
                                choices.size() == 1
                                        ? label
                                        : label + ", " + geometry.balls() + " balls",
                                geometry,
                                bearing.geometry().isEmpty(),
                                bearing.turningRing()));
            }
        }
        return found;
    }

    static String label(int index, PulleyBearing bearing) {
        return "bearing " + (index + 1) + bearing.designation().map(d -> " (" + d + ")").orElse("");
    }

    static List<BearingGeometry> choices(PulleyBearing bearing) {
        return bearing.geometry()
                .map(List::of)
                .orElseGet(
                        () -> bearing.designation().map(BearingTable::typical).orElse(List.of()));
    }

    /**
     * Returns its rates.
     *
     * @return per turn of the pulley
     */
    public BearingOrders orders() {
        return BearingOrders.of(geometry, turningRing);
    }
}
